/** Every table, in an order in which each comes after those that its rows refer to. */
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

/** A row by the names of its columns, the same in every engine; without columns that follow from others. */
export type TableRow = Record<string, unknown>;

/** Whole tables, to copy them from one database to another. */
export interface TableRows {
  /** Rows in the order of their primary key. */
  read(table: TableName, after: TableRow | null, limit: number): Promise<TableRow[]>;
  /** The last row by primary key. */
  last(table: TableName): Promise<TableRow | null>;
  insert(table: TableName, rows: readonly TableRow[]): Promise<void>;
  /**
   * Marks the database as a copy that is not finished, which the service refuses to serve.
   *
   * @returns false if it holds rows and has no such mark; it is left as it is
   */
  beginCopy(): Promise<boolean>;
  /** Removes the mark, and makes the numbers of later rows follow those of the inserted ones. */
  endCopy(): Promise<void>;
}
