import { describe, expect, it } from 'vitest';
import { OWN_FORM, postForm } from '../support/pages.js';
import { startService, type Service } from '../support/service.js';

async function withService(trustProxy: string[], work: (service: Service) => Promise<void>): Promise<void> {
  const service = await startService({ trustProxy, failedKeysPerMinute: 2 });
  try {
    await work(service);
  } finally {
    await service.close();
  }
}

const cookieSet = async (service: Service, headers: Record<string, string>): Promise<string> => {
  const done = await postForm(service, '/sign-in', { key: service.keys.owner }, { ...OWN_FORM, ...headers });
  return String(done.headers['set-cookie']);
};
const statusFrom = async (service: Service, address: string): Promise<number> =>
  (await service.anonymous('get', '/v1/gauges').set('X-Forwarded-For', address)).status;

describe('a proxy that TRUST_PROXY names', () => {
  it('the address that a named proxy forwards is the one by which the rate limit counts a caller', () =>
    withService(['127.0.0.1/8'], async (service) => {
      const statuses = [];
      for (let at = 1; at <= 4; at++) statuses.push(await statusFrom(service, `192.0.2.${at}`));
      expect(statuses).toEqual([401, 401, 401, 401]);
      expect([await statusFrom(service, '192.0.2.1'), await statusFrom(service, '192.0.2.1')]).toEqual([
        401, 429,
      ]);
      // The caller's own header value comes before the proxy's.
      expect(await statusFrom(service, '198.51.100.9, 192.0.2.1')).toBe(429);
    }));

  it('the session cookie is Secure if the named proxy received the request over TLS', () =>
    withService(['127.0.0.1'], async (service) => {
      expect(await cookieSet(service, { 'X-Forwarded-Proto': 'https' })).toMatch(/; Secure/);
      expect(await cookieSet(service, { 'X-Forwarded-Proto': 'http' })).not.toMatch(/Secure/);
      expect(await cookieSet(service, {})).not.toMatch(/Secure/);
    }));

  it('the host that a named proxy forwards is the one that forms must come from', () =>
    withService(['127.0.0.1'], async (service) => {
      const form = (host: string) =>
        postForm(
          service,
          '/sign-in',
          { key: service.keys.owner },
          { Origin: 'https://brakes.example', 'X-Forwarded-Host': host, 'X-Forwarded-Proto': 'https' },
        );
      expect((await form('brakes.example')).status).toBe(303);
      expect((await form('elsewhere.example')).status).toBe(403);
    }));
});

describe('a proxy that TRUST_PROXY does not name', () => {
  it('a proxy that is not named is counted itself, and its headers make no cookie Secure', () =>
    withService(['10.0.0.1'], async (service) => {
      const statuses = [];
      for (let at = 1; at <= 3; at++) statuses.push(await statusFrom(service, `192.0.2.${at}`));
      expect(statuses).toEqual([401, 401, 429]);
      expect(await cookieSet(service, { 'X-Forwarded-Proto': 'https' })).not.toMatch(/Secure/);
    }));
});

describe('the reference at /docs', () => {
  it('the reference at /docs asks a browser to load nothing over https, which a local network does not have', () =>
    withService([], async (service) => {
      const { headers } = await service.unchecked.get('/docs/');
      expect(headers['content-security-policy']).toContain("script-src 'self'");
      expect(headers['content-security-policy']).not.toContain('upgrade-insecure-requests');
    }));
});
