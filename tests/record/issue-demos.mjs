/**
 * Plays the stories of the demo commissions anew, each step on its own day: notes, issued revisions, answers, order. What
 * was issued is frozen, so this is run by hand, when the demos are to show what the program makes now:
 *
 *     npx node tests/record/issue-demos.mjs [PROPOSAL...]
 */
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../../src/cli/install.mjs';
import { beginStory, playStep, recorded, storyOf } from '../demos/play.ts';
import { stories } from '../demos/story.ts';

async function playAll(slug) {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-demos-'));
  const folder = join(workspace, 'proposals', slug);
  try {
    mkdirSync(folder, { recursive: true });
    beginStory(slug, folder);
    for (const step of storyOf(slug)) {
      const { status, out, err } = await playStep(slug, workspace, step);
      process.stdout.write(`${step.on} ${JSON.stringify(step.run)}\n${out}`);
      if (status !== 0) {
        process.stderr.write(err);
        return false;
      }
    }
    for (const name of recorded) {
      rmSync(join(root, 'proposals', slug, name), { recursive: true, force: true });
      if (existsSync(join(folder, name))) cpSync(join(folder, name), join(root, 'proposals', slug, name), { recursive: true });
    }
    return true;
  } finally {
    rmSync(workspace, { recursive: true, force: true });
  }
}

const slugs = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(stories).sort();
process.exitCode = 0;
for (const slug of slugs) if (!(await playAll(slug))) process.exitCode = 1;
