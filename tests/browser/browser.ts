import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

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
