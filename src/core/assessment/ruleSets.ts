import type { Actuation, DECIDED_BY, FailsAt, Lining, RulePart } from '../vocabulary/terms.js';

/**
 * Published inspection limits, as data. Contains only figures that were read in the source named. The official edition
 * is authoritative; local law and licensed practice decide what a figure means for a vehicle. A shop's owner selects
 * the sets that apply there.
 */

/** What an axle must be for a rule to apply; a missing member does not restrict the rule. */
export interface RuleScope {
  parts: readonly RulePart[];
  actuations?: readonly Actuation[];
  linings?: readonly Lining[];
  steered?: boolean;
  /** Restricts the rule to trailers, or to motor vehicles. */
  trailer?: boolean;
  /** Applies to every axle of a trailer, steered or not. */
  orTrailer?: true;
  /** How a shoe's lining is divided, which vehicle records do not say. */
  shoeLining?: 'one strip' | 'two pads';
}

export interface Rule {
  /** Stable identifier. */
  id: string;
  section: string;
  scope: RuleScope;
  /** What the rule says, in this service's own words. */
  clause: string;
  decidedBy: readonly (typeof DECIDED_BY)[number][];
  /** The figure as printed; null if none is printed. */
  printed: string | null;
  /** The figure, mm; null if none is printed. */
  limitMm: number | null;
  /** Whether a reading at the limit fails: 'or less' and 'worn to' do, 'less than' and 'at least' do not. */
  failsAt: FailsAt | null;
  /** The class of the defect, if the source has classes. */
  result: string | null;
  /** States that are this defect whatever the part's thickness, each with its class if the source has classes. */
  states?: Readonly<Partial<Record<DefectState, string | null>>>;
}

/** Conditions that a rule calls a defect, other than lining thickness. */
export type DefectState = 'cracked' | 'loose' | 'contaminated' | 'beyond-marked-figure';

/** Gross mass from which a set applies. */
export interface MinMass {
  kg: number;
  /** Whether a vehicle of exactly this mass is included. */
  itself: boolean;
  printed: string;
  /** Whether the mass of the combination counts, so that a lighter trailer may still be included. */
  ofCombination: boolean;
}

export interface RuleSet {
  /** Stable; the policy refers to the set by it. */
  id: string;
  /** Short name, printed before a section number. */
  name: string;
  title: string;
  jurisdiction: string;
  appliesTo: string;
  minMass: MinMass | null;
  /** Gross mass above which a set does not apply. */
  maxMass?: { kg: number; printed: string; otherwise: string };
  /** Gross mass up to which trailers are excluded. */
  trailersAbove?: { kg: number; printed: string };
  motorVehiclesOnly: boolean;
  /** Which of the printed units the figures come from. */
  figures: string;
  edition: string | null;
  /** Month in which the text was read. */
  read: string;
  /** Parts of the source that could not be opened and compared; null if all of it was. */
  notOpened: string | null;
  link: string;
  rules: readonly Rule[];
}

const READ = '2026-11';

const AIR = ['air'] as const;
const HYDRAULIC_OR_ELECTRIC = ['hydraulic', 'electric'] as const;
const FASTENED = ['riveted', 'bolted'] as const;
const FRICTION = ['pad', 'shoe'] as const;
const PAD = ['pad'] as const;
const SHOE = ['shoe'] as const;

type Draft = Pick<Rule, 'id' | 'section' | 'scope' | 'clause'>;

const withFigure = (rule: Draft & { printed: string; limitMm: number; failsAt: FailsAt }): Rule => ({
  decidedBy: ['figure'],
  result: null,
  ...rule,
});

const withFigureOrIndicator = (rule: Draft & { printed: string; limitMm: number }): Rule => ({
  ...withFigure({ ...rule, failsAt: 'below' }),
  decidedBy: ['figure', 'wear-indicator'],
});

const withoutFigure = (
  rule: Draft & Pick<Rule, 'states'> & { result?: string },
  decidedBy: Exclude<Rule['decidedBy'][number], 'figure'>,
): Rule => ({
  printed: null,
  limitMm: null,
  failsAt: decidedBy === 'wear-indicator' ? 'at-or-below' : null,
  decidedBy: [decidedBy],
  result: null,
  ...rule,
});

