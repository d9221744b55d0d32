import { describe, expect, it } from 'vitest';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { RULE_SET_IDS, RULE_SETS, ruleSetsNamed } from '../../src/core/assessment/ruleSets.js';
import { axleFacts, fittingRules, rulesOnVehicle } from '../../src/core/assessment/whichRules.js';
import {
  DISC_AXLE,
  fourPads,
  historyOf,
  mm,
  POLICY,
  vehicleOf,
  type VehicleDraft,
} from '../support/coreHistories.js';
import { kg, lb, limitsOf, LORRY } from '../support/limits.js';

const [CFR_393, , CFR_570, UK, EU] = RULE_SETS;

function setFor(ruleSet: (typeof RULE_SETS)[number], draft: VehicleDraft) {
  const { applies, reason } = fittingRules(ruleSet, axleFacts(vehicleOf(draft), 'front'), 'pad');
  return [applies, reason?.code ?? null];
}

describe('the rule sets', () => {
  it('sets and rules have ids of their own', () => {
    const ids = RULE_SETS.flatMap(({ id, rules }) => [id, ...rules.map((rule) => rule.id)]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id, rules } of RULE_SETS) {
      for (const rule of rules) expect(rule.id.startsWith(`${id}-`)).toBe(true);
    }
  });

  it('every figure has its source and the date it was read', () => {
    for (const { title, read, link, rules } of RULE_SETS) {
      expect(title).not.toBe('');
      expect(read).toMatch(/^\d{4}-\d{2}$/);
      expect(link).toMatch(/^https:\/\//);
      for (const { section, limitMm, printed, failsAt, decidedBy } of rules) {
        expect(section).not.toBe('');
        expect(limitMm !== null).toBe(decidedBy.includes('figure'));
        expect(printed !== null).toBe(decidedBy.includes('figure'));
        const judgesReadings = decidedBy.some((by) => by === 'figure' || by === 'wear-indicator');
        expect(failsAt !== null).toBe(judgesReadings);
      }
    }
  });

  it('the rule sets are found by the names a policy gives', () => {
    expect(ruleSetsNamed([])).toEqual([]);
    expect(ruleSetsNamed(['eu-2014-45', '49-cfr-393-47']).map(({ id }) => id)).toEqual([
      '49-cfr-393-47',
      'eu-2014-45',
    ]);
    expect(ruleSetsNamed(RULE_SET_IDS)).toEqual(RULE_SETS);
  });
});

describe('the gross mass of a vehicle', () => {
  // 4,536 kg is printed beside 10,001 lb, which is 4,536.38 kg; the smaller counts. 10,000 lb is 4,535.9237 kg.
  it.each([
    ['4,536 kg', kg(4536), 'applies', 'applies'],
    ['10,001 lb', lb(10_001), 'applies', 'applies'],
    ['10,000 lb', lb(10_000), 'does-not-apply', 'does-not-apply'],
    ['4,535.95 kg', kg(4535.95), 'does-not-apply', 'applies'],
    ['3,500 kg', kg(3500), 'does-not-apply', 'does-not-apply'],
    ['40,000 kg', kg(40_000), 'applies', 'applies'],
  ])(
    'a mass of %s decides whether the federal sets cover a motor vehicle',
    (_name, grossMass, commercial, above) => {
      const van: VehicleDraft = { powertrain: 'combustion', grossMass };
      expect(setFor(CFR_393!, van)[0]).toBe(commercial);
      expect(setFor(CFR_570!, van)[0]).toBe(above);
    },
  );

  it('a mass known to be below the minimum is the reason why a set does not apply', () => {
    expect(setFor(CFR_393!, { powertrain: 'combustion', grossMass: kg(3500) })).toEqual([
      'does-not-apply',
      'below-mass',
    ]);
  });

  it('a set applies to an unknown mass, and the answer says so', () => {
    for (const ruleSet of [CFR_393!, CFR_570!]) {
      expect(setFor(ruleSet, { powertrain: 'combustion' })).toEqual(['could-apply', 'gross-mass-unknown']);
    }
  });

  it('a trailer’s own mass, not the combination’s, counts under one set and not the other', () => {
    const trailer: VehicleDraft = { powertrain: 'none', grossMass: kg(3500) };
    expect(setFor(CFR_393!, trailer)).toEqual(['could-apply', 'combination-mass-unknown']);
    expect(setFor(CFR_393!, { grossMass: kg(3500) })).toEqual(['could-apply', 'combination-mass-unknown']);
    expect(setFor(CFR_570!, trailer)).toEqual(['does-not-apply', 'below-mass']);
  });

  it('more than 3,500 kg, or being a trailer, excludes the UK manual for cars and light vans', () => {
    const car: VehicleDraft = { powertrain: 'battery-electric', grossMass: kg(3500) };
    expect(setFor(UK!, car)).toEqual(['applies', null]);
    expect(setFor(UK!, { ...car, grossMass: kg(3501) })).toEqual(['does-not-apply', 'above-mass']);
    expect(setFor(UK!, { powertrain: 'battery-electric' })).toEqual(['could-apply', 'gross-mass-unknown']);
    expect(setFor(UK!, { powertrain: 'none' })).toEqual(['does-not-apply', 'not-for-trailers']);
    expect(setFor(UK!, {})).toEqual(['could-apply', 'powertrain-unknown']);
  });

  it('a mass above the maximum excludes a set, whether or not the vehicle is known to be a trailer', () => {
    expect(setFor(UK!, { grossMass: kg(12_000) })).toEqual(['does-not-apply', 'above-mass']);
  });

  it('a trailer up to 3,500 kg is outside the directive', () => {
    expect(setFor(EU!, { powertrain: 'none', grossMass: kg(3500) })).toEqual([
      'does-not-apply',
      'below-mass',
    ]);
    expect(setFor(EU!, { powertrain: 'none', grossMass: kg(3501) })).toEqual(['applies', null]);
    expect(setFor(EU!, { powertrain: 'combustion', grossMass: kg(1200) })).toEqual(['applies', null]);
  });
});

