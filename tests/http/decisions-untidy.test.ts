import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Axle, LiningPosition, Side } from '../../src/core/vocabulary/terms.js';
import type { OpenPoints } from '../../src/core/vocabulary/openPoints.js';
import type { ReplacementPlan } from '../../src/core/vocabulary/planning.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import {
  fourPads,
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
import { correct, read, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** Untidy records in which a failure could be lost: entries in another order, drums, inches, sides left out. */

let service: Service;
beforeAll(async () => {
  service = await startService({ now: '2026-03-10T12:00:00Z' });
});
afterAll(() => service.close());

const after = (visits: Body[], front?: Body, vehicle?: Body) => answerAfter(service, visits, front, vehicle);
const onMarch2 = (readings: Body[], more: Body = {}) => visitBody('2026-03-02', 40_000, readings, more);
const leftInner = (value: number, more: Body = {}) =>
  padReading('left', 'inner', value, { gauge: 'caliper', ...more });

const DRUM_AXLE = {
  brake: 'drum',
  drum: { new: mm(230), maximum: mm(231), machineTo: mm(230.6) },
  shoe: { new: mm(5), limit: mm(1) },
};
const drums = (value: number, more: Body = {}): Body[] =>
  (['left', 'right'] as const).map((side) => ({
    kind: 'drum-diameter',
    axle: 'front',
    side,
    value,
    unit: 'mm',
    gauge: 'drum-gauge',
    ...more,
  }));
const shoe = (side: Side, shoeName: LiningPosition | null, value: number, more: Body = {}): Body => ({
  kind: 'shoe-thickness',
  axle: 'front',
  side,
  ...(shoeName && { shoe: shoeName }),
  value,
  unit: 'mm',
  gauge: 'caliper',
  ...more,
});

async function addEntry(visitId: string, entry: Body): Promise<void> {
  await service.as('technician', 'post', `/v1/visits/${visitId}/entries`).send(entry).expect(201);
}

describe('a failing reading among untidy others', () => {
  it('a failing reading of another end of the same pad counts', async () => {
    const answer = await after([
      onMarch2([leftInner(1.6, { at: 'leading' }), leftInner(2.9, { at: 'thinnest' }), ...OTHER_PADS]),
    ]);
    expect(stopsOf(answer)).toEqual(['pad-at-limit']);
  });

  it('a failing repeat of a shoe, or in inches, keeps its stop', async () => {
    const shoes = await after(
      [onMarch2([shoe('left', 'leading', 0.8), shoe('left', 'leading', 1.6, { repeat: 2 })])],
      DRUM_AXLE,
    );
    expect(stopsOf(shoes)).toEqual(['pad-repeat-at-limit']);
    const inch = { unit: 'in' };
    const inches = await after([
      onMarch2([leftInner(0.055, inch), leftInner(0.11, { ...inch, repeat: 2 }), ...OTHER_PADS]),
    ]);
    expect(stopsOf(inches)).toEqual(['pad-repeat-at-limit']);
  });

  it('a repeat added later by the same gauge does not clear the stop, and a finer one decides', async () => {
    const { visitIds, vehicleId } = await after([onMarch2([leftInner(1.4), ...OTHER_PADS])]);
    await addEntry(visitIds[0]!, { readings: [leftInner(2.8, { repeat: 2 })] });
    expect(stopsOf(await answerOn(service, vehicleId, visitIds))).toEqual(['pad-repeat-at-limit']);
    await addEntry(visitIds[0]!, { readings: [leftInner(2.6, { repeat: 3, gauge: 'micrometer' })] });
    expect(stopsOf(await answerOn(service, vehicleId, visitIds))).toEqual([]);
  });

  it('the next day’s thicker reading leaves the failure open at both visits', async () => {
    const torn = { ...TORQUED, ...FINE };
    const answer = await after([
      onMarch2([leftInner(1.4), ...OTHER_PADS, ...rotors(27.9)], torn),
      { ...onMarch2([leftInner(2.8)]), date: '2026-03-03' },
    ]);
    expect(stopsOf(answer)).toEqual(['pad-failed-before']);
    for (const id of answer.visitIds) {
      const { complete, items } = await read<OpenPoints>(service, `/v1/visits/${id}/open-points`);
      expect(complete).toBe(false);
      expect(items.map(({ finding }) => finding)).toContain('pad-failed-before');
    }
  });

  it('a rotor read under discard leaves its first visit open when the next reading is thicker', async () => {
    const answer = await after([
      onMarch2([...EVEN, ...rotors(25.9)], { ...TORQUED, ...FINE }),
      { ...onMarch2(rotors(26.3)), date: '2026-03-03' },
    ]);
    const { items } = await read<OpenPoints>(service, `/v1/visits/${answer.visitIds[0]}/open-points`);
    expect(items.map(({ finding }) => finding)).toContain('rotor-failed-before');
  });

  it('a reading little thicker than a failing one does not clear it where the new thickness is unknown', async () => {
    const front = { brake: 'disc', pad: { limit: mm(2) } };
    const earlier = visitBody('2026-02-20', 39_000, [leftInner(1.4), ...OTHER_PADS]);
    expect(stopsOf(await after([earlier, onMarch2([leftInner(3.6)])], front))).toEqual(['pad-failed-before']);
  });

  it('bare metal stays a stop without a known limit, until a finer reading or a far thicker one', async () => {
    const front = { brake: 'disc' };
    const bare = visitBody('2026-03-01', 39_990, [leftInner(0), ...OTHER_PADS]);
    expect(stopsOf(await after([bare, onMarch2([leftInner(3)])], front))).toEqual(['pad-failed-before']);
    const repeats = [0, 9, 9, 9].map((value, index) => leftInner(value, { repeat: index + 1 }));
    expect(stopsOf(await after([onMarch2([...repeats, ...OTHER_PADS])], front))).toEqual([
      'pad-repeat-at-limit',
    ]);
    const finer = onMarch2([leftInner(3, { gauge: 'micrometer' })]);
    expect(stopsOf(await after([bare, finer], front))).toEqual([]);
  });

  it('a run-out over its limit stays open among repeats under it', async () => {
    const readings = [0.08, ...Array<number>(10).fill(0.02)].map((value, index) =>
      runout(value, { repeat: index + 1 }),
    );
    const answer = await after([onMarch2([...EVEN, ...rotors(27.9), ...readings])]);
    expect(codesOf(answer)).toContain('runout-too-close-to-limit');
  });

  it('advice on a repeat over a drum’s maximum offers to measure again and does not call the drum worn', async () => {
    const { advice } = await after([onMarch2([...drums(231.4), ...drums(230.2, { repeat: 2 })])], DRUM_AXLE);
    expect(advice.words).toBe('Replace both front drums now, or measure again with a finer gauge.');
  });
});

describe('conditions recorded in an untidy order', () => {
  const REPLACED = done('rotor-replaced', { new: mm(28) });

  it('a crack that a later entry adds to the visit that replaced the rotor is an open point until answered', async () => {
    const { visitIds, vehicleId } = await after([onMarch2(EVEN, REPLACED)]);
    await addEntry(visitIds[0]!, found('rotor', 'cracked'));
    const asked = await answerOn(service, vehicleId, visitIds);
    expect(openOf(asked)).toContain('rotor-cracked-before-replacement');
    await addEntry(visitIds[0]!, found('rotor', 'ok'));
    const answered = await answerOn(service, vehicleId, visitIds);
    expect(codesOf(answered)).not.toContain('rotor-cracked-before-replacement');
  });

  it.each([
    ['a drum on an axle with disc brakes', 'drum', FRONT, 'drum-cracked'],
    ['a rotor on an axle with drum brakes', 'rotor', DRUM_AXLE, 'rotor-cracked'],
  ])('a crack in %s is a stop', async (_name, part, front, code) => {
    const answer = await after([onMarch2([], found(part, 'cracked'))], front);
    expect(stopsOf(answer)).toEqual([code]);
    expect(answer.advice).toMatchObject({ action: 'stop' });
    expect(answer.advice.words).toContain(`the front left ${part} now: it was found cracked`);
  });

  it('machining does not clear a crack in a parking brake’s drum, and replacement does', async () => {
    const cracked = visitBody('2026-03-01', 39_990, [], found('drum', 'cracked'));
    expect(stopsOf(await after([cracked, onMarch2([], done('rotor-machined'))]))).toEqual(['drum-cracked']);
    expect(stopsOf(await after([cracked, onMarch2([], REPLACED)]))).toEqual([]);
  });

  it('a fault found and put right at one visit is mentioned', async () => {
    const visit = onMarch2([], { ...found('caliper', 'leaking'), ...done('caliper-replaced') });
    const answer = await after([visit]);
    expect(stopsOf(answer)).toEqual([]);
    expect(answer.findings.find(({ code }) => code === 'caliper-leaking-put-right')).toMatchObject({
      severity: 'note',
    });
  });
});

describe('work that the records leave in doubt', () => {
  const job = (more: Body, readings: Body[] = [...EVEN, ...rotors(27.9)]) =>
    onMarch2(readings, { ...TORQUED, ...FINE, ...more });

  it.each([
    ['a hose bled on the other axle only', FRONT, { kind: 'fluid-changed', axle: 'rear' }, true],
    ['a hose bled on its axle', FRONT, { kind: 'fluid-changed', axle: 'front' }, false],
    ['an air hose', { ...FRONT, actuation: 'air' }, null, false],
  ])('the open points say whether bleeding is missing for %s', async (_name, front, fluid, isMissing) => {
    const work = [{ kind: 'hose-replaced', axle: 'front' }, ...(fluid ? [fluid] : [])];
    const axles = { front, rear: { brake: 'disc' } };
    const answer = await after([job({ work })], front, { axles });
    expect(openOf(answer).includes('bleeding-not-recorded')).toBe(isMissing);
  });

  it('a torque recorded on one side only leaves the other side open, though none is specified', async () => {
    const torques = [{ fastener: 'bolt', axle: 'front', side: 'left', value: 100, unit: 'Nm' }];
    const { openPoints } = await after([job({ ...done('slides-serviced'), torques })]);
    expect(openPoints.items).toMatchObject([{ code: 'torque-not-recorded', side: 'right' }]);
  });

  const BOLT = {
    ...FRONT,
    torque: { bolt: { value: 120, unit: 'Nm', tolerance: { value: 10, unit: 'Nm' } } },
  };
  const bolt = (value: number, side: Side | null) => ({
    fastener: 'bolt',
    axle: 'front' satisfies Axle,
    side,
    value,
    unit: 'Nm',
  });

  it('a torque of both sides is replaced by later ones of each side', async () => {
    const torques = [bolt(60, null), bolt(120, 'left'), bolt(120, 'right')];
    expect(codesOf(await after([job({ torques })], BOLT))).not.toContain('torque-outside-specification');
    const half = await after([job({ torques: torques.slice(0, 2) })], BOLT);
    expect(openOf(half)).toContain('torque-outside-specification');
  });

  it('a wrong torque stays open at the next visit until it is set again', async () => {
    const wrong = visitBody('2026-01-10', 38_000, [...EVEN, ...rotors(27.9)], {
      torques: [bolt(60, 'left')],
    });
    expect(openOf(await after([wrong, job({ torques: [] })], BOLT))).toContain(
      'torque-outside-specification',
    );
    const again = job({ torques: [bolt(120, 'left')] });
    expect(openOf(await after([wrong, again], BOLT))).not.toContain('torque-outside-specification');
  });

  it.each([
    [10, false],
    [40, true],
  ])('sides replaced %i days apart are named as unequal: %s', async (days, isNamed) => {
    const first = new Date(Date.UTC(2026, 2, 2 - days)).toISOString().slice(0, 10);
    const left = visitBody(first, 39_000, EVEN, done('pads-replaced', { side: 'left', new: mm(11) }));
    const answer = await after([left, job(done('pads-replaced', { side: 'right', new: mm(11) }))]);
    expect(codesOf(answer).includes('pads-replaced-one-side')).toBe(isNamed);
    expect(openOf(answer).includes('one-side-only')).toBe(isNamed);
  });

  it('a lining that was read after all is not named as not measured', async () => {
    const notMeasured = [{ axle: 'front', side: 'right', why: 'no time' }];
    expect(codesOf(await after([job({ notMeasured })]))).not.toContain('not-measured');
  });

  it.each([
    [
      'thinner as left than as found, with no machining recorded',
      [...EVEN, ...rotors(26.8), ...rotors(26.2, { taken: 'as-left' })],
      {},
      'rotor-thinner-without-work',
    ],
    [
      'thicker after machining than before',
      [...EVEN, ...rotors(26.8), ...rotors(27.2, { taken: 'as-left' })],
      done('rotor-machined'),
      'rotor-thicker-after-machining',
    ],
    [
      'fitted new and thinner than a new one',
      [...EVEN, ...rotors(26.6, { taken: 'as-left' })],
      done('rotor-replaced', { new: mm(28) }),
      'rotor-thinner-than-new',
    ],
  ])('a rotor %s is an open point', async (_name, readings, more, code) => {
    expect(openOf(await after([job(more, readings)]))).toContain(code);
  });

  it('a drum larger as left than as found, with no machining recorded, is an open point', async () => {
    const readings = [...drums(230.2), ...drums(230.5, { taken: 'as-left' })];
    expect(openOf(await after([onMarch2(readings)], DRUM_AXLE))).toContain('drum-larger-without-work');
  });

  it('a machine-to figure below the vehicle’s discard thickness is refused in a visit', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: FRONT } }));
    const refused = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(onMarch2([], done('rotor-replaced', { machineTo: mm(25) })));
    expect(refused.status).toBe(422);
    expect(refused.body).toMatchObject({ errors: [{ pointer: '#/work/0/machineTo/value' }] });
  });

  it('a new part recorded as beyond its limit is to be checked, not replaced', async () => {
    const { advice } = await after([job(done('rotor-replaced', { new: mm(25) }), EVEN)]);
    expect(advice.words).toBe('Check the new front rotors now: they are recorded as beyond their limit.');
  });

  it('a rotor measured long ago and likely worn out is to be measured first', async () => {
    const visits = [
      visitBody('2024-01-10', 15_000, [...fourPads([9, 9, 9, 9]), ...rotors(26.4)]),
      visitBody('2026-03-02', 40_000, fourPads([7, 7, 7, 7])),
    ];
    const finding = (await after(visits)).findings.find(
      ({ code }) => code === 'rotor-limit-before-next-visit',
    );
    expect(finding!.check).toBe('Measure both rotors now.');
  });
});