/**
 * A gross mass rating or gross mass, alone or of the combination, of 4,536 kg (10,001 lb) or more: 49 CFR 390.5 (the
 * section and the combination from memory).
 */
const COMMERCIAL: MinMass = {
  kg: 4536,
  itself: true,
  printed: '4,536 kg (10,001 lb) or more',
  ofCombination: true,
};
/** 10,000 lb of 0.45359237 kg. */
const ABOVE_10000_LB: MinMass = {
  kg: 4535.9237,
  itself: false,
  printed: 'more than 10,000 lb',
  ofCombination: false,
};
const COMMERCIAL_WORDS =
  'commercial motor vehicles: by gross mass or, whatever their mass, by the passengers or dangerous goods that they carry, which this service does not record';

/** Paragraph (d)(1) covers the steering axles of trucks, truck-tractors and buses; a trailer has none of these. */
const MOTOR_STEERED = { steered: true, trailer: false } as const;
/** Paragraph (d)(2) covers every other axle, including trailer axles. */
const OTHER_AXLE = { steered: false, orTrailer: true } as const;

const CFR_393_47: RuleSet = {
  id: '49-cfr-393-47',
  name: '49 CFR 393.47',
  title: '49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors',
  jurisdiction: 'United States, federal',
  appliesTo: COMMERCIAL_WORDS,
  minMass: COMMERCIAL,
  motorVehiclesOnly: false,
  figures: 'the millimetres printed, each a little more than the inches printed beside it',
  edition: '70 FR 48008 of 15 August 2005, which wrote paragraph (d)',
  read: READ,
  notOpened:
    'the official site: the paragraph was read in a copy; that (d)(1) covers only trucks, tractors and buses was read in a second copy',
  link: 'https://www.ecfr.gov/current/title-49/section-393.47',
  rules: [
    withFigureOrIndicator({
      id: '49-cfr-393-47-d-1-air-drum-one-strip',
      section: '(d)(1)',
      scope: { ...MOTOR_STEERED, parts: SHOE, actuations: AIR, shoeLining: 'one strip' },
      clause:
        'steered axle of a truck, tractor or bus, air drum brake, one continuous strip of lining a shoe: not less than this at the shoe centre, nor worn to the wear indicator',
      printed: '4.8 mm (3/16 in)',
      limitMm: 4.8,
    }),
    withFigureOrIndicator({
      id: '49-cfr-393-47-d-1-air-drum-two-pads',
      section: '(d)(1)',
      scope: { ...MOTOR_STEERED, parts: SHOE, actuations: AIR, shoeLining: 'two pads' },
      clause:
        'steered axle of a truck, tractor or bus, air drum brake, two pads a shoe: not less than this at the shoe centre, nor worn to the wear indicator',
      printed: '6.4 mm (1/4 in)',
      limitMm: 6.4,
    }),
    withFigure({
      id: '49-cfr-393-47-d-1-air-disc',
      section: '(d)(1)',
      scope: { ...MOTOR_STEERED, parts: PAD, actuations: AIR },
      clause: 'steered axle of a truck, tractor or bus, air disc brake: not less than this',
      printed: '3.2 mm (1/8 in)',
      limitMm: 3.2,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-393-47-d-1-hydraulic',
      section: '(d)(1)',
      scope: { ...MOTOR_STEERED, parts: FRICTION, actuations: HYDRAULIC_OR_ELECTRIC },
      clause:
        'steered axle of a truck, tractor or bus, hydraulic disc or drum brake, or electric brake: more than this',
      printed: '1.6 mm (1/16 in) or less',
      limitMm: 1.6,
      failsAt: 'at-or-below',
    }),
    withFigureOrIndicator({
      id: '49-cfr-393-47-d-2-air-drum',
      section: '(d)(2)',
      scope: { ...OTHER_AXLE, parts: SHOE, actuations: AIR },
      clause:
        'axle not steered, or of a trailer, air drum brake: not less than this at the shoe centre, nor worn to the wear indicator if the lining is marked with one',
      printed: '6.4 mm (1/4 in)',
      limitMm: 6.4,
    }),
    withFigure({
      id: '49-cfr-393-47-d-2-air-disc',
      section: '(d)(2)',
      scope: { ...OTHER_AXLE, parts: PAD, actuations: AIR },
      clause: 'axle not steered, or of a trailer, air disc brake: not less than this',
      printed: '3.2 mm (1/8 in)',
      limitMm: 3.2,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-393-47-d-2-hydraulic',
      section: '(d)(2)',
      scope: { ...OTHER_AXLE, parts: FRICTION, actuations: HYDRAULIC_OR_ELECTRIC },
      clause:
        'axle not steered, or of a trailer, hydraulic or electric disc or drum brake: not less than this, on shoes at the shoe centre',
      printed: '1.6 mm (1/16 in)',
      limitMm: 1.6,
      failsAt: 'below',
    }),
  ],
};

