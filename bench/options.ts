/** Options on a bench's command line. */

/** @throws if it is not a whole number of at least the minimum */
export function wholeNumber(option: string, value: string, least = 1): number {
  const number = Number(value);
  if (!Number.isInteger(number) || number < least) {
    throw new Error(`--${option} must be a whole number of at least ${least}`);
  }
  return number;
}

/** @throws if it is not one of the choices, which the error names */
export function oneOf<Choice extends string>(
  option: string,
  choices: readonly Choice[],
  value: string,
): Choice {
  const found = choices.find((choice) => choice === value);
  if (!found) throw new Error(`--${option} must be one of ${choices.join(', ')}; this is ${value}`);
  return found;
}
