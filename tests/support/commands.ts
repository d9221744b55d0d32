import { spawnSync } from 'node:child_process';

/** True if this machine has the command. */
export const hasCommand = (command: string): boolean =>
  spawnSync('sh', ['-c', `command -v ${command}`]).status === 0;