/**
 * Two rows differ from 49 CFR 393.47: a steered air drum axle has 1/4 in however its linings are divided, and hydraulic
 * drums of an axle that is not steered fail at 1/16 in itself. There is no row for hydraulic discs on such an axle.
 */
const CFR_396_APPENDIX_A: RuleSet = {
  id: '49-cfr-396-appendix-a',
  name: '49 CFR part 396, appendix A',
  title: '49 CFR part 396, appendix A, Minimum Periodic Inspection Standards',
  jurisdiction: 'United States, federal',
  appliesTo: COMMERCIAL_WORDS,
  minMass: COMMERCIAL,
  motorVehiclesOnly: false,
  figures: 'the inches printed, converted exactly at 25.4 mm',
  edition: null,
  read: READ,
  notOpened:
    'the official site, which gives the date of the edition: the item was read in two copies that agree',
  link: 'https://www.ecfr.gov/current/title-49/subtitle-B/chapter-III/subchapter-B/part-396/appendix-Appendix%20A%20to%20Part%20396',
  rules: [
    withoutFigure(
      {
        id: '49-cfr-396-appendix-a-a',
        section: 'item 1.a(6)(a)',
        scope: { parts: FRICTION },
        clause: 'firmly attached to the shoe',
        states: { loose: null },
      },
      'judgement',
    ),
    withoutFigure(
      {
        id: '49-cfr-396-appendix-a-b',
        section: 'item 1.a(6)(b)',
        scope: { parts: FRICTION },
        clause: 'not saturated with oil, grease or brake fluid',
        states: { contaminated: null },
      },
      'judgement',
    ),
    withFigure({
      id: '49-cfr-396-appendix-a-c-air-drum',
      section: 'item 1.a(6)(c)',
      scope: { parts: SHOE, actuations: AIR, steered: false },
      clause: 'axle not steered, air drum brake: not less than this at the shoe centre',
      printed: '1/4 in',
      limitMm: 6.35,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-c-hydraulic-drum',
      section: 'item 1.a(6)(c)',
      scope: { parts: SHOE, actuations: HYDRAULIC_OR_ELECTRIC, steered: false },
      clause: 'axle not steered, hydraulic or electric drum brake: more than this at the shoe centre',
      printed: '1/16 in or less',
      limitMm: 1.5875,
      failsAt: 'at-or-below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-c-air-disc',
      section: 'item 1.a(6)(c)',
      scope: { parts: PAD, actuations: AIR, steered: false },
      clause: 'axle not steered, air disc brake: not less than this',
      printed: '1/8 in',
      limitMm: 3.175,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-d-drum',
      section: 'item 1.a(6)(d)',
      scope: { parts: SHOE, actuations: ['air', 'hydraulic', 'mechanical'], steered: true },
      clause:
        'steered axle, drum brake other than electric (the text names no actuation): not less than this at the shoe centre',
      printed: '1/4 in',
      limitMm: 6.35,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-d-air-disc',
      section: 'item 1.a(6)(d)',
      scope: { parts: PAD, actuations: AIR, steered: true },
      clause: 'steered axle, air disc brake: not less than this',
      printed: '1/8 in',
      limitMm: 3.175,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-d-hydraulic-disc',
      section: 'item 1.a(6)(d)',
      scope: { parts: PAD, actuations: HYDRAULIC_OR_ELECTRIC, steered: true },
      clause: 'steered axle, hydraulic disc or electric brake: more than this',
      printed: '1/16 in or less',
      limitMm: 1.5875,
      failsAt: 'at-or-below',
    }),
    withFigure({
      id: '49-cfr-396-appendix-a-d-electric-drum',
      section: 'item 1.a(6)(d)',
      scope: { parts: SHOE, actuations: ['electric'], steered: true },
      clause: 'steered axle, electric drum brake: more than this',
      printed: '1/16 in or less',
      limitMm: 1.5875,
      failsAt: 'at-or-below',
    }),
  ],
};

