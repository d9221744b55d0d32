import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/core/vocabulary/wear.js';
import {
  DISC_AXLE,
  fourPads,
  km,
  mm,
  nm,
  outlookOf,
  padReading,
  rotorReadings,
  runoutReading,
  type PadDetails,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';

const VAN: VehicleDraft = {
  inService: { date: '2024-01-01', odometer: km(0) },
  axles: {
    front: {
      ...DISC_AXLE,
      rotor: { ...DISC_AXLE.rotor, runoutLimit: mm(0.05), variationLimit: mm(0.02) },
      torque: {
        'caliper-bracket-bolt': { ...nm(120), tolerance: nm(10) },
        'wheel-nut': nm(100),
      },
    },
    rear: { brake: 'disc', torque: { 'wheel-nut': nm(200) } },
  },
};

const findingsAfter = (visits: VisitDraft[], vehicle = VAN): Finding[] =>
  outlookOf(vehicle, visits).axles[0]!.findings;
const codesAfter = (visits: VisitDraft[]): string[] => findingsAfter(visits).map(({ code }) => code);

type Thicknesses = number | readonly [number, number, number, number];

/** Pads after 10 000, 20 000 … km, a visit every half-year. */
function course(...thicknesses: Thicknesses[]): VisitDraft[] {
  const dates = ['2024-07-01', '2025-01-01', '2025-07-01', '2026-01-01'];
  return thicknesses.map((thickness, index) => ({
    date: dates[index]!,
    odometer: km(10_000 * (index + 1)),
    readings: fourPads(thickness),
  }));
}

describe('the findings of an axle', () => {
  it('an axle that wears normally has no findings', () => {
    expect(findingsAfter(course(9.6, 8.1, 6.6))).toEqual([]);
  });

  it('a vehicle that was never measured has a finding that says so', () => {
    const unmeasured = [{ code: 'never-measured', axle: 'front', severity: 'check' }];
    expect(findingsAfter([])).toMatchObject(unmeasured);
    expect(findingsAfter([{ date: '2024-07-01' }])).toMatchObject(unmeasured);
  });

  it('the most severe finding comes first, and numbers name their units', () => {
    const visits: VisitDraft[] = [
      ...course(9.6),
      {
        date: '2025-01-01',
        odometer: km(20_000),
        readings: [
          ...fourPads([2, 8, 8, 8]),
          padReading('right', 'outer', 6, { at: 'leading' }),
          padReading('right', 'outer', 8, { at: 'trailing' }),
        ],
        torques: [{ fastener: 'wheel-nut', axle: 'front', ...nm(150) }],
      },
    ];
    const findings = findingsAfter(visits);
    expect(findings[0]).toMatchObject({ severity: 'stop', code: 'pad-at-limit' });
    const severities = findings.slice(1).map(({ severity }) => severity);
    expect(severities).toEqual([...severities].sort());
    expect(severities).not.toContain('stop');
    expect(findings.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['uneven-inner-outer', 'taper', 'torque-outside-specification']),
    );
    for (const { message, check, numbers } of findings) {
      expect(message).not.toBe('');
      expect(check).not.toBe('');
      for (const name of Object.keys(numbers)) expect(name).toMatch(/(Mm|Nm)$|^standardDeviations$|^chance/);
    }
  });
});

describe('a pad at its limit', () => {
  it.each([
    [2, 'pad-at-limit'],
    [1.5, 'pad-at-limit'],
    [2.05, 'pad-too-close-to-limit'],
  ])('a reading of %f mm against 2 mm by a depth gauge is %s, and a stop', (thickness, code) => {
    const [finding] = findingsAfter(course([5, 5, thickness, 5]));
    expect(finding).toMatchObject({ code, severity: 'stop', axle: 'front', side: 'right', pad: 'inner' });
    expect(finding!.numbers).toMatchObject({
      readingMm: thickness,
      limitMm: 2,
      standardUncertaintyMm: 0.05,
    });
  });

  it('the chance that a pad is below the limit is half at the limit itself', () => {
    expect(findingsAfter(course([5, 5, 2, 5]))[0]!.numbers.chanceBelowLimit).toBe(0.5);
  });

  it('a reading well above the limit has no finding', () => {
    expect(codesAfter(course([5, 5, 2.2, 5])).filter((code) => code.startsWith('pad-'))).toEqual([]);
  });

  it('a pad has no finding after a replacement', () => {
    const visits = course(1.5);
    visits[0]!.work = [{ kind: 'pads-replaced', axle: 'front' }];
    expect(findingsAfter(visits)).toEqual([]);
  });
});

