/**
 * Issues the older revisions of the demo commissions anew, from `tests/demos/revisions/<proposal>/<rN>/`, each on the day
 * that it bears. What was issued is frozen, so this is run by hand, when the demos are to show what the program makes now:
 *
 *     node tests/record/issue-demos.mjs
 */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { environment, root } from '../../src/cli/install.mjs';

const revisions = join(root, 'tests', 'demos', 'revisions');
const launcher = join(root, 'src', 'cli', 'leafwright.mjs');
const recorded = ['issued', 'decisions.jsonl'];

/** The day of a revision, as its proposal.yaml states it. */
function dayOf(folder) {
  const day = /^revision:\s*\n(?:\s+.*\n)*?\s+date:\s*"?(\d{4}-\d{2}-\d{2})/m.exec(
    readFileSync(join(folder, 'proposal.yaml'), 'utf8'),
  )?.[1];
  if (day === undefined) throw new Error(`${folder} has no revision.date`);
  return day;
}

function issueAll(slug) {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-demos-'));
  const folder = join(workspace, 'proposals', slug);
  try {
    const kept = join(workspace, 'kept');
    mkdirSync(kept);
    for (const revision of readdirSync(join(revisions, slug)).sort()) {
      const from = join(revisions, slug, revision);
      rmSync(folder, { recursive: true, force: true });
      cpSync(from, folder, { recursive: true });
      for (const name of recorded) if (existsSync(join(kept, name))) cpSync(join(kept, name), join(folder, name), { recursive: true });
      const args = [launcher, 'issue', slug, '--revision', revision, '--as-of', dayOf(from), '--workspace', workspace];
      const { status } = spawnSync(process.execPath, args, { stdio: 'inherit', env: environment });
      if (status !== 0) return false;
      for (const name of recorded) cpSync(join(folder, name), join(kept, name), { recursive: true });
    }
    for (const name of recorded) {
      rmSync(join(root, 'proposals', slug, name), { recursive: true, force: true });
      cpSync(join(kept, name), join(root, 'proposals', slug, name), { recursive: true });
    }
    return true;
  } finally {
    rmSync(workspace, { recursive: true, force: true });
  }
}

const slugs = process.argv.length > 2 ? process.argv.slice(2) : readdirSync(revisions).sort();
process.exitCode = slugs.every(issueAll) ? 0 : 1;
