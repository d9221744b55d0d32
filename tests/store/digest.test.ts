import { describe, expect, it } from 'vitest';
import { digestOf, exactDigestOf, sha256 } from '../../src/digest.js';

describe('the digest of a value', () => {
  const visit = {
    date: '2026-03-02',
    odometer: { value: 61_240, unit: 'km' },
    readings: [
      { side: 'left', value: 6.5 },
      { side: 'right', value: 7 },
    ],
  };

  it('the digest of a value does not depend on the order of members, at any depth', () => {
    const turned = {
      readings: [
        { value: 6.5, side: 'left' },
        { value: 7, side: 'right' },
      ],
      odometer: { unit: 'km', value: 61_240 },
      date: '2026-03-02',
    };
    expect(digestOf(turned)).toBe(digestOf(visit));
  });

  it('a null member counts as a missing one, at any depth', () => {
    const padded = {
      ...visit,
      shop: null,
      time: undefined,
      readings: visit.readings.map((reading) => ({ ...reading, gauge: null })),
    };
    expect(digestOf(padded)).toBe(digestOf(visit));
  });

  it.each([
    ['another value', { ...visit, odometer: { value: 61_241, unit: 'km' } }],
    ['another unit', { ...visit, odometer: { value: 61_240, unit: 'mi' } }],
    ['an additional member', { ...visit, shop: 'north' }],
    ['the readings in another order', { ...visit, readings: [...visit.readings].reverse() }],
    ['one reading less', { ...visit, readings: visit.readings.slice(1) }],
    ['an empty list for a missing one', { ...visit, work: [] }],
    ['text for a number', { ...visit, odometer: { value: '61240', unit: 'km' } }],
  ])('the digest of a value changes with %s', (_what, other) => {
    expect(digestOf(other)).not.toBe(digestOf(visit));
  });

  it('the digest of a value is that of the text with its members sorted by name', () => {
    expect(digestOf({ b: null, c: 2, a: [{ e: 'x', d: 1 }] })).toBe(sha256('{"a":[{"d":1,"e":"x"}],"c":2}'));
  });

  it('null in a list differs from a missing item', () => {
    expect(digestOf([null])).not.toBe(digestOf([]));
  });
});

describe('the exact digest of a value', () => {
  it('a null member differs from a missing one at any depth, and everything else is the same', () => {
    expect(exactDigestOf({ changes: { notes: null } })).not.toBe(exactDigestOf({ changes: {} }));
    expect(exactDigestOf({ b: 1, a: [{ d: 2, c: undefined }] })).toBe(exactDigestOf({ a: [{ d: 2 }], b: 1 }));
    expect(exactDigestOf({ a: [{ d: 2 }] })).toBe(digestOf({ a: [{ d: 2 }] }));
  });
});

describe('sha256', () => {
  // FIPS 180-4 example messages, the SHA-256 of "abc" and of the empty message.
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('the digest of "%s" is the published one', (message, digest) => {
    expect(sha256(message)).toBe(digest);
  });
});
