import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';

const COMPILER = resolve('node_modules/typescript7/bin/tsc');

/** Brings the built code up to date before the tests that run it; `npm run typecheck` checks its types. */
export default function build(): void {
  execFileSync(process.execPath, [COMPILER, '-p', 'tsconfig.build.json', '--noCheck'], { stdio: 'inherit' });
}
