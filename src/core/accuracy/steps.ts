/** Runs work that may be interrupted after each of its steps through at one go. */
export function atOnce<Result>(work: Generator<void, Result>): Result {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}
