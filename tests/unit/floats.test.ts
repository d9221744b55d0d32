import { describe, expect, it } from 'vitest';
import { zeros } from '../../src/core/forecast/floats.js';

describe('arrays cut from a block', () => {
  it.each([NaN, 1.5, -1, Infinity])('there is no array of %f numbers', (length) => {
    expect(() => zeros(length)).toThrow(RangeError);
  });

  it('each array is its own, also after one that could not be made', () => {
    expect(() => zeros(NaN)).toThrow(RangeError);
    zeros(3).fill(7);
    expect([...zeros(3)]).toEqual([0, 0, 0]);
  });
});
