import { html } from 'ghtml';
import type { HistoryVisit } from '../../core/history.js';
import { inWords } from '../../core/rounding.js';
import type { Range } from '../../core/vocabulary/quantities.js';
import type { Axle, LiningNames } from '../../core/vocabulary/terms.js';
import type { PadWear, Replacement } from '../../core/vocabulary/wear.js';
import { asRead } from '../chart/outcome.js';
import { capital, dayAndMonth, onAxle, positionInWords, shortDate, sourceInWords } from '../../core/words.js';
import { unbroken } from './advice.js';
import { each } from './layout.js';
import { boxCells, boxHeads, boxMark } from './paper.js';

/** The figures of an axle's linings, with boxes for new readings on paper. */

export interface Linings {
  axle: Axle;
  linings: LiningNames;
  pads: readonly PadWear[];
  replacement: Replacement;
  lastVisit: string | null;
  visits: readonly HistoryVisit[];
  /** The vehicle and the date, shown only on paper. */
  mark: string;
}

const BOXES = ['New: as found', 'As left', 'Gauge', 'Not measured, why; remarks'];

export function liningTable(linings: Linings): string {
  const { axle, pads, replacement, mark } = linings;
  const dates = new Set(pads.map((pad) => dateOf(pad, linings)));
  /** The readings' common date, if there is one and it is not the last visit's. */
  const [shared = null] = dates.size === 1 ? dates : [];
  const governing = ({ side, pad }: PadWear): boolean =>
    side === replacement.governingPad?.side && pad === replacement.governingPad.pad;
  return html`<table class="numbers">
    <caption>
      !${boxMark(mark)}<strong>${capital(onAxle(linings.linings, axle))}</strong>
      mm<span class="on-screen"> of friction material</span
      >; ${unbroken(limitsInWords(pads))}. In brackets: as read, or 8 cases in 10.
    </caption>
    <thead>
      <tr>
        <th scope="col">Position</th>
        <th scope="col" class="number">${unbroken(['Last read', shared].filter(Boolean).join(' '))}</th>
        <th scope="col" class="number">Above limit</th>
        <th scope="col" class="number">Wear per 1,000&nbsp;km</th>
        !${boxHeads(BOXES)}
      </tr>
    </thead>
    <tbody>
      !${each(
        pads,
        (pad) =>
          html`<tr class="${governing(pad) ? 'governs' : ''}">
            <th scope="row">${capital(positionInWords(pad))}</th>
            <td class="number">!${lastRead(pad, linings, shared === null)}</td>
            <td class="number">!${figure(pad.remainingMm, 1)}</td>
            <td class="number">!${figure(pad.ratePer1000KmMm, 2)}</td>
            !${boxCells(BOXES)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

const decimal = (value: number, decimals: number): string => value.toFixed(decimals).replace('-', '−');

/** The median above its interval; `unknown` without a range. */
export function figure(range: Range | null, decimals: number): string {
  if (!range) return '<span class="soft">unknown</span>';
  const [low, median, high] = [range.low, range.median, range.high].map((value) => decimal(value, decimals));
  const interval = range.low < 0 ? `${low} to ${high}` : `${low}–${high}`;
  return html`${median} <small>(${interval})</small>`;
}

/** Date of a pad's last reading; null if that was the last visit, which the sheet already names. */
function dateOf({ latest }: PadWear, { lastVisit }: Linings): string | null {
  if (!latest || latest.date === lastVisit) return null;
  const isThisYear = latest.date.slice(0, 4) === lastVisit?.slice(0, 4);
  return isThisYear ? dayAndMonth(latest.date) : shortDate(latest.date);
}

function lastRead(pad: PadWear, linings: Linings, withDate: boolean): string {
  const { axle, visits } = linings;
  const { latest } = pad;
  if (!latest) return '<span class="soft">not measured</span>';
  const unit = visits
    .findLast(({ date }) => date === latest.date)
    ?.readings.find(
      (reading) =>
        reading.axle === axle &&
        reading.side === pad.side &&
        ('pad' in reading ? reading.pad === pad.pad : 'shoe' in reading && reading.shoe === pad.pad),
    )?.unit;
  const read = unit ? asRead({ mm: latest.valueMm, unit }) : null;
  const more = [read, withDate ? dateOf(pad, linings) : null].filter((part) => part !== null);
  return html`${latest.valueMm.toFixed(1)} !${each(more, (part) => html`<small>(${part})</small>`)}`;
}

/** `limit 3 mm (wear indicator), 2 mm (maker’s figure)`: every limit once, the highest first. */
function limitsInWords(pads: readonly PadWear[]): string {
  const limits = new Map(
    pads.flatMap(({ limits: known }) =>
      known.map(
        ({ limitMm, source }) =>
          [
            `${inWords(limitMm, 3)} mm (${sourceInWords(source, source === 'maker' ? 'short' : 'full')})`,
            limitMm,
          ] as const,
      ),
    ),
  );
  const words = [...limits].sort(([, a], [, b]) => b - a).map(([said]) => said);
  return words.length > 0 ? `limit ${words.join(', ')}` : 'no limit known';
}
