/** A key under which a caller may send the same write again and have it carried out once. */
export interface IdempotencyKey {
  /** The name of the API key whose holder chose it. */
  keyName: string;
  /** What is written to: each has keys of its own. */
  target: string;
  /** As the caller chose it. */
  key: string;
}

/** A write under such a key, which stands for one content. */
export interface KeyedWrite extends IdempotencyKey {
  /** SHA-256 of what is to be written, hex. */
  fingerprint: string;
}

/** What became of the first write under a key. */
export interface KeptOutcome {
  fingerprint: string;
  /** A text that the store keeps as it is; null where it held personal data that has been erased since. */
  outcome: string | null;
}

/** Asks a write to keep its outcome in its own transaction. */
export interface Keep<Result> {
  write: KeyedWrite;
  outcome: (result: Result) => string;
}

export interface OutcomeStore {
  find(key: IdempotencyKey): Promise<KeptOutcome | null>;
  /** Keeps the outcome of a write that changed nothing; one that is there already stays. */
  keep(write: KeyedWrite, outcome: string): Promise<void>;
  /** Removes an outcome that no longer counts, so that the same write is carried out again. */
  forget(key: IdempotencyKey): Promise<void>;
}
