import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generateSource } from 'oazapfts';
import { generateApi } from 'swagger-typescript-api';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientTypes } from '../../clients/typescript/generate.js';
import { startService, type Service } from '../support/service.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PACKAGE = join(ROOT, 'clients/typescript');
const MAIN_JOB = join(ROOT, 'tests/client/mainJob.ts');
const COMPILER = join(ROOT, 'node_modules/typescript7/bin/tsc');

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

/** The strict compiler's messages on a program of one file. */
function complaints(code: string): string {
  const program = mkdtempSync(join(folder, 'program-'));
  symlinkSync(join(ROOT, 'node_modules'), join(program, 'node_modules'));
  writeFileSync(join(program, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(program, 'program.ts'), code);
  const compilerOptions = {
    lib: ['es2023', 'dom', 'dom.iterable'],
    paths: { 'brake-wear-client': [join(PACKAGE, 'index.d.ts')] },
    noUnusedLocals: false,
    noUnusedParameters: false,
  };
  const config = {
    extends: join(ROOT, 'tsconfig.json'),
    compilerOptions,
    files: ['program.ts'],
    include: [],
  };
  writeFileSync(join(program, 'tsconfig.json'), JSON.stringify(config));
  const { status, stdout } = spawnSync(process.execPath, [COMPILER, '-p', program], { encoding: 'utf8' });
  expect(status === 0).toBe(stdout === '');
  return stdout;
}

describe('the TypeScript client', () => {
  const source = readFileSync(MAIN_JOB, 'utf8');

  it('the types of the client are those of the served document; `npm run client` writes them', async () => {
    const { text } = await service.unchecked.get('/openapi.json');
    const isCurrent = readFileSync(join(PACKAGE, 'schema.d.ts'), 'utf8') === (await clientTypes(text));
    expect(isCurrent, 'clients/typescript/schema.d.ts is out of date: run `npm run client`').toBe(true);
  }, 60_000);

  it('a program that does the main job compiles, and a misspelt member does not', () => {
    expect(complaints(source)).toBe('');
    const misspelt = source.replace("externalId: 'CLIENT-1'", 'externalNumber: 1');
    expect(complaints(misspelt)).toContain('externalNumber');
  }, 120_000);

  it('the program that does the main job needs neither casts nor any', () => {
    const code = source.replaceAll(/\/\*\*[^]*?\*\/|\/\/.*/g, '');
    expect(code).not.toMatch(/\bany\b|\bas (?!const\b)|@ts-|\w!/);
  });

  it('the program that does the main job works over HTTP', async () => {
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
    expect(complaints(await generateSource(await served()))).toBe('');
  }, 120_000);

  it('swagger-typescript-api generates a client that compiles', async () => {
    const { files } = await generateApi({ input: await served(), output: false, silent: true });
    expect(complaints(files[0]!.fileContent)).toBe('');
  }, 120_000);
});
