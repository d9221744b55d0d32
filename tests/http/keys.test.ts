import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Refusal } from '../../src/core/refusal.js';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { startService, type Service } from '../support/service.js';

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

describe('making a key', () => {
  it('gives 256 random bits behind a prefix, another each time', async () => {
    const keys = [await service.makeKey('owner', 'one'), await service.makeKey('owner', 'two')];
    for (const key of keys) {
      expect(key).toMatch(/^bws_[A-Za-z0-9_-]{43}$/);
      expect(Buffer.from(key.slice(4), 'base64url')).toHaveLength(32);
    }
    expect(keys[0]).not.toBe(keys[1]);
  });

  it('stores no key, only its hash', async () => {
    const key = await service.makeKey('technician', 'hidden');
    const stored = [service.file, `${service.file}-wal`]
      .map((file) => readFileSync(file).toString('latin1'))
      .join('');
    expect(stored).toContain('hidden');
    expect(stored).not.toContain(key);
    expect(stored).not.toContain(key.slice(4));
    expect(JSON.stringify(await service.store.keys.list())).not.toContain(key.slice(4));
  });

  it('works at once beside a running server', async () => {
    const key = await service.makeKey('technician', 'bay-2');
    expect((await service.withKey(key, 'get', '/v1/vehicles')).status).toBe(200);
  });

  it('never gives a name twice, also not after its key was revoked', async () => {
    await service.makeKey('technician', 'bay-3');
    expect(await refusalOf('owner', 'bay-3')).toBe('key-name-used');
    await service.store.keys.revoke('bay-3');
    expect(await refusalOf('technician', 'bay-3')).toBe('key-name-used');
  });

  it('refuses a fleet-manager without a fleet, and a fleet on any other role', async () => {
    expect(await refusalOf('fleet-manager', 'no-fleet')).toBe('key-fleets');
    expect(await refusalOf('owner', 'with-fleet', ['north-depot'])).toBe('key-fleets');
    const names = (await service.store.keys.list()).map(({ name }) => name);
    expect(names).not.toContain('no-fleet');
    expect(names).not.toContain('with-fleet');
  });
});

describe('listing and revoking', () => {
  it('lists every key with role, fleets and dates', async () => {
    const listed = (await service.store.keys.list()).find(({ name }) => name === 'fleet-manager');
    expect(listed).toEqual({
      name: 'fleet-manager',
      role: 'fleet-manager',
      fleets: ['north-depot'],
      createdAt: '2026-03-10T12:00:00.000Z',
      revokedAt: null,
    });
  });

  it('revokes at once, and once', async () => {
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
