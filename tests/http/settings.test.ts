import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_GAUGE } from '../../src/core/vocabulary/settings.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const put = (path: string, body: Body, ifMatch?: string) => {
  const request = service.as('owner', 'put', path);
  return (ifMatch === undefined ? request : request.set('If-Match', ifMatch)).send(body);
};

describe('the policy', () => {
  it('the policy has the defaults until the owner sets one', async () => {
    const response = await service.as('fleet-manager', 'get', '/v1/policy');
    expect(response.body).toEqual({
      id: 'policy',
      version: 0,
      beforeTransfer: { readings: true, notes: false, names: false, fleets: false },
      ruleSets: [],
      padMinimum: null,
      dueSoon: { withinDays: 60, chance: 0.1 },
      visitIntervalDays: 182,
      longestDaysWithoutReading: 365,
      retentionYears: null,
      updatedAt: null,
      updatedBy: null,
    });
    expect(response.headers.etag).toBe('"v0"');
  });

  it('only the owner sets the policy, with If-Match', async () => {
    for (const role of ['front-desk', 'technician', 'fleet-manager'] as const) {
      const response = await service.as(role, 'put', '/v1/policy').set('If-Match', '*').send({});
      expect([role, response.status]).toEqual([role, 403]);
    }
    expect((await put('/v1/policy', {})).status).toBe(428);
    expect((await put('/v1/policy', {}, '"v7"')).status).toBe(412);
    const unknown = await put('/v1/policy', { ruleSets: ['none-such'] }, '*');
    expect([unknown.status, unknown.body.errors[0].pointer]).toEqual([422, '#/ruleSets/0']);
    const bad = await put('/v1/policy', { visitIntervalDays: 0, dueSoon: { chance: 2 } }, '*');
    expect([bad.status, bad.body.errors.map(({ pointer }: Body) => pointer).sort()]).toEqual([
      422,
      ['#/dueSoon/chance', '#/visitIntervalDays'],
    ]);
  });

  it('a change of the policy updates existing vehicles and the defaults of the reports', async () => {
    const vehicle = await recordVehicle(service, vehicleBody());
    await recordVisit(service, vehicle.id, visitBody('2026-02-01', 60_000, fourPads([7, 7, 7, 7])));
    const until = async () => {
      const body = await read<Wear>(service, `/v1/vehicles/${vehicle.id}/wear`);
      return body.axles[0]!.replacement.untilNextVisit;
    };
    const before = await until();
    const policy = { visitIntervalDays: 400, dueSoon: { withinDays: 3650, chance: 0.5 } };
    const response = await put('/v1/policy', policy, '"v0"');
    expect(response.body).toMatchObject({ version: 1, updatedBy: 'owner', ...policy });
    expect((await until()).date > before.date).toBe(true);
    const due = await read<Body>(service, '/v1/reports/due-soon');
    expect([due.chance, due.total]).toEqual([0.5, 1]);
    expect((await put('/v1/policy', {}, '"v0"')).status).toBe(412);
    expect((await put('/v1/policy', {}, '"v1"')).body).toMatchObject({ version: 2, visitIntervalDays: 182 });
    expect(await until()).toEqual(before);
  });

  it('an axle unmeasured for longer than the policy allows is named', async () => {
    const vehicle = await recordVehicle(service, { ...vehicleBody(), externalId: 'long-unread', vin: null });
    await recordVisit(service, vehicle.id, visitBody('2025-10-01', 60_000, fourPads([9, 9, 9, 9])));
    const codes = async () => {
      const body = await read<Wear>(service, `/v1/vehicles/${vehicle.id}/wear`);
      return body.axles[0]!.findings.map(({ code }) => code);
    };
    expect(await codes()).not.toContain('reading-overdue');
    await put('/v1/policy', { longestDaysWithoutReading: 90 }, '*');
    expect(await codes()).toContain('reading-overdue');
    await put('/v1/policy', {}, '*');
  });
});

describe('the shop’s own minimum thickness and its chosen rule sets', () => {
  it('the shop’s minimum and its rule sets are limits beside the maker’s, and the highest governs', async () => {
    const vehicle = await recordVehicle(service, { ...vehicleBody(), externalId: 'limited', vin: null });
    await recordVisit(service, vehicle.id, visitBody('2026-03-01', 60_000, fourPads([4, 7, 7, 7])));
    const limits = async () => {
      const body = await read<Wear>(service, `/v1/vehicles/${vehicle.id}/wear`);
      return body.axles[0]!.pads[0]!.limits.map(({ source, limitMm, fails, governs }) => [
        source,
        limitMm,
        fails,
        governs,
      ]);
    };
    const policy = { ruleSets: ['quebec-c-24-2-r-32'], padMinimum: { value: 4, unit: 'mm' } };
    expect((await put('/v1/policy', policy, '*')).body.padMinimum).toEqual({ value: 4, unit: 'mm', mm: 4 });
    // At the shop's minimum itself a reading passes; below the minimum it fails.
    expect(await limits()).toEqual([
      ['shop', 4, false, true],
      ['wear-indicator', 3, false, false],
      ['maker', 2, false, false],
      ['law', 1.6, false, false],
    ]);
    await put('/v1/policy', { padMinimum: { value: 4.01, unit: 'mm' } }, '*');
    expect((await limits())[0]).toEqual(['shop', 4.01, true, true]);
    await put('/v1/policy', {}, '*');
    expect((await limits()).map(([source]) => source)).toEqual(['wear-indicator', 'maker']);
  });
});

