import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chanceAbove, conformityAbove, conformityBelow } from '../../src/core/assessment/conformity.js';
import { normalQuantile } from '../../src/core/forecast/normal.js';
import { gaugeFor, GAUGES } from '../../src/core/gauges.js';
import { startService, type Service } from '../support/service.js';

/**
 * JCGM 106:2012, "Evaluation of measurement data: The role of measurement uncertainty in conformity assessment",
 * clause 7 (one-sided and two-sided tolerance intervals, normal distribution). The inputs of its examples are from
 * memory, the results recomputed. https://www.bipm.org/en/doi/10.59161/jcgm106-2012
 */

describe('the chance of conformity', () => {
  it('the chance agrees for a lower limit: breakdown strength 509.7 kPa, u = 8.6 kPa, at least 490 kPa (inputs from memory)', () => {
    const chance = chanceAbove(509.7, 490, 8.6);
    expect(chance.toFixed(2)).toBe('0.99');
    expect(chance).toBeCloseTo(0.98901, 6);
  });

  it('the chance agrees for an upper limit: diode voltage −5.47 V, u = 0.05 V, at most −5.40 V (inputs from memory)', () => {
    const chance = chanceAbove(5.47, 5.4, 0.05);
    expect(chance.toFixed(2)).toBe('0.92');
    expect(chance).toBeCloseTo(0.919243, 6);
  });

  it('the chance agrees for both limits: viscosity 13.6, u = 1.8, from 12.5 to 16.3 mm²/s (inputs from memory)', () => {
    const chance = chanceAbove(13.6, 12.5, 1.8) - chanceAbove(13.6, 16.3, 1.8);
    expect(chance.toFixed(2)).toBe('0.66');
    expect(chance).toBeCloseTo(0.66263, 6);
  });

  // Brake figures, computed from Φ((y − T)/u).
  it.each([
    [1.6, 1.5, 0.1, 0.841345],
    [1.5, 1.5, 0.1, 0.5],
    [22.05, 22, 0.02, 0.99379],
    [21.98, 22, 0.02, 0.158655],
  ])('the chance for %f mm against %f mm with u = %f mm is %f', (value, limit, u, chance) => {
    expect(chanceAbove(value, limit, u)).toBeCloseTo(chance, 6);
  });

  // One-sided: the reading lies this many standard uncertainties above the limit (quantiles of the normal distribution).
  it.each([
    [0.8, 0.8416],
    [0.9, 1.2816],
    [0.95, 1.6449],
    [0.975, 1.96],
    [0.99, 2.3263],
    [0.999, 3.0902],
  ])('the chance is %f at %f standard uncertainties above the limit', (chance, z) => {
    expect(normalQuantile(chance)).toBeCloseTo(z, 4);
    expect(chanceAbove(22 + z * 0.02, 22, 0.02)).toBeCloseTo(chance, 4);
  });

  // ILAC-G8:09/2019 4.2.2: a guard band of U = 2u leaves less than 2.5 % of false acceptance.
  it('the chance is 0.97725 with a guard band of two standard uncertainties', () => {
    expect(chanceAbove(2 + 2 * 0.1, 2, 0.1)).toBeCloseTo(0.97725, 6);
    expect(1 - chanceAbove(2 + 2 * 0.1, 2, 0.1)).toBeLessThan(0.025);
  });
});

describe('the coverage interval of 95 %, k = 1.96', () => {
  // u = 0.1 mm: the interval extends 0.196 mm to either side.
  it.each([
    [2.2, 'conforms'],
    [2.197, 'conforms'],
    [2.195, 'inconclusive'],
    [2, 'inconclusive'],
    [1.805, 'inconclusive'],
    [1.803, 'does-not-conform'],
    [1.5, 'does-not-conform'],
  ])('a reading of %f mm against at least 2 mm %s', (value, expected) => {
    expect(conformityAbove(value, 2, 0.1)).toBe(expected);
  });

  it.each([
    [1.803, 'conforms'],
    [1.805, 'inconclusive'],
    [2.195, 'inconclusive'],
    [2.197, 'does-not-conform'],
  ])('a reading of %f mm against at most 2 mm %s', (value, expected) => {
    expect(conformityBelow(value, 2, 0.1)).toBe(expected);
  });

  it('a run-out of 0.002 in by a 0.01 mm dial indicator against at most 0.05 mm is inconclusive', () => {
    const { standardUncertaintyMm } = gaugeFor('dial-indicator', 'rotor-runout');
    expect(conformityBelow(0.0508, 0.05, standardUncertaintyMm)).toBe('inconclusive');
    expect(conformityBelow(0.0381, 0.05, standardUncertaintyMm)).toBe('conforms');
    expect(conformityBelow(0.0635, 0.05, standardUncertaintyMm)).toBe('does-not-conform');
  });
});

/**
 * JCGM 100:2008 (GUM) F.2.2.1 and 4.3.7, from memory: a display that rounds to steps of d leaves a rectangular
 * distribution of half-width d/2, standard uncertainty d/√12 = 0.29 d.
 */
