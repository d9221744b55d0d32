import type { Upkeep } from './engine/contract/upkeep.js';
import { upkeepOf as sqliteUpkeep } from './engine/sqlite/upkeep.js';

/** The upkeep of a database file, by its engine. */
export const upkeepOf = (file: string): Upkeep => sqliteUpkeep(file);

export type { Upkeep };