describe('uneven inner and outer pads', () => {
  it('uneven inner and outer pads are found with the thinner pad and the figures', () => {
    const findings = findingsAfter(course([7, 9, 9, 9]));
    const uneven = findings.find(({ code }) => code === 'uneven-inner-outer')!;
    expect(uneven).toMatchObject({ axle: 'front', side: 'left', pad: 'inner', severity: 'check' });
    expect(uneven.check).toMatch(/left slides, piston.*hose/);
    expect(uneven.message).toContain('2 mm thinner');
    const { differenceMm, normalSpreadMm, standardDeviations } = uneven.numbers;
    expect(differenceMm).toBe(2);
    // Two placements of 0.2 mm, two starts of 0.15 mm, two readings of 0.05 mm, and 13 % of the axle's 2 mm, twice.
    expect(normalSpreadMm).toBeCloseTo(
      Math.sqrt(2 * (0.2 ** 2 + 0.15 ** 2 + 0.05 ** 2 + (0.13 * 2) ** 2)),
      3,
    );
    expect(standardDeviations).toBeCloseTo(differenceMm! / normalSpreadMm!, 1);
    expect(standardDeviations).toBeGreaterThan(2);
  });

  it('the outer pad is named if it is thinner', () => {
    expect(findingsAfter(course([9, 9, 9, 7]))).toContainEqual(
      expect.objectContaining({ code: 'uneven-inner-outer', side: 'right', pad: 'outer' }),
    );
  });

  it.each([
    ['less than a millimetre, even if little wear spreads less', course([10.1, 11, 11, 11])],
    ['a difference that much wear explains', course([9.5, 9.6, 9.5, 9.6], [4, 5.2, 4, 5.2])],
  ])('uneven inner and outer pads are not found for %s', (_name, visits) => {
    expect(codesAfter(visits)).not.toContain('uneven-inner-outer');
  });

  it('a difference of more than 3 mm is found, even where heavy wear explains it', () => {
    const visits = course([2.9, 6, 2.9, 2.9], [2.7, 5.8, 2.7, 2.7]);
    const uneven = findingsAfter(visits).find(({ code }) => code === 'uneven-inner-outer');
    expect(uneven).toMatchObject({ side: 'left', pad: 'inner', numbers: { differenceMm: 3.1 } });
    expect(uneven!.numbers.standardDeviations).toBeLessThanOrEqual(2);
  });

  it('a difference within the error of a coarse gauge is not found', () => {
    const readings = (details: PadDetails) => fourPads([8, 9.4, 9, 9], details);
    const at = (details: PadDetails): string[] =>
      codesAfter([{ date: '2024-07-01', odometer: km(10_000), readings: readings(details) }]);
    expect(at({ gauge: 'depth-gauge' })).toContain('uneven-inner-outer');
    expect(at({ gauge: 'visual' })).not.toContain('uneven-inner-outer');
  });

  it('pads measured at different visits are not compared', () => {
    expect(
      codesAfter([
        { date: '2024-07-01', odometer: km(10_000), readings: [padReading('left', 'outer', 9.5)] },
        { date: '2025-01-01', odometer: km(20_000), readings: [padReading('left', 'inner', 7.5)] },
      ]),
    ).not.toContain('uneven-inner-outer');
  });
});

