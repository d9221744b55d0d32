import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { Agent, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import autocannon from 'autocannon';

/** Load from this process, or a separate one, on a server in another. Connections are kept alive. */

export interface Measured {
  answers: number;
  perSecond: number;
  p50Ms: number;
  p99Ms: number;
}

export interface Target {
  address: string;
  key: string;
}

export const CONNECTIONS = 16;
const hasWrk = spawnSync('wrk', ['--version']).error === undefined;
/** A client that sends the next request as soon as it has an answer. */
export const CAPACITY_TOOL = hasWrk ? 'wrk' : 'autocannon';

/**
 * GETs as fast as they are answered, one path after another.
 *
 * @throws if an answer is not 2xx
 */
export const capacity = (target: Target, paths: readonly string[], seconds: number): Promise<Measured> =>
  hasWrk ? withWrk(target, paths, seconds) : withAutocannon(target, paths, { duration: seconds });

/** GETs at a fixed rate: how long each waits, including delays by slow ones before it. */
export const atRate = (
  target: Target,
  paths: readonly string[],
  { seconds, perSecond }: { seconds: number; perSecond: number },
): Promise<Measured> => withAutocannon(target, paths, { duration: seconds, overallRate: perSecond });

async function withAutocannon(
  { address, key }: Target,
  paths: readonly string[],
  options: { duration: number; overallRate?: number },
): Promise<Measured> {
  const result = await autocannon({
    url: address,
    connections: CONNECTIONS,
    headers: { authorization: `Bearer ${key}` },
    requests: paths.map((path) => ({ method: 'GET', path })),
    ...options,
  });
  if (result.non2xx + result.errors > 0) throw new Error(`${paths[0]}: ${result.non2xx} answers are not 2xx`);
  const { p50, p99 } = result.latency;
  return { answers: result.requests.total, perSecond: result.requests.average, p50Ms: p50, p99Ms: p99 };
}

async function withWrk(
  { address, key }: Target,
  paths: readonly string[],
  seconds: number,
): Promise<Measured> {
  const folder = mkdtempSync(join(tmpdir(), 'brakes-wrk-'));
  const script = join(folder, 'paths.lua');
  writeFileSync(
    script,
    `local paths = { ${paths.map((path) => JSON.stringify(path)).join(', ')} }
local at = 0
request = function() at = at % #paths + 1; return wrk.format("GET", paths[at]) end
done = function(summary, latency)
  local wrong = summary.errors.status + summary.errors.connect + summary.errors.read + summary.errors.timeout
  io.write(string.format("MEASURED %d %f %f %f %d\\n", summary.requests, summary.requests / summary.duration * 1e6,
    latency:percentile(50) / 1000, latency:percentile(99) / 1000, wrong))
end`,
  );
  const header = `Authorization: Bearer ${key}`;
  const args = ['-t1', `-c${CONNECTIONS}`, `-d${seconds}s`, '-s', script, '-H', header, address];
  const output = await outputOf('wrk', args);
  rmSync(folder, { recursive: true });
  const [, answers, perSecond, p50Ms, p99Ms, wrong] =
    /^MEASURED (.*) (.*) (.*) (.*) (.*)$/m.exec(output)?.map(Number) ?? [];
  if (wrong !== 0) throw new Error(`${paths[0]}: ${wrong} answers are not 2xx`);
  return { answers: answers!, perSecond: perSecond!, p50Ms: p50Ms!, p99Ms: p99Ms! };
}

function outputOf(command: string, args: string[]): Promise<string> {
  const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  let output = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (output += text));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', () => resolve(output));
  });
}

export interface Call {
  method: string;
  path: string;
  body?: unknown;
}

/** Every call once, over a number of connections. */
export async function allOf(target: Target, calls: readonly Call[], connections: number): Promise<Measured> {
  const agent = new Agent({ keepAlive: true, maxSockets: connections });
  const waits: number[] = [];
  const left = calls.values();
  const began = performance.now();
  const one = async () => {
    for (const call of left) waits.push((await answerTo(target, call, agent)).ms);
  };
  await Promise.all(Array.from({ length: connections }, one));
  const seconds = (performance.now() - began) / 1000;
  agent.destroy();
  return {
    answers: calls.length,
    perSecond: calls.length / seconds,
    p50Ms: quantile(waits, 0.5),
    p99Ms: quantile(waits, 0.99),
  };
}

/** @throws if an answer is not 2xx */
export function answerTo(
  { address, key }: Target,
  { method, path, body }: Call,
  agent?: Agent,
): Promise<{ text: string; ms: number }> {
  const payload = body === undefined ? '' : JSON.stringify(body);
  const headers = {
    authorization: `Bearer ${key}`,
    ...(payload ? { 'content-type': 'application/json', 'content-length': Buffer.byteLength(payload) } : {}),
  };
  const began = performance.now();
  return new Promise((resolve, reject) => {
    const sent = request(address + path, { method, headers, agent }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => {
        const text = Buffer.concat(chunks).toString('utf8');
        if (response.statusCode! >= 300)
          reject(new Error(`${method} ${path}: ${response.statusCode} ${text}`));
        else resolve({ text, ms: performance.now() - began });
      });
    });
    sent.on('error', reject);
    sent.end(payload);
  });
}

export function quantile(values: readonly number[], probability: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(probability * sorted.length))]!;
}