describe('a rotor’s reading that the forecast disbelieves', () => {
  const worn = (thicknesses: number[]) =>
    ['2024-09-02', '2025-06-02', '2026-03-02'].map((date, index) =>
      visitBody(date, 20_000 + 12_000 * index, [...fourPads([9, 9, 9, 9]), ...rotors(thicknesses[index]!)]),
    );

  it('a reading far thinner than the others is to be repeated, and the rotor is not kept', async () => {
    const answer = await after(worn([27.6, 27.5, 26.4]));
    expect(answer.rotors[0]).toMatchObject({
      decision: 'measure',
      decisionReasons: [{ code: 'off-forecast' }],
    });
    expect(openOf(answer)).toContain('rotor-off-forecast');
    expect(codesOf(await after(worn([27.6, 27.4, 27.2])))).not.toContain('rotor-off-forecast');
  });

  it('a reading with much left, where the forecast has nothing left, is to be repeated before replacement', async () => {
    const at = (date: string, odometer: number, thickness: number, more: Body = {}) =>
      visitBody(date, odometer, [...fourPads([9, 9, 9, 9]), ...rotors(thickness)], more);
    const machined = [...fourPads([9, 9, 9, 9]), ...rotors(27.7, { taken: 'as-left' })];
    const answer = await after([
      visitBody('2024-09-02', 20_000, machined, done('rotor-machined')),
      at('2025-02-02', 26_000, 27.2),
      at('2025-07-02', 32_000, 26.7),
      at('2025-11-02', 36_000, 26.37),
      at('2026-03-02', 44_000, 26.5),
    ]);
    expect(codesOf(answer)).toContain('rotor-off-forecast');
    expect(answer.advice.words).toBe('Replace both front rotors now, or measure them first.');
  });
});

