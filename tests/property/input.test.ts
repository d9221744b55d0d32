import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contractVehicle, contractVisit, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { spoil, type Path, type Spoiled } from '../support/spoiling.js';
import { inDepth } from '../support/thorough.js';

let service: Service;
let vehicle: Recorded;
let visit: Recorded;

beforeAll(async () => {
  service = await startService();
  vehicle = await recordVehicle(service, vehicleBody());
  visit = await recordVisit(service, vehicle.id, visitBody('2026-03-01', 61_000));
});
afterAll(() => service.close());

const SEED = 20_260_310;
const addresses = {
  vehicle: () => '/v1/vehicles',
  visit: () => `/v1/vehicles/${vehicle.id}/visits`,
  entry: () => `/v1/visits/${visit.id}/entries`,
};
const post = (path: string, body: unknown) =>
  service.as('technician', 'post', path).type('json').send(JSON.stringify(body));

const pointerTo = (path: Path) =>
  `#${path.map((step) => `/${encodeURI(String(step).replaceAll('~', '~0').replaceAll('/', '~1'))}`).join('')}`;

/** Whether an error points at a place, at something inside it, or at an object that contains it. */
function isNear(pointer: string, { path }: Spoiled): boolean {
  const here = pointerTo(path);
  return pointer === here || pointer.startsWith(`${here}/`) || pointer === pointerTo(path.slice(0, -1));
}

async function expectEachRefused(address: string, valid: Body, variants: Spoiled[]): Promise<void> {
  const before = await service.rowCounts();
  for (const variant of variants) {
    const name = `${pointerTo(variant.path)} with ${variant.how}`;
    const { status, body } = await post(address, variant.body);
    expect([name, status]).toEqual([name, 422]);
    const pointers = (body.errors as { pointer: string }[]).map(({ pointer }) => pointer);
    expect(
      pointers.some((pointer) => isNear(pointer, variant)),
      `${name}: ${pointers.join(', ')}`,
    ).toBe(true);
  }
  expect(await service.rowCounts()).toEqual(before);
  // The service accepts the unchanged body, so the change caused the refusal.
  expect((await post(address, valid)).status).toBe(201);
}

/** Null members do not show which type is allowed. */
const withoutNulls = (body: Body): Body =>
  Object.fromEntries(Object.entries(body).filter(([, value]) => value !== null));

const ALWAYS_NEEDED = ['value', 'unit', 'axles', 'date'];
const NEEDED_IN_VISITS = ['value', 'unit', 'kind', 'part', 'state', 'why', 'fastener'];

describe('a body with one wrong value', () => {
  it('a vehicle with one wrong value is refused with a pointer to the place, and nothing is stored', async () => {
    const body = {
      ...withoutNulls(contractVehicle()),
      vin: 'ZZ9FD1004AA000001',
      outOfService: { date: '2026-05-01', reason: 'sold' },
    };
    await expectEachRefused(addresses.vehicle(), body, spoil(body, ALWAYS_NEEDED));
  });

  it('a visit with one wrong value is refused with a pointer to the place, and nothing is stored', async () => {
    const { work, ...visitOnly } = withoutNulls(contractVisit());
    const body = {
      ...visitOnly,
      shop: 'main',
      odometerReplaced: { oldFinal: { value: 61_100, unit: 'km' }, newStart: { value: 3, unit: 'km' } },
    };
    await expectEachRefused(addresses.visit(), body, spoil(body, [...NEEDED_IN_VISITS, 'date', 'axle']));
    // In a work item `part` is free text and optional.
    const worked = { date: '2026-03-02', work };
    await expectEachRefused(addresses.visit(), worked, spoil(worked, ['kind', 'axle', 'date']));
  });

  it('an entry with one wrong value is refused with a pointer to the place, and nothing is stored', async () => {
    const { readings, torques, roadTest } = contractVisit();
    const body = { readings, torques, roadTest };
    await expectEachRefused(addresses.entry(), body, spoil(body, [...NEEDED_IN_VISITS, 'axle']));
  });
});

