/**
 * Whose turn it is to write. SQLite has one writer, and who waits for it inside SQLite waits with the whole process:
 * so an import, which writes over another connection and lets other requests be answered meanwhile, keeps the others
 * waiting here, where waiting costs nothing.
 */
export function writeTurns() {
  let held: Promise<void> | null = null;

  return {
    /** Runs a short write, at once where nobody else has the turn. */
    async take<Result>(work: () => Result): Promise<Result> {
      while (held) await held;
      return work();
    },

    /** Keeps every other writer waiting until the work is done. */
    async hold<Result>(work: () => Promise<Result>): Promise<Result> {
      while (held) await held;
      const done = work();
      held = done.then(
        () => undefined,
        () => undefined,
      );
      try {
        return await done;
      } finally {
        held = null;
      }
    },
  };
}

export type WriteTurns = ReturnType<typeof writeTurns>;
