/** Where the answer to one POST with an Idempotency-Key is kept. */
export interface AnswerSlot {
  keyName: string;
  method: string;
  path: string;
  idempotencyKey: string;
  fingerprint: string;
}

export interface KeptAnswer {
  status: number;
  headers: Record<string, string>;
  body: string;
}

/** Asks a write to keep its answer in its own transaction. */
export interface Keep<Result> {
  slot: AnswerSlot;
  answer: (result: Result) => KeptAnswer;
}

export interface AnswerStore {
  find(slot: Omit<AnswerSlot, 'fingerprint'>): Promise<(KeptAnswer & { fingerprint: string }) | null>;
  /** Keeps an answer that changed nothing; one that is there already stays. */
  keep(slot: AnswerSlot, answer: KeptAnswer): Promise<void>;
  /** Removes an answer that no longer counts, so that the same request is carried out again. */
  forget(slot: Omit<AnswerSlot, 'fingerprint'>): Promise<void>;
}
