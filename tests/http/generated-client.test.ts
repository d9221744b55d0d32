import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generateSource } from 'oazapfts';
import { generateApi } from 'swagger-typescript-api';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientTypes } from '../../clients/typescript/generate.js';
import { startService, type Service } from '../support/service.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PACKAGE = join(ROOT, 'clients/typescript');
const MAIN_JOB = join(ROOT, 'tests/client/mainJob.ts');

let service: Service;
let folder: string;

beforeAll(async () => {
  service = await startService();
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-client-'));
}, 60_000);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await service.close();
});

/** Declarations that every compilation needs, parsed once. */
const declarations = new Map<string, ts.SourceFile | undefined>();

/** The strict compiler's messages on a file. `replaced` has the text of files that need not exist. */
function complaints(file: string, replaced: Record<string, string> = {}): string[] {
  const { config } = ts.readConfigFile(join(ROOT, 'tsconfig.json'), (name) => ts.sys.readFile(name));
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [] }, ts.sys, ROOT);
  const strict: ts.CompilerOptions = {
    ...options,
    lib: ['lib.es2023.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
    paths: { 'brake-wear-client': [join(PACKAGE, 'index.d.ts')] },
    noUnusedLocals: false,
    noUnusedParameters: false,
  };
  const host = ts.createCompilerHost(strict);
  const readFile = host.readFile.bind(host);
  host.readFile = (name) => replaced[name] ?? readFile(name);
  const fileExists = host.fileExists.bind(host);
  host.fileExists = (name) => name in replaced || fileExists(name);
  const getSourceFile = host.getSourceFile.bind(host);
  host.getSourceFile = (name, version) => {
    if (!name.endsWith('.d.ts')) return getSourceFile(name, version);
    const parsed = declarations.get(name) ?? getSourceFile(name, version);
    declarations.set(name, parsed);
    return parsed;
  };
  return ts
    .getPreEmitDiagnostics(ts.createProgram([file], strict, host))
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}

describe('the TypeScript client', () => {
  const source = readFileSync(MAIN_JOB, 'utf8');

  it('its types are those of the served document; `npm run client` writes them', async () => {
    const { text } = await service.unchecked.get('/openapi.json');
    const isCurrent = readFileSync(join(PACKAGE, 'schema.d.ts'), 'utf8') === (await clientTypes(text));
    expect(isCurrent, 'clients/typescript/schema.d.ts is out of date: run `npm run client`').toBe(true);
  }, 60_000);

  it('a program that does the main job compiles, and a misspelt member does not', () => {
    expect(complaints(MAIN_JOB)).toEqual([]);
    const misspelt = source.replace("externalId: 'CLIENT-1'", 'externalNumber: 1');
    expect(complaints(MAIN_JOB, { [MAIN_JOB]: misspelt }).join()).toContain('externalNumber');
  }, 120_000);

  it('the program needs neither casts nor any', () => {
    const code = source.replaceAll(/\/\*\*[^]*?\*\/|\/\/.*/g, '');
    expect(code).not.toMatch(/\bany\b|\bas (?!const\b)|@ts-|\w!/);
  });

  it('the program does the main job over HTTP', async () => {
    const { port } = service.app.server.address() as AddressInfo;
    const { mainJob } = await import(/* @vite-ignore */ MAIN_JOB);
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
    // The right rotor was never measured.
    expect(done.openPoints).toEqual(['finding-not-answered', 'measure-not-done']);
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

  it('a refused call throws with the place of the error', async () => {
    const { connect, dataOf, Refused } = await import('brake-wear-client');
    const { port } = service.app.server.address() as AddressInfo;
    const brakes = connect({ baseUrl: `http://127.0.0.1:${port}`, key: service.keys['front-desk'] });
    const call = brakes.POST('/v1/vehicles', { body: { externalId: 'NO-AXLE', axles: {} } });
    const refused = await call.then(dataOf).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(Refused);
    expect(String(refused)).toContain('#/axles');
  });
});

describe('another public generator', () => {
  const served = async (): Promise<string> => {
    const { text } = await service.unchecked.get('/openapi.json');
    const file = join(folder, 'openapi.json');
    writeFileSync(file, text);
    return file;
  };

  it('oazapfts generates a client that compiles', async () => {
    const made = join(ROOT, 'oazapfts-client.ts');
    const code = await generateSource(await served());
    expect(complaints(made, { [made]: code })).toEqual([]);
  }, 120_000);

  it('swagger-typescript-api generates a client that compiles', async () => {
    const made = join(ROOT, 'swagger-typescript-api-client.ts');
    const { files } = await generateApi({ input: await served(), output: false, silent: true });
    expect(complaints(made, { [made]: files[0]!.fileContent })).toEqual([]);
  }, 120_000);
});
