import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Refusal } from '../../src/core/refusal.js';
import { runKeys } from '../../src/commands/keys.js';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { vehicleBody } from '../support/bodies.js';
import { signIn, getPage } from '../support/pages.js';
import { recordVehicle } from '../support/recording.js';
import { onSqlite, startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

async function refusalOf(role: Role, name: string, fleets: string[] = []): Promise<string> {
  const refused = await service.makeKey(role, name, fleets).then(
    () => null,
    (error: unknown) => error,
  );
  expect(refused).toBeInstanceOf(Refusal);
  return (refused as Refusal).code;
}

describe('creating a key', () => {
  it('a key has 256 random bits after a prefix, different each time', async () => {
    const keys = [await service.makeKey('owner', 'one'), await service.makeKey('owner', 'two')];
    for (const key of keys) {
      expect(key).toMatch(/^bws_[A-Za-z0-9_-]{43}$/);
      expect(Buffer.from(key.slice(4), 'base64url')).toHaveLength(32);
    }
    expect(keys[0]).not.toBe(keys[1]);
  });

  it.skipIf(!onSqlite)('only the hash of a key is stored', async () => {
    const key = await service.makeKey('technician', 'hidden');
    const stored = [service.file, `${service.file}-wal`]
      .map((file) => readFileSync(file).toString('latin1'))
      .join('');
    expect(stored).toContain('hidden');
    expect(stored).not.toContain(key);
    expect(stored).not.toContain(key.slice(4));
    expect(JSON.stringify(await service.store.keys.list())).not.toContain(key.slice(4));
  });

  it('a new key works at once on a running server', async () => {
    const key = await service.makeKey('technician', 'bay-2');
    expect((await service.withKey(key, 'get', '/v1/vehicles')).status).toBe(200);
  });

  it('a name is never used twice, not even after its key was revoked', async () => {
    await service.makeKey('technician', 'bay-3');
    expect(await refusalOf('owner', 'bay-3')).toBe('key-name-used');
    await service.store.keys.revoke('bay-3');
    expect(await refusalOf('technician', 'bay-3')).toBe('key-name-used');
  });

  it('a fleet manager without a fleet is refused, and so is a fleet on any other role', async () => {
    expect(await refusalOf('fleet-manager', 'no-fleet')).toBe('key-fleets');
    expect(await refusalOf('owner', 'with-fleet', ['north-depot'])).toBe('key-fleets');
    const names = (await service.store.keys.list()).map(({ name }) => name);
    expect(names).not.toContain('no-fleet');
    expect(names).not.toContain('with-fleet');
  });
});

describe('the fleet of a key', () => {
  it.each(['', '  ', '\u200b', 'north\tdepot', 'north\ndepot', 'x'.repeat(101)])(
    'the fleet of a key is refused if no vehicle could have it: %j',
    async (fleet) => {
      expect(await refusalOf('fleet-manager', 'bad-fleet', ['south', fleet])).toBe('key-fleets');
    },
  );

  it('the fleet of a key is compared like a vehicle’s: trimmed, in NFC, without invisible characters', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ fleet: 'M\u00fcnchen' }));
    const key = await service.makeKey('fleet-manager', 'munich', [' Mu\u0308nchen\u200b']);
    expect((await service.withKey(key, 'get', `/v1/vehicles/${id}`)).status).toBe(200);
  });

  it.each(['a\tb', 'a\nb', 'a b', '', 'x'.repeat(61)])(
    'a fleet’s name must be on one line, and so must a key’s: %j',
    async (name) => {
      expect(await refusalOf('owner', name)).toBe('key-name');
    },
  );
});

