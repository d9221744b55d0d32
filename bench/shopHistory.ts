import { streams, type Chance } from '../seed/random.js';
import { toFullDate } from '../src/core/calendar.js';
import { gaugeFor } from '../src/core/gauges.js';
import type { History, HistoryVisit } from '../src/core/history.js';
import type { VehicleBody } from '../src/core/vocabulary/vehicle.js';
import {
  live,
  LIMIT_MM,
  modelRates,
  padsOf,
  POSITIONS,
  SWAPPED_VISITS,
  thicknessOn,
  THICKER_MM,
  WHOLE_SHOP,
  type Oddity,
  type PadSet,
  type ShopLife,
  type ShopRates,
  type Stop,
} from './shopLife.js';

/** How the shop measures and records; shares unless stated otherwise. */
export interface RecordRates {
  /** Of used vehicles: whose entry into service is known, and of these, whose odometer at entry is known too. */
  inServiceKnown: number;
  inServiceOdometerKnown: number;
  /** Standard deviations, mm: of where the gauge is put, and of the error that the readings of a visit share. */
  placement: number;
  visitError: number;
  /** Visits at which the finer of the two gauges is used. */
  fineGauge: number;
  /** Share of readings that are gross misreadings, from zero to this, mm. */
  misread: number;
  misreadToMm: number;
  odometerUnread: number;
  odometerMistyped: number;
  /** Pads not measured; visits at which only the outer pads are; visits at which none is. */
  padUnmeasured: number;
  onlyOuter: number;
  nothingMeasured: number;
  /** Recorded replacements whose new thickness is noted, and after which the new pads are measured. */
  newNoted: number;
  leftMeasured: number;
}

export const WHOLE_RECORD: RecordRates = {
  inServiceKnown: 0.7,
  inServiceOdometerKnown: 0.85,
  placement: 0.2,
  visitError: 0.12,
  fineGauge: 0.35,
  misread: 0.01,
  misreadToMm: 14,
  odometerUnread: 0.04,
  odometerMistyped: 0.004,
  padUnmeasured: 0.08,
  onlyOuter: 0.08,
  nothingMeasured: 0.02,
  newNoted: 0.4,
  leftMeasured: 0.25,
};

export const COARSE_GAUGE = 'pad-gauge';
export const FINE_GAUGE = 'depth-gauge';
/** Entry into service of the youngest vehicles: 2012-01-01. */
const FIRST_DAY = 15_340;

/** The truth at a visit, for scoring alone. */
export interface StopTruth {
  /** Days until the set fitted after the visit reaches its limit; null if it has, or if that is beyond the horizon. */
  daysLeft: number | null;
  set: 'recorded' | 'original' | 'unknown' | 'unrecorded';
  /** Replaced at this visit, and not recorded. */
  justForgotten: boolean;
  /** Days in the last half-year on which the vehicle did not move. */
  stoodDays: number;
  inSpell: boolean;
  routeChangedLately: boolean;
  /** Whether a pad drags, and how often that pad was measured since. */
  dragging: boolean;
  readingsSinceDrag: number;
  odometer: 'right' | 'unread' | 'mistyped' | 'mistyped-before';
  misreadNow: boolean;
  oddity: Oddity | null;
  swappedNow: boolean;
}

export interface ShopVehicle {
  /** The history as the shop recorded it. */
  history: History;
  /** The same truth with everything recorded and measured, and no wrong digits or readings. */
  clean: History;
  /** One for each visit of `history`. */
  truths: StopTruth[];
}

/** The same seed gives the same vehicles. */
export function simulateShop(
  vehicles: number,
  seed: number,
  rates: ShopRates = WHOLE_SHOP,
  record: RecordRates = WHOLE_RECORD,
): ShopVehicle[] {
  const [shop, ...chances] = streams(seed, 2 * vehicles + 1) as [Chance, ...Chance[]];
  const models = modelRates(shop, rates);
  return Array.from({ length: vehicles }, (_, index) => {
    const life = live(chances[2 * index]!, rates, models);
    return writeDown(chances[2 * index + 1]!, record, index, life);
  });
}

/** The measurement of one pad, drawn once for the shop's record and its clean twin. */
interface Look {
  missed: boolean;
  misreadMm: number | null;
  error: number;
}

interface Sheet {
  gauge: string;
  onlyOuter: boolean;
  nothing: boolean;
  found: Look[];
  left: Look[];
  leftMeasured: boolean;
  newNoted: boolean;
  unread: boolean;
  mistyped: number | null;
  /** The rear pads' thickness, if it is recorded as that of the front pads. */
  rearMm: number | null;
  /** Those of {@link POSITIONS} that exist. */
  pads: number;
  onlyFirst: boolean;
}

