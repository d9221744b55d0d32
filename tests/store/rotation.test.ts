import { describe, expect, it } from 'vitest';
import { copiesToRemove, copyName } from '../../src/commands/rotation.js';

const DAY_MS = 86_400_000;
const END = Date.parse('2026-03-10T02:30:00Z');

/** Makes a copy every night and rotates, as the timer does. */
function rotateNightly(nights: number): string[] {
  let copies: string[] = [];
  for (let ago = nights - 1; ago >= 0; ago--) {
    copies.push(copyName('brakes', new Date(END - ago * DAY_MS)));
    const removed = new Set(copiesToRemove('brakes', copies));
    copies = copies.filter((name) => !removed.has(name));
  }
  return copies;
}

describe('the rotation of backups', () => {
  it('the name of a copy is its time', () => {
    expect(copyName('brakes', new Date(END))).toBe('brakes-2026-03-10T023000Z.sqlite');
  });

  it('the rotation of backups keeps every copy of the first week', () => {
    expect(rotateNightly(7)).toHaveLength(7);
  });

  it('the rotation of backups keeps 7 daily, 4 weekly and 12 monthly copies after two years', () => {
    const dates = rotateNightly(730).map((name) => name.slice(7, 17));
    expect(dates).toEqual([
      ...['2025-04-30', '2025-05-31', '2025-06-30', '2025-07-31', '2025-08-31', '2025-09-30'],
      ...['2025-10-31', '2025-11-30', '2025-12-31', '2026-01-31'],
      // The ends of weeks, and the end of February.
      ...['2026-02-22', '2026-02-28', '2026-03-01'],
      ...['2026-03-04', '2026-03-05', '2026-03-06', '2026-03-07', '2026-03-08', '2026-03-09', '2026-03-10'],
    ]);
  });

  it('the rotation of backups keeps the copies from before a long gap', () => {
    const old = [1, 2, 3].map((day) => copyName('brakes', new Date(Date.UTC(2025, 0, day))));
    expect(copiesToRemove('brakes', [...old, copyName('brakes', new Date(END))])).toEqual([]);
  });

  it('the rotation of backups never removes another file', () => {
    const others = ['brakes.sqlite', 'brakes-monday.sqlite', 'other-2020-01-01T000000Z.sqlite', 'notes.txt'];
    const many = Array.from({ length: 400 }, (_, ago) => copyName('brakes', new Date(END - ago * DAY_MS)));
    const removed = copiesToRemove('brakes', [...others, ...many]);
    expect(removed.length).toBeGreaterThan(300);
    expect(removed.filter((name) => others.includes(name))).toEqual([]);
  });
});
