/** Every table; each comes after the tables that its rows refer to. */
export const TABLES = [
  'apiKeys',
  'serviceSecrets',
  'calendarSubscriptions',
  'sessions',
  'vehicles',
  'visits',
  'readings',
  'conditions',
  'notMeasured',
  'workItems',
  'torques',
  'outlooks',
  'wearAnswers',
  'axleOutlooks',
  'policies',
  'gauges',
  'experiences',
  'pastExperiences',
  'forecastScores',
  'visitVersions',
  'vehicleVersions',
  'audit',
  'idempotencyRecords',
  'imports',
  'dueAxles',
  'untoldVehicles',
  'webhookEndpoints',
  'events',
  'webhookDeliveries',
] as const;

export type TableName = (typeof TABLES)[number];

/** A row's values by column name, the same in every engine; without generated columns. */
export type TableRow = Record<string, unknown>;

/** Whole tables, to copy them from one database to another. */
export interface TableRows {
  /** Rows in the order of their primary key. */
  read(table: TableName, after: TableRow | null, limit: number): Promise<TableRow[]>;
  /** The last row by primary key. */
  last(table: TableName): Promise<TableRow | null>;
  insert(table: TableName, rows: readonly TableRow[]): Promise<void>;
  /**
   * Marks the database as an unfinished copy, which the service refuses to serve.
   *
   * @returns false if it has rows but no such mark; the database is then unchanged
   */
  beginCopy(): Promise<boolean>;
  /** Removes the mark, and makes the numbers of new rows continue after those of the inserted ones. */
  endCopy(): Promise<void>;
}
