import { itemAt } from '../items.js';
import { inWords } from '../rounding.js';
import type { Spare } from '../vocabulary/terms.js';
import { countInWords, listInWords, monthInWords } from '../words.js';
import type { Demand } from './demand.js';

const NAMES: Record<Spare, string> = {
  'pad-set': 'sets of pads',
  'rotor-pair': 'pairs of rotors',
  'shoe-set': 'sets of shoes',
  'drum-pair': 'pairs of drums',
};

/** Monthly totals in words: the number of each part over all months, and in the first month. */
export function demandWords(
  months: readonly string[],
  totals: readonly Demand[],
  { unassessedCount, rotorsUnknownCount }: { unassessedCount: number; rotorsUnknownCount: number },
): string {
  const first = monthInWords(itemAt(months, 0));
  const span = months.length === 1 ? `In ${first}` : `From ${first} to ${monthInWords(itemAt(months, -1))}`;
  const sums = new Map<Spare, { all: number; first: number }>();
  for (const { item, month, expected } of totals) {
    const sum = sums.get(item) ?? { all: 0, first: 0 };
    sums.set(item, { all: sum.all + expected, first: sum.first + (month === months[0] ? expected : 0) });
  }
  const parts = [...sums].map(([item, { all, first: now }]) => {
    const inFirst =
      months.length > 1 ? ` (${inWords(now, 1)} of them in ${first}, overdue ones included)` : '';
    return `${inWords(all, 1)} ${NAMES[item]}${inFirst}`;
  });
  const summary =
    parts.length === 0 ? `${span} no parts are expected to be needed.` : `${span}: ${listInWords(parts)}.`;
  const without = [
    unassessedCount > 0 ? `${countInWords(unassessedCount, 'axle')} without a forecast` : null,
    rotorsUnknownCount > 0
      ? `the rotors or drums of ${countInWords(rotorsUnknownCount, 'axle')}, which have no forecast`
      : null,
  ].filter((left) => left !== null);
  const leftOut = without.length > 0 ? ` Left out: ${without.join(' and ')}.` : '';
  return `${summary}${leftOut} Use these figures to order parts, and still check every brake.`;
}
