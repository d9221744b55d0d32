/**
 * Thrown by the store when the database fails. A failed write has stored nothing. `cause` is the engine's own error;
 * the message is for the operator.
 */
export abstract class StoreFault extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = new.target.name;
  }
}

/** The disk is full. */
export class StorageFull extends StoreFault {}
/** Another process held the database lock for too long; retrying may help. */
export class Busy extends StoreFault {}
/** Stored data cannot be read. */
export class Damaged extends StoreFault {}
/** The database cannot be read or written at present, for any other reason. */
export class Unavailable extends StoreFault {}

/** The database cannot be used; the message is one clear line for the person who starts the service. */
export class DatabaseUnusable extends Error {}