describe('unknown facts about an axle', () => {
  const only = (id: string, lining: Parameters<typeof limitsOf>[0]) =>
    limitsOf({ vehicle: LORRY, ...lining, ruleSets: [id] }, 5);

  it('the strictest row that could apply counts, one of each set, and the answer names the fact', () => {
    const { limits, reasons } = only('49-cfr-393-47', {});
    expect(limits).toMatchObject([{ limitMm: 3.2, failsAt: 'below' }]);
    expect(reasons.map(({ code }) => code)).toEqual(['strictest-that-could-apply']);
    expect(reasons[0]!.detail).toContain('how the brake is actuated; whether the axle is steered');
  });

  it('the row that fails at the figure counts, of two rows with one figure', () => {
    const { limits } = only('49-cfr-393-47', { axle: { actuation: 'hydraulic' } });
    expect(limits).toMatchObject([{ limitMm: 1.6, failsAt: 'at-or-below' }]);
    expect(limits[0]!.ruleId).toBe('49-cfr-393-47-d-1-hydraulic');
  });

  it('a fact that makes no difference is not mentioned', () => {
    const { reasons } = only('49-cfr-570-59', { axle: { lining: 'bonded' } });
    expect(reasons).toEqual([]);
  });

  it('a lining of unknown kind counts as bonded, the strictest', () => {
    expect(only('quebec-c-24-2-r-32', { axle: { actuation: 'air' } }).limits).toMatchObject([{ limitMm: 5 }]);
    expect(only('49-cfr-570-59', {}).limits).toMatchObject([{ limitMm: 1.5875 }]);
  });

  it('the division of a shoe’s lining, which is never recorded, is mentioned', () => {
    const shoe = { part: 'shoe', axle: { actuation: 'air', steered: true } } as const;
    const { limits, reasons } = only('49-cfr-393-47', shoe);
    expect(limits).toMatchObject([{ limitMm: 6.4 }]);
    expect(reasons.at(-1)!.detail).toContain('one strip or two pads');
  });
});

describe('the rules that apply to a vehicle', () => {
  it('the rules that apply to a vehicle are those of its brakes, rotors and drums included', () => {
    const vehicle = vehicleOf({
      ...LORRY,
      axles: {
        front: { brake: 'disc', actuation: 'air', steered: true },
        'axle-2': { brake: 'drum', actuation: 'air', steered: false, lining: 'riveted' },
      },
    });
    const [front, second] = rulesOnVehicle(vehicle, RULE_SETS);
    const idsOf = (axle: typeof front, set: number) => axle!.ruleSets[set]!.rules.map(({ rule }) => rule.id);
    expect(idsOf(front, 0)).toEqual(['49-cfr-393-47-d-1-air-disc']);
    expect(idsOf(second, 0)).toEqual(['49-cfr-393-47-d-2-air-drum']);
    expect(idsOf(second, 2)).toEqual(['49-cfr-570-59-b-drum', '49-cfr-570-59-c-fastened']);
    expect(front!.ruleSets[2]!.rules.map(({ rule, unknown }) => [rule.id, unknown])).toEqual([
      ['49-cfr-570-59-b-rotor', []],
      ['49-cfr-570-59-c-bonded', ['lining']],
      ['49-cfr-570-59-c-fastened', ['lining']],
    ]);
  });

  it('the rules that apply to a vehicle depend on the kind of brake if it is unknown', () => {
    const vehicle = vehicleOf({ ...LORRY, axles: { rear: { actuation: 'air', steered: false } } });
    const [rear] = rulesOnVehicle(vehicle, RULE_SETS);
    expect(rear!.ruleSets[0]!.rules.map(({ rule, unknown }) => [rule.id, unknown])).toEqual([
      ['49-cfr-393-47-d-2-air-drum', ['brake']],
      ['49-cfr-393-47-d-2-air-disc', ['brake']],
    ]);
    // Rows with one figure for pads and shoes, or rotors and drums, do not depend on it; the UK manual has no such
    // lorry.
    expect(rear!.ruleSets[3]!.rules).toEqual([]);
    expect(rear!.ruleSets[4]!.rules.map(({ unknown }) => unknown)).toEqual([[], []]);
  });
});

