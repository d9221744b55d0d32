import { expect, it } from 'vitest';
import { unbroken } from '../../src/render/pages/advice.js';

it.each([
  ['limit 3 mm (± 0.098 mm)', 'limit 3\u00a0mm (±\u00a00.098\u00a0mm)'],
  ['15 % chance by 2026-12-16', '15\u00a0% chance by 16\u00a0December\u00a02026'],
])('a number is not separated from its unit, its sign or the rest of its date: %s', (text, expected) => {
  expect(unbroken(text)).toBe(expected);
});
