import type { Upkeep } from '../contract/upkeep.js';
import { backUp, lastBackupAt } from './backup.js';
import { isCheckedLater, readThrough } from './damage.js';
import { unusable } from './faults.js';
import { keepReserve } from './files.js';

export const upkeepOf = (file: string): Upkeep => ({
  isCheckedLater: () => isCheckedLater(file),
  readThrough: () => readThrough(file),
  keepReserve: () => keepReserve(file),
  backUp: (target) => backUp(file, target),
  lastBackupAt: () => lastBackupAt(file),
  asUnusable: (error) => unusable(file, error),
});
