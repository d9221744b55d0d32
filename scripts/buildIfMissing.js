import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

/**
 * Runs before `npm start` and the commands: builds the program if there is no build yet. An existing build runs as it
 * is, so a production install needs no compiler. After changing or updating the source, run `npm run build`.
 */

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

const compiler = join(root, 'node_modules/typescript7/bin/tsc');

if (!existsSync(join(root, 'dist/src/main.js'))) {
  if (!existsSync(compiler)) {
    process.stderr.write(
      'There is no build in dist, and the compiler is not installed. Run `npm ci && npm run build` first.\n',
    );
    process.exit(1);
  }
  const { status } = spawnSync(process.execPath, [compiler, '-p', 'tsconfig.build.json'], {
    cwd: root,
    // Keep stdout for the command that follows: `keys -- create` prints only the key there.
    stdio: ['ignore', 2, 2],
  });
  if (status !== 0) process.exit(1);
}
