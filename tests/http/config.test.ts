import { describe, expect, it } from 'vitest';
import { BadSetting, readConfig } from '../../src/config.js';

describe('settings from the environment', () => {
  it('settings have the defaults of the contract', () => {
    expect(readConfig({})).toMatchObject({
      host: '127.0.0.1',
      port: 3000,
      databaseFile: 'data/brakes.sqlite',
      timeZone: 'UTC',
      publicUrl: null,
    });
    expect(readConfig({})).toMatchObject({ sendsWebhooks: true, webhookAllowPrivate: false });
    expect(readConfig({}).rateLimitPerMinute).toBeGreaterThanOrEqual(1000);
  });

  it('settings are read from environment variables', () => {
    const config = readConfig({
      HOST: '0.0.0.0',
      PORT: '0',
      DATABASE_FILE: '/tmp/x.sqlite',
      LOG_LEVEL: 'debug',
      TIME_ZONE: 'Pacific/Kiritimati',
      RATE_LIMIT_PER_MINUTE: '0',
      FAILED_KEYS_PER_MINUTE: '7',
      METRICS_PORT: '9464',
      TRUST_PROXY: '10.0.0.7, 192.168.0.0/16,fd00::/8,loopback',
      WEBHOOKS: 'off',
      WEBHOOK_ALLOW_PRIVATE: 'true',
      PUBLIC_URL: 'https://brakes.example/wear/',
      OTHER: 'ignored',
    });
    expect(config).toMatchObject({
      host: '0.0.0.0',
      port: 0,
      databaseFile: '/tmp/x.sqlite',
      logLevel: 'debug',
      timeZone: 'Pacific/Kiritimati',
      rateLimitPerMinute: 0,
      failedKeysPerMinute: 7,
      metricsPort: 9464,
      trustProxy: ['10.0.0.7', '192.168.0.0/16', 'fd00::/8', 'loopback'],
      sendsWebhooks: false,
      webhookAllowPrivate: true,
      publicUrl: 'https://brakes.example/wear',
    });
  });

  it('an empty PUBLIC_URL counts as unset', () => {
    expect(readConfig({ PUBLIC_URL: '' }).publicUrl).toBeNull();
  });

  it.each([
    ['PORT', 'http'],
    ['PORT', '-1'],
    ['PORT', '65536'],
    ['PORT', '3000.5'],
    ['PORT', ''],
    ['HOST', ''],
    ['DATABASE_FILE', ''],
    ['LOG_LEVEL', 'loud'],
    ['TIME_ZONE', 'Middle/Earth'],
    ['TIME_ZONE', ''],
    ['RATE_LIMIT_PER_MINUTE', '-1'],
    ['RATE_LIMIT_PER_MINUTE', 'many'],
    ['FAILED_KEYS_PER_MINUTE', '-1'],
    ['METRICS_PORT', '65536'],
    ['METRICS_PORT', 'on'],
    ['TRUST_PROXY', 'true'],
    ['TRUST_PROXY', '10.0.0.0/33'],
    ['TRUST_PROXY', '1'],
    ['WEBHOOKS', 'no'],
    ['WEBHOOK_ALLOW_PRIVATE', ''],
    ['WEBHOOK_ALLOW_PRIVATE', 'yes'],
    ['PUBLIC_URL', 'brakes.example'],
    ['PUBLIC_URL', 'ftp://brakes.example'],
    ['PUBLIC_URL', 'https://brakes.example/#top'],
    ['PUBLIC_URL', 'javascript:alert'],
  ])('the start refuses %s=%s with one clear line that names it', (name, value) => {
    expect(() => readConfig({ [name]: value })).toThrow(BadSetting);
    expect(() => readConfig({ [name]: value })).toThrow(new RegExp(`^${name}=${value}: [^\n]+$`));
  });
});
