import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenPoints } from '../../src/core/vocabulary/openPoints.js';
import type { Finding } from '../../src/core/vocabulary/wear.js';
import {
  fourPads,
  km,
  mm,
  padReading,
  rotorReading,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import {
  answerAfter,
  codesOf,
  done,
  EVEN,
  FINE,
  found,
  FRONT,
  openOf,
  OTHER_PADS,
  points,
  rotors,
  runout,
  stopsOf,
  answerOn,
  TORQUED,
} from '../support/decisionCases.js';
import { correct, read, recordVehicle, recordVisit, setVoided } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** Cases in which a failure could be missed, sent as a workshop would send them. */

let service: Service;
beforeAll(async () => {
  service = await startService({ now: '2026-03-10T12:00:00Z' });
});
afterAll(() => service.close());

const after = (visits: Body[], front?: Body, vehicle?: Body) => answerAfter(service, visits, front, vehicle);
const answerFor = (vehicleId: string, visitIds: string[]) => answerOn(service, vehicleId, visitIds);

describe('repeated readings of one place', () => {
  const leftInner = (value: number, gauge: string, repeat: number) =>
    padReading('left', 'inner', value, { gauge, repeat });

  // Readings in order, the deciding thickness, its conformity with 2 mm, and the stops.
  it.each([
    [
      'two readings by one caliper, one failing',
      [
        [1.4, 'caliper'],
        [2.8, 'caliper'],
      ],
      2.1,
      'inconclusive',
      ['pad-repeat-at-limit'],
    ],
    [
      'a visual reading settled by a caliper',
      [
        [2.2, 'visual'],
        [2.6, 'caliper'],
      ],
      2.6,
      'conforms',
      [],
    ],
    [
      'a caliper reading doubted by eye',
      [
        [3.6, 'caliper'],
        [1, 'visual'],
      ],
      3.6,
      'conforms',
      [],
    ],
    [
      'a visual pass overruled by a caliper',
      [
        [4, 'visual'],
        [1.8, 'caliper'],
      ],
      1.8,
      'does-not-conform',
      ['pad-at-limit'],
    ],
    [
      'two that agree',
      [
        [2.6, 'caliper'],
        [2.6, 'caliper'],
      ],
      2.6,
      'conforms',
      [],
    ],
    [
      'three readings, one failing, though their mean passes',
      [
        [1.9, 'caliper'],
        [4, 'caliper'],
        [4, 'caliper'],
      ],
      3.3,
      'inconclusive',
      ['pad-repeat-at-limit'],
    ],
  ] as const)(
    'the finest gauge decides and a failing reading still counts: %s',
    async (_name, repeats, mm, conformity, stops) => {
      const readings = repeats.map(([value, gauge], index) => leftInner(value, gauge, index + 1));
      const answer = await after([visitBody('2026-03-02', 40_000, [...readings, ...OTHER_PADS])]);
      const [pad] = answer.pads;
      expect(pad!.latest!.valueMm).toBeCloseTo(mm, 6);
      expect(pad!.limits[0]!.conformity).toBe(conformity);
      expect(stopsOf(answer)).toEqual(stops);
      expect(answer.overdue).toBe(stops.length > 0);
    },
  );

  it('repeats that differ by more than reading error are named, whichever gauge decided', async () => {
    const readings = [leftInner(3.6, 'caliper', 1), leftInner(1, 'visual', 2), ...OTHER_PADS];
    const { findings } = await after([visitBody('2026-03-02', 40_000, readings)]);
    expect(findings.find(({ code }) => code === 'repeats-disagree')).toMatchObject({
      severity: 'check',
      side: 'left',
      pad: 'inner',
      numbers: { firstMm: 3.6, secondMm: 1, countedMm: 3.6 },
    });
  });

  const FAILING = visitBody('2026-01-10', 40_000, [
    leftInner(1.4, 'caliper', 1),
    leftInner(2.8, 'caliper', 2),
    ...OTHER_PADS,
  ]);
  it.each([
    ['a coarser reading', [padReading('left', 'inner', 4.9, { gauge: 'visual' })], {}, ['pad-failed-before']],
    [
      'a reading by the same gauge',
      [padReading('left', 'inner', 2.6, { gauge: 'caliper' })],
      {},
      ['pad-failed-before'],
    ],
    ['a reading by a finer gauge', [padReading('left', 'inner', 2.6, { gauge: 'micrometer' })], {}, []],
    [
      'a reading too thick to be of the same pad',
      [padReading('left', 'inner', 10.5, { gauge: 'pad-gauge' })],
      {},
      [],
    ],
    ['new pads', [], done('pads-replaced'), []],
  ])(
    'a failing reading of an earlier visit keeps or loses its stop after %s',
    async (_name, readings, more, stops) => {
      const answer = await after([FAILING, visitBody('2026-02-20', 41_000, readings, more)]);
      expect(stopsOf(answer)).toEqual(stops);
    },
  );

  it('a rotor with one repeat under its discard thickness is a stop', async () => {
    const readings = [
      ...EVEN,
      ...points('left', [25.8, 27, 27, 27]),
      rotorReading('left', 26.6, { point: 1, repeat: 2 }),
      ...points('right', [27, 27, 27, 27]),
    ];
    const answer = await after([visitBody('2026-03-02', 40_000, readings)]);
    expect(stopsOf(answer)).toEqual(['rotor-repeat-under-discard']);
    expect(answer.rotors[0]).toMatchObject({
      thinnestMm: 26.2,
      conformity: 'inconclusive',
      decision: 'measure',
    });
  });
});

describe('a rotor with a reading under its discard thickness', () => {
  const under = visitBody('2026-01-10', 40_000, [...EVEN, ...rotors(25.9)]);
  it.each([
    [
      'a little more by the same gauge',
      rotors(26.3),
      ['rotor-failed-before', 'rotor-failed-before'],
      'rotor-thicker-than-before',
    ],
    [
      'more by a coarser one',
      rotors(26.35, { gauge: 'caliper' }),
      ['rotor-failed-before', 'rotor-failed-before'],
      'rotor-thicker-than-before',
    ],
    ['a thickness that only another rotor can have', rotors(27.9), [], 'rotor-replaced-without-record'],
  ])(
    'a rotor under discard keeps or loses its stop when it next reads %s',
    async (_name, readings, stops, asks) => {
      const answer = await after([under, visitBody('2026-02-20', 41_000, readings)]);
      expect(stopsOf(answer)).toEqual(stops);
      expect(codesOf(answer)).toContain(asks);
    },
  );

  it('a crack found at the visit that replaced the rotor belongs to the old rotor', async () => {
    const visit = visitBody('2026-02-20', 41_000, [], {
      ...done('rotor-replaced', { new: mm(28) }),
      ...found('rotor', 'cracked'),
    });
    const answer = await after([under, visit]);
    expect(stopsOf(answer)).toEqual([]);
    expect(codesOf(answer)).toContain('rotor-cracked-before-replacement');
  });
});

describe('conditions found at a visit', () => {
  const at = (time: string | null, more: Body) => visitBody('2026-03-02', 40_000, [], { time, ...more });
  const measured = visitBody('2026-03-01', 39_990, [...EVEN, ...rotors(27)]);
  const replaced = { work: [{ kind: 'rotor-replaced', axle: 'front', new: mm(28) }] };

  it.each([
    [
      'a crack at 16:00 after new rotors at 08:00',
      [at('08:00', replaced), at('16:00', found('rotor', 'cracked'))],
      ['rotor-cracked'],
    ],
    [
      'the same, recorded the other way round',
      [at('16:00', found('rotor', 'cracked')), at('08:00', replaced)],
      ['rotor-cracked'],
    ],
    [
      'the same, plus a third visit without a time',
      [at('16:00', found('rotor', 'cracked')), at('08:00', replaced), at(null, FINE)],
      ['rotor-cracked'],
    ],
    [
      'the same without times, in order of arrival',
      [at(null, replaced), at(null, found('rotor', 'cracked'))],
      ['rotor-cracked'],
    ],
    [
      'a crack at 08:00 before new rotors at 16:00',
      [at('08:00', found('rotor', 'cracked')), at('16:00', replaced)],
      [],
    ],
    [
      'contaminated pads after new ones',
      [at('08:00', done('pads-replaced')), at('16:00', found('pad', 'contaminated'))],
      ['pad-contaminated'],
    ],
    [
      'contaminated pads before new ones',
      [at('08:00', found('pad', 'contaminated')), at('16:00', done('pads-replaced'))],
      [],
    ],
  ])(
    'conditions found at a visit count in the order in which they were found: %s',
    async (_name, visits, stops) => {
      const answer = await after([measured, ...visits]);
      expect(stopsOf(answer)).toEqual(stops);
      if (stops.length > 0) expect(openOf(answer).length + answer.findings.length).toBeGreaterThan(0);
      if (stops.includes('rotor-cracked')) expect(answer.rotors[0]!.decision).toBe('replace');
    },
  );

  it('a rotor scored after machining counts against the machined face', async () => {
    const answer = await after([
      measured,
      at('08:00', done('rotor-machined')),
      visitBody('2026-03-02', 40_000, rotors(27.5), { time: '15:00' }),
      at('16:00', found('rotor', 'scored')),
    ]);
    expect(answer.rotors[0]!.decisionReasons[0]!.code).toBe('scored');
  });

  it('conditions found at a visit disappear when the visit is voided, and return when it is restored', async () => {
    const { visitIds, vehicleId } = await after([measured, at('16:00', found('rotor', 'cracked'))]);
    await setVoided(service, visitIds[1]!, true);
    expect(stopsOf(await answerFor(vehicleId, []))).toEqual([]);
    await setVoided(service, visitIds[1]!, false);
    expect(stopsOf(await answerFor(vehicleId, []))).toEqual(['rotor-cracked']);
  });
});

describe('open points', () => {
  const COMPLETE = [...EVEN, ...rotors(27.9)];
  const job = (more: Body, readings: Body[] = COMPLETE) =>
    visitBody('2026-03-02', 20_000, readings, { ...TORQUED, ...FINE, ...more });

  it.each([
    ['nothing if all was measured and done', job(done('slides-serviced')), []],
    ['a rotor never measured', job({}, EVEN), ['measure-not-done']],
    ['a scored rotor', job(found('rotor', 'scored')), ['rotor-scored']],
    [
      'a pull to the left',
      job({ ...done('slides-serviced'), roadTest: { ...FINE.roadTest, pulls: 'left' } }),
      ['road-test-pulls'],
    ],
    ['pulsation', job({ roadTest: { ...FINE.roadTest, pulsation: true } }), ['road-test-pulsation']],
    ['noise', job({ roadTest: { ...FINE.roadTest, noise: true } }), ['road-test-noise']],
    ['an empty road test', job({ ...done('slides-serviced'), roadTest: {} }), ['road-test-says-nothing']],
    [
      'a missing road test',
      job({ ...done('slides-serviced'), roadTest: { notes: 'not done' } }),
      ['road-test-says-nothing'],
    ],
    ['no road test after work', job({ ...done('slides-serviced'), roadTest: null }), ['no-road-test']],
    ['a new caliper without bleeding', job(done('caliper-replaced')), ['bleeding-not-recorded']],
    ['a new hose without bleeding', job(done('hose-replaced')), ['bleeding-not-recorded']],
    [
      'nothing with new fluid after a hose',
      job({ work: [{ kind: 'hose-replaced', axle: 'front' }, { kind: 'fluid-changed' }] }),
      [],
    ],
    [
      'unmeasured pads on an axle that was worked on',
      job(done('slides-serviced'), [...EVEN.slice(0, 3), ...rotors(27.9)]),
      ['position-not-measured'],
    ],
    [
      'the same even with a reason',
      job(
        {
          ...done('slides-serviced'),
          notMeasured: [{ axle: 'front', side: 'right', pad: 'outer', why: 'no light' }],
        },
        [...EVEN.slice(0, 3), ...rotors(27.9)],
      ),
      ['position-not-measured'],
    ],
    [
      'work on one side only',
      job(done('pads-replaced', { side: 'left', new: mm(11) })),
      ['pads-replaced-one-side', 'one-side-only'],
    ],
  ])('open points include %s', async (_name, visit, open) => {
    const answer = await after([visit]);
    expect(openOf(answer)).toEqual(open);
    expect(answer.openPoints.complete).toBe(open.length === 0);
  });

  it.each([
    [{ pulls: 'none' }, 'pulsation or noise'],
    [{ pulls: 'none', pulsation: false }, 'noise'],
    [{ pulsation: false, noise: false }, 'pull'],
  ])('a road test of %o does not count as complete: it leaves out %s', async (roadTest, left) => {
    const answer = await after([job({ ...done('slides-serviced'), roadTest })]);
    expect(openOf(answer)).toEqual(['road-test-incomplete']);
    expect(answer.openPoints.items[0]!.message).toBe(
      `The recorded road test says nothing about ${left}. Test that too, and correct the record.`,
    );
  });

  it('a later road test of the same job covers what the first left out', async () => {
    const partly = job({ ...done('slides-serviced'), roadTest: { pulls: 'none' } });
    const next = visitBody('2026-03-03', 20_010, [], { roadTest: { pulsation: false, noise: false } });
    const { visitIds } = await after([partly, next]);
    for (const id of visitIds) {
      const { items } = await read<OpenPoints>(service, `/v1/visits/${id}/open-points`);
      expect(items.map(({ code }) => code)).not.toContain('road-test-incomplete');
    }
  });

  it('only another road test closes a point about the road test’s result', async () => {
    const pulling = visitBody('2026-01-10', 19_000, COMPLETE, { roadTest: { pulls: 'right' } });
    const still = await after([pulling, visitBody('2026-02-20', 20_000, COMPLETE)]);
    expect(codesOf(still)).toContain('road-test-pulls');
    const better = visitBody('2026-02-20', 20_000, COMPLETE, { roadTest: { pulls: 'none' } });
    expect(codesOf(await after([pulling, better]))).not.toContain('road-test-pulls');
  });

  it('the next day’s visit for the same job closes its points', async () => {
    const left = job(done('pads-replaced', { side: 'left', new: mm(11) }));
    const right = {
      ...job(done('pads-replaced', { side: 'right', new: mm(11) }), []),
      date: '2026-03-03',
    };
    const answer = await after([left, right]);
    expect(codesOf(answer)).not.toContain('pads-replaced-one-side');
    for (const id of answer.visitIds) {
      const { items } = await read<OpenPoints>(service, `/v1/visits/${id}/open-points`);
      expect(items.map(({ code }) => code)).toEqual([]);
    }
  });
});

describe('a rotor or drum near its limit', () => {
  /** Three visits nine months apart, 12 000 km each, the rotors losing 0.4 mm between them. */
  const worn = (last: number, more: Body = {}) =>
    ['2024-08-01', '2025-05-01', '2026-02-01'].map((date, index) =>
      visitBody(
        date,
        20_000 + 12_000 * index,
        [...fourPads([9.5, 9.5, 9.5, 9.5]), ...rotors(Number((last + 0.4 * (2 - index)).toFixed(2)))],
        index === 2 ? more : {},
      ),
    );

  it('a rotor likely to pass its limit before the next visit is named, and replaced if that is more likely than not', async () => {
    const answer = await after(worn(26.01));
    expect(answer.rotors[0]).toMatchObject({
      decision: 'replace',
      decisionReasons: [{ code: 'limit-before-next-visit' }],
    });
    const finding = answer.findings.find(({ code }) => code === 'rotor-limit-before-next-visit');
    expect(finding!.severity).toBe('check');
    expect(finding!.message).toContain('0.01 mm above its discard thickness of 26 mm');
    expect(finding!.numbers.chanceBeforeNextVisit).toBeGreaterThan(0.9);
    expect(openOf(answer)).toContain('rotor-limit-before-next-visit');
  });

  it('a rotor with much left is not named', async () => {
    expect(codesOf(await after(worn(27.1)))).not.toContain('rotor-limit-before-next-visit');
  });

  const ON_2_MARCH = (readings: Body[], more: Body = {}) => [
    visitBody('2026-03-02', 20_000, [...EVEN, ...readings], more),
  ];
  it.each([
    [
      'left under its machine-to thickness',
      ON_2_MARCH([...rotors(26.8), ...rotors(26.2, { taken: 'as-left' })], done('rotor-machined')),
      'rotor-left-under-machine-to',
      'stop',
      'replace',
    ],
    [
      'fitted new under its discard thickness',
      ON_2_MARCH([], done('rotor-replaced', { new: mm(25) })),
      'rotor-fitted-under-discard',
      'stop',
      'measure',
    ],
    ['thicker than a new one', ON_2_MARCH(rotors(29.2)), 'rotor-thicker-than-new', 'check', null],
    [
      'thicker than before',
      [visitBody('2025-09-01', 15_000, rotors(26.8)), ...ON_2_MARCH(rotors(27.4))],
      'rotor-thicker-than-before',
      'check',
      null,
    ],
    [
      'of varying thickness, too close to its limit to tell',
      ON_2_MARCH([
        ...points('left', [27.9, 27.922, 27.9, 27.9]),
        ...points('right', [27.9, 27.9, 27.9, 27.9]),
      ]),
      'thickness-variation-too-close-to-limit',
      'check',
      'keep',
    ],
  ])('a rotor %s is an open point', async (_name, visits, code, severity, decision) => {
    const answer = await after(visits);
    const finding = answer.findings.find((each) => each.code === code && each.side === 'left');
    expect(finding).toMatchObject({ severity });
    if (decision) expect(answer.rotors[0]!.decision).toBe(decision);
    expect(openOf(answer)).toContain(code);
  });

  it('a rotor left exactly at its machine-to thickness is not named', async () => {
    const readings = [...rotors(26.8), ...rotors(26.4, { taken: 'as-left' })];
    expect(codesOf(await after(ON_2_MARCH(readings, done('rotor-machined'))))).not.toContain(
      'rotor-left-under-machine-to',
    );
  });

  const drumAxle = {
    brake: 'drum',
    drum: { new: mm(230), maximum: mm(231), machineTo: mm(230.6) },
    shoe: { new: mm(5), limit: mm(1) },
  };
  const drums = (value: number, more: Body = {}): Body[] =>
    ['left', 'right'].map((side) => ({
      kind: 'drum-diameter',
      axle: 'front',
      side,
      value,
      unit: 'mm',
      gauge: 'drum-gauge',
      ...more,
    }));
  it.each([
    [
      'left over its machine-to diameter',
      [
        visitBody(
          '2026-03-02',
          20_000,
          [...drums(230.4), ...drums(230.8, { taken: 'as-left' })],
          done('drum-machined'),
        ),
      ],
      'drum-left-over-machine-to',
    ],
    [
      'fitted new over its maximum',
      [visitBody('2026-03-02', 20_000, [], done('drum-replaced', { new: mm(231.5) }))],
      'drum-fitted-over-maximum',
    ],
    [
      'smaller than before',
      [visitBody('2025-09-01', 15_000, drums(230.9)), visitBody('2026-03-02', 20_000, drums(230.2))],
      'drum-replaced-without-record',
    ],
    ['smaller than new', [visitBody('2026-03-02', 20_000, drums(229))], 'drum-smaller-than-new'],
    [
      'with a repeat over its maximum',
      [visitBody('2026-03-02', 20_000, [...drums(231.4), ...drums(230.2, { repeat: 2 })])],
      'drum-repeat-over-maximum',
    ],
  ])('a drum %s has a finding', async (_name, visits, code) => {
    const answer = await after(visits, drumAxle);
    expect(codesOf(answer)).toContain(code);
  });

  it('run-out asks once to clean the hub and measure again, then names the next step', async () => {
    const first = visitBody('2026-02-10', 19_000, [...EVEN, ...rotors(27.9), runout(0.12)]);
    const asked = await after([first]);
    expect(asked.rotors[0]).toMatchObject({ decision: 'measure', decisionReasons: [{ code: 'runout' }] });
    expect(codesOf(asked)).toContain('runout-over-limit');
    for (const again of [
      [first, visitBody('2026-03-02', 20_000, [runout(0.11)])],
      [
        visitBody('2026-02-10', 19_000, [
          ...EVEN,
          ...rotors(27.9),
          runout(0.12),
          runout(0.11, { taken: 'as-left' }),
        ]),
      ],
    ]) {
      const answer = await after(again);
      expect(answer.rotors[0]!.decision).toBe('machine');
      const finding = answer.findings.find(({ code }) => code === 'runout-still-over-limit');
      expect(finding!.check).toContain('hub’s own run-out');
      expect(codesOf(answer)).not.toContain('runout-over-limit');
    }
  });

  it('a scored rotor is machined whatever its run-out', async () => {
    const visit = visitBody(
      '2026-03-02',
      20_000,
      [...EVEN, ...rotors(27.9), runout(0.12)],
      found('rotor', 'scored'),
    );
    const answer = await after([visit]);
    expect(answer.rotors[0]).toMatchObject({
      decision: 'machine',
      decisionReasons: [{ code: 'scored' }, { code: 'machine-to' }, { code: 'runout' }],
    });
  });

  it('the margin of a rotor last measured over a year before the latest visit gives the date', async () => {
    const old = visitBody('2025-01-10', 15_000, [...EVEN, ...rotors(27.6)]);
    const answer = await after([old, visitBody('2026-03-02', 20_000, fourPads([6.5, 6.5, 6.5, 6.5]))]);
    const [finding] = answer.findings.filter(({ code }) => code === 'rotor-not-measured-lately');
    expect(finding!.message).toContain('2025-01-10');
    expect(finding!.numbers.expectedThicknessMm).toBeLessThan(27.6);
  });
});

describe('a lining at or near its limit', () => {
  const leftInner = (value: number, more: Body = {}) => [
    visitBody('2026-03-02', 40_000, [padReading('left', 'inner', value, more), ...OTHER_PADS]),
  ];
  const NO_LIMIT = { brake: 'disc' };

  it.each([
    ['at 0 mm without a known limit', leftInner(0), NO_LIMIT, ['metal-on-metal']],
    [
      'at 0 mm beside its limit, metal on metal first',
      leftInner(0),
      FRONT,
      ['metal-on-metal', 'pad-at-limit'],
    ],
    [
      'too near 0 mm to tell, without a known limit',
      leftInner(1.5, { gauge: 'visual' }),
      NO_LIMIT,
      ['pad-too-close-to-zero'],
    ],
    [
      'fitted new no thicker than its limit',
      [visitBody('2026-03-02', 40_000, [], done('pads-replaced', { new: mm(1.9) }))],
      FRONT,
      Array(4).fill('pad-fitted-at-limit'),
    ],
  ])('a lining %s is a stop', async (_name, visits, front, stops) => {
    const answer = await after(visits, front as Body);
    expect(stopsOf(answer)).toEqual(stops);
    expect(codesOf(answer).slice(0, stops.length)).toEqual(stops);
  });

  it('a reading thicker than a new pad is named as taken with the backing plate', async () => {
    const answer = await after([visitBody('2026-03-02', 40_000, fourPads([15.5, 7, 7, 7]))]);
    expect(answer.findings.find(({ code }) => code === 'thicker-than-new')).toMatchObject({
      severity: 'check',
      side: 'left',
      pad: 'inner',
      numbers: { readingMm: 15.5, newMm: 11, overMm: 4.5 },
    });
  });

  it('a lining without a known limit says that none of its readings can fail', async () => {
    const thin = await after(leftInner(2.5), NO_LIMIT);
    expect(thin.findings.find(({ code }) => code === 'pad-limit-unknown')!.severity).toBe('check');
    const thick = await after([visitBody('2026-03-02', 40_000, EVEN)], NO_LIMIT);
    expect(thick.findings.find(({ code }) => code === 'pad-limit-unknown')!.severity).toBe('note');
  });

  it('a conforming lining has its chance of conformity, with and without gauge placement', async () => {
    const near = await after(leftInner(2.2));
    const [limit] = near.pads[0]!.limits;
    // Φ(0.2/0.05) and about Φ(0.2/√(0.05² + 0.2²)): placement is averaged over what has been learned about it.
    expect(limit).toMatchObject({ conformity: 'conforms', fails: false });
    expect(limit!.chanceOfConformity).toBeCloseTo(1, 3);
    expect(limit!.chanceWithPlacement).toBeCloseTo(0.834, 1);
    expect(codesOf(near)).toContain('near-limit-by-placement');
    expect(stopsOf(near)).toEqual([]);
    expect(codesOf(await after(leftInner(2.7)))).not.toContain('near-limit-by-placement');
  });

  it('a reading in thirty-seconds of an inch is answered in them, and refers to a finer gauge in calibration', async () => {
    for (const [name, body] of [
      ['lapsed-gauge', { kind: 'pad-gauge', resolution: mm(0.7), calibrationDate: '2024-01-10' }],
    ] as const) {
      await service.as('owner', 'put', `/v1/gauges/${name}`).send(body).expect(201);
    }
    const answer = await after(leftInner(3, { unit: 'in/32', gauge: 'pad-gauge-thirty-seconds' }));
    const finding = answer.findings.find(({ code }) => code === 'pad-too-close-to-limit')!;
    expect(finding.message).toContain('3/32 in (2.38 mm)');
    expect(finding.check).toContain('Measure again with pad-gauge (± 0.36/32 in (0.28 mm))');
  });

  it('the check never recommends the gauge that was just used', async () => {
    const gauges = await read<{ items: { id: string }[] }>(service, '/v1/gauges');
    for (const { id } of gauges.items) {
      const response = await service
        .as(
          'technician',
          'post',
          `/v1/vehicles/${(await recordVehicle(service, vehicleBody({ axles: { front: FRONT } }))).id}/visits`,
        )
        .send(visitBody('2026-03-02', 40_000, [padReading('left', 'inner', 2.01, { gauge: id })]));
      if (response.status === 422) continue;
      const { findings } = response.body as { findings: Finding[] };
      const close = findings.filter(({ code }) => code === 'pad-too-close-to-limit');
      for (const { check } of close) expect(check).not.toContain(`with ${id} `);
    }
  });
});

describe('findings that must not appear or must disappear', () => {
  const bolt = (value: number) => ({ fastener: 'bolt', axle: 'front', side: 'left', value, unit: 'Nm' });
  const withBolt = {
    ...FRONT,
    torque: { bolt: { value: 120, unit: 'Nm', tolerance: { value: 10, unit: 'Nm' } } },
  };
  const indicator = (type: string | null) => ({
    ...FRONT,
    pad: { ...FRONT.pad, wearIndicator: type ? { ...mm(3), type } : null },
  });
  const thin = [visitBody('2026-03-02', 40_000, fourPads([2.8, 6, 6, 6]))];
  const RIGHT_LEFT_OUT = { notMeasured: [{ axle: 'front', side: 'right', why: 'wheel not removed' }] };

  it('a torque that was set again in the same visit has no finding', async () => {
    const wrong = [visitBody('2026-03-02', 40_000, EVEN, { torques: [bolt(60)] })];
    expect(codesOf(await after(wrong, withBolt))).toContain('torque-outside-specification');
    const right = [visitBody('2026-03-02', 40_000, EVEN, { torques: [bolt(60), bolt(120)] })];
    expect(codesOf(await after(right, withBolt))).not.toContain('torque-outside-specification');
  });

  it.each([
    [null, []],
    ['mechanical', ['indicator-silent']],
    ['electric', ['no-audible-indicator']],
    ['mark', ['no-audible-indicator']],
  ])('thin pads whose indicator is of type %s have the findings %o', async (type, codes) => {
    const said = codesOf(await after(thin, indicator(type))).filter((code) => code.includes('indicator'));
    expect(said).toEqual(codes);
  });

  it('no finding refers to earlier readings where there are none', async () => {
    const first = await after([visitBody('2026-03-02', 40_000, EVEN.slice(0, 2), RIGHT_LEFT_OUT)]);
    const message = first.findings.find(({ code }) => code === 'not-measured')!.message;
    expect(message).toContain('No earlier reading');
    const second = await after([
      visitBody('2025-09-02', 30_000, EVEN),
      visitBody('2026-03-02', 40_000, EVEN.slice(0, 2), RIGHT_LEFT_OUT),
    ]);
    expect(second.findings.find(({ code }) => code === 'not-measured')!.message).toContain(
      'are based on earlier readings',
    );
  });

  it('a vehicle that was never measured has only that finding', async () => {
    for (const visits of [[], [visitBody('2026-03-02', 40_000)]]) {
      expect(codesOf(await after(visits))).toEqual(['never-measured']);
    }
    const fitted = [visitBody('2026-03-02', 40_000, [], done('pads-replaced', { new: mm(11) }))];
    expect(codesOf(await after(fitted))).not.toContain('never-measured');
  });

  it('a finding disappears when its visit is corrected', async () => {
    const { visitIds, vehicleId } = await after([visitBody('2026-03-02', 40_000, fourPads([1.5, 6, 6, 6]))]);
    const changes = { readings: fourPads([6, 6, 6, 6]) };
    await correct(service, visitIds[0]!, { reason: 'misread', changes });
    expect(stopsOf(await answerFor(vehicleId, []))).toEqual([]);
  });
});

describe('impossible input', () => {
  const disc = (specs: Body) => ({ front: { brake: 'disc', ...specs } });
  const drum = (specs: Body) => ({ front: { brake: 'drum', drum: specs } });

  it.each([
    ['a limit at the thickness of a new pad', disc({ pad: { new: mm(11), limit: mm(11) } }), 'pad/limit'],
    ['a limit above a new pad', disc({ pad: { new: mm(11), limit: mm(12) } }), 'pad/limit'],
    [
      'a wear indicator above a new pad',
      disc({ pad: { new: mm(11), wearIndicator: mm(11.5) } }),
      'pad/wearIndicator',
    ],
    ['a discard thickness above new', disc({ rotor: { new: mm(26), discard: mm(28) } }), 'rotor/discard'],
    [
      'a discard thickness at new, in inches',
      disc({ rotor: { new: { value: 1, unit: 'in' }, discard: mm(25.4) } }),
      'rotor/discard',
    ],
    [
      'a machine-to thickness under discard',
      disc({ rotor: { discard: mm(26), machineTo: mm(25) } }),
      'rotor/machineTo',
    ],
    [
      'a machine-to thickness above new',
      disc({ rotor: { new: mm(28), machineTo: mm(29) } }),
      'rotor/machineTo',
    ],
    ['a maximum diameter below new', drum({ new: mm(230), maximum: mm(229) }), 'drum/maximum'],
    [
      'a machine-to diameter above the maximum',
      drum({ maximum: mm(231), machineTo: mm(232) }),
      'drum/machineTo',
    ],
  ])('%s is refused, on a new vehicle and on a change', async (_name, axles, pointer) => {
    const refused = await service.as('technician', 'post', '/v1/vehicles').send(vehicleBody({ axles }));
    expect(refused.status).toBe(422);
    const { errors } = refused.body as { errors: { pointer: string }[] };
    expect(errors.map((error) => error.pointer)).toEqual([`#/axles/front/${pointer}/value`]);
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: {} } }));
    const patched = await service
      .as('technician', 'patch', `/v1/vehicles/${id}`)
      .set('Content-Type', 'application/merge-patch+json')
      .set('If-Match', '*')
      .send(JSON.stringify({ axles }));
    expect(patched.status).toBe(422);
  });

  const visit = (more: Body) => visitBody('2026-03-02', 40_000, [], more);
  it.each([
    [
      'an impossible new rotor',
      visit(done('rotor-replaced', { new: mm(26), discard: mm(28) })),
      '#/work/0/discard/value',
    ],
    [
      'impossible new pads',
      visit(done('pads-replaced', { new: mm(8), limit: mm(8) })),
      '#/work/0/limit/value',
    ],
    [
      'a pad read with a dial indicator',
      visit({ readings: [padReading('left', 'inner', 7, { gauge: 'dial-indicator' })] }),
      '#/readings/0/gauge',
    ],
    [
      'a rotor read with a pad gauge',
      visit({ readings: [rotorReading('left', 27, { gauge: 'pad-gauge' })] }),
      '#/readings/0/gauge',
    ],
    [
      'a rotor’s thickness judged by eye',
      visit({ readings: [rotorReading('left', 27, { gauge: 'visual' })] }),
      '#/readings/0/gauge',
    ],
    [
      'run-out read with a micrometer',
      visit({ readings: [runout(0.03, { gauge: 'micrometer' })] }),
      '#/readings/0/gauge',
    ],
  ])('%s is refused in a visit', async (_name, body, pointer) => {
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: FRONT } }));
    const refused = await service.as('technician', 'post', `/v1/vehicles/${id}/visits`).send(body);
    expect(refused.status).toBe(422);
    const { errors } = refused.body as { errors: { pointer: string }[] };
    expect(errors.map((error) => error.pointer)).toEqual([pointer]);
  });

  it('a gauge calibrated in the future is refused', async () => {
    const put = (calibrationDate: string) =>
      service
        .as('owner', 'put', `/v1/gauges/calibrated-${calibrationDate}`)
        .send({ kind: 'depth-gauge', resolution: mm(0.1), calibrationDate });
    expect((await put('2026-03-10')).status).toBe(201);
    const refused = await put('2026-03-12');
    expect(refused.status).toBe(422);
    expect(refused.body).toMatchObject({ errors: [{ pointer: '#/calibrationDate' }] });
  });
});

