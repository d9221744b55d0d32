import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';

/** Brings the built code up to date once, before the tests that run it. */
export default function build(): void {
  execFileSync(process.execPath, [resolve('node_modules/typescript7/bin/tsc'), '-p', 'tsconfig.build.json'], {
    stdio: 'inherit',
  });
}