function drawSheet(chance: Chance, rates: RecordRates, life: ShopLife, day: number, km: number): Sheet {
  const { oddity } = life;
  const visitError = chance.normal(0, rates.visitError);
  const look = (): Look => {
    const misread = chance.happens(rates.misread);
    const anywhere = chance.between(0, rates.misreadToMm);
    return {
      missed: chance.happens(rates.padUnmeasured),
      misreadMm: misread ? anywhere : null,
      error: visitError + chance.normal(0, rates.placement),
    };
  };
  const wrong = mistype(chance, km);
  return {
    gauge: chance.happens(rates.fineGauge) ? FINE_GAUGE : COARSE_GAUGE,
    onlyOuter: chance.happens(rates.onlyOuter),
    nothing: chance.happens(rates.nothingMeasured),
    found: POSITIONS.map(look),
    left: POSITIONS.map(look),
    leftMeasured: chance.happens(rates.leftMeasured),
    newNoted: chance.happens(rates.newNoted),
    unread: chance.happens(rates.odometerUnread),
    mistyped: chance.happens(rates.odometerMistyped) ? wrong : null,
    rearMm: oddity === 'swapped-axles' && chance.happens(1 / SWAPPED_VISITS) ? life.rearMm(day) : null,
    pads: padsOf(oddity),
    onlyFirst: oddity === 'one-pad-read',
  };
}

/** A number with one digit wrong, two swapped, one missing or one doubled. */
function mistype(chance: Chance, km: number): number {
  const digits = [...String(km)];
  const at = chance.whole(0, digits.length - 1);
  const other = (Number(digits[at]) + chance.whole(1, 9)) % 10;
  const slips = [
    () => digits.splice(at, 1, String(other)),
    () => digits.splice(Math.max(0, at - 1), 2, digits[at]!, digits[Math.max(0, at - 1)]!),
    () => digits.splice(at, 1),
    () => digits.splice(at, 0, digits[at]!),
  ];
  slips[chance.whole(0, slips.length - 1)]!();
  return Number(digits.join(''));
}

function writeDown(chance: Chance, rates: RecordRates, index: number, life: ShopLife): ShopVehicle {
  const { road, stops, sets, isUsed } = life;
  const firstDay = FIRST_DAY + chance.whole(0, 700);
  const startKm = chance.whole(5, 40);
  const kmOn = (day: number) => startKm + Math.floor(road.distance[day]! * 1000);
  const inServiceKnown = !isUsed || chance.happens(rates.inServiceKnown);
  const odometerKnown = !isUsed || chance.happens(rates.inServiceOdometerKnown);
  const sheets = stops.map(({ day }) => drawSheet(chance, rates, life, day, kmOn(day)));
  const date = (day: number) => toFullDate(firstDay + day);
  const vehicle = describe(life, index, { date: date(0), odometer: { value: startKm, unit: 'km' } });
  const { odometer: _, ...dateAlone } = vehicle.inService!;
  const inService = odometerKnown ? vehicle.inService : dateAlone;
  const visits = stops.map((stop, position) => ({
    ...emptyVisit(`${index}-${position}`, date(stop.day), position),
    odometer: odometerOf(sheets[position]!, kmOn(stop.day)),
    ...findings(life, stop, sheets[position]!, false),
  }));
  const cleanStops = stops.map((stop, position) => ({
    ...emptyVisit(`${index}-${position}`, date(stop.day), 1000 + position),
    odometer: kilometres(kmOn(stop.day)),
    ...findings(life, stop, sheets[position]!, true),
  }));
  const elsewhere = sets.flatMap(({ fitting, fromDay }, set) =>
    fitting === 'before' || fitting === 'elsewhere'
      ? [
          {
            ...emptyVisit(`${index}-set-${set}`, date(fromDay), set),
            odometer: kilometres(kmOn(fromDay)),
            work: [replacementOf(life, true)],
          },
        ]
      : [],
  );
  return {
    history: { vehicle: { ...vehicle, inService: inServiceKnown ? inService : undefined }, visits },
    clean: {
      vehicle: describe({ ...life, oddity: null }, index, vehicle.inService!),
      visits: [...elsewhere, ...cleanStops].sort((a, b) => (a.date < b.date ? -1 : Number(a.date > b.date))),
    },
    truths: stops.map((_, position) => truthOf(life, sheets, position)),
  };
}

function describe(
  { model, newMm, oddity }: ShopLife,
  index: number,
  inService: NonNullable<VehicleBody['inService']>,
): VehicleBody {
  return {
    externalId: `whole-shop-${index}`,
    model: `model ${model + 1}`,
    powertrain: 'combustion',
    brakeSystem: { regenerative: false },
    inService,
    axles: {
      front: {
        brake: 'disc',
        steered: true,
        pad: {
          new: { value: oddity === 'thicker-than-specified' ? newMm - THICKER_MM : newMm, unit: 'mm' },
          limit: { value: 2, unit: 'mm' },
          wearIndicator: { value: LIMIT_MM, unit: 'mm' },
        },
      },
    },
  };
}

const emptyVisit = (id: string, date: string, arrival: number): HistoryVisit => ({
  id,
  date,
  arrival,
  odometer: null,
  readings: [],
  conditions: [],
  work: [],
  notMeasured: [],
  torques: [],
});