describe('the rules for a trailer', () => {
  const rowsOf = (vehicle: VehicleDraft, steered: boolean | null) =>
    rulesOnVehicle(
      vehicleOf({ ...vehicle, axles: { 'axle-1': { brake: 'disc', actuation: 'hydraulic', steered } } }),
      [CFR_393!],
    )[0]!.ruleSets[0]!.rules.map(({ rule, unknown }) => [rule.section, unknown]);
  const heavy = { grossMass: kg(12_000) };

  it.each([true, false, null])('393.47(d)(2) applies to every axle, steered or not (%s)', (steered) => {
    expect(rowsOf({ ...heavy, powertrain: 'none' }, steered)).toEqual([['(d)(2)', []]]);
  });

  it('a vehicle that may be a trailer gets whichever row could apply', () => {
    expect(rowsOf(heavy, true)).toEqual([
      ['(d)(1)', ['trailer']],
      ['(d)(2)', ['trailer']],
    ]);
    expect(rowsOf(heavy, false)).toEqual([['(d)(2)', []]]);
  });

  it('a lorry’s axles do not get the rows of a trailer', () => {
    expect(rowsOf(LORRY, true)).toEqual([['(d)(1)', []]]);
    expect(rowsOf(LORRY, false)).toEqual([['(d)(2)', []]]);
  });
});

describe('the limits of a policy', () => {
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  const history = historyOf(
    {
      ...LORRY,
      inService: { date: '2024-01-01', odometer: { value: 0, unit: 'km' } },
      axles: { front: { ...DISC_AXLE, actuation: 'air', steered: true } },
    },
    [{ date: '2025-01-01', odometer: { value: 20_000, unit: 'km' }, readings: fourPads(3.1) }],
  );
  const frontUnder = (policy: Partial<typeof POLICY>) =>
    outlookFor(history, () => experience, { ...POLICY, ...policy }).axles[0]!;

  it('only the maker’s limit counts without a set and a minimum', () => {
    const front = frontUnder({});
    expect(front.pads[0]!.limits.map(({ source }) => source)).toEqual(['maker']);
    expect(front).toMatchObject({ limitSource: 'maker', failing: false, replacement: { limitMm: 2 } });
    expect(front.pads[0]!.reasons).toEqual([]);
  });

  it('the limit of a named set governs, fails and gives findings', () => {
    const front = frontUnder({ ruleSets: ['49-cfr-393-47'] });
    expect(front).toMatchObject({ limitSource: 'law', failing: true, replacement: { limitMm: 3.2 } });
    expect(front.pads[0]!.limits.map(({ source, fails }) => [source, fails])).toEqual([
      ['law', true],
      ['maker', false],
    ]);
    const [finding] = front.findings;
    expect(finding).toMatchObject({ code: 'pad-at-limit', severity: 'stop' });
    expect(finding!.message).toContain('49 CFR 393.47(d)(1)');
  });

  it('the shop’s minimum governs if it is the highest', () => {
    const minimum = { limitMm: 3.1, failsAt: 'below' } as const;
    expect(frontUnder({ padMinimumMm: minimum })).toMatchObject({ limitSource: 'shop', failing: false });
    const strict = frontUnder({ padMinimumMm: { ...minimum, failsAt: 'at-or-below' } });
    expect(strict).toMatchObject({ limitSource: 'shop', failing: true });
    const small = frontUnder({ padMinimumMm: { ...minimum, limitMm: 1 } });
    expect(small.pads[0]!.limits.map(({ source }) => source)).toEqual(['maker', 'shop']);
  });

  it('a set that does not cover the vehicle is explained beside the pads', () => {
    const van = historyOf(
      { powertrain: 'combustion', grossMass: kg(3500), axles: { front: { pad: { limit: mm(2) } } } },
      [{ date: '2025-01-01', readings: fourPads(5) }],
    );
    const [front] = outlookFor(van, () => experience, { ...POLICY, ruleSets: ['49-cfr-393-47'] }).axles;
    expect(front!.pads[0]!.limits.map(({ source }) => source)).toEqual(['maker']);
    expect(front!.pads[0]!.reasons).toContainEqual(
      expect.objectContaining({ field: 'limits', code: 'below-mass' }),
    );
  });
});
