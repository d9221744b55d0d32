import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signedHeaders } from '../../src/webhooks/sending.js';
import { contractVehicle, fourPads, visitBody, type Body } from '../support/bodies.js';
import { recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { createEndpoint, deliveries } from '../support/webhooks.js';

/** What docs/events.md says is tested here. */

const text = readFileSync('docs/events.md', 'utf8');
const blocks = (language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\n(.*?)^\`\`\``, 'gms'))].map(([, block]) => block!);
const examples = blocks('json').map((block) => JSON.parse(block) as Body & { data: Body });

let service: Service;
beforeAll(async () => {
  service = await startService({ now: '2026-03-02T09:15:00Z' });
});
afterAll(() => service.close());

describe('the examples of docs/events.md', () => {
  it('the examples of docs/events.md match the schema that the service serves', () => {
    expect(examples.map(({ type }) => type)).toEqual(['limit.passed', 'axle.due']);
    for (const example of examples) {
      expect(service.contract.complaints('#/components/schemas/WebhookEvent', example)).toEqual([]);
    }
  });

  it('the examples of docs/events.md are what the service sends for such a vehicle', async () => {
    await createEndpoint(service, { url: 'https://desk.example.com/hooks' });
    const { id } = await recordVehicle(service, contractVehicle());
    await recordVisit(service, id, visitBody('2026-03-02', 61_240, fourPads([2.5, 5.9, 6, 6])));
    const raised = (await deliveries(service)).map(({ event }) => event);
    const [passed, due] = examples;
    expect(raised[0]).toEqual({ ...passed, data: { ...passed!.data, vehicleId: id } });
    const sent = raised.find(({ type }) => type === 'axle.due')!.data as Body;
    expect(Object.keys(sent)).toEqual(Object.keys(due!.data));
    expect(sent.caution).toBe(due!.data.caution);
  });

  it('the code in docs/events.md verifies what is signed, and nothing else', async () => {
    const [code] = blocks('js');
    const { isGenuine } = (await import(`data:text/javascript,${encodeURIComponent(code!)}`)) as {
      isGenuine: (headers: object, body: string, secret: string, now?: number) => boolean;
    };
    const secretOf = (byte: number) => `whsec_${Buffer.alloc(32, byte).toString('base64')}`;
    const body = '{"words":"unter dem Grenzmaß"}';
    const now = 1_772_442_900;
    const signed = (secrets: string[]) =>
      signedHeaders({ webhookId: 'w-1', body, secrets }, new Date(now * 1000));
    const headers = signed([secretOf(1)]);
    expect(isGenuine(headers, body, secretOf(1), now)).toBe(true);
    expect(isGenuine(signed([secretOf(2), secretOf(1)]), body, secretOf(1), now)).toBe(true);
    expect(isGenuine(headers, body, secretOf(2), now)).toBe(false);
    expect(isGenuine(headers, `${body} `, secretOf(1), now)).toBe(false);
    expect(isGenuine({ ...headers, 'webhook-id': 'w-2' }, body, secretOf(1), now)).toBe(false);
    expect(isGenuine(headers, body, secretOf(1), now + 301)).toBe(false);
    expect(isGenuine({}, body, secretOf(1), now)).toBe(false);
  });
});
