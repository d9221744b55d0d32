import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const mm = (value: number) => ({ value, unit: 'mm' });
let vehicles = 0;
const drumVehicle = () =>
  recordVehicle(service, {
    ...vehicleBody(),
    externalId: `drum-${++vehicles}`,
    vin: null,
    axles: {
      rear: {
        brake: 'drum',
        actuation: 'hydraulic',
        lining: 'bonded',
        shoe: { new: mm(5), limit: mm(1.6) },
        drum: { new: mm(254), maximum: mm(255.5), machineTo: mm(255) },
      },
    },
  });
const shoes = (left: number, right: number, more: Body = {}): Body[] =>
  (['left', 'right'] as const).map((side) => ({
    kind: 'shoe-thickness',
    axle: 'rear',
    side,
    ...(side === 'left' ? mm(left) : mm(right)),
    gauge: 'depth-gauge',
    ...more,
  }));
const drum = (side: string, values: number[], gauge = 'drum-gauge'): Body[] =>
  values.map((value, index) => ({
    kind: 'drum-diameter',
    axle: 'rear',
    side,
    point: index + 1,
    value,
    unit: 'mm',
    gauge,
  }));
const rear = async (id: string) => (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles[0]!;

describe('a drum brake', () => {
  it('the shoes of a drum brake have a forecast to their own limit, as pads have', async () => {
    const { id } = await drumVehicle();
    await recordVisit(service, id, visitBody('2024-03-01', 20_000, shoes(4.4, 4.5)));
    const visit = await recordVisit(service, id, visitBody('2026-03-01', 60_000, shoes(2.8, 3)));
    expect((visit.readings as Body[])[0]).toMatchObject({
      kind: 'shoe-thickness',
      shoe: 'thinnest',
      mm: 2.8,
    });
    const { pads, replacement, rotors } = await rear(id);
    expect(pads.map(({ side, pad, latest }) => [side, pad, latest!.valueMm])).toEqual([
      ['left', 'thinnest', 2.8],
      ['right', 'thinnest', 3],
    ]);
    expect(replacement.governingPad).toEqual({ side: 'left', pad: 'thinnest' });
    expect(replacement.limitMm).toBe(1.6);
    expect(replacement.date!.early! > '2026-03-01').toBe(true);
    expect(rotors).toEqual([]);
    const due = await read<{ items: Body[] }>(service, '/v1/reports/due-soon?withinDays=3650&axle=rear');
    expect(due.items.map(({ vehicleId }) => vehicleId)).toContain(id);
  });

  it('the drum of a drum brake grows towards its maximum', async () => {
    const { id } = await drumVehicle();
    await recordVisit(
      service,
      id,
      visitBody('2026-03-01', 60_000, [
        ...shoes(4, 4),
        ...drum('left', [254.6, 254.7, 254.62, 254.65], 'caliper'),
        ...drum('right', [255.7, 255.6, 255.6, 255.6]),
      ]),
    );
    const { drums, findings } = await rear(id);
    expect(drums[0]).toMatchObject({
      side: 'left',
      largestMm: 254.7,
      maximumMm: 255.5,
      marginMm: 0.8,
      conformity: 'conforms',
      outOfRoundMm: 0.1,
    });
    expect(drums[0]!.ratePer1000KmMm!.low).toBeGreaterThan(0);
    expect(drums[1]).toMatchObject({ largestMm: 255.7, marginMm: -0.2, conformity: 'does-not-conform' });
    expect(findings.filter(({ code }) => code === 'drum-out-of-round')).toMatchObject([
      { side: 'left', severity: 'note', numbers: { outOfRoundMm: 0.1 } },
      { side: 'right', severity: 'note', numbers: { outOfRoundMm: 0.1 } },
    ]);
    // The right drum is over its maximum, and drums are replaced in pairs.
    expect(drums.map(({ decision }) => decision)).toEqual(['replace', 'replace']);
    expect(drums[1]!.decisionReasons[0]!.detail).toContain(
      '255.7 mm, 0.2 mm over the maximum diameter of 255.5 mm',
    );
    expect(findings[0]).toMatchObject({
      code: 'drum-over-maximum',
      severity: 'stop',
      side: 'right',
      numbers: { largestMm: 255.7, maximumMm: 255.5 },
    });
  });

  it('a replacement of shoes or drums starts a new life', async () => {
    const { id } = await drumVehicle();
    const work = [
      { kind: 'shoes-replaced', axle: 'rear', new: mm(5) },
      { kind: 'drum-replaced', axle: 'rear', new: mm(254), maximum: mm(255.5) },
    ];
    const readings = [...shoes(1.2, 1.5), ...drum('left', [255.6, 255.6]), ...drum('right', [255.4])];
    const visit = await recordVisit(service, id, visitBody('2026-03-01', 60_000, readings, { work }));
    expect((visit.findings as Body[]).filter(({ severity }) => severity === 'stop')).toEqual([]);
    const { pads, drums } = await rear(id);
    expect(pads.map(({ fitted, remainingMm }) => [fitted!.date, remainingMm!.median > 3])).toEqual([
      ['2026-03-01', true],
      ['2026-03-01', true],
    ]);
    expect(drums.map(({ decision, largestMm }) => [decision, largestMm])).toEqual([
      ['keep', null],
      ['keep', null],
    ]);
  });

  it('a drum brake refuses readings of a disc brake, and a disc brake refuses those of a drum', async () => {
    const { id } = await drumVehicle();
    const disc = await recordVehicle(service, { ...vehicleBody(), externalId: 'disc', vin: null });
    const post = (vehicleId: string, body: Body) =>
      service.as('technician', 'post', `/v1/vehicles/${vehicleId}/visits`).send(body);
    const pad = { kind: 'pad-thickness', axle: 'rear', side: 'left', pad: 'inner', ...mm(5) };
    const refused = [
      await post(id, visitBody('2026-03-01', 1000, [pad])),
      await post(disc.id, visitBody('2026-03-01', 1000, [{ ...drum('left', [255])[0], axle: 'front' }])),
      await post(
        disc.id,
        visitBody('2026-03-01', 1000, [], { work: [{ kind: 'drum-machined', axle: 'front' }] }),
      ),
    ];
    expect(refused.map(({ status, body }) => [status, body.errors[0].pointer])).toEqual([
      [422, '#/readings/0/kind'],
      [422, '#/readings/0/kind'],
      [422, '#/work/0/kind'],
    ]);
  });

  it('missing data are named in the terms of a drum brake', async () => {
    const { id } = await drumVehicle();
    const { drums, replacement } = await rear(id);
    expect(drums[0]!.decision).toBe('measure');
    for (const { field } of drums.flatMap(({ reasons }) => reasons)) expect(drums[0]).toHaveProperty([field]);
    expect(replacement.reasons[0]!.code).toBe('no-readings');
  });
});
