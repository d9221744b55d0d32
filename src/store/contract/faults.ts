/**
 * What the store throws when the database fails. A failed write has stored nothing. `cause` is the engine's own error,
 * and the message is for whoever runs the service.
 */
export abstract class StoreFault extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = new.target.name;
  }
}

/** There is no room left to write. */
export class StorageFull extends StoreFault {}
/** Another process held the database for longer than the caller could wait; trying again may help. */
export class Busy extends StoreFault {}
/** What is stored cannot be read back. */
export class Damaged extends StoreFault {}
/** The database cannot be read or written at present, for any other reason. */
export class Unavailable extends StoreFault {}

/** A database that cannot be served from; the message is one clear line for whoever starts the service. */
export class DatabaseUnusable extends Error {}
