import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenPoints } from '../../src/core/vocabulary/openPoints.js';
import { fourPads, rotorReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

/** All four pads, and both rotors at four points with plenty left. */
const measured = (pads: [number, number, number, number]): Body[] => [
  ...fourPads(pads),
  ...(['left', 'right'] as const).flatMap((side) =>
    [1, 2, 3, 4].map((point) => rotorReading(side, 27.9, { point })),
  ),
];

let vehicles = 0;
const newVehicle = () =>
  recordVehicle(service, { ...vehicleBody(), externalId: `open-${++vehicles}`, vin: null });
const openPoints = (visitId: string) => read<OpenPoints>(service, `/v1/visits/${visitId}/open-points`);
const codesOf = ({ items }: OpenPoints) => items.map(({ code, side, finding }) => [code, side, finding]);
const add = (visitId: string, entry: Body) =>
  service.as('technician', 'post', `/v1/visits/${visitId}/entries`).send(entry).expect(201);

describe('the open points of a visit', () => {
  it('there are no open points if evenly worn pads were measured and nothing was done', async () => {
    const { id } = await newVehicle();
    const visit = await recordVisit(service, id, visitBody('2026-01-10', 40_000, measured([7, 7, 7, 7])));
    expect(await openPoints(visit.id)).toEqual({ visitId: visit.id, complete: true, items: [] });
  });

  it('the open points of a visit are closed one by one as the job goes on, and never block the record', async () => {
    const { id } = await newVehicle();
    const work = [{ kind: 'pads-replaced', axle: 'front', side: 'left', new: { value: 11, unit: 'mm' } }];
    const visit = await recordVisit(
      service,
      id,
      visitBody('2026-01-10', 40_000, measured([2, 7, 7, 7]), { work }),
    );
    // The left pads are new; the old right ones are a finding of their own.
    expect(codesOf(await openPoints(visit.id))).toEqual([
      ['finding-not-answered', 'left', 'pads-replaced-one-side'],
      ['one-side-only', 'right', null],
      ['torque-not-recorded', 'left', null],
      ['no-road-test', null, null],
    ]);

    await add(visit.id, { work: [{ ...work[0], side: 'right' }] });
    expect(codesOf(await openPoints(visit.id))).toEqual([
      ['torque-not-recorded', 'left', null],
      ['torque-not-recorded', 'right', null],
      ['no-road-test', null, null],
    ]);

    const torque = (side: string, value: number) => ({
      fastener: 'caliper-bracket-bolt',
      axle: 'front',
      side,
      value,
      unit: 'Nm',
    });
    await add(visit.id, { torques: [torque('left', 131), torque('right', 130)] });
    const outside = await openPoints(visit.id);
    expect(codesOf(outside)).toEqual([
      ['torque-outside-specification', 'left', null],
      ['no-road-test', null, null],
    ]);
    expect(outside.items[0]!.numbers).toEqual({ torqueNm: 131, specifiedNm: 120, toleranceNm: 10 });

    await add(visit.id, {
      torques: [torque('left', 120)],
      roadTest: { pulls: 'none', pulsation: false, noise: false },
    });
    expect((await openPoints(visit.id)).complete).toBe(true);
  });

  it('a finding is answered by the state of the part its check asks to look at, or by work on that part', async () => {
    const { id } = await newVehicle();
    const visit = await recordVisit(service, id, visitBody('2026-01-10', 40_000, measured([4, 8, 8, 8])));
    expect(codesOf(await openPoints(visit.id))).toEqual([
      ['finding-not-answered', 'left', 'uneven-inner-outer'],
      ['finding-not-answered', 'left', 'uneven-left-right'],
    ]);
    await add(visit.id, { conditions: [{ part: 'slide', axle: 'front', side: 'left', state: 'ok' }] });
    expect((await openPoints(visit.id)).complete).toBe(true);
  });

  it('the open points of a visit describe the state at that visit, and only callers who may see the vehicle get them', async () => {
    const { id } = await recordVehicle(service, {
      ...vehicleBody(),
      externalId: 'elsewhere',
      vin: null,
      fleet: 'another-depot',
    });
    const uneven = await recordVisit(service, id, visitBody('2026-01-10', 40_000, measured([4, 8, 8, 8])));
    await recordVisit(
      service,
      id,
      visitBody('2026-02-10', 42_000, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }),
    );
    expect((await openPoints(uneven.id)).items).toHaveLength(2);
    expect((await service.as('fleet-manager', 'get', `/v1/visits/${uneven.id}/open-points`)).status).toBe(
      404,
    );
    expect((await service.as('owner', 'get', '/v1/visits/none/open-points')).status).toBe(404);
  });
});

describe('conditions found on parts', () => {
  const findingsOf = (visit: Body) => visit.findings as { code: string; severity: string; side: string }[];
  const condition = (part: string, state: string) => ({ part, axle: 'front', side: 'left', state });

  it.each([
    ['hose', 'leaking', 'hose-replaced'],
    ['caliper', 'seized', 'caliper-replaced'],
    ['slide', 'seized', 'slides-serviced'],
    ['pad', 'contaminated', 'pads-replaced'],
  ])('a %s that is %s is a stop until %s', async (part, state, kind) => {
    const { id } = await newVehicle();
    const code = `${part}-${state}`;
    const found = visitBody('2026-01-10', 40_000, [], { conditions: [condition(part, state)] });
    expect(findingsOf(await recordVisit(service, id, found))).toContainEqual(
      expect.objectContaining({ code, severity: 'stop', side: 'left' }),
    );
    const later = await recordVisit(service, id, visitBody('2026-02-10', 41_000, fourPads([7, 7, 7, 7])));
    expect(findingsOf(later).map((finding) => finding.code)).toContain(code);
    const mended = visitBody('2026-03-01', 42_000, [], { work: [{ kind, axle: 'front' }] });
    const after = findingsOf(await recordVisit(service, id, mended));
    expect(after.map((finding) => finding.code)).not.toContain(code);
  });

  it('the state ok withdraws a condition, on that side alone', async () => {
    const { id } = await newVehicle();
    const both = [condition('slide', 'corroded'), { ...condition('slide', 'corroded'), side: 'right' }];
    await recordVisit(service, id, visitBody('2026-01-10', 40_000, [], { conditions: both }));
    const ok = visitBody('2026-02-10', 41_000, [], { conditions: [condition('slide', 'ok')] });
    const left = findingsOf(await recordVisit(service, id, ok)).filter(
      ({ code }) => code === 'slide-corroded',
    );
    expect(left.map(({ side }) => side)).toEqual(['right']);
  });

  it('a wear indicator that nobody heard proves nothing, and unmeasured places are named', async () => {
    const { id } = await newVehicle();
    const visit = await recordVisit(
      service,
      id,
      visitBody('2026-01-10', 40_000, fourPads([3, 7, 7, 7]), {
        notMeasured: [{ axle: 'front', side: 'right', part: 'rotor', why: 'no micrometer at hand' }],
      }),
    );
    const codes = findingsOf(visit).map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['indicator-silent', 'not-measured']));
    const heard = visitBody('2026-01-20', 40_500, fourPads([3, 7, 7, 7]), { roadTest: { noise: true } });
    expect(findingsOf(await recordVisit(service, id, heard)).map(({ code }) => code)).not.toContain(
      'indicator-silent',
    );
  });
});