const CFR_570_59: RuleSet = {
  id: '49-cfr-570-59',
  name: '49 CFR 570.59',
  title: '49 CFR part 570, Vehicle in Use Inspection Standards, 570.59, Service brake system',
  jurisdiction:
    'United States; criteria for the programmes of the States, which are not binding by themselves',
  appliesTo: 'vehicles of a gross mass rating above 10,000 lb',
  minMass: ABOVE_10000_LB,
  motorVehiclesOnly: false,
  figures: 'the inches printed, converted exactly at 25.4 mm',
  edition: null,
  read: READ,
  notOpened: 'the official site, which gives the date of the edition: the section was read in a copy',
  link: 'https://www.ecfr.gov/current/title-49/section-570.59',
  rules: [
    withoutFigure(
      {
        id: '49-cfr-570-59-b-rotor',
        section: '(b)',
        scope: { parts: ['rotor'] },
        clause: 'not below the minimum safe thickness marked on the rotor or, if none is marked, the maker’s',
        states: { 'beyond-marked-figure': null },
      },
      'marked-figure',
    ),
    withoutFigure(
      {
        id: '49-cfr-570-59-b-drum',
        section: '(b)',
        scope: { parts: ['drum'] },
        clause: 'not above the maximum safe diameter marked on the drum or, if none is marked, the maker’s',
        states: { 'beyond-marked-figure': null },
      },
      'marked-figure',
    ),
    withFigure({
      id: '49-cfr-570-59-c-bonded',
      section: '(c)',
      scope: { parts: FRICTION, linings: ['bonded'] },
      clause: 'bonded lining or pad: not less than this over the brake shoe',
      printed: '1/16 in',
      limitMm: 1.5875,
      failsAt: 'below',
    }),
    withFigure({
      id: '49-cfr-570-59-c-fastened',
      section: '(c)',
      scope: { parts: FRICTION, linings: FASTENED },
      clause: 'riveted or bolted lining or pad: not less than this over the fastener',
      printed: '1/32 in',
      limitMm: 0.79375,
      failsAt: 'below',
    }),
  ],
};