describe('a pad that has lost more than the others since the last visit', () => {
  const slowly: Thicknesses = [7.5, 7.6, 7.5, 7.6];

  it('a pad that has lost more is found even if normal spread explains the difference over the life of the set', () => {
    const findings = findingsAfter(course(9.6, slowly, [4, 5.8, 5.7, 5.8]));
    const uneven = findings.filter(({ code }) => code.startsWith('uneven'));
    expect(uneven.map(({ code, side, pad }) => [code, side, pad])).toEqual([
      ['uneven-inner-outer', 'left', 'inner'],
    ]);
    expect(uneven[0]!.message).toContain(
      'has lost 1.7 mm more than the outer one since both were last measured',
    );
    // Four placements of 0.2 mm, four readings of 0.05 mm, and 13 % of the axle's 1.8 mm, twice.
    const sdMm = Math.sqrt(4 * (0.2 ** 2 + 0.05 ** 2) + 2 * (0.13 * 1.8) ** 2);
    expect(uneven[0]!.numbers).toMatchObject({ differenceMm: 1.7 });
    expect(uneven[0]!.numbers.normalSpreadMm).toBeCloseTo(sdMm, 3);
  });

  it('a side whose pads both lose more is found across the axle', () => {
    const findings = findingsAfter(course(9.6, slowly, [4, 4.1, 5.7, 5.8]));
    const uneven = findings.filter(({ code }) => code.startsWith('uneven'));
    expect(uneven.map(({ code, side, pad }) => [code, side, pad])).toEqual([
      ['uneven-left-right', 'left', 'inner'],
      ['uneven-left-right', 'left', 'outer'],
    ]);
  });

  it('as-left readings of the same visit do not hide the pad', () => {
    const visits = course(9.6, slowly, [4, 5.8, 5.7, 5.8]);
    const latest = visits.at(-1)!;
    const asLeft = fourPads([4, 5.8, 5.7, 5.8], { taken: 'as-left' });
    const both = { ...latest, readings: [...latest.readings!, ...asLeft] };
    expect(codesAfter([...visits.slice(0, -1), both])).toContain('uneven-inner-outer');
  });

  it('a second visit on the same day does not hide the pad, and a corrected reading blames no other pad', () => {
    const [first, morning] = course(9.6, [5.5, 8, 8, 8]);
    const afternoon = (thicknesses: Thicknesses): VisitDraft => ({
      ...morning!,
      odometer: km(20_001),
      readings: fourPads(thicknesses),
    });
    const unevenAfter = (thicknesses: Thicknesses): string[] =>
      findingsAfter([first!, morning!, afternoon(thicknesses)])
        .filter(({ code }) => code.startsWith('uneven'))
        .map(({ side, pad }) => `${side} ${pad}`);
    expect(unevenAfter([5.5, 8, 8, 8])).toContain('left inner');
    expect(unevenAfter([7.9, 8, 8, 8])).toEqual([]);
  });

  it('a pad whose difference was there before is not found', () => {
    expect(codesAfter(course(9.6, [6.5, 7.6, 7.5, 7.6], [4.7, 5.8, 5.7, 5.8]))).not.toContain(
      'uneven-inner-outer',
    );
  });
});

describe('uneven pads left and right', () => {
  it('each pad is compared with its own kind, and the thinner side is named', () => {
    const uneven = findingsAfter(course([7, 7, 9, 9])).filter(({ code }) => code === 'uneven-left-right');
    expect(uneven.map(({ side, pad }) => [side, pad])).toEqual([
      ['left', 'inner'],
      ['left', 'outer'],
    ]);
    expect(uneven[0]).toMatchObject({ severity: 'check', numbers: { differenceMm: 2 } });
    expect(codesAfter(course([7, 7, 9, 9]))).not.toContain('uneven-inner-outer');
  });
});

describe('a pad thicker than before', () => {
  it('a pad thicker than before is found with the difference', () => {
    const thicker = findingsAfter(course(7, [6, 8.5, 6, 6])).filter(
      ({ code }) => code === 'thicker-than-before',
    );
    expect(thicker).toMatchObject([
      { side: 'left', pad: 'outer', severity: 'check', numbers: { growthMm: 1.5 } },
    ]);
    expect(thicker[0]!.message).toContain('2024-07-01');
    expect(thicker[0]!.numbers.standardDeviations).toBeGreaterThan(2);
  });

  it('a difference within reading error is not found', () => {
    expect(codesAfter(course(7, [6.5, 7.4, 6.5, 6.5]))).not.toContain('thicker-than-before');
  });

  it('a pad thicker than before is not found if the pad was replaced', () => {
    const visits = course(3, 10.5);
    visits[0]!.work = [{ kind: 'pads-replaced', axle: 'front' }];
    expect(codesAfter(visits)).not.toContain('thicker-than-before');
  });

  it('a pad thicker than before is found on the side that was not replaced', () => {
    const visits = course(3, 10.5);
    visits[0]!.work = [{ kind: 'pads-replaced', axle: 'front', side: 'left' }];
    const thicker = findingsAfter(visits).filter(({ code }) => code === 'thicker-than-before');
    expect(thicker.map(({ side }) => side)).toEqual(['right', 'right']);
  });
});

