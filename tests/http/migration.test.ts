import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { digestOf } from '../../src/digest.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { addTextFunctions } from '../../src/store/engine/sqlite/migrate.js';
import { openStore } from '../../src/store/open.js';
import { digestOfCode, programDigest } from '../../src/store/outlooks/program.js';
import type { Store } from '../../src/store/contract/store.js';
import {
  axleWith,
  contractVehicle,
  contractVisit,
  fourPads,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import { recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import { changingHistory } from '../../src/store/engine/sqlite/appendOnly.js';
import { startService } from '../support/service.js';
import { createEndpoint, deliveries } from '../support/webhooks.js';

/** A file from before a migration: the old tables, with rows that the present service recorded. */
function copyBefore(migration: string, from: string, folder: string): string {
  const migrations = join(folder, 'migrations');
  cpSync('migrations', migrations, { recursive: true });
  const journal = JSON.parse(readFileSync(join(migrations, 'meta', '_journal.json'), 'utf8')) as {
    entries: { tag: string }[];
  };
  const at = journal.entries.findIndex(({ tag }) => tag.endsWith(migration));
  const before = { ...journal, entries: journal.entries.slice(0, at) };
  writeFileSync(join(migrations, 'meta', '_journal.json'), JSON.stringify(before));

  const file = join(folder, 'old.sqlite');
  const connection = new BetterSqlite(file);
  addTextFunctions(connection);
  migrate(drizzle(connection), { migrationsFolder: migrations });
  connection.prepare('attach ? as recorded').run(from);
  const tables = connection
    .prepare(
      "select name from main.sqlite_master where type = 'table' and name not like '\\_\\_%' escape '\\'",
    )
    .pluck()
    .all() as string[];
  connection.pragma('foreign_keys = OFF');
  for (const table of tables) {
    // A column that was renamed later stays empty.
    const columns = connection
      .prepare(
        "select group_concat(name) from pragma_table_info(@table, 'main') where name in (select name from pragma_table_info(@table, 'recorded'))",
      )
      .pluck()
      .get({ table }) as string;
    connection.exec(`insert into main.${table} (${columns}) select ${columns} from recorded.${table}`);
  }
  connection.close();
  return file;
}

const EVERYTHING = { ...OPERATOR, keyName: 'front-desk' };
const WHOLE = { limit: 50, after: null };
/** In a visit, null, missing and empty are the same. */
const said = (body: Body): string =>
  digestOf(
    Object.fromEntries(Object.entries(body).filter(([, value]) => !Array.isArray(value) || value.length > 0)),
  );

describe('a database from before histories were kept', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-old-'));
  const sent = [
    contractVisit(),
    {
      ...visitBody('2026-03-03', 5, fourPads([6, 6.25, 6, 6]), { time: '09:00', shop: 'north' }),
      odometerReplaced: { oldFinal: { value: 61_250, unit: 'km' }, newStart: null },
      conditions: [{ part: 'hose', axle: 'front', side: 'right', state: 'leaking', notes: 'at the crimp' }],
      work: [{ kind: 'fluid-changed', notes: 'all round' }],
    },
    { date: '2026-03-04' },
  ];
  let store: Store & { close(): void };
  let vehicle: Recorded;
  let visits: Recorded[];

  beforeAll(async () => {
    const service = await startService();
    vehicle = await recordVehicle(service, contractVehicle());
    visits = [];
    for (const body of sent) visits.push(await recordVisit(service, vehicle.id, body));
    const entry = { torques: [{ fastener: 'wheel-nut', axle: 'front', value: 120, unit: 'Nm' }] };
    await service.as('technician', 'post', `/v1/visits/${visits[2]!.id}/entries`).send(entry);
    const file = copyBefore('_corrections', service.file, folder);
    await service.close();
    store = await openStore({ file, timeZone: 'UTC', clock: () => new Date('2026-03-10T12:00:00Z') });
  });
  afterAll(async () => {
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('every visit has its content as the first known version', async () => {
    const entered = {
      ...sent[2]!,
      torques: [{ fastener: 'wheel-nut', axle: 'front', value: 120, unit: 'Nm' }],
    };
    for (const [index, body] of [sent[0]!, sent[1]!, entered].entries()) {
      const { items } = await store.histories.ofVisit(EVERYTHING, visits[index]!.id, WHOLE);
      expect(items).toHaveLength(1);
      const [first] = items;
      expect(first).toMatchObject({
        version: index === 2 ? 2 : 1,
        kind: 'recorded',
        by: null,
        vehicleId: vehicle.id,
      });
      expect(first!.at).toBe('2026-03-10T12:00:00.000Z');
      expect(VisitBody.safeParse(first!.body).error?.issues).toBeUndefined();
      expect(said(first!.body)).toBe(said(VisitBody.parse(body)));
    }
    // Found by its plate typed another way, with the search columns that a later migration adds.
    const found = await store.vehicles.search(EVERYTHING, 'kr-44', 5);
    expect(found.map(({ id }) => id)).toEqual([vehicle.id]);
    const { items } = await store.histories.ofVehicle(EVERYTHING, vehicle.id, WHOLE);
    expect(items).toMatchObject([{ version: 1, kind: 'recorded', by: null, body: contractVehicle() }]);
    expect(VehicleBody.safeParse(items[0]!.body).success).toBe(true);
  });

  it('wear answers are the same before and after they are cached', async () => {
    const ready = () => {
      const connection = new BetterSqlite(join(folder, 'old.sqlite'), { readonly: true });
      const rows = connection.prepare('select count(*) from wear_answers').pluck().get();
      connection.close();
      return rows;
    };
    const question = { today: '2026-03-10', until: null };
    const wear = async () => String(await store.outlooks.wear(EVERYTHING, vehicle.id, question));
    expect(ready()).toBe(0);
    const before = await wear();
    expect(before).toBe(
      JSON.stringify(wearAnswer(vehicle.id, await store.outlooks.get(EVERYTHING, vehicle.id), question)),
    );
    await store.outlooks.refresh();
    expect(ready()).toBe(1);
    expect(await wear()).toBe(before);
  });

  it('the visits of an old database can be corrected, and ids stay the same', async () => {
    const before = await store.visits.get(EVERYTHING, visits[1]!.id);
    const change = (body: VisitBody): VisitBody => ({ ...body, notes: 'put right' });
    const { visit } = await store.corrections.correct(
      EVERYTHING,
      visits[1]!.id,
      [1],
      { reason: 'x', change },
      null,
    );
    expect(visit).toEqual({ ...before, version: 2, notes: 'put right' });
    const { items } = await store.histories.ofVisit(EVERYTHING, visits[1]!.id, WHOLE);
    expect(items.map(({ kind, by }) => [kind, by])).toEqual([
      ['recorded', null],
      ['corrected', 'front-desk'],
    ]);
  });

  it('the work orders of an old database are recognized as before', async () => {
    const again = await store.visits.record(EVERYTHING, vehicle.id, VisitBody.parse(sent[0]), null);
    expect([again.isNew, again.visit.id]).toEqual([false, visits[0]!.id]);
  });
});

describe('a database from before the searchable dates', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-old-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('the reports of an old database equal those of a new one', async () => {
    const service = await startService();
    const axles = { front: axleWith(12, 2), rear: axleWith(12, 2) };
    for (let index = 0; index < 12; index++) {
      const rear = fourPads([8, 8, 8, 8], { axle: 'rear' });
      const visits = [
        visitBody('2024-06-01', 20_000, [...fourPads([11, 11, 11, 11]), ...rear]),
        visitBody('2025-01-01', 30_000, []),
        visitBody('2026-03-01', 40_000 + 500 * index, fourPads([1.5 + index / 2, 6, 6, 6])),
      ];
      const { id } = await recordVehicle(service, vehicleBody({ axles }));
      for (const visit of visits.slice(index % 3)) await recordVisit(service, id, visit);
    }
    await recordVehicle(service, vehicleBody({ axles }));
    const searched = (file: string): unknown[] => {
      const connection = new BetterSqlite(file, { readonly: true });
      const rows = connection
        .prepare(
          'select vehicle_seq, axle, measure_date, expected_date, overdue_from, model, stops from axle_outlooks order by 1, 2',
        )
        .all();
      connection.close();
      return rows;
    };
    const expected = searched(service.file);
    const file = copyBefore('_due_soon_calendars', service.file, folder);
    await service.close();
    const store = await openStore({ file, timeZone: 'UTC' });
    // A service does this after it has started: no migration knows how this program computes its dates.
    await store.outlooks.refresh();
    await store.close();
    expect(searched(file)).toEqual(expected);
    for (const name of ['measure_date', 'overdue_from', 'stops']) {
      const dates = (expected as Record<string, string | null>[]).map((row) => row[name]);
      expect(dates.some((date) => date !== null) && dates.includes(null)).toBe(true);
    }
    expect(expected).toContainEqual(
      expect.objectContaining({ overdue_from: '0000-01-01', model: 'parcel-van-3t5' }),
    );
  });
});

describe('a database from before names were compared by their visible characters', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-old-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const FLEET = 'Dépôt nord';
  const manager = { ...EVERYTHING, fleets: [FLEET] };
  const visit = visitBody('2026-03-02', 61_240, fourPads([6, 6, 6, 6]), {
    workOrder: 'Né-1',
    notes: 'ça va',
  });

  /** Names as an early program could have received them; they look the same. */
  const asTyped = (text: unknown) =>
    typeof text === 'string' ? text.normalize('NFD').replaceAll('e\u0301', 'e\u0301\u200b') : text;

  async function oldFile(): Promise<{ file: string; id: string; visitId: string }> {
    const service = await startService();
    const named = { externalId: 'Étoile-1', registration: 'ÉT 1', fleet: FLEET, model: 'modèle' };
    const { id } = await recordVehicle(service, vehicleBody(named));
    const { id: visitId } = await recordVisit(service, id, visit);
    await service.store.keys.create({
      name: 'nord',
      role: 'fleet-manager',
      fleets: [FLEET],
      digest: 'd'.repeat(64),
    });
    await createEndpoint(service, { url: 'https://desk.example.com/hooks', fleets: [FLEET] });
    const file = copyBefore('_names_as_people_see_them', service.file, folder);
    await service.close();
    const connection = new BetterSqlite(file);
    connection.function('as_typed', asTyped);
    connection.exec('begin');
    await changingHistory({ $client: connection }, ['vehicle_versions', 'visit_versions'], async () =>
      connection.exec(`
          update vehicles set body = as_typed(body);
          update vehicle_versions set body = as_typed(body);
          update visit_versions set body = as_typed(body);
          update visits set work_order = as_typed(work_order), content_digest = 'of the text as it was typed';
          update axle_outlooks set fleet = as_typed(fleet), model = as_typed(model);
          update api_keys set fleets = as_typed(fleets);
          update webhook_endpoints set fleets = as_typed(fleets);
        `),
    );
    connection.exec('commit');
    const typed = connection.prepare('select count(*) from vehicles where fleet = ?').pluck();
    expect([typed.get(FLEET), typed.get(asTyped(FLEET))]).toEqual([0, 1]);
    connection.close();
    return { file, id, visitId };
  }

  it('everything in an old database is found by the names as they are typed now', async () => {
    const { file, id, visitId } = await oldFile();
    const store = await openStore({ file, timeZone: 'UTC', clock: () => new Date('2026-03-10T12:00:00Z') });
    const found = async (filter: object) =>
      (await store.vehicles.list(manager, { includeOutOfService: true, ...filter } as never, WHOLE)).items;
    for (const filter of [
      { externalId: 'Étoile-1' },
      { registration: 'ÉT 1' },
      { fleet: FLEET },
      { model: 'modèle' },
    ])
      expect(await found(filter)).toMatchObject([
        { id, fleet: FLEET, model: 'modèle', externalId: 'Étoile-1' },
      ]);
    expect((await store.keys.list()).find(({ name }) => name === 'nord')?.fleets).toEqual([FLEET]);
    expect((await store.webhooks.list()).map(({ fleets }) => fleets)).toEqual([[FLEET]]);

    const again = await store.visits.record(manager, id, VisitBody.parse(visit), null);
    expect([again.isNew, again.visit.id]).toEqual([false, visitId]);
    const next = visitBody('2026-03-09', 61_500, fourPads([6, 6, 6, 6]));
    expect((await store.visits.record(manager, id, VisitBody.parse(next), null)).isNew).toBe(true);
    // The fleet never changed, so nothing earlier is hidden.
    expect((await store.visits.get(manager, visitId)).notes).toBe('ça va'.normalize('NFC'));
    await store.close();
  });
});

/** A report without the times at which its rows last changed. */
const withoutTimes = (answers: unknown[]): unknown =>
  JSON.parse(JSON.stringify(answers, (name, value: unknown) => (name === 'changedAt' ? null : value)));

describe('a database whose outlooks another program computed', () => {
  it('wear answers follow this program’s rules at once, and reports do once all outlooks are recomputed', async () => {
    const service = await startService();
    await createEndpoint(service, { url: 'https://desk.example.com/hooks' });
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: axleWith(12, 2) } }));
    for (const [date, odometer, mm] of [
      ['2025-03-01', 20_000, 6],
      ['2025-09-01', 30_000, 5],
      ['2026-03-01', 40_000, 4],
    ] as const)
      await recordVisit(service, id, visitBody(date, odometer, fourPads([mm, mm, mm, mm])));
    const answers = () =>
      Promise.all(
        [`/v1/vehicles/${id}/wear`, '/v1/reports/due-soon?withinDays=400', '/v1/reports/measure-first'].map(
          async (path) => (await service.as('owner', 'get', path)).body as unknown,
        ),
      );
    const before = await answers();
    const raised = await deliveries(service);

    const connection = new BetterSqlite(service.file);
    connection.exec(`
      update outlooks set program = 'another', body = json_replace(body, '$.rhythmDays', 7);
      update wear_answers set program = 'another', text = '{}', open = '{}';
      update axle_outlooks set early_date = '2040-01-01', first_date = '2040-01-01', crossing = null;
    `);
    connection.close();
    const [wear, ...reports] = await answers();
    expect(wear).toEqual(before[0]);
    expect(reports).not.toEqual(before.slice(1));
    expect((await service.store.figures()).staleOutlooks).toBe(1);
    await service.store.outlooks.refresh();
    expect(withoutTimes(await answers())).toEqual(withoutTimes(before));
    expect((await service.store.figures()).staleOutlooks).toBe(0);
    expect(await deliveries(service)).toEqual(raised);
    await service.close();
  });

  it('any change in the code that computes outlooks is detected', () => {
    const folder = mkdtempSync(join(tmpdir(), 'brake-wear-code-'));
    const files = { 'a.js': 'const LEAST = 0.02;', 'b/c.js': 'export {};', 'b/c.js.map': '{}' };
    mkdirSync(join(folder, 'b'));
    const digestWith = (changes: Record<string, string>) => {
      for (const [name, text] of Object.entries({ ...files, ...changes }))
        writeFileSync(join(folder, name), text);
      return digestOfCode([folder]);
    };
    const digest = digestWith({});
    expect(digestWith({ 'a.js': 'const LEAST = 0.05;' })).not.toBe(digest);
    expect(digestWith({ 'b/c.js': 'export { x };' })).not.toBe(digest);
    expect(digestWith({ 'b/c.js.map': '{"file":"c.js"}' })).toBe(digest);
    expect(programDigest()).toMatch(/^[0-9a-f]{16}$/);
    expect(programDigest()).not.toBe(digestOfCode([]));
    rmSync(folder, { recursive: true });
  });
});