const UK_INSPECTION_MANUAL: RuleSet = {
  id: 'uk-inspection-manual',
  name: 'UK inspection manual',
  title: 'DVSA, MOT inspection manual: cars and passenger vehicles, section 1, Brakes',
  jurisdiction: 'Great Britain',
  appliesTo:
    'cars, passenger vehicles and light commercial vehicles; heavier goods vehicles and trailers have manuals of their own, which this service does not include',
  minMass: null,
  maxMass: {
    kg: 3500,
    printed: '3,500 kg',
    otherwise:
      'heavier goods vehicles have a manual of their own, which this service does not include; this manual may still cover a heavier passenger vehicle',
  },
  motorVehiclesOnly: true,
  figures: 'the millimetres printed',
  edition: null,
  read: READ,
  notOpened:
    'the date of the edition, and the table of vehicle classes: that the manual covers goods vehicles up to 3,500 kg was read in copies of it',
  link: 'https://www.gov.uk/guidance/mot-inspection-manual-for-private-passenger-and-light-commercial-vehicles/1-brakes',
  rules: [
    withoutFigure(
      {
        id: 'uk-inspection-manual-1-1-13-a-i',
        section: '1.1.13(a)(i)',
        scope: { parts: FRICTION },
        clause: 'not worn down to the wear indicator; an indicator’s lamp alone is not a failure',
        result: 'major',
      },
      'wear-indicator',
    ),
    {
      ...withFigure({
        id: 'uk-inspection-manual-1-1-13-a-ii',
        section: '1.1.13(a)(ii)',
        scope: { parts: FRICTION },
        clause: 'not worn below this',
        printed: 'below 1.5 mm',
        limitMm: 1.5,
        failsAt: 'below',
      }),
      result: 'dangerous',
    },
    withoutFigure(
      {
        id: 'uk-inspection-manual-1-1-14-a-i',
        section: '1.1.14(a)(i)',
        scope: { parts: ['rotor', 'drum'] },
        clause:
          'not significantly and obviously worn; being worn past the maker’s recommended limit is not a reason in itself',
        result: 'major',
      },
      'judgement',
    ),
    withoutFigure(
      {
        id: 'uk-inspection-manual-1-1-14-a-ii',
        section: '1.1.14(a)(ii)',
        scope: { parts: ['rotor', 'drum'] },
        clause: 'not insecure, fractured or otherwise likely to fail',
        result: 'dangerous',
        states: { cracked: 'dangerous', loose: 'dangerous' },
      },
      'judgement',
    ),
    withoutFigure(
      {
        id: 'uk-inspection-manual-1-1-13-b',
        section: '1.1.13(b)',
        scope: { parts: FRICTION },
        clause: 'not contaminated with oil, grease or the like',
        result: 'major',
        states: { contaminated: 'major' },
      },
      'judgement',
    ),
    withoutFigure(
      {
        id: 'uk-inspection-manual-1-1-14-b',
        section: '1.1.14(b)',
        scope: { parts: ['rotor', 'drum'] },
        clause: 'not contaminated with oil, grease or the like',
        result: 'major',
        states: { contaminated: 'major' },
      },
      'judgement',
    ),
  ],
};

const EU_2014_45: RuleSet = {
  id: 'eu-2014-45',
  name: 'Directive 2014/45/EU, annex I',
  title: 'Directive 2014/45/EU on periodic roadworthiness tests, annex I',
  jurisdiction: 'European Union; member states may require more',
  appliesTo:
    'vehicles that the directive makes subject to periodic tests: cars, buses, goods vehicles, trailers above 3,500 kg and fast tractors',
  minMass: null,
  trailersAbove: { kg: 3500, printed: '3,500 kg' },
  motorVehiclesOnly: false,
  figures: 'none: these items print no millimetres',
  edition:
    'consolidated text of 27 September 2022 (02014L0045-20220927): corrigendum OJ L 219, 22.8.2019, p. 25, which replaced the table of annex I, and Delegated Directive (EU) 2021/1717',
  read: READ,
  notOpened:
    'the table of annex I in the consolidated text: the items were read in an earlier copy and still have to be compared with it; the categories of vehicle are from memory',
  link: 'https://eur-lex.europa.eu/legal-content/EN/TXT/?uri=CELEX:02014L0045-20220927',
  rules: [
    withoutFigure(
      {
        id: 'eu-2014-45-1-1-13-a',
        section: '1.1.13(a)',
        scope: { parts: FRICTION },
        clause: 'not worn to the part’s own minimum mark',
        result: 'major, or dangerous where the mark is no longer visible',
      },
      'wear-indicator',
    ),
    withoutFigure(
      {
        id: 'eu-2014-45-1-1-14-a',
        section: '1.1.14(a)',
        scope: { parts: ['rotor', 'drum'] },
        clause: 'not worn',
        result: 'major, or dangerous where excessively worn or scored, cracked, insecure or fractured',
        states: { cracked: 'dangerous', loose: 'dangerous' },
      },
      'judgement',
    ),
  ],
};

