import { Webhook } from 'standardwebhooks';
import type { Dispatcher } from 'undici';
import { retryAfterMs, type Answer } from '../core/events/retries.js';
import type { ClaimedDelivery } from '../store/contract/webhooks.js';
import { AddressRefused, lookupPublic, urlIssue } from './addresses.js';

/** One webhook attempt: signs it by Standard Webhooks 1.0.0, posts it and reads the beginning of the answer. */

const TIMEOUT_MS = 15_000;
/** Bytes read from an answer, and characters stored of it. */
const MAX_BYTES = 4096;
const MAX_CHARACTERS = 200;

export interface Attempted extends Answer {
  /** The error, or the first characters of the answer. */
  detail: string;
}

/** @param now the signed timestamp */
export type Send = (delivery: ClaimedDelivery, now: Date, stopped: AbortSignal) => Promise<Attempted>;

/** `webhook-id`, `webhook-timestamp` and `webhook-signature`: one signature per secret, separated by spaces. */
export function signedHeaders(
  { webhookId, body, secrets }: Pick<ClaimedDelivery, 'webhookId' | 'body' | 'secrets'>,
  now: Date,
): Record<string, string> {
  return {
    'webhook-id': webhookId,
    'webhook-timestamp': String(Math.floor(now.getTime() / 1000)),
    'webhook-signature': secrets.map((secret) => new Webhook(secret).sign(webhookId, now, body)).join(' '),
  };
}

/** @param allowPrivate whether http and non-public addresses are allowed */
export function webhookSender(
  allowPrivate: boolean,
  timeoutMs = TIMEOUT_MS,
): Send & { close(): Promise<void> } {
  /** Loads the client at the first delivery: few shops have webhooks, and its modules take a tenth of the startup. */
  async function loadClient() {
    const { Agent, request } = await import('undici');
    const agent = new Agent({
      connect: { timeout: timeoutMs, ...(allowPrivate ? {} : { lookup: lookupPublic }) },
      headersTimeout: timeoutMs,
      bodyTimeout: timeoutMs,
      keepAliveTimeout: 5_000,
    });
    return { agent, request };
  }
  let client: ReturnType<typeof loadClient> | null = null;

  async function post(delivery: ClaimedDelivery, now: Date, stopped: AbortSignal): Promise<Attempted> {
    // The settings may have changed since the endpoint was created.
    const issue = urlIssue(delivery.url, allowPrivate);
    if (issue) throw new AddressRefused(`the address ${issue}`);
    const { agent, request } = await (client ??= loadClient());
    const response = await request(delivery.url, {
      method: 'POST',
      dispatcher: agent,
      headers: {
        'content-type': 'application/json',
        'user-agent': 'brake-wear-service',
        ...signedHeaders(delivery, now),
      },
      body: Buffer.from(delivery.body),
      signal: AbortSignal.any([stopped, AbortSignal.timeout(timeoutMs)]),
    });
    const said = await beginningOf(response.body).catch(() => '');
    const { statusCode: status, headers } = response;
    const retryAfter = [headers['retry-after']].flat()[0];
    return { status, retryAfterMs: retryAfterMs(retryAfter, now), detail: said };
  }

  const send: Send = (delivery, now, stopped) =>
    post(delivery, now, stopped).catch((fault: unknown) => ({
      status: null,
      retryAfterMs: null,
      detail: faultInWords(fault),
    }));
  return Object.assign(send, { close: async () => (await client)?.agent.destroy() });
}

/** The first characters of an answer; the rest is not read. */
async function beginningOf(body: Dispatcher.ResponseData['body']): Promise<string> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of body as AsyncIterable<Buffer>) {
    chunks.push(chunk);
    bytes += chunk.length;
    if (bytes >= MAX_BYTES) break;
  }
  const text = Buffer.concat(chunks).subarray(0, MAX_BYTES).toString('utf8');
  // oxlint-disable-next-line no-control-regex -- control characters are exactly what is taken out
  return text.replace(/[\u0000-\u001f\u007f]+/g, ' ').slice(0, MAX_CHARACTERS);
}

/** Describes a fault by its code, since its message may reveal more about the network than it should. */
function faultInWords(fault: unknown): string {
  if (fault instanceof AddressRefused) return fault.message;
  const { code, name } = fault as NodeJS.ErrnoException;
  if (name === 'TimeoutError') return 'no answer in time';
  return `no answer: ${typeof code === 'string' ? code : name}`;
}
