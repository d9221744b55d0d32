import { constants, setPriority } from 'node:os';
import { readConfig } from '../config.js';
import { startOrExplain } from '../server.js';
import { readThrough } from '../store/engine/sqlite/damage.js';

/** What the server runs beside itself to look for damage in a database too large to be read through before it is served. */
setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
await startOrExplain(async () => readThrough(readConfig(process.env).databaseFile));