describe('a unit that was probably mistaken', () => {
  const unitDoubts = async (readings: Body[], earlier: Body[] = []) =>
    (await after([...earlier, onMarch2(readings)])).findings.filter(({ code }) => code === 'unit-doubtful');

  it('a pad of 0.31 mm may have been read in inches, and stays a stop until the visit is corrected', async () => {
    const { visitIds, vehicleId, ...answer } = await after([onMarch2([leftInner(0.31), ...OTHER_PADS])]);
    expect(stopsOf({ visitIds, vehicleId, ...answer })).toContain('pad-at-limit');
    expect(answer.findings.find(({ code }) => code === 'unit-doubtful')).toMatchObject({
      severity: 'check',
      side: 'left',
      pad: 'inner',
      numbers: { readingMm: 0.31, otherUnitMm: 7.874 },
    });
    const changes = { readings: [leftInner(0.31, { unit: 'in' }), ...OTHER_PADS] };
    await correct(service, visitIds[0]!, { reason: 'unit', changes });
    const corrected = await answerOn(service, vehicleId, visitIds);
    expect(codesOf(corrected)).not.toContain('unit-doubtful');
    expect(stopsOf(corrected)).toEqual([]);
  });

  it('a pad of 0.5 mm that would be thicker in inches than a new one is not asked about', async () => {
    expect(await unitDoubts([leftInner(0.5)])).toEqual([]);
  });

  it('a pad that had 5 mm before cannot have 7.9 mm now', async () => {
    const earlier = visitBody('2026-01-10', 38_000, [leftInner(5), ...OTHER_PADS]);
    expect(await unitDoubts([leftInner(0.31)], [earlier])).toEqual([]);
  });

  it('a whole number too thick for the pad may have been read in thirty-seconds of an inch', async () => {
    const earlier = visitBody('2026-01-10', 38_000, [leftInner(6.4), ...OTHER_PADS]);
    expect(await unitDoubts([leftInner(8)], [earlier])).toMatchObject([{ numbers: { otherUnitMm: 6.35 } }]);
    expect(await unitDoubts([leftInner(6)], [earlier])).toEqual([]);
  });

  it('a new pad measured as left is not doubted if the other unit would fit its specification worse', async () => {
    const fitted = (value: number) =>
      after([onMarch2([leftInner(value, { taken: 'as-left' })], done('pads-replaced', { new: mm(11) }))]);
    expect(codesOf(await fitted(12))).not.toContain('unit-doubtful');
    expect(codesOf(await fitted(14))).toContain('unit-doubtful');
  });

  it('a run-out of 0.002 mm may have been read in inches', async () => {
    const doubted = await unitDoubts([...EVEN, ...rotors(27.9), runout(0.002)]);
    expect(doubted).toMatchObject([{ side: 'left', numbers: { runoutMm: 0.002, otherUnitMm: 0.0508 } }]);
    expect(await unitDoubts([...EVEN, ...rotors(27.9), runout(0.01)])).toEqual([]);
  });

  it('a rotor of 1.08 mm is refused with a hint at inches', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: FRONT } }));
    const refused = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(onMarch2([rotorReading('left', 1.08)]));
    const { errors } = refused.body as { errors: { detail: string }[] };
    expect(errors[0]!.detail).toContain('read in inches');
  });
});

