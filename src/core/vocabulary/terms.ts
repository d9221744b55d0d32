/** The service's terms, in one place: the HTTP schemas, the database checks and the core all use these lists. */

export const AXLES = [
  'front',
  'rear',
  'axle-1',
  'axle-2',
  'axle-3',
  'axle-4',
  'axle-5',
  'axle-6',
  'axle-7',
  'axle-8',
  'axle-9',
] as const;
export type Axle = (typeof AXLES)[number];

/** As seen facing forward. */
export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export const PADS = ['inner', 'outer'] as const;
export type Pad = (typeof PADS)[number];

/** How a reading names a pad. `thinnest` is the thinner pad of a wheel or, without a side, the thinnest of the axle. */
export const MEASURED_PADS = [...PADS, 'thinnest'] as const;

/** The shoes of a drum brake; `thinnest` as with pads. */
export const SHOES = ['leading', 'trailing', 'thinnest'] as const;
export type Shoe = (typeof SHOES)[number];

/** The position of a lining: a pad of a disc brake or a shoe of a drum brake. */
export const LINING_POSITIONS = [...PADS, ...SHOES] as const;
export type LiningPosition = (typeof LINING_POSITIONS)[number];

/** The names of an axle's linings, in the plural and the singular. */
export const LINING_NAMES = ['pads', 'shoes'] as const;
export type LiningNames = (typeof LINING_NAMES)[number];
export type LiningName = 'pad' | 'shoe';

/** Where along the pad the gauge was placed; `trailing` is the end the disc leaves last. */
export const PLACES = ['thinnest', 'leading', 'centre', 'trailing'] as const;
export type Place = (typeof PLACES)[number];

/** `as-found`: the parts that came in. `as-left`: the parts that went out. */
export const TAKEN = ['as-found', 'as-left'] as const;
export type Taken = (typeof TAKEN)[number];

export const READING_KINDS = [
  'pad-thickness',
  'rotor-thickness',
  'rotor-runout',
  'shoe-thickness',
  'drum-diameter',
] as const;
export type ReadingKind = (typeof READING_KINDS)[number];

/** The lists that a visit or a later entry may contain. */
export const VISIT_PARTS = ['readings', 'notMeasured', 'conditions', 'work', 'torques'] as const;
export type VisitPart = (typeof VISIT_PARTS)[number];

export const WORK_KINDS = [
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
  'slides-serviced',
  'caliper-replaced',
  'fluid-changed',
  'hose-replaced',
] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

/** Spare parts as ordered for an axle: linings by the set, rotors and drums by the pair. */
export const SPARES = ['pad-set', 'rotor-pair', 'shoe-set', 'drum-pair'] as const;
export type Spare = (typeof SPARES)[number];

export const CONDITION_PARTS = ['rotor', 'pad', 'caliper', 'hose', 'slide', 'drum', 'shoe'] as const;
export const CONDITION_STATES = [
  'cracked',
  'scored',
  'heat-spotted',
  'corroded',
  'contaminated',
  'loose',
  'glazed',
  'seized',
  'leaking',
  'ok',
] as const;

export const POWERTRAINS = ['combustion', 'hybrid', 'battery-electric', 'fuel-cell', 'none'] as const;
export type Powertrain = (typeof POWERTRAINS)[number];

export const BRAKES = ['disc', 'drum'] as const;
export const ACTUATIONS = ['hydraulic', 'air', 'electric', 'mechanical'] as const;
export type Actuation = (typeof ACTUATIONS)[number];
export const LININGS = ['bonded', 'riveted', 'bolted'] as const;
export type Lining = (typeof LININGS)[number];
export const WEAR_INDICATOR_TYPES = ['mechanical', 'electric', 'mark'] as const;
export const PULLS = ['none', 'left', 'right'] as const;

