/** Runs interruptible work, a generator, to its end in one go. */
export function atOnce<Result>(work: Generator<void, Result>): Result {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}
