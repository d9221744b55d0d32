import { html } from 'ghtml';
import { itemAt } from '../../core/items.js';
import { inWords } from '../../core/rounding.js';
import type { Range } from '../../core/vocabulary/quantities.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { DrumWear, RotorWear } from '../../core/vocabulary/wear.js';
import { capital, onAxle, sentence, shortDate } from '../../core/words.js';
import { unbroken } from './advice.js';
import { each } from './layout.js';
import { figure } from './liningTable.js';
import { boxCells, boxHeads, boxMark } from './paper.js';

/**
 * The figures of an axle's rotors or drums: sides next to each other on screen, one below the other with boxes on
 * paper.
 */

interface Kind {
  part: 'rotors' | 'drums';
  extreme: string;
  limit: string;
  margin: string;
  machineTo: string;
  linings: string;
  variation: string;
  boxes: string[];
}

const ROTORS: Kind = {
  part: 'rotors',
  extreme: 'Thinnest',
  limit: 'discard at',
  margin: 'Above discard',
  machineTo: 'machine to',
  linings: 'pads',
  variation: 'Variation',
  boxes: ['Point 1', 'Point 2', 'Point 3', 'Point 4', 'Run-out'],
};
const DRUMS: Kind = {
  part: 'drums',
  extreme: 'Largest',
  limit: 'maximum',
  margin: 'Below maximum',
  machineTo: 'machine to at most',
  linings: 'shoes',
  variation: 'Out of round',
  boxes: ['Point 1', 'Point 2', 'Point 3', 'Point 4', 'Gauge'],
};

/** A rotor or drum under common names. */
interface Counterpart {
  side: string;
  extremeMm: number | null;
  limitMm: number | null;
  machineToMm: number | null;
  marginMm: number | null;
  latestDate: string | null;
  whenDue: Range | null;
  afterNext: Range | null;
  variationMm: number | null;
  runoutMm: number | null;
  decision: RotorWear['decision'];
  why: string[];
}

interface Counterparts {
  axle: Axle;
  rotors: readonly RotorWear[];
  drums: readonly DrumWear[];
  /** The vehicle and the date, shown only on paper. */
  mark: string;
}

const partsOf = ({ rotors, drums }: Pick<Counterparts, 'rotors' | 'drums'>): Counterpart[] => [
  ...rotors.map(ofRotor),
  ...drums.map(ofDrum),
];

export function counterpartTable({ axle, rotors, drums, mark }: Counterparts): string {
  const kind = drums.length > 0 ? DRUMS : ROTORS;
  const parts = partsOf({ rotors, drums });
  if (parts.length === 0) return '';
  return html`!${onScreen(axle, parts, kind)} !${onPaper(axle, parts, kind, mark)}`;
}

/** Reasons the sheet already shows elsewhere: as a figure, as a check, or for the other side. */
const SAID_ELSEWHERE = new Set(['margin', 'limit-before-next-visit', 'pair', 'no-readings']);
const MAX_REASONS = 2;

const reasonsOf = ({ decisionReasons }: RotorWear | DrumWear): string[] =>
  decisionReasons[0]?.code === 'pair'
    ? []
    : decisionReasons
        .filter(({ code }) => !SAID_ELSEWHERE.has(code))
        .slice(0, MAX_REASONS)
        .map(({ detail }) => detail);

const ofRotor = (rotor: RotorWear): Counterpart => ({
  ...rotor,
  extremeMm: rotor.thinnestMm,
  limitMm: rotor.discardMm,
  whenDue: rotor.marginAtPadReplacementMm,
  afterNext: rotor.marginAfterNextPadSetMm,
  why: reasonsOf(rotor),
});

const ofDrum = (drum: DrumWear): Counterpart => ({
  ...drum,
  extremeMm: drum.largestMm,
  limitMm: drum.maximumMm,
  whenDue: drum.marginAtShoeReplacementMm,
  afterNext: drum.marginAfterNextShoeSetMm,
  variationMm: drum.outOfRoundMm,
  runoutMm: null,
  why: reasonsOf(drum),
});

function captionOf(axle: Axle, parts: readonly Counterpart[], { part, limit, machineTo }: Kind): string {
  const figures = (values: readonly (number | null)[]): string | null => {
    const known = [...new Set(values.filter((value) => value !== null))];
    return known.length === 0 ? null : known.map((value) => inWords(value, 3)).join(' and ');
  };
  const limits = figures(parts.map(({ limitMm }) => limitMm));
  const machine = figures(parts.map(({ machineToMm }) => machineToMm));
  const said = [
    limits ? `${limit} ${limits}` : 'limit unknown',
    ...(machine ? [`${machineTo} ${machine}`] : []),
  ];
  return html`<strong>${capital(onAxle(part, axle))}</strong> mm; ${said.join(', ')}`;
}

const UNKNOWN = '<span class="soft">unknown</span>';
const NOT_MEASURED = '<span class="soft">not measured</span>';

