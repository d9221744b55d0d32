import { constants, setPriority } from 'node:os';
import { readConfig } from '../config.js';
import { startOrExplain } from '../startUp.js';
import { upkeepOf } from '../store/upkeep.js';

/**
 * Runs in a child process of the server: checks the integrity of a database that is too large to check before startup.
 */
setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
await startOrExplain(async () => upkeepOf(readConfig(process.env).databaseFile).readThrough());