describe('conformity, rules and plans', () => {
  it('a rotor that conforms has its chance of conformity, with and without gauge placement', async () => {
    const [rotor] = (await after([onMarch2([...EVEN, ...points('left', [26.03, 26.05, 26.05, 26.05])])]))
      .rotors;
    // Φ(0.03/0.00289) and Φ(0.03/√(0.00289² + 0.02²)).
    expect(rotor).toMatchObject({ conformity: 'conforms', chanceOfConformity: 1 });
    expect(rotor!.chanceWithPlacement).toBeCloseTo(0.931, 2);
    const drum = (
      await read<Wear>(
        service,
        `/v1/vehicles/${(await after([onMarch2(drums(230.9))], DRUM_AXLE)).vehicleId}/wear`,
      )
    ).axles[0]!.drums[0]!;
    // Φ(0.1/0.05).
    expect(drum.chanceOfConformity).toBeCloseTo(0.9772, 3);
  });

  it('the rules that only an earlier reading or one repeat failed are still named', async () => {
    const shop = await startService({ now: '2026-03-10T12:00:00Z' });
    try {
      const policy = { ruleSets: ['uk-inspection-manual'], padMinimum: mm(3) };
      await shop.as('owner', 'put', '/v1/policy').set('If-Match', '*').send(policy).expect(200);
      const messageAfter = async (visits: Body[]) =>
        (await answerAfter(shop, visits)).findings.find(({ severity }) => severity === 'stop')!.message;
      const failed = 'The 1.2 mm read on 2026-03-01 also failed: the maker’s limit of 2 mm; dangerous under';
      const earlier = visitBody('2026-03-01', 39_990, [leftInner(1.2), ...OTHER_PADS]);
      expect(await messageAfter([earlier, onMarch2([leftInner(2.4)])])).toContain(failed);
      const repeat = [leftInner(1.2), leftInner(5, { repeat: 2 }), ...OTHER_PADS];
      expect(await messageAfter([{ ...onMarch2(repeat), date: '2026-03-01' }])).toContain(failed);
    } finally {
      await shop.close();
    }
  });

  it('a gauge is recommended with the day until which it is calibrated', async () => {
    const gauge = {
      kind: 'depth-gauge',
      resolution: mm(0.05),
      calibrationDate: '2026-01-05',
      calibrationDueDate: '2026-03-05',
    };
    await service.as('owner', 'put', '/v1/gauges/bay-gauge').send(gauge).expect(201);
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: FRONT } }));
    const { findings } = await recordVisit(
      service,
      id,
      onMarch2([leftInner(2.05, { gauge: 'depth-gauge' })]),
    );
    expect((findings as Wear['axles'][number]['findings'])[0]!.check).toContain(
      'Measure again with bay-gauge (± 0.028 mm; calibrated until 2026-03-05)',
    );
  });

  const planWords = async (visits: Body[]): Promise<string> => {
    const { vehicleId } = await after(visits);
    const plan = await read<ReplacementPlan>(service, `/v1/vehicles/${vehicleId}/replacement-plan`);
    return plan.axles[0]!.words;
  };

  it('a replacement plan puts a stop finding first', async () => {
    const words = await planWords([onMarch2(EVEN, found('caliper', 'leaking'))]);
    expect(words).toMatch(/^Put this right first: Left caliper was found leaking on 2026-03-02/);
  });

  it('a replacement plan never names a day in the past', async () => {
    const words = await planWords([
      visitBody('2024-06-01', 10_000, fourPads([9, 9, 9, 9])),
      visitBody('2025-01-01', 20_000, fourPads([6, 6, 6, 6])),
      visitBody('2025-08-01', 30_000, fourPads([4.3, 4.3, 4.3, 4.3])),
    ]);
    expect(words).toMatch(/^Fit front pads (at the first chance: already today|now;)/);
    expect(words).not.toMatch(/before \d+ \w+ 202[56]/);
  });
});