describe('the keys command', () => {
  const NOW = new Date('2026-03-10T12:00:00Z');
  const run = (...words: string[]) => runKeys(service.store.keys, words, NOW);
  const asks = async (key: string): Promise<number> =>
    (await service.withKey(key, 'get', '/v1/gauges')).status;
  const refused = (...words: string[]) =>
    run(...words).then(
      () => null,
      (error: Error) => error.message,
    );

  it('the keys command warns when no vehicle is in the fleet of a new or changed key', async () => {
    await recordVehicle(service, vehicleBody({ fleet: 'east' }));
    const spelled = await run('create', '--role', 'fleet-manager', '--name', 'east', '--fleet', 'east');
    expect([spelled.warning, spelled.out]).toEqual([undefined, expect.stringMatching(/^bws_/)]);
    const slip = await run('create', '--role', 'fleet-manager', '--name', 'east-2', '--fleet', 'East');
    expect(slip.out).toMatch(/^bws_/);
    expect(slip.warning).toContain('fleet "East" has no vehicles yet');
    expect((await run('change', 'east-2', '--fleet', 'eats')).warning).toContain('"eats"');
  });

  it('a key is refused from its expiry, and listed as expired', async () => {
    const { out } = await run(
      'create',
      '--role',
      'technician',
      '--name',
      'summer',
      '--expires',
      '2026-03-11',
    );
    const cookie = await signIn(service, out);
    expect(await asks(out)).toBe(200);
    service.setClock('2026-03-11T00:00:00Z');
    expect(await asks(out)).toBe(401);
    expect((await getPage(service, cookie, '/')).status).toBe(303);
    const { out: listed } = await runKeys(service.store.keys, ['list'], new Date('2026-03-11T00:00:00Z'));
    expect(listed).toMatch(/^summer\t.*\texpired 2026-03-11T00:00:00.000Z\t/m);
    await run('change', 'summer', '--expires', 'never');
    expect(await asks(out)).toBe(200);
    service.setClock('2026-03-10T12:00:00Z');
  });

  it.each(['2026-02-30', '2026-03-10', 'soon', '2026-3-11'])(
    'the keys command refuses an expiry of %s',
    async (date) => {
      expect(await refused('create', '--role', 'owner', '--name', 'never', '--expires', date)).toContain(
        date,
      );
    },
  );

  it('the keys command changes fleets and role at once, without a new key', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ fleet: 'west' }));
    const key = await service.makeKey('fleet-manager', 'moves', ['north-depot']);
    const sees = async () => (await service.withKey(key, 'get', `/v1/vehicles/${id}`)).status;
    expect(await sees()).toBe(404);
    await run('change', 'moves', '--fleet', 'west');
    expect(await sees()).toBe(200);
    await run('change', 'moves', '--role', 'technician');
    expect((await service.withKey(key, 'get', '/v1/experience')).status).toBe(200);
    expect(await refused('change', 'moves', '--role', 'fleet-manager')).toContain('at least one fleet');
    expect(await refused('change', 'nobody', '--role', 'owner')).toContain('nobody');
    expect(await refused('change', 'moves')).toContain('Usage');
  });

  it('after a rotation both keys work during the overlap, and only the new one after it', async () => {
    const old = await service.makeKey('technician', 'rotated');
    const { out: fresh } = await run('rotate', 'rotated', '--overlap', '48');
    expect(fresh).toMatch(/^bws_/);
    expect([await asks(old), await asks(fresh)]).toEqual([200, 200]);
    service.setClock('2026-03-12T11:59:59Z');
    expect([await asks(old), await asks(fresh)]).toEqual([200, 200]);
    service.setClock('2026-03-12T12:00:00Z');
    expect([await asks(old), await asks(fresh)]).toEqual([401, 200]);
    service.setClock('2026-03-10T12:00:00Z');
    const { out: last } = await run('rotate', 'rotated', '--overlap', '0');
    expect([await asks(old), await asks(fresh), await asks(last)]).toEqual([401, 401, 200]);
    expect(await refused('rotate', 'rotated', '--overlap', '721')).toContain('721');
    await service.store.keys.revoke('rotated');
    expect(await asks(last)).toBe(401);
    expect(await refused('rotate', 'rotated')).toContain('no valid key is named');
  });

  it('the list says when each key was last used, recorded at most once an hour', async () => {
    const key = await service.makeKey('technician', 'used');
    const lastUse = async () =>
      (await service.store.keys.list()).find(({ name }) => name === 'used')!.lastUsedAt;
    expect(await lastUse()).toBeNull();
    await asks(key);
    // The server records it outside the request.
    await expect.poll(lastUse).toBe('2026-03-10T12:00:00.000Z');
    service.setClock('2026-03-10T12:59:59Z');
    await asks(key);
    expect(await lastUse()).toBe('2026-03-10T12:00:00.000Z');
    service.setClock('2026-03-10T13:00:00Z');
    await asks(key);
    await expect.poll(lastUse).toBe('2026-03-10T13:00:00.000Z');
    service.setClock('2026-03-10T12:00:00Z');
    expect((await run('list')).out).toMatch(/^used\ttechnician\t.*\tin use\tlast used 2026-03-10T13:00/m);
  });

  it('the keys command ends the sessions of everyone who signed in with a key, and an owner can do so too', async () => {
    const key = await service.makeKey('technician', 'lost-phone');
    const cookies = [await signIn(service, key), await signIn(service, key)];
    const other = await signIn(service, service.keys.technician);
    const statuses = async () =>
      Promise.all(cookies.map(async (cookie) => (await getPage(service, cookie, '/')).status));
    expect(await statuses()).toEqual([200, 200]);
    const path = '/v1/keys/lost-phone/sessions';
    expect((await service.as('technician', 'delete', path)).status).toBe(403);
    expect((await service.as('owner', 'delete', path)).status).toBe(204);
    expect(await statuses()).toEqual([303, 303]);
    expect((await getPage(service, other, '/')).status).toBe(200);
    expect(await asks(key)).toBe(200);
    await signIn(service, key);
    expect((await run('sign-out', 'lost-phone')).out).toBe('ended 1 sessions of lost-phone');
    expect((await service.as('owner', 'delete', '/v1/keys/nobody/sessions')).status).toBe(404);
  });
});

describe('listing and revoking keys', () => {
  it('the list has every key with role, fleets and dates', async () => {
    const listed = (await service.store.keys.list()).find(({ name }) => name === 'fleet-manager');
    expect(listed).toEqual({
      name: 'fleet-manager',
      role: 'fleet-manager',
      fleets: ['north-depot'],
      createdAt: '2026-03-10T12:00:00.000Z',
      expiresAt: null,
      lastUsedAt: null,
      revokedAt: null,
    });
  });

  it('a key is revoked at once, and only once', async () => {
    const key = await service.makeKey('technician', 'bay-4');
    expect((await service.withKey(key, 'get', '/v1/gauges')).status).toBe(200);
    expect(await service.store.keys.revoke('bay-4')).toBe(true);
    expect((await service.withKey(key, 'get', '/v1/gauges')).status).toBe(401);
    expect(await service.store.keys.revoke('bay-4')).toBe(false);
    expect(await service.store.keys.revoke('never-was')).toBe(false);
    const revoked = (await service.store.keys.list()).find(({ name }) => name === 'bay-4');
    expect(revoked?.revokedAt).toBe('2026-03-10T12:00:00.000Z');
  });
});
