import { itemAt } from '../../../core/items.js';
import {
  Busy,
  Damaged,
  DatabaseUnusable,
  StorageFull,
  StoreFault,
  Unavailable,
} from '../../contract/faults.js';

/** Maps the server's error codes (SQLSTATE) and those of the network to the service's faults. */

interface Meaning {
  codes: RegExp;
  Fault: new (message: string, options: ErrorOptions) => StoreFault;
  /** The operator's message, also if the service cannot start. */
  message: string;
}

const MEANINGS: readonly Meaning[] = [
  { codes: /^53100$/, Fault: StorageFull, message: 'has no room left on its disk' },
  { codes: /^XX00[12]$/, Fault: Damaged, message: 'is damaged; restore a backup of the server' },
  {
    codes: /^(40001|40P01|55P03|23505)$/,
    Fault: Busy,
    message: 'is being written by others; try again',
  },
  {
    codes: /^(25006|25P02)$/,
    Fault: Unavailable,
    message: 'accepts no writes (a standby, or set to read-only); name the primary server',
  },
  {
    codes: /^(57P0[123]|53[0-9]{3}|08[0-9A-Z]{3})$/,
    Fault: Unavailable,
    message: 'is not accepting connections at present',
  },
  {
    codes: /^(28[0-9A-Z]{3}|3D000|42501)$/,
    Fault: Unavailable,
    message: 'refuses this user or database; check the name, the password and the permissions',
  },
  {
    codes: /^(ECONN[A-Z]+|EPIPE|ENOTFOUND|EAI_AGAIN|EHOSTUNREACH|ENETUNREACH|ETIMEDOUT|ENOENT|CONNECTION)$/,
    Fault: Unavailable,
    message: 'cannot be reached',
  },
];

/** The driver reports a lost or late connection without a code. */
const CONNECTION_LOST =
  /timeout exceeded when trying to connect|timeout expired|Query read timeout|Connection terminated|Client has encountered/;

/** The server's or network's code of an error; empty if it has none. */
export function codeOf(error: unknown): string {
  const { code, message, cause } = (error ?? {}) as { code?: unknown; message?: string; cause?: unknown };
  if (typeof code === 'string') return code;
  if (CONNECTION_LOST.test(message ?? '')) return 'CONNECTION';
  return cause === undefined ? '' : codeOf(cause);
}

const meaningOf = (error: unknown): Meaning | undefined => {
  const code = codeOf(error);
  return MEANINGS.find(({ codes }) => codes.test(code));
};

/**
 * Whether a transaction failed only because of a concurrent one, so that a retry may succeed. A unique index may detect
 * the conflict before the serializable checks do; on the retry, the operation's own check refuses it.
 */
export const isConflict = (error: unknown): boolean => /^(40001|40P01|23505)$/.test(codeOf(error));

/** Converts an engine error to a store fault; any other error is returned unchanged. */
export function asStoreFault(error: unknown): unknown {
  const meaning = meaningOf(error);
  if (!meaning || error instanceof StoreFault) return error;
  return new meaning.Fault(`the database ${meaning.message} (${codeOf(error)}: ${innermost(error)})`, {
    cause: error,
  });
}

/** Converts an error at startup to one line; any other error is returned unchanged. */
export function unusable(server: string, error: unknown): unknown {
  const met = error instanceof StoreFault ? error.cause : error;
  const meaning = meaningOf(met);
  if (!meaning) return error;
  return new DatabaseUnusable(`${server}: ${meaning.message} (${innermost(met)})`, { cause: met });
}

/** The query builder wraps the driver's error in one that quotes the statement. */
function innermost(error: unknown): string {
  const { cause, message } = error as Error;
  return cause instanceof Error ? innermost(cause) : itemAt((message || codeOf(error)).split('\n', 1), 0);
}
