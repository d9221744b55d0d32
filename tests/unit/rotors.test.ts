import { describe, expect, it } from 'vitest';
import type { RotorOutlook } from '../../src/core/assessment/outlookShape.js';
import {
  DISC_AXLE,
  fourPads,
  km,
  mm,
  outlookOf,
  rotorReadings,
  runoutReading,
  type ReadingDraft,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';

type Rotor = NonNullable<NonNullable<NonNullable<VehicleDraft['axles']>['front']>['rotor']>;

const ROTOR: Rotor = { ...DISC_AXLE.rotor, runoutLimit: mm(0.05), variationLimit: mm(0.02) };
const vehicleWith = (rotor: Rotor): VehicleDraft => ({
  inService: { date: '2024-01-01', odometer: km(0) },
  axles: { front: { ...DISC_AXLE, rotor } },
});

/** Rotors after visits, with `ROTOR`'s specification unless another is given. */
function rotorsAfter(
  visits: VisitDraft[],
  rotor: Rotor = ROTOR,
): { left: RotorOutlook; right: RotorOutlook } {
  const [left, right] = outlookOf(vehicleWith(rotor), visits).axles[0]!.rotors;
  return { left: left!, right: right! };
}

const codes = (rotor: RotorOutlook): string[] => rotor.decisionReasons.map(({ code }) => code);
const evenly = (thickness: number): number[] => [thickness, thickness, thickness, thickness];

/** One visit after 20 000 km with half-worn pads and both rotors measured, plus further readings or conditions. */
function oneVisit(
  left: readonly number[],
  right: readonly number[] = left,
  more: { readings?: ReadingDraft[]; conditions?: VisitDraft['conditions']; pads?: number } = {},
): VisitDraft[] {
  const { readings = [], conditions = [], pads = 8 } = more;
  return [
    {
      date: '2024-07-01',
      odometer: km(20_000),
      readings: [
        ...fourPads(pads),
        ...rotorReadings('left', left),
        ...rotorReadings('right', right),
        ...readings,
      ],
      conditions,
    },
  ];
}

const onLeft = (state: 'cracked' | 'scored' | 'heat-spotted' | 'corroded' | 'ok') =>
  [{ part: 'rotor', axle: 'front', side: 'left', state }] as const;

describe('the figures of a rotor', () => {
  it('the figures of a rotor come from its thinnest point, never from the mean', () => {
    const { left } = rotorsAfter(oneVisit([27.04, 27.03, 27.01, 27.02, 27.05, 27.03]));
    expect(left).toMatchObject({
      side: 'left',
      readings: 1,
      fitted: { date: '2024-01-01', odometerKm: 0 },
      latestDate: '2024-07-01',
      thinnestMm: 27.01,
      discardMm: 26,
      machineToMm: 26.4,
      marginMm: 1.01,
      marginStandardUncertaintyMm: 0.002887,
      conformity: 'conforms',
      variationMm: 0.04,
      variationConformity: 'does-not-conform',
    });
  });

  it('the figures of a rotor are null with a reason if nothing was measured', () => {
    const { left } = rotorsAfter([{ date: '2024-07-01', odometer: km(20_000), readings: fourPads(8) }]);
    expect(left).toMatchObject({ thinnestMm: null, marginMm: null, variationMm: null, runoutMm: null });
    const fields = left.reasons.map(({ field }) => field);
    expect(fields).toEqual(expect.arrayContaining(['thinnestMm', 'runoutMm']));
  });

  it.each<[string, Rotor, ReadingDraft[], string[]]>([
    ['the reading', ROTOR, [], ['run-out has not been measured']],
    [
      'the limit',
      { ...ROTOR, runoutLimit: null },
      [runoutReading('left', 0.03)],
      ['no run-out limit is recorded'],
    ],
    [
      'both',
      { ...ROTOR, runoutLimit: null },
      [],
      ['run-out has not been measured', 'no run-out limit is recorded'],
    ],
  ])('run-out that cannot be judged says what is missing: %s', (_, rotor, readings, details) => {
    const { left } = rotorsAfter(oneVisit(evenly(27.6), evenly(27.6), { readings }), rotor);
    const reasons = left.reasons.filter(({ field }) => field === 'runoutConformity');
    expect(reasons.map(({ detail }) => detail)).toEqual(details);
  });

  it('a single point gives no variation, with a reason', () => {
    const { left } = rotorsAfter(oneVisit([27.6]));
    expect(left.variationMm).toBeNull();
    expect(left.reasons).toContainEqual(
      expect.objectContaining({ field: 'variationMm', code: 'too-few-points' }),
    );
  });

  it('the margin gets smaller at the next pads and again after the following set', () => {
    const { left } = rotorsAfter(oneVisit(evenly(27.6)));
    const { marginAtPadReplacementMm: first, marginAfterNextPadSetMm: second } = left;
    for (const { low, median, high } of [first!, second!]) {
      expect(low).toBeLessThan(median);
      expect(median).toBeLessThan(high);
    }
    expect(first!.median).toBeLessThan(left.marginMm!);
    expect(second!.median).toBeLessThan(first!.median);
    // 0.4 mm of rotor were lost with 3 mm of pad, so about 0.8 mm are lost with the 6 mm that are left, and 1.2 mm with
    // a new set; a little less, since a new rotor may have been 0.1 mm thicker or thinner.
    expect(Math.abs(first!.median - (1.6 - 0.8))).toBeLessThan(0.3);
    expect(Math.abs(first!.median - second!.median - 1.2)).toBeLessThan(0.45);
  });

  it('the margin after a new set of unknown thickness is null with a reason', () => {
    const vehicle = vehicleWith(ROTOR);
    const axles = { front: { ...vehicle.axles!.front, pad: { limit: mm(2) } } };
    const { rotors } = outlookOf({ ...vehicle, axles }, oneVisit(evenly(27.6))).axles[0]!;
    expect(rotors[0]!.marginAtPadReplacementMm).not.toBeNull();
    expect(rotors[0]!.marginAfterNextPadSetMm).toBeNull();
    expect(rotors[0]!.reasons).toContainEqual(
      expect.objectContaining({ field: 'marginAfterNextPadSetMm', code: 'no-new-thickness' }),
    );
  });

  it('run-out of the outgoing parts is preferred to that of the incoming ones', () => {
    const runouts = [runoutReading('left', 0.09), runoutReading('left', 0.02, { taken: 'as-left' })];
    expect(rotorsAfter(oneVisit(evenly(27.6), undefined, { readings: runouts })).left).toMatchObject({
      runoutMm: 0.02,
      runoutConformity: 'conforms',
    });
  });

  it('an earlier run-out counts until the next one, but not for a new rotor', () => {
    const measured = oneVisit(evenly(27.6), undefined, { readings: [runoutReading('left', 0.03)] });
    const later: VisitDraft = { date: '2024-10-01', odometer: km(25_000), readings: fourPads(7.3) };
    expect(rotorsAfter([...measured, later]).left.runoutMm).toBe(0.03);
    const replaced: VisitDraft = { ...later, work: [{ kind: 'rotor-replaced', axle: 'front' }] };
    expect(rotorsAfter([...measured, replaced]).left.runoutMm).toBeNull();
  });
});

describe('the decision to keep a rotor', () => {
  it('the decision to keep a rotor is made if the margin lasts as long as the pads', () => {
    const { left, right } = rotorsAfter(oneVisit(evenly(27.6)));
    expect([left.decision, right.decision]).toEqual(['keep', 'keep']);
    expect(codes(left)).toEqual(['margin']);
    expect(left.decisionReasons[0]!.detail).toContain('1.6 mm above');
  });

  it('a narrow margin brings a warning to measure at every visit', () => {
    // 0.7 mm were lost with 3 mm of pad, and twice that is left for 6 mm, so the chance is nearly even here.
    const narrow = [27.4, 27.35, 27.3, 27.25]
      .map((thickness) => rotorsAfter(oneVisit(evenly(thickness))).left)
      .find((rotor) => codes(rotor).includes('narrow-margin'));
    expect(narrow).toMatchObject({ decision: 'keep' });
    expect(narrow!.decisionReasons[0]!.detail).toMatch(
      /^the chance that it is under its discard thickness before .* used up is [1-4]\d %;/,
    );
  });

  it.each(['corroded', 'ok'] as const)(
    'the decision to keep a rotor is made for a face found %s',
    (state) => {
      expect(
        rotorsAfter(oneVisit(evenly(27.6), undefined, { conditions: [...onLeft(state)] })).left,
      ).toMatchObject({
        decision: 'keep',
      });
    },
  );
});

describe('a rotor fitted new', () => {
  it('a new rotor of a stated thickness is kept, even if not measured since', () => {
    const visit: VisitDraft = {
      date: '2024-10-01',
      odometer: km(25_000),
      work: [{ kind: 'rotor-replaced', axle: 'front' }],
    };
    const { left } = rotorsAfter([visit]);
    expect(left.decision).toBe('keep');
    expect(codes(left)).toEqual(['fitted-new']);
  });
});

describe('a face found scored', () => {
  it('a later ok withdraws a scored face', () => {
    const scored = oneVisit(evenly(27.6), undefined, { conditions: [...onLeft('scored')] });
    const later: VisitDraft = { date: '2025-01-15', odometer: km(25_000), conditions: [...onLeft('ok')] };
    expect(rotorsAfter(scored).left.decision).not.toBe('keep');
    expect(rotorsAfter([...scored, later]).left.decision).toBe('keep');
  });
});

describe('the decision to replace a rotor', () => {
  it('a cracked rotor is replaced, however thick', () => {
    const { left } = rotorsAfter(oneVisit(evenly(27.9), undefined, { conditions: [...onLeft('cracked')] }));
    expect(left.decision).toBe('replace');
    expect(codes(left)).toEqual(['cracked']);
  });

  it('a cracked rotor is replaced if neither thickness nor discard is known', () => {
    const visits: VisitDraft[] = [{ date: '2024-07-01', conditions: [...onLeft('cracked')] }];
    expect(rotorsAfter(visits, {}).left).toMatchObject({ decision: 'replace' });
  });

  it('a rotor found cracked at an earlier visit is replaced', () => {
    const cracked: VisitDraft = {
      date: '2024-07-01',
      odometer: km(20_000),
      readings: [...fourPads(8), ...rotorReadings('left', evenly(27.6))],
      conditions: [...onLeft('cracked')],
    };
    const later: VisitDraft = {
      date: '2024-10-01',
      odometer: km(25_000),
      readings: rotorReadings('left', evenly(27.5)),
    };
    expect(rotorsAfter([cracked, later]).left.decision).toBe('replace');
    const replaced: VisitDraft = {
      ...later,
      readings: rotorReadings('left', evenly(28), { taken: 'as-left' }),
      work: [{ kind: 'rotor-replaced', axle: 'front' }],
    };
    expect(rotorsAfter([cracked, replaced]).left.decision).toBe('keep');
  });

  it('a cracked rotor is replaced even after machining or an ok', () => {
    const cracked: VisitDraft = {
      date: '2024-07-01',
      odometer: km(20_000),
      readings: [...fourPads(8), ...rotorReadings('left', evenly(27.6))],
      conditions: [...onLeft('cracked')],
    };
    const machined: VisitDraft = {
      date: '2024-10-01',
      odometer: km(25_000),
      readings: rotorReadings('left', evenly(27.1), { taken: 'as-left' }),
      work: [{ kind: 'rotor-machined', axle: 'front' }],
      conditions: [...onLeft('ok')],
    };
    expect(codes(rotorsAfter([cracked, machined]).left)).toEqual(['cracked']);
    const together: VisitDraft = { ...machined, conditions: [...onLeft('cracked')] };
    expect(codes(rotorsAfter([together]).left)).toEqual(['cracked']);
  });

  it('a rotor under discard by more than the gauge’s uncertainty is replaced', () => {
    const { left } = rotorsAfter(oneVisit([26.5, 26.5, 26.5, 25.9]));
    expect(left).toMatchObject({ decision: 'replace', conformity: 'does-not-conform', marginMm: -0.1 });
    expect(codes(left)).toEqual(['below-discard']);
    expect(left.decisionReasons[0]!.detail).toContain('0.1 mm under');
  });

  it('a rotor that may not outlast pads with life left brings a warning, not a replacement', () => {
    // 0.7 mm were lost in 20 000 km, 1.3 mm are left for twice as far.
    const { left } = rotorsAfter(oneVisit(evenly(27.3)));
    expect(left.decision).toBe('keep');
    expect(codes(left)).toEqual(['narrow-margin']);
    expect(left.decisionReasons[0]!.detail).toContain('the pads now fitted');
  });

  it('a rotor that passes discard before the next visit is replaced, however much pad is left', () => {
    // 1.6 mm were lost in half a year, 0.4 mm are left for the next half.
    const { left } = rotorsAfter(oneVisit(evenly(26.4)));
    expect(left.decision).toBe('replace');
    expect(codes(left)).toEqual(['limit-before-next-visit']);
    expect(left.decisionReasons[0]!.detail).toContain('by the next visit, about 2024-12-30');
  });

  it('a rotor under new pads is replaced if it more likely than not wears out before they do', () => {
    let decisions = '';
    // The chance is rounded to two places: none of these steps falls where it rounds to 0.5 from below.
    for (let thousandths = 27_990; thousandths >= 26_990; thousandths -= 20) {
      const visits = oneVisit(evenly(thousandths / 1000));
      visits[0]!.work = [{ kind: 'pads-replaced', axle: 'front' }];
      const { decision, decisionReasons } = rotorsAfter(visits).left;
      const said = /used up is (?:over )?(\d+) %/.exec(decisionReasons[0]!.detail);
      const chance = said ? Number(said[1]) / 100 : 0;
      // The chance is given in two digits, which do not show on which side of one half it is.
      if (chance !== 0.5) expect(decision).toBe(chance > 0.5 ? 'replace' : 'keep');
      decisions += decision[0];
    }
    expect(decisions).toMatch(/^k+r+$/);
  });

  it('a rotor that would outlast these pads but not the next set is replaced once these are due', () => {
    // 1.2 mm were lost with 8.5 mm of pad, so another set of 9 mm takes more than the 0.8 mm that are left.
    const due = rotorsAfter(oneVisit(evenly(26.8), undefined, { pads: 2.5 })).left;
    expect(due.decision).toBe('replace');
    expect(due.decisionReasons[0]!.detail).toContain('the next set of pads');
    expect(due.marginAtPadReplacementMm!.median).toBeGreaterThan(0.5);
  });

  it('a rotor is judged by the set fitted at the latest visit, if there is one', () => {
    const visits = oneVisit(evenly(26.6), undefined, { pads: 2.5 });
    visits[0]!.work = [{ kind: 'pads-replaced', axle: 'front' }];
    const { left } = rotorsAfter(visits);
    expect(left.decision).toBe('replace');
    expect(left.decisionReasons[0]!.detail).toContain('the pads fitted at the latest visit');
  });

  it('a damaged rotor without a known machine-to thickness is replaced', () => {
    const visits = oneVisit(evenly(27.6), undefined, { conditions: [...onLeft('scored')] });
    const { left } = rotorsAfter(visits, { ...ROTOR, machineTo: null });
    expect(left.decision).toBe('replace');
    expect(codes(left)).toEqual(['scored', 'no-machine-to']);
  });

  it('a damaged rotor that machining would leave too thin is replaced', () => {
    const visits = oneVisit(evenly(26.65), undefined, { conditions: [...onLeft('scored')] });
    const { left } = rotorsAfter(visits, { ...ROTOR, new: mm(26.8) });
    expect(left.decision).toBe('replace');
    expect(codes(left)).toEqual(['scored', 'machine-to']);
  });
});

describe('the decision to machine a rotor', () => {
  it.each(['scored', 'heat-spotted'] as const)('a rotor found %s with enough left is machined', (state) => {
    const { left, right } = rotorsAfter(
      oneVisit(evenly(27.6), undefined, { conditions: [...onLeft(state)] }),
    );
    expect(left.decision).toBe('machine');
    expect(codes(left)).toEqual([state, 'machine-to']);
    expect(right.decision).toBe('keep');
  });

  it('a rotor whose thickness varies beyond its limit is machined', () => {
    const { left } = rotorsAfter(oneVisit([27.6, 27.64, 27.62, 27.61], evenly(27.6)));
    expect(left).toMatchObject({ decision: 'machine', variationMm: 0.04 });
    expect(codes(left)).toEqual(['variation', 'machine-to']);
  });

  // The variation is the difference of two readings: its interval reaches 1.96 · √2 · 0.00289 = 0.008 mm.
  it.each([27.613, 27.62, 27.627])(
    'a rotor from 27.6 to %f mm is too close to 0.02 mm to tell, and is not machined',
    (thickest) => {
      const { left } = rotorsAfter(oneVisit([27.6, thickest, 27.61, 27.61]));
      expect(left).toMatchObject({ decision: 'keep', variationConformity: 'inconclusive' });
    },
  );

  it('a rotor is not machined twice for the same finding', () => {
    const scored = oneVisit(evenly(27.6), undefined, { conditions: [...onLeft('scored')] });
    const machined: VisitDraft = {
      date: '2024-08-01',
      odometer: km(21_000),
      readings: rotorReadings('left', evenly(27.3), { taken: 'as-left' }),
      work: [{ kind: 'rotor-machined', axle: 'front', side: 'left' }],
    };
    expect(rotorsAfter([...scored, machined]).left).toMatchObject({ decision: 'keep', thinnestMm: 27.3 });
  });

  it('a rotor at discard, or brought there by machining, is never machined', () => {
    for (let hundredths = 2500; hundredths <= 2640; hundredths += 5) {
      for (const state of ['scored', 'heat-spotted'] as const) {
        const visits = oneVisit(evenly(hundredths / 100), undefined, { conditions: [...onLeft(state)] });
        const { left } = rotorsAfter(visits, { ...ROTOR, new: mm(26.8), machineTo: mm(26) });
        if (hundredths < 2600) expect(left.decision).toBe('replace');
        if (hundredths < 2630) expect(left.decision).not.toBe('machine');
      }
    }
  });
});

describe('the decision to measure a rotor', () => {
  it('the decision to measure a rotor is made if no discard thickness is known', () => {
    const { left } = rotorsAfter(oneVisit(evenly(27.6)), { new: mm(28) });
    expect(left).toMatchObject({ decision: 'measure', discardMm: null, marginMm: null, conformity: null });
    expect(codes(left)).toEqual(['no-discard']);
  });

  it('the decision to measure a rotor is made if the rotor was not measured since it was fitted', () => {
    const { left } = rotorsAfter([{ date: '2024-07-01', odometer: km(20_000), readings: fourPads(8) }]);
    expect(left.decision).toBe('measure');
    expect(codes(left)).toEqual(['no-readings']);
  });

  it.each([25.997, 26, 26.003])(
    'the decision to measure a rotor is made at %f mm against 26 mm, too close to tell by micrometer',
    (thickness) => {
      const { left } = rotorsAfter(oneVisit(evenly(thickness)));
      expect(left).toMatchObject({ decision: 'measure', conformity: 'inconclusive' });
      expect(codes(left)).toEqual(['margin-inconclusive']);
    },
  );

  it('the decision to measure a rotor is made if the margin is small and the thinnest point may have been missed', () => {
    const slow = { ...ROTOR, new: mm(26.4), machineTo: null };
    const before = {
      date: '2024-03-01',
      odometer: km(8_000),
      readings: [...rotorReadings('left', evenly(26.3)), ...rotorReadings('right', evenly(26.3))],
    };
    const after = (thicknesses: number[]) => rotorsAfter([before, ...oneVisit(thicknesses)], slow).left;
    const left = after([26.25, 26.25]);
    expect(left.decision).toBe('measure');
    expect(codes(left)).toEqual(['too-few-points']);
    expect(codes(after(evenly(26.25)))).not.toContain('too-few-points');
    expect(codes(rotorsAfter(oneVisit([27.6])).left)).toEqual(['margin']);
  });

  it.each([
    [0.08, 'does-not-conform'],
    [0.05, 'inconclusive'],
  ])(
    'the decision at a run-out of %f mm against 0.05 mm is to clean, re-index and measure again first',
    (value, conformity) => {
      const readings = [runoutReading('left', value)];
      const { left } = rotorsAfter(oneVisit(evenly(27.6), undefined, { readings }));
      expect(left).toMatchObject({ decision: 'measure', runoutConformity: conformity });
      expect(codes(left)).toEqual(['runout']);
      expect(left.decisionReasons[0]!.detail).toMatch(/clean the hub, re-index/);
    },
  );

  it('a scored rotor is machined, and its run-out is only mentioned', () => {
    const readings = [runoutReading('left', 0.08)];
    const more = { readings, conditions: [...onLeft('scored')] };
    const { left } = rotorsAfter(oneVisit(evenly(27.6), undefined, more));
    expect(left.decision).toBe('machine');
    expect(codes(left)).toEqual(['scored', 'machine-to', 'runout']);
  });

  it('run-out over its limit a second time means machining, or replacing if it is too thin', () => {
    const again = (thickness: number) => [
      ...oneVisit(evenly(thickness), undefined, { readings: [runoutReading('left', 0.08)] }),
      {
        date: '2024-07-02',
        odometer: km(20_010),
        readings: [runoutReading('left', 0.07)],
      },
    ];
    const slow = { ...ROTOR, new: mm(27.7) };
    expect(rotorsAfter(again(27.6), slow).left.decision).toBe('machine');
    expect(codes(rotorsAfter(again(27.6), slow).left)).toEqual(['runout-again', 'machine-to']);
    expect(rotorsAfter(again(26.6), { ...slow, new: mm(26.65) }).left.decision).toBe('replace');
  });

  it('a rotor under discard is not measured for run-out', () => {
    const readings = [runoutReading('left', 0.08)];
    expect(codes(rotorsAfter(oneVisit(evenly(25.9), undefined, { readings })).left)).toEqual([
      'below-discard',
    ]);
  });

  it('a run-out without a limit does not matter', () => {
    const rotor = { ...ROTOR, runoutLimit: null };
    const readings = [runoutReading('left', 0.3)];
    expect(rotorsAfter(oneVisit(evenly(27.6), undefined, { readings }), rotor).left).toMatchObject({
      decision: 'keep',
      runoutMm: 0.3,
      runoutConformity: null,
    });
  });
});

describe('the rotors of one axle', () => {
  it('the rotors of one axle are replaced in pairs, whichever side must go', () => {
    const before = {
      date: '2024-04-01',
      odometer: km(10_000),
      readings: [...rotorReadings('left', evenly(27.8)), ...rotorReadings('right', evenly(27.8))],
    };
    const leftGoes = rotorsAfter([before, ...oneVisit(evenly(25.9), evenly(27.6))]);
    expect([leftGoes.left.decision, leftGoes.right.decision]).toEqual(['replace', 'replace']);
    expect(codes(leftGoes.left)).toEqual(['below-discard']);
    expect(codes(leftGoes.right)).toEqual(['pair', 'margin']);
    expect(leftGoes.right.decisionReasons[0]!.detail).toContain('the left rotor');
    const rightGoes = rotorsAfter([before, ...oneVisit(evenly(27.6), evenly(25.9))]);
    expect(codes(rightGoes.left)).toEqual(['pair', 'margin']);
  });

  it('the rotors of one axle are replaced in pairs even if the other would be measured or machined', () => {
    const conditions = [
      { part: 'rotor', axle: 'front', side: 'left', state: 'scored' } as const,
      { part: 'rotor', axle: 'front', side: 'right', state: 'cracked' } as const,
    ];
    const { left, right } = rotorsAfter(oneVisit(evenly(27.6), undefined, { conditions }));
    expect(codes(left)).toEqual(['pair', 'scored', 'machine-to']);
    expect([left.decision, right.decision]).toEqual(['replace', 'replace']);
  });

  it('each rotor is kept, machined or measured by itself', () => {
    const { left, right } = rotorsAfter(
      oneVisit(evenly(27.6), [27.6], { conditions: [...onLeft('scored')] }),
    );
    expect([left.decision, right.decision]).toEqual(['machine', 'keep']);
  });

  it('a condition without a side applies to both rotors', () => {
    const conditions = [{ part: 'rotor', axle: 'front', state: 'cracked' } as const];
    const { left, right } = rotorsAfter(oneVisit(evenly(27.6), undefined, { conditions }));
    expect([codes(left), codes(right)]).toEqual([['cracked'], ['cracked']]);
  });
});
