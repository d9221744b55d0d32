/** A key under which a caller may repeat a write and have it carried out only once. */
export interface IdempotencyKey {
  /** The name of the API key that sent it. */
  keyName: string;
  /** The target of the write; each target has its own keys. */
  target: string;
  /** The key as the caller chose it. */
  key: string;
}

/** A write under such a key; a key is valid for one content only. */
export interface KeyedWrite extends IdempotencyKey {
  /** SHA-256 of the content to write, hex. */
  fingerprint: string;
}

/** The outcome of the first write under a key. */
export interface KeptOutcome {
  fingerprint: string;
  /** Opaque to the store; null if it contained personal data that has been erased. */
  outcome: string | null;
}

/** Asks a write to store its outcome in its own transaction. */
export interface Keep<Result> {
  write: KeyedWrite;
  outcome: (result: Result) => string;
}

export interface OutcomeStore {
  find(key: IdempotencyKey): Promise<KeptOutcome | null>;
  /** Stores the outcome of a write that changed nothing; an existing outcome is left unchanged. */
  keep(write: KeyedWrite, outcome: string): Promise<void>;
  /** Deletes an outcome that is no longer valid, so that a repeated write is carried out. */
  forget(key: IdempotencyKey): Promise<void>;
}
