import { html } from 'ghtml';
import { inWords } from '../../core/rounding.js';
import type { HistoryVisit } from '../../core/history.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import { dateInWords, termInWords } from '../../core/words.js';
import { each } from './layout.js';

/** What a printed sheet adds to the page: boxes to write in. Hidden on screen. */

/** Table heads and cells that appear only on paper. */
export const boxHeads = (heads: readonly string[]): string =>
  each(heads, (head) => html`<th scope="col" class="box" hidden>${head}</th>`);
export const boxCells = (heads: readonly string[]): string =>
  each(heads, () => '<td class="box" hidden></td>');

/** The vehicle and the date, to the right of a fill-in table's caption. */
export const boxMark = (mark: string): string => html`<span class="mark on-paper" hidden>${mark}</span>`;

function boxes(caption: string, heads: readonly string[], mark: string): string {
  return html`<table class="on-paper-table boxes" hidden>
    <caption>
      !${boxMark(mark)}<strong>${caption}</strong>
    </caption>
    <thead>
      <tr>
        !${each(heads, (head) => html`<th scope="col">${head}</th>`)}
      </tr>
    </thead>
    <tbody>
      <tr>
        !${each(heads, () => '<td class="box"></td>')}
      </tr>
    </tbody>
  </table>`;
}

export function visitBoxes(latest: HistoryVisit | null, mark: string): string {
  const odometer = latest?.odometer;
  const last = odometer ? ` (last ${inWords(odometer.value)} ${odometer.unit})` : '';
  const lastDate = latest ? `This visit (the last was on ${dateInWords(latest.date)})` : 'This visit';
  return boxes(lastDate, ['Date', `Odometer${last}`, 'Work order', 'Technician'], mark);
}

export const roadTestBoxes = (mark: string): string =>
  boxes(
    'Road test',
    ['Pulls: none / left / right', 'Pulsation: yes / no', 'Noise: yes / no', 'Remarks'],
    mark,
  );

type Torques = NonNullable<NonNullable<VehicleBody['axles'][Axle]>['torque']>;

const TORQUE_BOXES = ['Left 1', 'Left 2', 'Right 1', 'Right 2', 'Slides, caliper, hose: found', 'Work done'];

export function torqueTable(torques: Torques, mark: string): string {
  const fasteners = Object.entries(torques);
  const rows: [string, string][] =
    fasteners.length > 0
      ? fasteners.map(([name, torque]) => [termInWords(name), torqueInWords(torque)])
      : [['', 'not known']];
  return html`<table class="on-paper-table" hidden>
    <caption>
      !${boxMark(mark)}<strong>Torque reached</strong>
      write the unit if it is not the one specified
    </caption>
    <thead>
      <tr>
        <th scope="col">Fastener</th>
        <th scope="col" class="number">Specified</th>
        !${boxHeads(TORQUE_BOXES)}
      </tr>
    </thead>
    <tbody>
      !${each(
        rows,
        ([name, specified]) =>
          html`<tr>
            <th scope="row">${name}</th>
            <td class="number keep">${specified}</td>
            !${boxCells(TORQUE_BOXES)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function torqueInWords({ value, unit, tolerance }: Torques[string]): string {
  const say = (name: string): string => (name === 'Nm' ? 'N·m' : name);
  const within = tolerance
    ? ` ± ${tolerance.value}${tolerance.unit === unit ? '' : ` ${say(tolerance.unit)}`}`
    : '';
  return `${value}${within} ${say(unit)}`;
}
