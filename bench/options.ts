/** Options on a bench's command line. */

/** @throws if the value is not a whole number of at least `min` */
export function wholeNumber(option: string, value: string, min = 1): number {
  const number = Number(value);
  if (!Number.isInteger(number) || number < min) {
    throw new Error(`--${option} must be a whole number of at least ${min}`);
  }
  return number;
}

/** @throws if the value is not one of the choices; the error names them */
export function oneOf<Choice extends string>(
  option: string,
  choices: readonly Choice[],
  value: string,
): Choice {
  const found = choices.find((choice) => choice === value);
  if (!found) throw new Error(`--${option} must be one of ${choices.join(', ')}; this is ${value}`);
  return found;
}
