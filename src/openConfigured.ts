import type { Config } from './config.js';
import { openServerStore, openStore, type OpenStore, type ServerStoreOptions } from './store/open.js';

type Options = Omit<ServerStoreOptions, 'url' | 'timeZone'> & { mayOpenFromReserve?: boolean };

/**
 * Opens the store on the database that the settings name.
 *
 * @throws DatabaseUnusable
 */
export async function openConfigured(
  {
    databaseFile: file,
    databaseUrl: url,
    timeZone,
  }: Pick<Config, 'databaseFile' | 'databaseUrl' | 'timeZone'>,
  options: Options = {},
): Promise<OpenStore> {
  return url === null
    ? openStore({ ...options, file, timeZone })
    : openServerStore({ ...options, url, timeZone });
}