const kilometres = (km: number) => ({ value: km, unit: 'km' as const, km });

function odometerOf({ unread, mistyped }: Sheet, km: number): HistoryVisit['odometer'] {
  return unread ? null : kilometres(mistyped ?? km);
}

/** What a visit's record says about the pads. */
function findings(
  life: ShopLife,
  stop: Stop,
  sheet: Sheet,
  everything: boolean,
): Pick<HistoryVisit, 'readings' | 'work'> {
  const { sets } = life;
  const readings = readSet(sets[stop.found]!, stop.day, sheet, 'as-found', everything);
  const replaced = stop.left === stop.found ? null : sets[stop.left]!;
  if (!replaced || (replaced.fitting === 'forgotten' && !everything)) return { readings, work: [] };
  const left = sheet.leftMeasured ? readSet(replaced, stop.day, sheet, 'as-left', everything) : [];
  return { readings: [...readings, ...left], work: [replacementOf(life, sheet.newNoted)] };
}

const replacementOf = ({ newMm }: ShopLife, newNoted: boolean): HistoryVisit['work'][number] => ({
  id: 'w',
  kind: 'pads-replaced',
  axle: 'front',
  ...(newNoted && { new: { value: newMm, unit: 'mm' as const, mm: newMm } }),
});

function readSet(
  set: PadSet,
  day: number,
  sheet: Sheet,
  taken: 'as-found' | 'as-left',
  everything: boolean,
): HistoryVisit['readings'] {
  const { gauge } = sheet;
  const step = gaugeFor(gauge, 'pad-thickness').resolutionMm;
  return thicknessOn(set, day).flatMap((trueMm, pad) => {
    const look = (taken === 'as-found' ? sheet.found : sheet.left)[pad]!;
    if (pad >= sheet.pads || (!everything && !isMeasured(sheet, look, pad))) return [];
    const seenMm = everything || taken === 'as-left' ? trueMm : (sheet.rearMm ?? trueMm);
    const near = Math.max(0, seenMm + look.error);
    const mm = Number((Math.round(((!everything && look.misreadMm) || near) / step) * step).toFixed(2));
    return [
      {
        ...POSITIONS[pad]!,
        id: `${taken} ${pad}`,
        kind: 'pad-thickness' as const,
        axle: 'front' as const,
        at: 'thinnest' as const,
        taken,
        repeat: 1,
        gauge,
        value: mm,
        unit: 'mm' as const,
        mm,
      },
    ];
  });
}

const isMeasured = ({ onlyOuter, nothing, onlyFirst }: Sheet, { missed }: Look, pad: number): boolean =>
  !missed && !nothing && !(onlyFirst && pad > 0) && !(onlyOuter && POSITIONS[pad]!.pad === 'inner');

const HALF_YEAR = 183;
const YEAR = 365;

function truthOf(life: ShopLife, sheets: readonly Sheet[], position: number): StopTruth {
  const { sets, stops, road } = life;
  const { day, found, left } = stops[position]!;
  const set = sets[left]!;
  const { limitDay, drag } = set;
  const isDragging = drag !== null && drag.day <= day && left === found;
  const since = (from: number) =>
    stops.filter(
      (stop, index) =>
        index <= position &&
        stop.found === left &&
        stop.day >= from &&
        isMeasured(sheets[index]!, sheets[index]!.found[drag!.pad]!, drag!.pad),
    ).length;
  const sheet = sheets[position]!;
  const wrongBefore = sheets.slice(0, position).some(({ mistyped, unread }) => mistyped !== null && !unread);
  return {
    daysLeft: limitDay === null || limitDay <= day ? null : limitDay - day,
    set: setKnownAs(life, left),
    justForgotten: left !== found && set.fitting === 'forgotten',
    stoodDays: road.standing
      .subarray(Math.max(0, day - HALF_YEAR), day)
      .reduce((sum, stood) => sum + stood, 0),
    inSpell: road.inSpell[day] === 1,
    routeChangedLately: road.routeDays.some((from) => from <= day && from > day - YEAR),
    dragging: isDragging,
    readingsSinceDrag: isDragging ? since(drag.day) : 0,
    odometer: sheet.unread
      ? 'unread'
      : sheet.mistyped !== null
        ? 'mistyped'
        : wrongBefore
          ? 'mistyped-before'
          : 'right',
    oddity: life.oddity,
    swappedNow: sheet.rearMm !== null,
    misreadNow: sheet.found.some((look, pad) => look.misreadMm !== null && isMeasured(sheet, look, pad)),
  };
}

function setKnownAs({ sets, stops, isUsed }: ShopLife, index: number): StopTruth['set'] {
  const { fitting } = sets[index]!;
  if (isUsed && index === stops[0]!.found) return 'unknown';
  if (fitting === 'recorded' || fitting === 'original') return fitting;
  return 'unrecorded';
}