describe('a reading off its forecast', () => {
  it.each([
    ['far too thin', [6.6, 6.6, 6.6, 3.1] as const, -1],
    ['far too thick', [6.6, 6.6, 6.6, 10.4] as const, 1],
  ])('a reading off its forecast is found %s', (_name, last, sign) => {
    const off = findingsAfter(course(9.6, 8.1, last)).filter(({ code }) => code === 'reading-off-forecast');
    expect(off).toMatchObject([{ side: 'right', pad: 'outer', severity: 'check' }]);
    const { readingMm, foretoldMm, spreadMm, standardDeviations } = off[0]!.numbers;
    expect(readingMm).toBe(last[3]);
    expect(Math.abs(foretoldMm! - 6.6)).toBeLessThan(0.5);
    expect(Math.sign(standardDeviations!)).toBe(sign);
    expect(standardDeviations).toBeCloseTo((readingMm! - foretoldMm!) / spreadMm!, 0);
    expect(Math.abs(standardDeviations!)).toBeGreaterThan(3);
  });

  it('a reading off its forecast is not found again once the next visit is as predicted', () => {
    const visits = course(9.6, [8.1, 8.1, 8.1, 5], 6.6);
    expect(codesAfter(visits)).not.toContain('reading-off-forecast');
  });

  it('a reading off its forecast is not found for the first reading of pads of unknown age', () => {
    const unknown = { ...VAN, inService: null };
    expect(findingsAfter(course(3.5), unknown).map(({ code }) => code)).not.toContain('reading-off-forecast');
  });

  it('a reading off its forecast is not found if no distance is known', () => {
    const visits = course(9.6, 8.1, [6.6, 6.6, 6.6, 3.1]).map((visit) => ({ ...visit, odometer: null }));
    const vehicle = { ...VAN, inService: null };
    expect(findingsAfter(visits, vehicle).map(({ code }) => code)).not.toContain('reading-off-forecast');
  });
});

describe('readings equal to those of the visit before', () => {
  it('repeated readings quote the wear that most likely happened, though a used car’s set might have been near its end', () => {
    const visits = [165_000, 185_000].map((odometer, index) => ({
      date: `202${5 + index}-01-01`,
      odometer: km(odometer),
      readings: fourPads(6),
    }));
    const repeated = findingsAfter(visits, { axles: { front: DISC_AXLE } }).find(
      ({ code }) => code === 'readings-repeated',
    );
    // Half of the pads wear less than 0.15 mm in 1,000 km: 3 mm in 20,000 km.
    expect(repeated!.numbers.expectedWearMm).toBeGreaterThan(2.6);
    expect(repeated!.numbers.expectedWearMm).toBeLessThan(3.4);
  });
});

describe('taper of a pad', () => {
  const withEnds = (leading: number, trailing: number): VisitDraft[] => [
    {
      date: '2024-07-01',
      odometer: km(10_000),
      readings: [
        padReading('left', 'inner', leading, { at: 'leading' }),
        padReading('left', 'inner', trailing, { at: 'trailing' }),
      ],
    },
  ];

  it.each([
    [9.5, 8, 'trailing'],
    [8, 9.6, 'leading'],
  ])('taper from %f to %f mm is found at the %s end', (leading, trailing, end) => {
    const [finding] = findingsAfter(withEnds(leading, trailing)).filter(({ code }) => code === 'taper');
    expect(finding).toMatchObject({
      side: 'left',
      pad: 'inner',
      severity: 'check',
      numbers: { leadingMm: leading, trailingMm: trailing },
    });
    expect(finding!.numbers.differenceMm).toBeCloseTo(Math.abs(leading - trailing), 6);
    expect(finding!.message).toContain(`The ${end} end`);
  });

  it('taper of a pad is not found under 1.5 mm, or from one end alone', () => {
    expect(codesAfter(withEnds(9.4, 8))).not.toContain('taper');
    expect(
      codesAfter([
        {
          date: '2024-07-01',
          readings: [padReading('left', 'inner', 9.5), padReading('left', 'inner', 7, { at: 'trailing' })],
        },
      ]),
    ).not.toContain('taper');
  });
});

