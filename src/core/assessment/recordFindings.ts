import { group } from 'd3-array';
import type { History, HistoryVisit } from '../history.js';
import type { Finding } from '../vocabulary/wear.js';

/** Findings on how visits were recorded. */

/**
 * A visit recorded twice, under different work orders or none, so that its readings count twice. After a later visit
 * the finding is only a note, because no record can confirm that the readings were really taken twice.
 */
export function recordedTwice({ visits }: History): Finding[] {
  const latest = visits.at(-1)?.date;
  return [...group(visits, ({ date }) => date)].flatMap(([date, ofDay]) =>
    ofDay.some((visit, index) => ofDay.slice(index + 1).some((other) => isSameVisit(visit, other)))
      ? [twiceFinding(date, date === latest ? 'check' : 'note')]
      : [],
  );
}

/** Whether all readings of one are among the other's, at the same odometer reading. */
function isSameVisit(one: HistoryVisit, other: HistoryVisit): boolean {
  if (one.odometer?.km !== other.odometer?.km) return false;
  const [fewer, more] = [readingsOf(one), readingsOf(other)].sort((a, b) => a.size - b.size) as [
    Set<string>,
    Set<string>,
  ];
  return fewer.size > 0 && [...fewer].every((reading) => more.has(reading));
}

/** Each reading as text: its place, state and figure. */
const readingsOf = ({ readings }: HistoryVisit): Set<string> =>
  new Set(
    readings.map((reading) => {
      const { id: _id, gauge: _gauge, value: _value, unit: _unit, ...identity } = reading;
      return JSON.stringify(
        Object.entries(identity)
          .filter(([, value]) => value != null)
          .sort(),
      );
    }),
  );

const twiceFinding = (date: string, severity: Finding['severity']): Finding => ({
  axle: null,
  side: null,
  pad: null,
  code: 'visit-recorded-twice',
  severity,
  message: `Two visits of ${date} have the same readings at the same odometer reading, and both count.`,
  check:
    'If it was one visit, ask the owner to void one of them. If the readings were really taken twice, keep both.',
  numbers: {},
});
