import { describe, expect, it } from 'vitest';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { recordVehicle } from '../support/recording.js';
import { service, serveOneVehicle, vehicle } from '../support/oneVehicle.js';
import { startService } from '../support/service.js';

serveOneVehicle();

let made = 0;
const newKey = () => `try-${++made}`;
const post = (path: string, idempotencyKey: string, body: Body) =>
  service.as('technician', 'post', path).set('Idempotency-Key', idempotencyKey).send(body);
const visitsPath = () => `/v1/vehicles/${vehicle.id}/visits`;
const countVisits = async () => (await service.rowCounts()).visits!;

describe('an Idempotency-Key', () => {
  it('a repeat gets the first answer byte for byte, and nothing is done twice', async () => {
    const key = newKey();
    const body = visitBody('2026-03-02', 61_240, fourPads([7, 7, 7, 7]));
    const first = await post(visitsPath(), key, body);
    expect(first.status).toBe(201);
    expect(first.headers['idempotent-replayed']).toBeUndefined();
    const before = await service.rowCounts();
    // The replay does not show anything recorded since.
    await post(visitsPath(), newKey(), visitBody('2026-03-03', 61_300, fourPads([2, 2, 2, 2])));
    const replays = [await post(visitsPath(), key, body), await post(visitsPath(), key, body)];
    for (const replay of replays) {
      expect(replay.status).toBe(201);
      expect(replay.text).toBe(first.text);
      expect(replay.headers['idempotent-replayed']).toBe('true');
      for (const name of ['content-type', 'location', 'etag'])
        expect(replay.headers[name]).toBe(first.headers[name]);
    }
    expect(await countVisits()).toBe(before.visits! + 1);
  });

  it('a repeat gets the same bytes even if midnight passed before the first answer was sent', async () => {
    // Months instead of a night, so that an answer built later would certainly differ.
    const MONTHS_MS = 100 * 86_400_000;
    const overnight = await startService({ now: '2026-03-10T12:00:00Z', advancesMs: MONTHS_MS });
    try {
      const { id } = await recordVehicle(overnight, vehicleBody());
      const send = () =>
        overnight
          .as('technician', 'post', `/v1/vehicles/${id}/visits`)
          .set('Idempotency-Key', 'overnight')
          .send(visitBody('2026-03-02', 61_240, fourPads([7, 7, 7, 7])));
      const [first, again] = [await send(), await send()];
      expect([again.headers['idempotent-replayed'], again.text]).toEqual(['true', first.text]);
    } finally {
      await overnight.close();
    }
  });

  it('an Idempotency-Key also works for vehicles and entries', async () => {
    const { body: visit } = await post(visitsPath(), newKey(), visitBody('2026-03-04', null));
    const uses: [string, Body][] = [
      ['/v1/vehicles', vehicleBody()],
      [`/v1/visits/${visit.id}/entries`, { work: [{ kind: 'fluid-changed' }] }],
    ];
    for (const [path, body] of uses) {
      const key = newKey();
      const first = await post(path, key, body);
      const again = await post(path, key, body);
      expect([first.status, again.status, again.text]).toEqual([201, 201, first.text]);
    }
    const { body: after } = await service.as('technician', 'get', `/v1/visits/${visit.id}`);
    expect(after.work).toHaveLength(1);
  });

  it('a null member differs from a missing one: a merge patch removes the one and keeps the other', async () => {
    const { body: visit } = await post(visitsPath(), newKey(), {
      date: '2026-03-05',
      notes: 'seen on the lift',
    });
    const key = newKey();
    const correctWith = (changes: Body) =>
      post(`/v1/visits/${visit.id}/corrections`, key, { reason: 'typed wrong', changes }).set(
        'If-Match',
        '*',
      );
    expect((await correctWith({ complaint: 'squeals' })).body.notes).toBe('seen on the lift');
    const other = await correctWith({ complaint: 'squeals', notes: null });
    expect([other.status, other.body.code]).toEqual([422, 'idempotency-key-reused']);
  });

  it('an invalid body never gets the answer of a valid one', async () => {
    const key = newKey();
    const body = visitBody('2026-03-05', null);
    expect((await post(visitsPath(), key, body)).status).toBe(201);
    expect((await post(visitsPath(), key, { ...body, unknownField: null })).status).toBe(422);
  });

  it('the same body with its members in another order is a repeat', async () => {
    const key = newKey();
    const body = visitBody('2026-03-05', null, fourPads([7, 7, 7, 7]));
    const first = await post(visitsPath(), key, body);
    const again = await post(visitsPath(), key, Object.fromEntries(Object.entries(body).reverse()));
    expect(again.text).toBe(first.text);
  });

  it('another body under the same key is refused', async () => {
    const key = newKey();
    const first = await post(visitsPath(), key, visitBody('2026-03-06', null));
    const before = await countVisits();
    const other = await post(visitsPath(), key, visitBody('2026-03-07', null));
    expect(other.status).toBe(422);
    expect(other.body.code).toBe('idempotency-key-reused');
    expect(await countVisits()).toBe(before);
    // The first answer is still stored.
    expect((await post(visitsPath(), key, visitBody('2026-03-06', null))).text).toBe(first.text);
  });

  it('percent-encoding of the path makes no difference', async () => {
    const key = newKey();
    const body = visitBody('2026-03-06', null);
    const first = await post(visitsPath(), key, body);
    const encoded = visitsPath()
      .replace('vehicles', '%76ehicles')
      .replace(/visits$/, 'v%69sits');
    for (const path of [
      encoded,
      visitsPath().replace(vehicle.id, `%${vehicle.id.charCodeAt(0).toString(16)}${vehicle.id.slice(1)}`),
    ]) {
      // The document has no encoded paths.
      const again = await service.unchecked
        .post(path)
        .set({ Authorization: `Bearer ${service.keys.technician}`, 'Idempotency-Key': key })
        .send(body);
      expect([again.headers['idempotent-replayed'], again.text]).toEqual(['true', first.text]);
    }
  });

  it('the same key on another path is another key', async () => {
    const key = newKey();
    const other = await recordVehicle(service, vehicleBody());
    const body = visitBody('2026-03-06', null);
    const here = await post(visitsPath(), key, body);
    const there = await post(`/v1/vehicles/${other.id}/visits`, key, body);
    expect([here.status, there.status]).toEqual([201, 201]);
    expect(there.headers['idempotent-replayed']).toBeUndefined();
    expect(there.body.vehicleId).toBe(other.id);
  });

  it('the same key with another API key is another key', async () => {
    const key = newKey();
    const body = visitBody('2026-03-06', null);
    const first = await post(visitsPath(), key, body);
    const second = await service.as('owner', 'post', visitsPath()).set('Idempotency-Key', key).send(body);
    expect(second.status).toBe(201);
    expect(second.body.id).not.toBe(first.body.id);
  });

  it('a refusal is replayed, even if the request would now succeed', async () => {
    const fresh = await recordVehicle(service, vehicleBody());
    const path = `/v1/vehicles/${fresh.id}/visits`;
    const key = newKey();
    const body = visitBody('2026-03-02', 61_240, fourPads([7, 7, 7, 7], { axle: 'rear' }));
    const refused = await post(path, key, body);
    expect(refused.status).toBe(422);
    await service
      .as('technician', 'patch', `/v1/vehicles/${fresh.id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ axles: { rear: {} } });
    const again = await post(path, key, body);
    expect(again.text).toBe(refused.text);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(again.type).toBe('application/problem+json');
    expect((await post(path, newKey(), body)).status).toBe(201);
  });

  it('a refusal by the schema and a conflict are replayed', async () => {
    const twin = { ...vehicleBody(), externalId: vehicle.externalId };
    for (const [body, status] of [
      [{ axles: {} }, 422],
      [twin, 409],
    ] as const) {
      const key = newKey();
      const first = await post('/v1/vehicles', key, body);
      const again = await post('/v1/vehicles', key, body);
      expect([first.status, again.status]).toEqual([status, status]);
      expect(again.text).toBe(first.text);
    }
  });

  it('a 401 is not stored', async () => {
    const key = newKey();
    const body = visitBody('2026-03-08', null);
    const refused = await service.anonymous('post', visitsPath()).set('Idempotency-Key', key).send(body);
    expect(refused.status).toBe(401);
    const taken = await post(visitsPath(), key, body);
    expect(taken.status).toBe(201);
    expect(taken.headers['idempotent-replayed']).toBeUndefined();
  });

  it('only one of two simultaneous requests takes effect; the other gets the same answer or 409', async () => {
    const key = newKey();
    const body = visitBody('2026-03-09', null);
    const before = await countVisits();
    const answers = await Promise.all([1, 2, 3].map(() => post(visitsPath(), key, body)));
    expect(await countVisits()).toBe(before + 1);
    for (const { status, body: answer } of answers) {
      if (status === 409) expect(answer.code).toBe('request-under-way');
      else expect(status).toBe(201);
    }
    const made201 = answers.filter(({ status }) => status === 201);
    expect(made201.length).toBeGreaterThan(0);
    expect(new Set(made201.map(({ text }) => text)).size).toBe(1);
  });

  it('an answer is stored for a day', async () => {
    const key = newKey();
    const body = visitBody('2026-03-02', null);
    const first = await post(visitsPath(), key, body);
    service.setClock('2026-03-11T11:59:00Z');
    await post(visitsPath(), newKey(), visitBody('2026-03-02', null));
    const again = await post(visitsPath(), key, body);
    service.setClock('2026-03-10T12:00:00Z');
    expect(again.text).toBe(first.text);
  });

  it.each(['', ' ', 'with space', 'x'.repeat(129), 'ümlaut', '"'])(
    'a key such as %j is refused',
    async (key) => {
      const before = await countVisits();
      const response = await post(
        visitsPath(),
        encodeURI(key) === key ? key : Buffer.from(key).toString('latin1'),
        visitBody('2026-03-02', null),
      );
      expect(response.status).toBe(400);
      expect(response.body.errors).toEqual([expect.objectContaining({ header: 'Idempotency-Key' })]);
      expect(await countVisits()).toBe(before);
    },
  );
});

describe('a repeat without an Idempotency-Key', () => {
  it('a repeat without an Idempotency-Key is recorded twice', async () => {
    const before = await countVisits();
    for (let index = 0; index < 2; index++)
      await service.as('technician', 'post', visitsPath()).send(visitBody('2026-03-02', null));
    expect(await countVisits()).toBe(before + 2);
  });
});
