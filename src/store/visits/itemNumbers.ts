import { digestOf } from '../../digest.js';

/**
 * The numbers in the ids of a visit's readings, work items and torques. An id names one item as entered: an item that a
 * correction leaves unchanged keeps its id, a changed one gets a new id, and ids are never reused.
 */
export type ItemNumbers = Record<NumberedPart, PartNumbers>;

export interface PartNumbers {
  /** In the order of the items. */
  numbers: number[];
  /** The highest number ever used in this part of the visit. */
  last: number;
}

const NUMBERED_PARTS = ['readings', 'work', 'torques'] as const;
export type NumberedPart = (typeof NUMBERED_PARTS)[number];
type Items = Partial<Record<NumberedPart, readonly object[] | null>>;

/** @param before null while the numbers equal the items' positions */
export function numbersAfter(before: ItemNumbers | null, standing: Items, corrected: Items): ItemNumbers {
  const part = (name: NumberedPart): PartNumbers => {
    const items = standing[name] ?? [];
    const { numbers, last } = before?.[name] ?? {
      numbers: items.map((_, index) => index + 1),
      last: items.length,
    };
    const free = new Map<string, number[]>();
    items.forEach((item, index) => {
      const digest = digestOf(item);
      free.set(digest, [...(free.get(digest) ?? []), numbers[index]!]);
    });
    let given = last;
    const after = (corrected[name] ?? []).map((item) => free.get(digestOf(item))?.shift() ?? ++given);
    return { numbers: after, last: given };
  };
  return Object.fromEntries(NUMBERED_PARTS.map((name) => [name, part(name)])) as ItemNumbers;
}
