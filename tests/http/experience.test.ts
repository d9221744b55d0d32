import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { read, recordHistory } from '../support/recording.js';
import { getPage, signIn } from '../support/pages.js';
import { withConnection } from '../support/shopFile.js';
import { FLEET, onSqlite, startService, type Service } from '../support/service.js';

const evenPads = (value: number) => fourPads([value, value, value, value]);

/** Vehicles of one model that wear fast, about 0.3 mm per 1000 km, so that the effect of learning shows. */
async function recordShop(service: Service): Promise<string[]> {
  const ids: string[] = [];
  for (let vehicle = 0; vehicle < 8; vehicle++) {
    const body = vehicleBody({
      externalId: `EX-${vehicle}`,
      registration: null,
      model: 'quick-courier',
      inService: { date: '2024-01-01', odometer: { value: 0, unit: 'km' } },
    });
    const visits = [1, 2].map((number) =>
      visitBody(`2024-0${number * 3}-15`, number * (7000 + 200 * vehicle), evenPads(11 - 2 * number)),
    );
    ids.push((await recordHistory(service, body, visits)).id);
  }
  return ids;
}

describe('the shop’s experience', () => {
  let service: Service;
  let ids: string[];
  beforeAll(async () => {
    service = await startService();
    ids = await recordShop(service);
  });
  afterAll(() => service.close());

  const wearOf = (id: string, query = '') => read<Wear>(service, `/v1/vehicles/${id}/wear${query}`);

  it('the shop’s experience has the starting values before the first fit, and every outlook names the fit after it', async () => {
    const before = await wearOf(ids[0]!);
    expect(before.axles[0]!.replacement.basis.experience).toBe('starting-values');
    expect(await read(service, '/v1/experience')).toEqual({ items: [], nextCursor: null });

    expect(await service.store.experience.refit()).toBe(1);
    for (const id of ids) {
      const { basis } = (await wearOf(id)).axles[0]!.replacement;
      expect(basis.experience).toMatch(/^v1 front .*quick-courier$/);
      expect(basis.words).toContain('8 vehicles of this model');
    }
  });

  it('a fleet manager sees the experience without the numbers of vehicles it was learned from', async () => {
    const path = `/v1/vehicles/${ids[0]}`;
    await service
      .as('owner', 'patch', path)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ fleet: FLEET });
    for (const query of ['', '?asOf=2026-03-01', '?until=2026-12-31']) {
      const { body } = await service.as('fleet-manager', 'get', `${path}/wear${query}`);
      const { words } = (body as Wear).axles[0]!.replacement.basis;
      expect(words).not.toMatch(/\d+ (other|vehicles|front)/);
      expect(words).toMatch(/, and (vehicles of this model|starting values .*)\.$/);
    }
    const sheet = await getPage(
      service,
      await signIn(service, service.keys['fleet-manager']),
      `/vehicles/${ids[0]}`,
    );
    expect(sheet.text).toContain('vehicles of this model');
    expect(sheet.text).not.toContain('8 vehicles');
  });

  it('the shop’s experience lists its groups with their parameters and the numbers behind them', async () => {
    const { items } = await read<{
      items: { version: number; vehicles: number; groups: Record<string, unknown>[] }[];
    }>(service, '/v1/experience');
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ version: 1, vehicles: 8 });
    const [group] = items[0]!.groups;
    expect(group).toMatchObject({
      name: 'front friction',
      vehicles: 8,
      readings: 64,
      models: [{ model: 'quick-courier', vehicles: 8 }],
    });
    // 2 mm in about 7700 km: far from the 0.13 mm per 1000 km that the starting values expect.
    const { logRateMean } = group!.pads as Record<string, number>;
    expect(Math.exp(logRateMean!)).toBeGreaterThan(0.2);
    expect(Math.exp(logRateMean!)).toBeLessThan(0.33);
  });

  it('the shop’s experience predicts an unmeasured vehicle of a known model better than the starting values', async () => {
    const { id } = await recordHistory(
      service,
      vehicleBody({ externalId: 'EX-new', registration: null, model: 'quick-courier' }),
      [visitBody('2026-03-01', 30_000, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] })],
    );
    const rate = (await wearOf(id)).axles[0]!.pads[0]!.ratePer1000KmMm!;
    expect(rate.low).toBeGreaterThan(0.13);
  });

  it('an answer as of a date uses only experience learned from visits up to that date', async () => {
    const basisOn = async (date: string) =>
      (await wearOf(ids[0]!, `?asOf=${date}`)).axles[0]!.replacement.basis.experience;
    // The first fit had visits up to 15 June 2024.
    expect(await basisOn('2024-06-14')).toBe('starting-values');
    expect(await basisOn('2024-06-15')).toMatch(/^v1 /);
    await service.store.experience.refit();
    // The second fit had the visit of the vehicle that came in 2026.
    expect(await basisOn('2026-02-28')).toMatch(/^v1 /);
    expect(await basisOn('2026-03-01')).toMatch(/^v2 /);
  });

  it('the same data give the same fit', async () => {
    expect(await service.store.experience.refit()).toBe(3);
    expect(await service.store.experience.refit()).toBe(4);
    const [fourth, third] = await service.store.experience.list();
    expect(fourth!.fitted).toEqual(third!.fitted);
  });

  it('the shop’s experience counts the visits since the last fit', async () => {
    const { known, since } = await service.store.experience.newVisits();
    expect([known, since]).toEqual([17, 0]);
    await recordHistory(service, vehicleBody({ externalId: 'EX-later', registration: null }), [
      visitBody('2026-03-01', 30_000, fourPads([8, 8, 8, 8])),
    ]);
    expect(await service.store.experience.newVisits()).toEqual({ known: 17, since: 1 });
  });

  it.skipIf(!onSqlite)(
    'a fit by an earlier program is used, with starting values for the parameters it lacks, and a new fit is due',
    async () => {
      withConnection(service.file, (connection) => {
        const latest = connection
          .prepare('select version, fitted from experiences order by version desc limit 1')
          .get() as { version: number; fitted: string };
        const lacking = JSON.stringify(JSON.parse(latest.fitted), (name, value: unknown) =>
          ['placementSd', 'wander', 'dayToDay'].includes(name) ? undefined : value,
        );
        expect(lacking).not.toBe(latest.fitted);
        connection
          .prepare(
            "insert into experiences (version, fitted, last_visit_seq, created_at, program) values (?, ?, 18, '2026-03-10', 'another')",
          )
          .run(latest.version + 1, lacking);
      });
      expect(await service.store.experience.newVisits()).toEqual({ known: 0, since: 18 });
      await service.store.outlooks.refresh();
      const { basis, date, distanceKm } = (await wearOf(ids[0]!)).axles[0]!.replacement;
      expect(basis.experience).toMatch(/^v5 /);
      expect(date!.early).toMatch(/^\d{4}-/);
      expect(distanceKm!.median).toBeGreaterThan(0);
      expect(await service.store.experience.refit()).toBe(6);
      expect(await service.store.experience.newVisits()).toEqual({ known: 18, since: 0 });
    },
  );

  it('several processes recompute outlooks, each its share, and never overwrite a newer visit', async () => {
    const version = await service.store.experience.fit();
    const shares = await Promise.all([0, 1].map((index) => service.openAnother({ share: { index, of: 2 } })));
    const basisOf = async (id: string) => (await wearOf(id)).axles[0]!.replacement.basis.experience;
    const ofThisFit = async (): Promise<number> => {
      const bases = await Promise.all(ids.map(basisOf));
      return bases.filter((basis) => basis!.startsWith(`v${version} `)).length;
    };
    expect(await ofThisFit()).toBe(0);
    const first = shares[0]!.outlooks.refresh();
    // A visit recorded while its share is being computed.
    const visit = visitBody('2026-03-02', 40_000, evenPads(3));
    const recorded = await service.as('technician', 'post', `/v1/vehicles/${ids[1]}/visits`).send(visit);
    expect(recorded.status).toBe(201);
    await first;
    expect(await ofThisFit()).toBeGreaterThanOrEqual(4);
    expect(await ofThisFit()).toBeLessThanOrEqual(5);
    await shares[1]!.outlooks.refresh();
    expect(await ofThisFit()).toBe(8);
    expect((await wearOf(ids[1]!)).axles[0]!.pads[0]!.latest!.valueMm).toBe(3);
    for (const share of shares) await share.close();
  });

  it('a fleet manager may not list the fits', async () => {
    expect((await service.as('fleet-manager', 'get', '/v1/experience')).status).toBe(403);
  });
});
