import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';

/** Builds the service before tests that start it as a process. */
export default function build(): void {
  execFileSync(process.execPath, [resolve('node_modules/typescript7/bin/tsc'), '-p', 'tsconfig.build.json']);
}