describe('the resolution of a gauge', () => {
  const uncertaintyOf = (name: string) => GAUGES.find((gauge) => gauge.name === name)!.standardUncertaintyMm;

  it.each([
    ['pad-gauge-1mm', 0.288675],
    ['pad-gauge', 0.144338],
    ['pad-gauge-thirty-seconds', 0.229136],
    ['micrometer', 0.00288675],
    ['dial-indicator', 0.00288675],
  ])('the resolution of the %s gives u = %f mm', (name, u) => {
    expect(uncertaintyOf(name)).toBeCloseTo(u, 6);
  });

  it('no gauge counts as more exact than its own steps', () => {
    for (const { resolutionMm, standardUncertaintyMm } of GAUGES) {
      expect(standardUncertaintyMm).toBeGreaterThanOrEqual(resolutionMm / Math.sqrt(12) - 1e-12);
    }
  });

  it('a reading without a named gauge counts as coarse', () => {
    const named = (kind: 'pad-thickness' | 'rotor-thickness' | 'rotor-runout', name: string) =>
      gaugeFor(name, kind).standardUncertaintyMm;
    expect(gaugeFor(null, 'pad-thickness').standardUncertaintyMm).toBeGreaterThan(
      named('pad-thickness', 'pad-gauge'),
    );
    expect(gaugeFor(undefined, 'rotor-thickness').standardUncertaintyMm).toBeGreaterThan(
      named('rotor-thickness', 'micrometer'),
    );
    expect(gaugeFor(null, 'rotor-runout').standardUncertaintyMm).toBeGreaterThan(
      named('rotor-runout', 'dial-indicator'),
    );
  });
});

describe('conformity over HTTP', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.close());

  async function wearOf(externalId: string, readings: object[]) {
    const created = await service.as('technician', 'post', '/v1/vehicles').send({
      externalId,
      axles: {
        front: {
          brake: 'disc',
          pad: { new: { value: 11, unit: 'mm' }, limit: { value: 2, unit: 'mm' } },
          rotor: { discard: { value: 26, unit: 'mm' }, runoutLimit: { value: 0.05, unit: 'mm' } },
        },
      },
    });
    const { id } = created.body as { id: string };
    const recorded = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send({ date: '2026-03-02', odometer: { value: 61_240, unit: 'km' }, readings });
    expect(recorded.status).toBe(201);
    const { status, body } = await service.as('front-desk', 'get', `/v1/vehicles/${id}/wear`);
    expect(status).toBe(200);
    return body.axles[0];
  }
  const left = { axle: 'front', side: 'left' };
  const rotor = { kind: 'rotor-thickness', ...left, unit: 'mm', gauge: 'micrometer' };

  it('a run-out of 0.002 in against 0.05 mm is inconclusive, and the check asks to clean, re-index and measure', async () => {
    const front = await wearOf('CONFORMITY-1', [
      { kind: 'rotor-runout', ...left, value: 0.002, unit: 'in', gauge: 'dial-indicator' },
      ...[27.5, 27.5, 27.5, 27.5].map((value, index) => ({ ...rotor, point: index + 1, value })),
    ]);
    expect(front.rotors[0]).toMatchObject({
      side: 'left',
      runoutMm: 0.0508,
      runoutConformity: 'inconclusive',
      decision: 'measure',
      decisionReasons: [{ code: 'runout' }],
    });
  });

  it.each([
    ['conforms', 26.006, false],
    ['inconclusive', 26.005, true],
    ['does-not-conform', 25.994, true],
  ])(
    'a rotor %s at %f mm against 26 mm by micrometer (u = 0.01/√12 mm)',
    async (conformity, value, stops) => {
      const front = await wearOf(`CONFORMITY-ROTOR-${value}`, [
        { ...rotor, point: 1, value: 27 },
        { ...rotor, point: 2, value },
      ]);
      expect(front.rotors[0]).toMatchObject({
        conformity,
        thinnestMm: value,
        marginStandardUncertaintyMm: 0.002887,
      });
      expect(front.findings.some(({ severity }: { severity: string }) => severity === 'stop')).toBe(stops);
    },
  );

  // 0.5 mm steps: u = 0.1443 mm, so the interval extends 0.2829 mm to either side.
  it.each([
    ['conforms', 2.5, false, false],
    ['inconclusive', 2.2, false, true],
    ['inconclusive', 2, true, true],
    ['does-not-conform', 1.5, true, true],
  ])('a pad %s at %f mm against 2 mm by a 0.5 mm gauge', async (conformity, value, fails, stops) => {
    const front = await wearOf(`CONFORMITY-PAD-${value}`, [
      { kind: 'pad-thickness', ...left, pad: 'inner', value, unit: 'mm', gauge: 'pad-gauge' },
    ]);
    const pad = front.pads.find(({ latest }: { latest: unknown }) => latest !== null);
    expect(pad.limits).toMatchObject([
      { limitMm: 2, failsAt: 'at-or-below', fails, conformity, governs: true },
    ]);
    expect(front.findings.some(({ severity }: { severity: string }) => severity === 'stop')).toBe(stops);
  });
});
