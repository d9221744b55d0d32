/**
 * Allocates arrays of numbers for the forecast from larger blocks. An outlook needs several hundred short arrays, and
 * allocating each on its own costs more than many of the calculations with it. No two arrays share a piece of a block.
 */

/** Numbers in a block, 64 KiB. */
const BLOCK = 8192;
/** Longer arrays get a block of their own. */
const MAX_PIECE = BLOCK / 4;
const BYTES = Float64Array.BYTES_PER_ELEMENT;

let block = new ArrayBuffer(BLOCK * BYTES);
let used = 0;

/**
 * An array of zeros.
 *
 * @throws RangeError if the length is not a whole number. After NaN, every later array would begin at the same place of
 *   its block, and all forecasts of the process would be wrong.
 */
export function zeros(length: number): Float64Array {
  if (!Number.isInteger(length)) throw new RangeError(`an array cannot hold ${length} numbers`);
  if (length > MAX_PIECE) return new Float64Array(length);
  if (used + length > BLOCK) {
    block = new ArrayBuffer(BLOCK * BYTES);
    used = 0;
  }
  const array = new Float64Array(block, used * BYTES, length);
  used += length;
  return array;
}

/** An array of the values at each index. */
export function filled(length: number, valueAt: (index: number) => number): Float64Array {
  const array = zeros(length);
  for (let index = 0; index < length; index++) array[index] = valueAt(index);
  return array;
}

/** Like `values.map(of)`. */
export function mapped(values: Float64Array, of: (value: number, index: number) => number): Float64Array {
  const array = zeros(values.length);
  for (let index = 0; index < array.length; index++) array[index] = of(values[index]!, index);
  return array;
}

/** Like `values.slice(first, end)`. */
export function copied(values: Float64Array, first = 0, end = values.length): Float64Array {
  const array = zeros(Math.max(0, end - first));
  array.set(first === 0 && end === values.length ? values : values.subarray(first, end));
  return array;
}
