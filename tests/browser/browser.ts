import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';

/** Tests of pages are left out where the one who runs them said so. */
export const isLeftOut = process.env.LEAFWRIGHT_NO_BROWSER === '1';

function findBrowser(): string | undefined {
  const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome.exe', 'msedge.exe'];
  const folders = (process.env.PATH ?? '').split(delimiter);
  return process.env.CHROME_PATH ?? names.flatMap((name) => folders.map((folder) => join(folder, name))).find((file) => existsSync(file));
}

/** Opens a browser that asks nobody for anything by itself. Throws with what to do where there is none. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === undefined)
    throw new Error(
      'no browser was found: install Chromium, name one with CHROME_PATH, or leave these tests out with LEAFWRIGHT_NO_BROWSER=1',
    );
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** Hebrew for a name; invented. */
export const turnedName = '\u05e0\u05d2\u05e8 \u05e8\u05d5\u05e0\u05d4';

/** Where letters that run from right to left stand in a page with nothing that keeps their direction to themselves; and how many stand there at all. */
export const looseIn = (page: Page): Promise<{ readonly loose: readonly string[]; readonly count: number }> =>
  page.evaluate(() => {
    const loose: string[] = [];
    let count = 0;
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
      const parent = node.parentElement;
      if (!/[\u0590-\u05ff]/.test(node.textContent ?? '') || parent === null || parent.closest('script, svg, option') !== null) continue;
      count += 1;
      if (parent.closest('bdi, [dir="auto"]') === null) loose.push(parent.outerHTML.slice(0, 120));
    }
    return { loose, count };
  });