describe('a recorded torque', () => {
  type Torque = NonNullable<VisitDraft['torques']>[number];
  const visit = (torque: Partial<Torque>): VisitDraft => ({
    date: '2024-07-01',
    torques: [{ fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', ...nm(120), ...torque }],
  });
  const found = (...visits: VisitDraft[]): Finding[] =>
    findingsAfter(visits).filter(({ code }) => code === 'torque-outside-specification');

  it.each([110, 120, 130])('a torque of %f N·m is within 120 ± 10 N·m', (value) => {
    expect(found(visit({ value }))).toEqual([]);
  });

  it.each([109.9, 130.1])('a torque of %f N·m is outside 120 ± 10 N·m', (value) => {
    expect(found(visit({ value }))).toMatchObject([
      {
        axle: 'front',
        side: 'left',
        pad: null,
        severity: 'check',
        numbers: { torqueNm: value, specifiedNm: 120, toleranceNm: 10 },
      },
    ]);
  });

  it('a recorded torque is compared in newton metres, whatever its unit', () => {
    // 88 ft-lbf are 119.3 N·m, 80 ft-lbf 108.5 N·m.
    expect(found(visit({ value: 88, unit: 'ft-lbf' }))).toEqual([]);
    expect(found(visit({ value: 80, unit: 'ft-lbf' }))).toMatchObject([{ numbers: { torqueNm: 108.47 } }]);
  });

  it('a torque without a tolerance may differ by 5 %', () => {
    const wheelNut = (value: number) => visit({ fastener: 'wheel-nut', value });
    expect(found(wheelNut(105))).toEqual([]);
    expect(found(wheelNut(105.1))).toMatchObject([{ numbers: { specifiedNm: 100, toleranceNm: 5 } }]);
  });

  it('a recorded torque is not judged without a specification, or by another axle’s', () => {
    expect(found(visit({ fastener: 'abutment-bolt', value: 5 }))).toEqual([]);
    expect(found(visit({ fastener: 'wheel-nut', axle: 'rear', value: 200 }))).toEqual([]);
  });

  it('a recorded torque counts until its fastener is set again, or later work opens it', () => {
    const next = { date: '2024-08-01' };
    expect(found(visit({ value: 60 }), next)).toHaveLength(1);
    expect(found(visit({ value: 60 }), { ...visit({ value: 120 }), ...next })).toEqual([]);
    const work = (side: 'left' | 'right') => [{ kind: 'slides-serviced', axle: 'front', side } as const];
    const [side, other] = ['left', 'right'] as const;
    expect(found(visit({ value: 60, side }), { ...next, work: work(side) })).toEqual([]);
    expect(found(visit({ value: 60, side }), { ...next, work: work(other) })).toHaveLength(1);
  });
});

describe('findings on a rotor', () => {
  const oneVisit = ({ readings = [], ...more }: Partial<VisitDraft>): VisitDraft[] => [
    { date: '2024-07-01', odometer: km(10_000), readings: [...fourPads(9.5), ...(readings ?? [])], ...more },
  ];

  it('a crack is a stop', () => {
    const conditions = [{ part: 'rotor', axle: 'front', side: 'right', state: 'cracked' }] as const;
    expect(findingsAfter(oneVisit({ conditions: [...conditions] }))).toMatchObject([
      { code: 'rotor-cracked', side: 'right', severity: 'stop', pad: null },
    ]);
  });

  it.each([
    [25.9, 'rotor-under-discard', 1],
    [26, 'rotor-too-close-to-discard', 0.5],
    [26.003, 'rotor-too-close-to-discard', 0.1494],
  ])('a rotor at %f mm against 26 mm is a stop: %s', (thickness, code, chanceUnderDiscard) => {
    const [finding] = findingsAfter(oneVisit({ readings: rotorReadings('left', [27, thickness]) }));
    expect(finding).toMatchObject({ code, side: 'left', severity: 'stop' });
    expect(finding!.numbers).toMatchObject({ thinnestMm: thickness, discardMm: 26 });
    expect(finding!.numbers.chanceUnderDiscard).toBeCloseTo(chanceUnderDiscard, 3);
  });

  it.each([
    [0.08, ['runout-over-limit']],
    [0.05, ['runout-too-close-to-limit']],
    [0.04, []],
  ])('a run-out of %f mm against 0.05 mm gives %s', (value, codes) => {
    const findings = findingsAfter(oneVisit({ readings: [runoutReading('left', value)] }));
    expect(findings.map(({ code }) => code)).toEqual(codes);
    for (const { check, severity } of findings) {
      expect(severity).toBe('check');
      expect(check).toMatch(/Clean the hub.*re-index.*measure again/);
    }
  });

  it.each([
    [27.54, ['thickness-variation-over-limit']],
    [27.51, []],
  ])('a variation from 27.5 to %f mm round the face against 0.02 mm gives %s', (thickest, codes) => {
    const readings = rotorReadings('left', [27.5, thickest, 27.5, 27.5]);
    expect(codesAfter(oneVisit({ readings }))).toEqual(codes);
  });
});
