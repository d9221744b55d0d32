/** What is asked of a bench on its command line. */

/** @throws when it is not a whole number from the least */
export function wholeNumber(option: string, value: string, least = 1): number {
  const number = Number(value);
  if (!Number.isInteger(number) || number < least) {
    throw new Error(`--${option} must be a whole number from ${least}`);
  }
  return number;
}

/** @throws when it is none of the choices, which it then names */
export function oneOf<Choice extends string>(
  option: string,
  choices: readonly Choice[],
  value: string,
): Choice {
  const found = choices.find((choice) => choice === value);
  if (!found) throw new Error(`no --${option} ${value}; there are ${choices.join(', ')}`);
  return found;
}