const mm = (value: number | null, decimals: number, missing: string): string =>
  value === null ? missing : html`${value.toFixed(decimals).replace('-', '−')}`;

type Row = [name: string, cell: (part: Counterpart) => string, isStrong?: boolean];

/** Variation and run-out in one row, if either was measured. */
function unevennessRow(parts: readonly Counterpart[], { variation }: Kind): Row[] {
  const hasVariation = parts.some(({ variationMm }) => variationMm !== null);
  const hasRunout = parts.some(({ runoutMm }) => runoutMm !== null);
  if (!hasVariation && !hasRunout) return [];
  const name = [...(hasVariation ? [variation] : []), ...(hasRunout ? ['run-out'] : [])].join(', ');
  return [
    [
      capital(name),
      ({ variationMm, runoutMm }) =>
        [
          ...(hasVariation ? [mm(variationMm, 3, NONE)] : []),
          ...(hasRunout ? [mm(runoutMm, 3, NONE)] : []),
        ].join(', '),
    ],
  ];
}

const NONE = '–';

function onScreen(axle: Axle, parts: readonly Counterpart[], kind: Kind): string {
  const has = (of: (part: Counterpart) => unknown): boolean => parts.some((part) => of(part) !== null);
  const rows: Row[] = [
    ...(has(({ extremeMm }) => extremeMm)
      ? [
          [kind.extreme, ({ extremeMm }) => mm(extremeMm, 2, NOT_MEASURED), true] as Row,
          [kind.margin, ({ marginMm }) => mm(marginMm, 2, UNKNOWN)] as Row,
        ]
      : []),
    ...(has(({ whenDue }) => whenDue)
      ? [[`When ${kind.linings} are due`, ({ whenDue }) => figure(whenDue, 2)] as Row]
      : []),
    ...(has(({ afterNext }) => afterNext)
      ? [['After the next set', ({ afterNext }) => figure(afterNext, 2)] as Row]
      : []),
    ...unevennessRow(parts, kind),
    ['Decision', ({ decision }) => html`${decision}`, true],
  ];
  return html`<table class="numbers sides on-screen">
    <caption>
      !${captionOf(axle, parts, kind)}
    </caption>
    <thead>
      <tr>
        <td></td>
        !${each(parts, ({ side }) => html`<th scope="col" class="number">${capital(side)}</th>`)}
      </tr>
    </thead>
    <tbody>
      !${each(
        rows,
        ([name, cell, isStrong]) =>
          html`<tr class="${isStrong ? 'governs' : ''}">
            <th scope="row">${name}</th>
            !${each(parts, (part) => html`<td class="number">!${cell(part)}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Why a rotor or drum cannot simply be kept; reasons common to both sides appear once. */
export function whyDecided({ rotors, drums }: Pick<Counterparts, 'rotors' | 'drums'>): string {
  const parts = partsOf({ rotors, drums });
  const said = new Map<string, string[]>();
  for (const { side, decision, why } of parts) {
    if (decision === 'keep') continue;
    const words = why.join('; ');
    if (words) said.set(words, [...(said.get(words) ?? []), side]);
  }
  return each([...said], ([words, sides]) => {
    const where = sides.length < parts.length ? `${itemAt(sides, 0)}: ` : '';
    return html`<p class="small soft on-screen">${unbroken(sentence(where + words))}</p>`;
  });
}

const onPaper = (axle: Axle, parts: readonly Counterpart[], kind: Kind, mark: string): string =>
  html`<table class="numbers on-paper-table" hidden>
    <caption>
      !${boxMark(mark)}!${captionOf(axle, parts, kind)}
    </caption>
    <thead>
      <tr>
        <th scope="col">Side</th>
        <th scope="col" class="number">Last</th>
        <th scope="col" class="number">${kind.margin}</th>
        <th scope="col" class="number">${kind.variation}</th>
        !${kind.part === 'rotors' ? '<th scope="col" class="number">Run-out</th>' : ''}
        <th scope="col">Decision</th>
        !${boxHeads(kind.boxes)}
      </tr>
    </thead>
    <tbody>
      !${each(
        parts,
        (part) =>
          html`<tr>
            <th scope="row">${capital(part.side)}</th>
            <td class="number">!${lastOf(part)}</td>
            <td class="number">!${mm(part.marginMm, 2, '–')}</td>
            <td class="number">!${mm(part.variationMm, 3, '–')}</td>
            !${kind.part === 'rotors' ? html`<td class="number">!${mm(part.runoutMm, 3, '–')}</td>` : ''}
            <td>${part.decision}</td>
            !${boxCells(kind.boxes)}
          </tr>`,
      )}
    </tbody>
  </table>`;

const lastOf = ({ extremeMm, latestDate }: Counterpart): string =>
  extremeMm === null
    ? '–'
    : html`${extremeMm.toFixed(2)}!${latestDate ? html` <small>(${shortDate(latestDate)})</small>` : ''}`;
