/** `npm run demo`: fetches the packages where they are missing, then builds the demo commissions. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { environment, install, root } from './install.mjs';

if (!install({ tools: false })) process.exitCode = 1;
else {
  const launcher = join(root, 'src', 'cli', 'leafwright.mjs');
  const { status } = spawnSync(process.execPath, [launcher, 'build', '--workspace', root, ...process.argv.slice(2)], {
    cwd: root,
    stdio: 'inherit',
    env: environment,
  });
  process.exitCode = status ?? 1;
}