describe('arbitrary input', () => {
  const anyBody = fc.jsonValue({ maxDepth: 4 });

  /** A valid body with one to three members replaced by anything. */
  function tampered(valid: () => Body): fc.Arbitrary<unknown> {
    const names = Object.keys(valid());
    return fc
      .array(fc.tuple(fc.constantFrom(...names), anyBody), { minLength: 1, maxLength: 3 })
      .map((changes) => ({ ...valid(), ...Object.fromEntries(changes) }));
  }

  it.each([
    ['vehicle', vehicleBody],
    ['visit', contractVisit],
    ['entry', () => ({ readings: contractVisit().readings, work: contractVisit().work })],
  ] as const)(
    'arbitrary input is stored or refused with a problem, and never causes a fault: %s',
    async (kind, valid) => {
      await fc.assert(
        fc.asyncProperty(fc.oneof(anyBody, tampered(valid)), async (body) => {
          const before = await service.rowCounts();
          const { status, type } = await post(addresses[kind](), body);
          if (status === 201 || status === 200) return;
          expect(status).toBeGreaterThanOrEqual(400);
          expect(status).toBeLessThan(500);
          expect(type).toBe('application/problem+json');
          expect(await service.rowCounts()).toEqual(before);
        }),
        { seed: SEED, numRuns: inDepth(30, 120) },
      );
    },
  );

  it('a merge patch leaves the vehicle unchanged or changes only what was sent', async () => {
    const path = `/v1/vehicles/${vehicle.id}`;
    await fc.assert(
      fc.asyncProperty(fc.oneof(anyBody, tampered(contractVehicle)), async (change) => {
        const before = (await service.as('technician', 'get', path)).body;
        const { status, body } = await service
          .as('technician', 'patch', path)
          .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
          .send(JSON.stringify(change));
        const after = (await service.as('technician', 'get', path)).body;
        if (status === 200) expect(after).toEqual(body);
        else {
          expect(status).toBeGreaterThanOrEqual(400);
          expect(status).toBeLessThan(500);
          expect(after).toEqual(before);
        }
      }),
      { seed: SEED, numRuns: inDepth(20, 80) },
    );
  });

  it('a text of a vehicle is returned trimmed and in NFC, or refused', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }), async (text) => {
        const { status, body } = await post(
          addresses.vehicle(),
          vehicleBody({ description: text, model: text }),
        );
        expect([201, 422]).toContain(status);
        if (status === 422) return;
        const { body: read } = await service.as('technician', 'get', `/v1/vehicles/${body.id}`);
        const stored = text.normalize('NFC').trim();
        const identifying = stored
          .replace(/\p{Default_Ignorable_Code_Point}/gu, '')
          .normalize('NFC')
          .trim();
        expect([read.description, read.model]).toEqual([stored, identifying]);
        const found = await service.as(
          'technician',
          'get',
          `/v1/vehicles?limit=200&model=${encodeURIComponent(text)}`,
        );
        expect((found.body.items as Recorded[]).map(({ id }) => id)).toContain(body.id);
      }),
      { seed: SEED, numRuns: inDepth(30, 120) },
    );
  });

  it('a query is answered or refused, and never causes a fault', async () => {
    const names = [
      'limit',
      'cursor',
      'fleet',
      'registration',
      'asOf',
      'until',
      'withinDays',
      'chance',
      'axle',
      'format',
    ];
    const paths = [
      '/v1/vehicles',
      '/v1/reports/due-soon',
      '/v1/reports/unassessed',
      `/v1/vehicles/${vehicle.id}/wear`,
    ];
    const query = fc.dictionary(
      fc.constantFrom(...names, 'other'),
      fc.string({ unit: 'binary-ascii', maxLength: 30 }),
      {
        minKeys: 1,
        maxKeys: 3,
      },
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...paths), query, async (path, parameters) => {
        const { status } = await service.as(
          'technician',
          'get',
          `${path}?${new URLSearchParams(parameters)}`,
        );
        expect([200, 400]).toContain(status);
      }),
      { seed: SEED, numRuns: inDepth(50, 200) },
    );
  });
});
