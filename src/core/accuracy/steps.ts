/** Runs a generator of interruptible work to its end without a break. */
export function atOnce<Result>(work: Generator<void, Result>): Result {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}
