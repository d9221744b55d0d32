import { itemAt } from '../../core/items.js';
import { digestOf } from '../../digest.js';
import {
  NUMBERED_PARTS,
  type ItemNumbers,
  type NumberedPart,
  type PartNumbers,
} from '../engine/contract/visits.js';

type Items = Partial<Record<NumberedPart, readonly object[] | null>>;

/**
 * The numbers after a correction. An id names one item as entered: an item that a correction leaves unchanged keeps its
 * id, a changed one gets a new id, and ids are never reused.
 *
 * @param before null while the numbers equal the items' positions
 */
export function numbersAfter(before: ItemNumbers | null, current: Items, corrected: Items): ItemNumbers {
  const part = (name: NumberedPart): PartNumbers => {
    const items = current[name] ?? [];
    const { numbers, last } = before?.[name] ?? {
      numbers: items.map((_, index) => index + 1),
      last: items.length,
    };
    const free = new Map<string, number[]>();
    items.forEach((item, index) => {
      const digest = digestOf(item);
      free.set(digest, [...(free.get(digest) ?? []), itemAt(numbers, index)]);
    });
    let given = last;
    const after = (corrected[name] ?? []).map((item) => free.get(digestOf(item))?.shift() ?? ++given);
    return { numbers: after, last: given };
  };
  return Object.fromEntries(NUMBERED_PARTS.map((name) => [name, part(name)])) as ItemNumbers;
}
