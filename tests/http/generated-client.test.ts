import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import openapiTypes, { astToString } from 'openapi-typescript';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startService, type Service } from '../support/service.js';

/** A client made by a public generator from the served document does the main job, as far as the compiler can tell and in fact. */

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CLIENT = join(ROOT, 'tests/client/mainJob.ts');

let service: Service;
let folder: string;
let types: string;

beforeAll(async () => {
  service = await startService();
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-client-'));
  const { text } = await service.unchecked.get('/openapi.json');
  // A member with a default may be left out of what is sent.
  types = astToString(await openapiTypes(text, { defaultNonNullable: false }));
}, 60_000);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await service.close();
});

/** What the strict compiler has to say of a client's source beside the generated types. */
function complaints(source: string): string[] {
  const generated = join(folder, 'brake-wear-api.d.ts');
  writeFileSync(generated, types);
  const { config } = ts.readConfigFile(join(ROOT, 'tsconfig.json'), (file) => ts.sys.readFile(file));
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [] }, ts.sys, ROOT);
  const strict = { ...options, paths: { 'brake-wear-api': [generated] } };
  const host = ts.createCompilerHost(strict);
  const readFile = host.readFile.bind(host);
  host.readFile = (file) => (file === CLIENT ? source : readFile(file));
  return ts
    .getPreEmitDiagnostics(ts.createProgram([CLIENT], strict, host))
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}

describe('a generated client', () => {
  const source = readFileSync(CLIENT, 'utf8');

  it('is held against the generated types by the compiler', () => {
    expect(complaints(source)).toEqual([]);
    const spoilt = source.replace("externalId: 'CLIENT-1'", 'externalNumber: 1');
    expect(complaints(spoilt).join()).toContain('externalNumber');
  }, 120_000);

  it('needs neither casts nor any', () => {
    const code = source.replaceAll(/\/\*\*[^]*?\*\/|\/\/.*/g, '');
    expect(code).not.toMatch(/\bany\b|\bas (?!const\b)|@ts-|\w!/);
  });

  it('does the main job over HTTP', async () => {
    const { port } = service.app.server.address() as AddressInfo;
    const { mainJob } = await import(/* @vite-ignore */ CLIENT);
    const done = await mainJob({
      baseUrl: `http://127.0.0.1:${port}`,
      frontDesk: service.keys['front-desk'],
      fleetManager: service.keys['fleet-manager'],
    });
    expect(done.findings.join()).toMatch(/check front left inner/);
    expect(done.rates).toHaveLength(4);
    const [leftInner, leftOuter] = done.rates;
    expect(leftInner.rate).toBeGreaterThan(leftOuter.rate);
    expect(done.due).toMatch(/^2026-\d\d-\d\d$/);
    expect(done.chanceUntilSeptember).toBeGreaterThan(0);
    expect(done.chanceUntilSeptember).toBeLessThan(1);
    expect(done.rotors[0]).toEqual({ side: 'left', decision: expect.any(String), marginMm: 1.4574 });
    expect(done.dueSoon).toEqual([
      { due: done.vehicleId, axle: 'front', overdue: false, earlyDate: expect.stringMatching(/^2026-/) },
    ]);
    const [front] = done.plan;
    expect([front.item, front.wastedMm.map(({ date }: { date: string }) => date)]).toEqual([
      'pad-set',
      ['2026-06-01', '2026-12-01'],
    ]);
    expect(front.wastedMm.map(({ date }: { date: string }) => date)).toContain(front.recommended);
    expect(done.padSetsInAYear).toBeGreaterThan(0.5);
    expect(done.padSetsInAYear).toBeLessThanOrEqual(1);
    expect(done.openPoints).toEqual(['finding-not-answered']);
    expect(done.correctedKm).toBe(61_420);
    expect(done.correctedReadings).toEqual([
      'left inner 3.1',
      'left outer 5',
      'right inner 4.6',
      'right outer 4.9',
      'rotor-thickness',
    ]);
    expect(done.ruleSets).toContain('uk-inspection-manual');
    expect(done.rulesOnFront).toEqual([{ axle: 'front', sets: done.ruleSets.length }]);
    expect(done.refused).toEqual({
      code: 'invalid',
      errors: [{ detail: expect.stringContaining('from 0 to 40 mm'), pointer: '#/readings/0/value' }],
    });
  });
});
