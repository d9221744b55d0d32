import type { History } from '../core/history.js';
import { isDrumBrake } from '../core/lives.js';
import {
  AXLES,
  CONDITION_STATES,
  SIDES,
  type Axle,
  type LiningPosition,
  type ReadingKind,
  type Side,
  type Taken,
  type WorkKind,
} from '../core/vocabulary/terms.js';

/** The visit form of a vehicle: its fields and their names. `readVisit.ts` reads them and `fillVisit.ts` fills them. */

/** Readings that share a gauge and a unit. */
export type Group = 'linings' | 'rotors' | 'runout' | 'drums';

/** The field of one reading. */
export interface Slot {
  field: string;
  group: Group;
  kind: ReadingKind;
  /** Null for the thinnest lining of the axle. */
  side: Side | null;
  taken: Taken;
  /** The pad or shoe; null on rotors and drums. */
  lining: LiningPosition | null;
  point: number | null;
}

export interface WorkChoice {
  kind: WorkKind;
  /** The specification that the form asks for new parts; null if the work fits none. */
  fits: 'new' | null;
}

export interface AxleForm {
  axle: Axle;
  brake: 'disc' | 'drum';
  slots: readonly Slot[];
  work: readonly WorkChoice[];
  /** Parts whose state can be recorded, by the value of their option. */
  parts: readonly { value: string; words: string }[];
  fasteners: readonly string[];
}

export interface VisitForm {
  axles: readonly AxleForm[];
}

export const POINTS = [1, 2, 3, 4] as const;
export const CONDITION_ROWS = [1, 2, 3] as const;
export const TORQUE_POSITIONS = [1, 2] as const;
/** The form's reasons for leaving places empty. */
export const WHYS = ['wheel not removed', 'could not be reached', 'not asked for', 'no time'] as const;
export const ROAD_TEST_ANSWERS = ['no', 'yes'] as const;
/** The states in which a part may be found. */
export const FOUND_STATES = CONDITION_STATES;
/** Fasteners offered if the vehicle's specification names none. */
const USUAL_FASTENERS = ['wheel-bolt'];

const DISC_WORK: readonly WorkChoice[] = [
  { kind: 'pads-replaced', fits: 'new' },
  { kind: 'rotor-replaced', fits: 'new' },
  { kind: 'rotor-machined', fits: null },
  { kind: 'slides-serviced', fits: null },
  { kind: 'caliper-replaced', fits: null },
  { kind: 'hose-replaced', fits: null },
];
const DRUM_WORK: readonly WorkChoice[] = [
  { kind: 'shoes-replaced', fits: 'new' },
  { kind: 'drum-replaced', fits: 'new' },
  { kind: 'drum-machined', fits: null },
  { kind: 'hose-replaced', fits: null },
];

export function visitForm(history: History): VisitForm {
  const axles = AXLES.filter((axle) => history.vehicle.axles[axle]);
  return { axles: axles.map((axle) => axleForm(history, axle)) };
}

function axleForm(history: History, axle: Axle): AxleForm {
  const brake = isDrumBrake(history, axle) ? 'drum' : 'disc';
  const specified = Object.keys(history.vehicle.axles[axle]?.torque ?? {});
  return {
    axle,
    brake,
    slots: brake === 'disc' ? discSlots(axle) : drumSlots(axle),
    work: brake === 'disc' ? DISC_WORK : DRUM_WORK,
    parts: partsOf(brake),
    fasteners: specified.length > 0 ? specified : USUAL_FASTENERS,
  };
}

const TAKEN_NAMES = { 'as-found': 'found', 'as-left': 'left' } as const;

function discSlots(axle: Axle): Slot[] {
  return (['as-found', 'as-left'] as const).flatMap((taken) => [
    ...liningSlots(axle, taken, 'pad-thickness', ['inner', 'outer']),
    ...pointSlots(axle, taken, 'rotors', 'rotor-thickness'),
    ...SIDES.map((side): Slot => ({
      field: `${axle}.runout.${TAKEN_NAMES[taken]}.${side}`,
      group: 'runout',
      kind: 'rotor-runout',
      side,
      taken,
      lining: null,
      point: null,
    })),
  ]);
}

function drumSlots(axle: Axle): Slot[] {
  return (['as-found', 'as-left'] as const).flatMap((taken) => [
    ...liningSlots(axle, taken, 'shoe-thickness', ['leading', 'trailing']),
    ...pointSlots(axle, taken, 'drums', 'drum-diameter'),
  ]);
}

function liningSlots(
  axle: Axle,
  taken: Taken,
  kind: ReadingKind,
  positions: readonly LiningPosition[],
): Slot[] {
  const slot = (side: Side | null, lining: LiningPosition): Slot => ({
    field: `${axle}.linings.${TAKEN_NAMES[taken]}.${side ?? 'axle'}.${lining}`,
    group: 'linings',
    kind,
    side,
    taken,
    lining,
    point: null,
  });
  return [...SIDES.flatMap((side) => positions.map((lining) => slot(side, lining))), slot(null, 'thinnest')];
}

function pointSlots(axle: Axle, taken: Taken, group: 'rotors' | 'drums', kind: ReadingKind): Slot[] {
  return SIDES.flatMap((side) =>
    POINTS.map((point): Slot => ({
      field: `${axle}.${group}.${TAKEN_NAMES[taken]}.${side}.${point}`,
      group,
      kind,
      side,
      taken,
      lining: null,
      point,
    })),
  );
}

function partsOf(brake: 'disc' | 'drum'): { value: string; words: string }[] {
  const of = (part: string, linings: readonly (LiningPosition | '')[]) =>
    SIDES.flatMap((side) =>
      linings.map((lining) => ({
        value: [part, side, lining].join(' ').trim(),
        words: [side, lining, part].filter(Boolean).join(' '),
      })),
    );
  return brake === 'disc'
    ? [
        ...of('slide', ['']),
        ...of('caliper', ['']),
        ...of('pad', ['inner', 'outer']),
        ...of('rotor', ['']),
        ...of('hose', ['']),
      ]
    : [...of('shoe', ['leading', 'trailing']), ...of('drum', ['']), ...of('hose', [''])];
}

export const groupField = (axle: Axle, group: Group, what: 'gauge' | 'unit'): string =>
  `${axle}.${group}.${what}`;

export const workField = (axle: Axle, kind: WorkKind): string => `${axle}.work.${kind}`;

export const torqueField = (axle: Axle, fastener: number, side: Side, position: number): string =>
  `${axle}.torque.${fastener}.${side}.${position}`;