describe('a database from before outcomes were stored as one text', () => {
  it('repeated writes on an old database get the same answers, forms included, and the audit is the same', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'brake-wear-outcomes-'));
    const service = await startService();
    await recordVehicle(service, vehicleBody());
    const file = copyBefore('_outcomes', service.file, folder);
    await service.close();
    const connection = new BetterSqlite(file);
    const insert = connection.prepare(
      "insert into idempotency_records values ('owner', 'POST', ?, 'key-1', 'f', ?, ?, ?, '2099-01-01T00:00:00.000Z')",
    );
    insert.run('/v1/vehicles', 201, '{"location":"/v1/vehicles/x"}', '{"id":"x"}\n');
    insert.run('/pages/forms', 303, '{}', '{"location":"/","said":[]}');
    const note = connection.prepare(
      "insert into audit (at, key_name, method, action, resource, resource_id) values ('2026-01-01T00:00:00.000Z', 'owner', ?, 'done', 'policy', 'policy')",
    );
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', null]) note.run(method);
    connection.close();

    const store = await openStore({ file, timeZone: 'UTC' });
    try {
      const kept = (target: string) => store.outcomes.find({ keyName: 'owner', target, key: 'key-1' });
      expect(await kept('POST /v1/vehicles')).toEqual({
        fingerprint: 'f',
        outcome: '201 {"location":"/v1/vehicles/x"}\n{"id":"x"}\n',
      });
      expect(await kept('/pages/forms')).toEqual({ fingerprint: 'f', outcome: '{"location":"/","said":[]}' });
      const { items } = await store.histories.audit(null, WHOLE);
      expect(items.slice(-5).map(({ effect }) => effect)).toEqual(['act', 'set', 'change', 'remove', null]);
    } finally {
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