/**
 * For riveted and bolted linings, the regulation gives a choice: a whole thickness of 4.8 mm (riveted, steered axle),
 * 8 mm (riveted, other axles) or 8 mm (bolted), or else 1 mm above the fasteners. Readings of such linings are taken
 * above the fasteners, so the set has the latter figure.
 */
const QUEBEC: RuleSet = {
  id: 'quebec-c-24-2-r-32',
  name: 'Quebec C-24.2, r. 32',
  title: 'Regulation respecting safety standards for road vehicles, CQLR c. C-24.2, r. 32',
  jurisdiction: 'Quebec',
  appliesTo: 'road vehicles; motorcycles have a section of their own, which this service does not include',
  minMass: null,
  motorVehiclesOnly: false,
  figures: 'the millimetres printed',
  edition: 'updated to 12 December 2023',
  read: READ,
  notOpened: null,
  link: 'https://www.legisquebec.gouv.qc.ca/en/document/cr/C-24.2,%20r.%2032',
  rules: [
    withFigure({
      id: 'quebec-c-24-2-r-32-31-2-bonded-hydraulic',
      section: 's. 31(2)',
      scope: { parts: FRICTION, linings: ['bonded'], actuations: HYDRAULIC_OR_ELECTRIC },
      clause:
        'bonded lining, hydraulic or electric brake: at least this at the thinnest point, bevel left out',
      printed: '1.6 mm',
      limitMm: 1.6,
      failsAt: 'below',
    }),
    withFigure({
      id: 'quebec-c-24-2-r-32-31-2-bonded-air',
      section: 's. 31(2)',
      scope: { parts: FRICTION, linings: ['bonded'], actuations: AIR },
      clause: 'bonded lining, air brake: at least this at the thinnest point, bevel left out',
      printed: '5 mm',
      limitMm: 5,
      failsAt: 'below',
    }),
    withFigure({
      id: 'quebec-c-24-2-r-32-31-2-fastened',
      section: 's. 31(2)',
      scope: { parts: FRICTION, linings: FASTENED },
      clause:
        'riveted or bolted lining: at least this above the rivets or fittings, at the thinnest point, bevel left out; the regulation’s alternative, by the lining’s whole thickness, cannot be judged by these readings',
      printed: '1 mm above the rivets or fittings',
      limitMm: 1,
      failsAt: 'below',
    }),
    withFigure({
      id: 'quebec-c-24-2-r-32-31-2-parking-brake',
      section: 's. 31(2)',
      scope: { parts: ['parking-brake-lining'] },
      clause:
        'lining of a parking brake that has linings of its own: at least this at the thinnest point, bevel left out; this service records no readings of one',
      printed: '1.6 mm',
      limitMm: 1.6,
      failsAt: 'below',
    }),
    withoutFigure(
      {
        id: 'quebec-c-24-2-r-32-31-3',
        section: 's. 31(3)',
        scope: { parts: FRICTION },
        clause:
          'not unbound, broken, contaminated by oil or grease, cracked deeper than half the remaining thickness or worn extremely unevenly; securely attached',
        states: { contaminated: null, loose: null },
      },
      'judgement',
    ),
  ],
};

export const RULE_SETS: readonly RuleSet[] = [
  CFR_393_47,
  CFR_396_APPENDIX_A,
  CFR_570_59,
  UK_INSPECTION_MANUAL,
  EU_2014_45,
  QUEBEC,
];

/** How a rule is cited: `49 CFR 393.47(d)(1)`, `UK inspection manual, item 1.1.13(a)(ii)`. */
export function citationOf({ name }: RuleSet, { section }: Rule): string {
  if (section.startsWith('(')) return `${name}${section}`;
  return `${name}, ${/^\d/.test(section) ? 'item ' : ''}${section}`;
}

export const RULE_SET_IDS: readonly string[] = RULE_SETS.map(({ id }) => id);

/** The rule sets that a policy names. */
export function ruleSetsNamed(ids: readonly string[]): RuleSet[] {
  return RULE_SETS.filter(({ id }) => ids.includes(id));
}