describe('the gauges of a shop', () => {
  it('the gauges of a shop are the standard ones until the shop adds its own', async () => {
    const { items } = await read<{ items: Body[] }>(service, '/v1/gauges');
    expect(items.find(({ name }) => name === 'pad-gauge')).toMatchObject({
      version: 0,
      resolutionMm: 0.5,
      outOfDate: false,
    });
    expect((await service.as('owner', 'get', '/v1/gauges/bench-gauge')).status).toBe(404);
  });

  it('a new gauge needs no If-Match, and a change does', async () => {
    const added = await put('/v1/gauges/bench-gauge', EXAMPLE_GAUGE);
    expect([added.status, added.headers.etag]).toEqual([201, '"v1"']);
    expect(added.body).toMatchObject({ name: 'bench-gauge', resolutionMm: 0.1, standardUncertaintyMm: 0.05 });
    expect((await put('/v1/gauges/bench-gauge', EXAMPLE_GAUGE)).status).toBe(428);
    expect((await put('/v1/gauges/bench-gauge', EXAMPLE_GAUGE, '"v9"')).status).toBe(412);
    expect((await put('/v1/gauges/never-seen', EXAMPLE_GAUGE, '*')).status).toBe(412);
    const changed = await put(
      '/v1/gauges/bench-gauge',
      { kind: 'depth-gauge', resolution: { value: 0.01, unit: 'in' }, calibrationDate: '2024-05-01' },
      '"v1"',
    );
    expect([changed.status, changed.body.version]).toEqual([200, 2]);
    // 0.01 in is 0.254 mm; rounding to it alone gives 0.254 / √12 (GUM 4.3.7).
    expect(changed.body.standardUncertaintyMm).toBeCloseTo(0.254 / Math.sqrt(12), 12);
    expect(changed.body).toMatchObject({ calibrationDueDate: '2025-05-01', outOfDate: true });
  });

  it('a gauge with an invalid name is refused, and so is an uncertainty below that of rounding', async () => {
    expect((await put('/v1/gauges/Bad%20Name', EXAMPLE_GAUGE)).status).toBe(400);
    const body = { ...EXAMPLE_GAUGE, standardUncertainty: { value: 0.01, unit: 'mm' } };
    const response = await put('/v1/gauges/too-good', body);
    expect([response.status, response.body.errors[0].pointer]).toEqual([422, '#/standardUncertainty/value']);
  });

  it('the gauges of a shop decide the conformity of readings that name them, also after a change', async () => {
    await put('/v1/gauges/decider', { kind: 'pad-gauge', resolution: { value: 1, unit: 'mm' } });
    const vehicle = await recordVehicle(service, { ...vehicleBody(), externalId: 'decided', vin: null });
    const readings = fourPads([3.5, 7, 7, 7], { gauge: 'decider' });
    await recordVisit(service, vehicle.id, visitBody('2026-03-01', 60_000, readings));
    const pad = async () => {
      const body = await read<Wear>(service, `/v1/vehicles/${vehicle.id}/wear`);
      return [body.axles[0]!.pads[0]!.limits[0]!.conformity, body.axles[0]!.findings] as const;
    };
    // Limit 3 mm; the interval 3.5 ± 1.96 × 1/√12 = 0.566 contains it, 3.5 ± 1.96 × 0.1/√12 does not.
    const [coarse, findings] = await pad();
    expect(coarse).toBe('inconclusive');
    expect(findings[0]!.check).toContain('pad-gauge-thirty-seconds (± 0.45 mm)');
    await put('/v1/gauges/decider', { kind: 'pad-gauge', resolution: { value: 0.1, unit: 'mm' } }, '*');
    expect((await pad())[0]).toBe('conforms');
  });

  it('a gauge out of calibration is named in a finding on its readings', async () => {
    await put('/v1/gauges/lapsed', {
      ...EXAMPLE_GAUGE,
      calibrationDate: '2024-01-10',
      calibrationDueDate: '2025-01-10',
    });
    const vehicle = await recordVehicle(service, { ...vehicleBody(), externalId: 'lapsed', vin: null });
    const findingsAfter = async (date: string, odometerKm: number) => {
      const readings = fourPads([8, 8, 8, 8], { gauge: 'lapsed' });
      const visit = await recordVisit(service, vehicle.id, visitBody(date, odometerKm, readings));
      return (visit.findings as Body[]).filter(({ code }) => code === 'gauge-out-of-calibration');
    };
    expect(await findingsAfter('2025-01-10', 50_000)).toEqual([]);
    expect(await findingsAfter('2026-01-12', 60_000)).toMatchObject([
      { axle: 'front', severity: 'check', numbers: { daysOverdue: 367, readings: 4 } },
    ]);
  });
});