describe('a visit recorded twice', () => {
  const visit = (more: Body = {}) => visitBody('2026-03-02', 20_000, [...EVEN, ...rotors(27.9)], more);
  const twice = (visits: Body[]) =>
    after(visits).then(({ findings }) => findings.filter(({ code }) => code === 'visit-recorded-twice'));

  it('a visit recorded twice is asked about, whether it has the same readings or some of them', async () => {
    const [whole] = await twice([visit(), visit()]);
    expect(whole).toMatchObject({
      severity: 'check',
      message:
        'Two visits of 2026-03-02 have the same readings at the same odometer reading, and both count.',
    });
    expect(await twice([visit(), visitBody('2026-03-02', 20_000, EVEN, { workOrder: 'W-9' })])).toHaveLength(
      1,
    );
  });

  it('a visit recorded twice is only a note once there is a later visit', async () => {
    const later = visitBody('2026-03-09', 21_000, EVEN);
    expect(await twice([visit(), visit(), later])).toMatchObject([{ severity: 'note' }]);
  });

  it('a visit is not suspected of being recorded twice if a figure, the odometer or the day differs', async () => {
    const other = [...EVEN.slice(0, 3), ...rotors(27.9)];
    const thinner = padReading('right', 'outer', 6.9);
    expect(await twice([visit(), visitBody('2026-03-02', 20_000, [...other, thinner])])).toEqual([]);
    expect(await twice([visit(), { ...visit(), odometer: { value: 20_010, unit: 'km' } }])).toEqual([]);
    expect(await twice([visit(), { ...visit(), date: '2026-03-03' }])).toEqual([]);
  });
});
