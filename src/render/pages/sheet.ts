import { html } from 'ghtml';
import type { HistoryVisit } from '../../core/history.js';
import { inWords } from '../../core/rounding.js';
import type { OpenPoint } from '../../core/vocabulary/openPoints.js';
import type { Range, Reason } from '../../core/vocabulary/quantities.js';
import type { Axle, LiningPosition } from '../../core/vocabulary/terms.js';
import type { Vehicle, VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { AxleWear, DrumWear, Finding, PadWear, RotorWear, Wear } from '../../core/vocabulary/wear.js';
import { capital, vehicleName } from '../names.js';
import { axleInWords, DISCLAIMER, sourceInWords } from '../wearWords.js';
import { each, list, scrolling } from './layout.js';
import { dataTable, handTable } from './table.js';

/** One vehicle on a sheet for the bay: what is known, what to look at, and room to write. */
export interface Sheet {
  vehicle: Vehicle;
  wear: Wear;
  latest: HistoryVisit | null;
  openPoints: readonly OpenPoint[];
  /** The picture of each axle, SVG. */
  pictures: ReadonlyMap<Axle, string>;
  today: string;
}

const NOT_KNOWN = 'not known';
const mm = (value: number | null, decimals = 3): string =>
  value === null ? NOT_KNOWN : `${inWords(value, decimals)} mm`;
const range = (value: Range | null, decimals = 2): string =>
  value
    ? `${inWords(value.median, decimals)} mm (${inWords(value.low, decimals)} to ${inWords(value.high, decimals)})`
    : NOT_KNOWN;

export function sheetPage(sheet: Sheet): { title: string; main: string } {
  const { vehicle, wear } = sheet;
  const main = html`!${identity(sheet)} !${overview(sheet)} !${openPoints(sheet)}
  !${each(wear.axles, (axle) => axleSection(axle, sheet))} !${byHand(vehicle)} !${cautions(wear)}`;
  return { title: `Brakes of ${vehicleName(vehicle)}`, main };
}

function identity({ vehicle, wear, today, latest }: Sheet): string {
  const { asAt, usage } = wear;
  const facts: [string, string | null][] = [
    ['Registration', vehicle.registration ?? null],
    ['Number', vehicle.externalId ?? null],
    ['VIN', vehicle.vin ?? null],
    ['Vehicle', [vehicle.description, vehicle.model].filter((text) => text != null).join(', ') || null],
    ['Fleet', vehicle.fleet ?? null],
    ['Out of service', vehicle.outOfService ? `since ${vehicle.outOfService.date}` : null],
    ['Latest visit', asAt ? visitInWords(asAt, latest) : 'none recorded'],
    [
      'Driven',
      usage.kmPerDay &&
        `${inWords(usage.kmPerDay.median, 0)} km a day (8 of 10: ${inWords(usage.kmPerDay.low, 0)} to ${inWords(usage.kmPerDay.high, 0)})`,
    ],
    ['Read on', today],
  ];
  const known = facts.filter((fact): fact is [string, string] => fact[1] !== null);
  return html`<dl class="facts">
    !${each(
      known,
      ([name, value]) =>
        html`<dt>${name}</dt>
          <dd>${value}</dd>`,
    )}
  </dl>`;
}

function visitInWords({ date, odometerKm }: NonNullable<Wear['asAt']>, latest: HistoryVisit | null): string {
  const read = latest?.odometer;
  const odometer = read
    ? `${read.value.toLocaleString('en')} ${read.unit}${read.unit === 'km' ? '' : ` (${Math.round(odometerKm!).toLocaleString('en')} km)`}`
    : 'odometer not read';
  return `${date}, ${odometer}`;
}

const SEVERITIES: Record<Finding['severity'], string> = { stop: 'Stop', check: 'Check', note: 'Note' };

/** Something said of a place on an axle. */
type Said = Pick<Finding, 'side' | 'pad' | 'numbers'>;

/** What is said of several places in the same words is said once, with the places in front. */
function together<Item extends Said>(items: readonly Item[]): (Item & { places: string })[] {
  const bySaying = new Map<string, { item: Item; places: string[] }>();
  for (const item of items) {
    const { side, pad, numbers: _, ...said } = item;
    const saying = JSON.stringify(said);
    const place = [side, pad].filter((part) => part !== null).join(' ');
    const known = bySaying.get(saying) ?? { item, places: [] };
    bySaying.set(saying, { item, places: place ? [...known.places, place] : known.places });
  }
  return [...bySaying.values()].map(({ item, places }) => ({ ...item, places: places.join(', ') }));
}

/** What nobody should miss, before anything else. */
function overview({ wear }: Sheet): string {
  const due = wear.axles.map((axle) => `${axleInWords(axle.axle)}: ${dueInWords(axle)}`);
  const stops = wear.axles.flatMap(({ axle, findings }) =>
    together(findings.filter(({ severity }) => severity === 'stop')).map(
      ({ places, message, check }) => `Stop, ${axle} ${places}: ${message} ${check}`,
    ),
  );
  return html`<section class="strong" aria-label="In short">!${list([...due, ...stops])}</section>`;
}

function dueInWords({ replacement }: AxleWear): string {
  const { date, overdue, limitMm, governingPad, untilNextVisit, reasons } = replacement;
  if (!date?.early)
    return `no date can be told: ${reasons.map(({ detail }) => detail).join('; ') || NOT_KNOWN}.`;
  const { median, late } = date;
  const chance = untilNextVisit.chanceLimitReached;
  const until =
    chance === null ? '' : ` Chance of that by the next visit on ${untilNextVisit.date}: ${percent(chance)}.`;
  const which = `${governingPad!.side} ${governingPad!.pad}`;
  return `${overdue ? `overdue. ${capital(which)}` : which} reaches its limit of ${mm(limitMm)} between ${date.early} (early) and ${late ?? 'more than 30 years ahead'} (late), median ${median ?? 'more than 30 years ahead'}.${until}`;
}

export function percent(chance: number): string {
  if (chance > 0 && chance < 0.001) return 'under 0.1 %';
  return chance > 0.999 ? 'over 99.9 %' : `${inWords(chance * 100, chance < 0.1 || chance > 0.99 ? 1 : 0)} %`;
}

function openPoints({ openPoints: items, latest }: Sheet): string {
  if (!latest) return '';
  const axles = [...new Set(items.map(({ axle }) => axle))];
  const words = axles.flatMap((axle) =>
    together(items.filter((item) => item.axle === axle)).map(({ places, message }) => {
      const where = [axle && axleInWords(axle), places].filter(Boolean).join(', ');
      return where ? `${where}: ${message}` : message;
    }),
  );
  return html`<section aria-labelledby="open-points">
    <h2 id="open-points">Open points of the visit on ${latest.date}</h2>
    !${items.length === 0 ? '<p>Nothing is left open in the records of that visit. That says nothing of the vehicle.</p>' : list(words)}
  </section>`;
}

function axleSection(axle: AxleWear, { pictures }: Sheet): string {
  const id = `axle-${axle.axle}`;
  const name = axleInWords(axle.axle);
  const { basis } = axle.replacement;
  return html`<section aria-labelledby="${id}">
    <h2 id="${id}">${name} brakes</h2>
    <p class="quiet">Rests on: ${basis.words}</p>
    !${findings(axle)} !${liningTable(axle)}
    !${axle.rotors.length > 0 ? rotorTable(axle.rotors) : drumTable(axle.drums)} !${missing(axle)}
    <figure>!${scrolling(`Picture of the ${axle.axle} brakes`, pictures.get(axle.axle)!)}</figure>
  </section>`;
}

function findings({ findings: found }: AxleWear): string {
  if (found.length === 0) return '<p>No findings.</p>';
  const words = together(found).map(
    ({ severity, places, message, check }) =>
      html`<li>
        <strong>${SEVERITIES[severity]}${places ? `, ${places}` : ''}:</strong> ${message} <em>${check}</em>
      </li>`,
  );
  return html`<h3>Findings</h3>
    <ul>
      !${words.join('\n')}
    </ul>`;
}

const governing = ({ limits }: PadWear) => limits.find(({ governs }) => governs);

function liningTable({ pads }: AxleWear): string {
  return dataTable<PadWear>(
    'Linings: friction material. In brackets, where 8 of 10 should lie.',
    [
      { head: 'Position', cell: ({ side, pad }) => capital(`${side} ${pad}`) },
      {
        head: 'Latest reading',
        cell: ({ latest }) => (latest ? `${mm(latest.valueMm)} on ${latest.date}` : 'not measured'),
      },
      { head: 'Above limit', cell: ({ remainingMm }) => range(remainingMm) },
      { head: 'Wear per 1000 km', cell: ({ ratePer1000KmMm }) => range(ratePer1000KmMm, 3) },
      {
        head: 'Limit',
        cell: (pad) => {
          const limit = governing(pad);
          return limit ? `${mm(limit.limitMm)}, ${sourceInWords(limit.source)}` : NOT_KNOWN;
        },
      },
      { head: 'Reading against limit', cell: (pad) => conformity(governing(pad)?.conformity ?? null) },
    ],
    pads,
  );
}

const CONFORMITY = {
  conforms: 'conforms',
  inconclusive: 'too close to tell with this gauge',
  'does-not-conform': 'does not conform',
} as const;
const conformity = (value: keyof typeof CONFORMITY | null): string =>
  value === null ? NOT_KNOWN : CONFORMITY[value];

const decision = ({ decision: word, decisionReasons }: RotorWear | DrumWear): string =>
  `${capital(word)}: ${decisionReasons.map(({ detail }) => detail).join('; ')}`;

function rotorTable(rotors: readonly RotorWear[]): string {
  return dataTable<RotorWear>(
    'Rotors: the thinnest point counts. In brackets, where 8 of 10 should lie.',
    [
      { head: 'Side', cell: ({ side }) => capital(side) },
      {
        head: 'Thinnest',
        cell: ({ thinnestMm, latestDate }) => `${mm(thinnestMm)}${latestDate ? ` on ${latestDate}` : ''}`,
      },
      { head: 'Discard', cell: ({ discardMm }) => mm(discardMm) },
      { head: 'Machine to', cell: ({ machineToMm }) => mm(machineToMm) },
      { head: 'Margin', cell: ({ marginMm }) => mm(marginMm) },
      { head: 'Margin when pads are used up', cell: ({ marginAtPadReplacementMm: left }) => range(left) },
      { head: 'Variation', cell: ({ variationMm }) => mm(variationMm) },
      { head: 'Run-out', cell: ({ runoutMm }) => mm(runoutMm) },
      { head: 'Decision', cell: decision },
    ],
    rotors,
  );
}

function drumTable(drums: readonly DrumWear[]): string {
  return dataTable<DrumWear>(
    'Drums: the largest diameter counts. In brackets, where 8 of 10 should lie.',
    [
      { head: 'Side', cell: ({ side }) => capital(side) },
      {
        head: 'Largest',
        cell: ({ largestMm, latestDate }) => `${mm(largestMm)}${latestDate ? ` on ${latestDate}` : ''}`,
      },
      { head: 'Maximum', cell: ({ maximumMm }) => mm(maximumMm) },
      { head: 'Machine to', cell: ({ machineToMm }) => mm(machineToMm) },
      { head: 'Margin', cell: ({ marginMm }) => mm(marginMm) },
      { head: 'Margin when shoes are used up', cell: ({ marginAtShoeReplacementMm: left }) => range(left) },
      { head: 'Out of round', cell: ({ outOfRoundMm }) => mm(outOfRoundMm) },
      { head: 'Decision', cell: decision },
    ],
    drums,
  );
}

/** Why what is not known is not, each reason once. */
function missing({ pads, rotors, drums, replacement }: AxleWear): string {
  const reasons: Reason[] = [
    ...replacement.reasons,
    ...[...pads, ...rotors, ...drums].flatMap((part) => part.reasons),
  ];
  const details = [...new Set(reasons.map(({ detail }) => detail))];
  if (details.length === 0) return '';
  return html`<h3>What is not known, and why</h3>
    !${list(details.map((detail) => `${capital(detail)}.`))}`;
}

/** The places of an axle in the order in which they are measured. */
const POSITIONS: Record<'disc' | 'drum', readonly LiningPosition[]> = {
  disc: ['inner', 'outer'],
  drum: ['leading', 'trailing'],
};
const ROTOR_POINTS = 4;

function byHand(vehicle: Vehicle): string {
  const axles = Object.entries(vehicle.axles) as [Axle, NonNullable<VehicleBody['axles'][Axle]>][];
  const of = (word: string): string[] => ['Left', 'Right'].map((side) => `${side} ${word}`.trim());
  return html`<section aria-labelledby="by-hand">
    <h2 id="by-hand">New readings, by hand</h2>
    <p class="quiet">
      Friction material only, at its thinnest, without backing plate. Left and right as seen facing forward.
      Write the unit where it is not mm.
    </p>
    !${handTable('Visit', ['Entry', 'Date', 'Odometer', 'Work order', 'Technician'], ['This visit'])}
    !${each(axles, ([axle, { brake, torque }]) => {
      const name = axleInWords(axle);
      const drum = brake === 'drum';
      const linings = ['Left', 'Right'].flatMap((side) =>
        POSITIONS[drum ? 'drum' : 'disc'].map((pad) => `${side} ${pad}`),
      );
      const points = Array.from({ length: ROTOR_POINTS }, (_, index) => `Point ${index + 1}`);
      const fasteners = Object.entries(torque ?? {});
      return html`<h3>${name}</h3>
        !${handTable(`${name} ${drum ? 'shoes' : 'pads'}, mm`, ['Position', 'As found', 'As left', 'Gauge', 'Remarks'], linings)}
        !${drum ? handTable(`${name} drums: diameter, mm`, ['Side', ...points, 'Gauge'], of('')) : handTable(`${name} rotors: thickness, mm`, ['Side', ...points, 'Run-out'], of(''))}
        !${handTable(`${name}: torque reached`, ['Fastener', 'Left, each position', 'Right, each position'], fasteners.length > 0 ? fasteners.map(([fastener, spec]) => torqueInWords(fastener, spec)) : ['Specification not known'])}`;
    })}
    !${handTable('Road test', ['Entry', 'Pulls', 'Pulsation', 'Noise', 'Remarks'], ['Found'])}
  </section>`;
}

type Torque = NonNullable<NonNullable<VehicleBody['axles'][Axle]>['torque']>[string];

function torqueInWords(fastener: string, { value, unit, tolerance }: Torque): string {
  const say = (unitName: string): string => (unitName === 'Nm' ? 'N·m' : unitName);
  const within = tolerance ? ` ± ${tolerance.value} ${say(tolerance.unit)}` : '';
  return `${fastener.replaceAll('-', ' ')}: ${value} ${say(unit)}${within}`;
}

function cautions({ cautions: items }: Wear): string {
  return html`<section aria-labelledby="cautions">
    <h2 id="cautions">Cautions</h2>
    <ul>
      !${each(items, ({ message, source }) => html`<li>${message} <span class="source">(${source})</span></li>`)}
    </ul>
    <p>${DISCLAIMER} The maker’s instructions, local law and licensed practice come first.</p>
  </section>`;
}
