import { createHmac } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { RETRY_DELAYS_MS } from '../../src/core/events/retries.js';
import { signedHeaders } from '../../src/webhooks/sending.js';

/**
 * Standard Webhooks 1.0.0, github.com/standard-webhooks/standard-webhooks: the values of 'sign function works' in
 * libraries/javascript/src/webhook.test.ts, and the example schedule in spec/standard-webhooks.md under 'Deliverability
 * and reliability' (both read November 2026).
 */
const PUBLISHED = {
  secret: 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
  webhookId: 'msg_p5jXN8AQM9LWM0D4loKWxJek',
  seconds: 1_614_265_330,
  body: '{"test": 2432232314}',
  signature: 'v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=',
};

describe('signatures by the Standard Webhooks scheme', () => {
  const { secret, webhookId, body, seconds, signature } = PUBLISHED;
  const sign = (secrets: string[], milliseconds = 0) =>
    signedHeaders({ webhookId, body, secrets }, new Date(seconds * 1000 + milliseconds));

  it('the signature of the published message is the published one', () => {
    expect(sign([secret])).toEqual({
      'webhook-id': webhookId,
      'webhook-timestamp': String(seconds),
      'webhook-signature': signature,
    });
    // The time is signed in whole seconds.
    expect(sign([secret], 999)['webhook-signature']).toBe(signature);
  });

  it('a signature is HMAC-SHA256 of id, time and the bytes of the body, under any key and in any script', () => {
    const key = Buffer.from(Array.from({ length: 32 }, (_, index) => 255 - 7 * index));
    const said = '{"words":"Bremsbelag – „unter dem Grenzmaß“ 🛞"}';
    const headers = signedHeaders(
      { webhookId: 'a-1', body: said, secrets: [`whsec_${key.toString('base64')}`] },
      new Date(1_700_000_000_000),
    );
    const expected = createHmac('sha256', key).update(`a-1.1700000000.${said}`, 'utf8').digest('base64');
    expect(headers['webhook-signature']).toBe(`v1,${expected}`);
  });

  it('a message has one signature per secret, separated by a space', () => {
    const other = `whsec_${Buffer.alloc(32, 1).toString('base64')}`;
    const signatures = sign([other, secret])['webhook-signature']!.split(' ');
    expect(signatures).toEqual([sign([other])['webhook-signature'], signature]);
  });
});

describe('the schedule of retries', () => {
  it('the retries come at the published times after the first attempt', () => {
    const published = ['0:0:0', '0:0:5', '0:5:5', '0:35:5', '2:35:5', '7:35:5', '17:35:5', '31:35:5'];
    published.push('51:35:5', '75:35:5');
    let since = 0;
    const computed = RETRY_DELAYS_MS.map((delay) => {
      since += delay / 1000;
      return `${Math.floor(since / 3600)}:${Math.floor(since / 60) % 60}:${since % 60}`;
    });
    expect(computed).toEqual(published);
  });
});