export const LENGTH_UNITS = ['mm', 'in', 'in/32'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];
export const DISTANCE_UNITS = ['km', 'mi'] as const;
export type DistanceUnit = (typeof DISTANCE_UNITS)[number];
export const TORQUE_UNITS = ['Nm', 'ft-lbf'] as const;
export type TorqueUnit = (typeof TORQUE_UNITS)[number];
export const MASS_UNITS = ['kg', 'lb'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

export const LIMIT_SOURCES = ['maker', 'law', 'shop', 'wear-indicator'] as const;
export type LimitSource = (typeof LIMIT_SOURCES)[number];
export const FAILS_AT = ['at-or-below', 'below'] as const;
export type FailsAt = (typeof FAILS_AT)[number];
/** The part that an inspection rule covers; `shoe` means the shoe's lining. */
export const RULE_PARTS = ['pad', 'shoe', 'rotor', 'drum', 'parking-brake-lining'] as const;
export type RulePart = (typeof RULE_PARTS)[number];
/** The criterion of a rule: its own figure, the part's wear indicator, the figure marked on the part, the inspector. */
export const DECIDED_BY = ['figure', 'wear-indicator', 'marked-figure', 'judgement'] as const;
/** Facts that a rule may depend on and that may be unknown for an axle. */
export const RULE_FACTS = [
  'brake',
  'actuation',
  'lining',
  'steered',
  'trailer',
  'shoe-lining',
  'wear-indicator-type',
] as const;
export type RuleFact = (typeof RULE_FACTS)[number];
export const APPLIES = ['applies', 'could-apply', 'does-not-apply'] as const;
export type Applies = (typeof APPLIES)[number];
export const CONFORMITIES = ['conforms', 'inconclusive', 'does-not-conform'] as const;
export type Conformity = (typeof CONFORMITIES)[number];
export const ROTOR_DECISIONS = ['keep', 'machine', 'replace', 'measure'] as const;
/** What is known about the origin of the fitted linings. */
export const PAD_SETS = ['recorded', 'original', 'unknown', 'perhaps-replaced'] as const;
export type PadSet = (typeof PAD_SETS)[number];
/** The next step on an axle. */
export const ADVICE_ACTIONS = [
  'stop',
  'fit-now',
  'first-chance',
  'fit-before',
  'machine',
  'measure',
  'nothing-yet',
] as const;
export type AdviceAction = (typeof ADVICE_ACTIONS)[number];
/** What is due first on an axle; `pads` means its linings, pads or shoes. */
export const DUE_PARTS = ['pads', 'rotors', 'drums'] as const;
export type DuePart = (typeof DUE_PARTS)[number];
export const ADVICE_PARTS = [...DUE_PARTS, 'calipers', 'slides', 'hoses'] as const;
export type AdvicePart = (typeof ADVICE_PARTS)[number];
/** How soon to follow the advice: at once, before the next visit, later, or unknown until a measurement. */
export const URGENCIES = ['now', 'soon', 'later', 'unknown'] as const;
export type Urgency = (typeof URGENCIES)[number];
export const SEVERITIES = ['note', 'check', 'stop'] as const;
export type Severity = (typeof SEVERITIES)[number];
export const NEXT_VISIT_SOURCES = ['until', 'rhythm', 'policy'] as const;
/** Where the visits of a replacement plan come from. */
export const PLAN_VISIT_SOURCES = ['dates', 'rhythm', 'policy'] as const;
/**
 * How the visit is selected: the lowest expected cost, or the last one with an acceptable chance of coming too late.
 */
export const PLAN_RULES = ['least-expected-cost', 'greatest-chance'] as const;

/** How much was known when a forecast was made: the number of readings of the pads then fitted. */
export const STAGES = ['0', '1–4', '5–8', '9–16', '17+'] as const;
export type Stage = (typeof STAGES)[number];
/** How the end of a pad set is known: between two readings, or extrapolated after an early replacement. */
export const ENDS_KNOWN = ['interpolated', 'extrapolated'] as const;
export type EndKnown = (typeof ENDS_KNOWN)[number];

export const GAUGE_KINDS = [
  'pad-gauge',
  'depth-gauge',
  'caliper',
  'micrometer',
  'dial-indicator',
  'drum-gauge',
  'visual',
  'assumed',
] as const;

/** What the due-soon report may be grouped by; a depot is a fleet. */
export const GROUPINGS = ['fleet', 'model'] as const;
export type GroupBy = (typeof GROUPINGS)[number];

export const ROLES = ['front-desk', 'technician', 'fleet-manager', 'owner'] as const;
export type Role = (typeof ROLES)[number];

/** What created a version of a visit or a vehicle. */
export const VISIT_EVENTS = [
  'recorded',
  'entries-added',
  'corrected',
  'voided',
  'restored',
  'moved',
] as const;
export type VisitEvent = (typeof VISIT_EVENTS)[number];
export const VEHICLE_EVENTS = ['recorded', 'changed', 'merged', 'merged-into'] as const;
export type VehicleEvent = (typeof VEHICLE_EVENTS)[number];

export const IMPORT_KINDS = ['visits', 'vehicles'] as const;
export type ImportKind = (typeof IMPORT_KINDS)[number];
export const IMPORT_STATES = [
  'receiving',
  'checking',
  'forecasting',
  'writing',
  'done',
  'refused',
  'failed',
] as const;
export type ImportState = (typeof IMPORT_STATES)[number];

/** Webhook event types, separated by full stops as in the Standard Webhooks scheme. */
export const NEWS_TYPES = ['axle.due', 'limit.passed', 'reading.off_forecast'] as const;
export type NewsType = (typeof NEWS_TYPES)[number];
export const EVENT_TYPES = [...NEWS_TYPES, 'webhook.test'] as const;
export type EventType = (typeof EVENT_TYPES)[number];
export const DELIVERY_STATES = ['pending', 'delivered', 'given-up'] as const;
export type DeliveryState = (typeof DELIVERY_STATES)[number];