describe('a failure under a rule set', () => {
  let shop: Service;
  beforeAll(async () => {
    shop = await startService({ now: '2026-03-10T12:00:00Z' });
    const policy = {
      ruleSets: ['uk-inspection-manual', 'eu-2014-45', 'quebec-c-24-2-r-32'],
      padMinimum: mm(3),
    };
    await shop.as('owner', 'put', '/v1/policy').set('If-Match', '*').send(policy).expect(200);
  });
  afterAll(() => shop.close());

  async function findingsOf(visit: Body, vehicle: Body = {}): Promise<Finding[]> {
    const front = { ...FRONT, actuation: 'hydraulic', steered: true, lining: 'bonded' };
    const { id } = await recordVehicle(shop, vehicleBody({ axles: { front }, ...vehicle }));
    return (await recordVisit(shop, id, visit)).findings as Finding[];
  }
  const thin = visitBody('2026-03-02', 40_000, fourPads([1.2, 6, 6, 6]));

  it('a failure under a rule set is named with its class, and with every other rule that the reading fails', async () => {
    const [finding] = await findingsOf(thin);
    expect(finding).toMatchObject({ code: 'pad-at-limit', severity: 'stop' });
    expect(finding!.message).toContain('under the shop’s own minimum of 3 mm');
    expect(finding!.message).toContain('the maker’s limit of 2 mm');
    expect(finding!.message).toContain(
      'dangerous under UK inspection manual, item 1.1.13(a)(ii), limit 1.5 mm',
    );
    expect(finding!.message).toContain('a failure under Quebec C-24.2, r. 32, s. 31(2), limit 1.6 mm');
  });

  it('rules that do not cover the vehicle give none', async () => {
    const lorry = { grossMass: { value: 12_000, unit: 'kg' } };
    const [finding] = await findingsOf(thin, lorry);
    expect(finding!.message).not.toContain('UK inspection manual');
    expect(finding!.message).toContain('Quebec');
  });

  it('a cracked rotor and contaminated linings have their class under the rule set too', async () => {
    const cracked = await findingsOf(visitBody('2026-03-02', 40_000, EVEN, found('rotor', 'cracked')));
    expect(cracked[0]!.message).toContain('dangerous under UK inspection manual, item 1.1.14(a)(ii)');
    expect(cracked[0]!.message).toContain('dangerous under Directive 2014/45/EU, annex I, item 1.1.14(a)');
    const soaked = await findingsOf(visitBody('2026-03-02', 40_000, EVEN, found('pad', 'contaminated')));
    expect(soaked[0]!.message).toContain('major under UK inspection manual, item 1.1.13(b)');
  });

  it('a failure at a visit years ago has its date', async () => {
    const [finding] = await findingsOf({ ...thin, date: '2024-01-15', odometer: km(10_000) });
    expect(finding!.message).toContain('on 2024-01-15');
  });
});
