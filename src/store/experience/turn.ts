import { setImmediate } from 'node:timers/promises';

/** Scoring and fitting yield to other work after about this long. */
const TURN_MS = 20;

/** Yields to other work when its time is up. */
export class Turn {
  #began = performance.now();

  async over(): Promise<void> {
    if (performance.now() - this.#began < TURN_MS) return;
    await setImmediate();
    this.#began = performance.now();
  }

  async run<Result>(work: Generator<void, Result>): Promise<Result> {
    let step = work.next();
    while (!step.done) {
      await this.over();
      step = work.next();
    }
    return step.value;
  }
}
