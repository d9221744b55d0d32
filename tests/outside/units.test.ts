import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toKg, toKm, toMm, toNm, withConversions } from '../../src/core/units.js';
import { startService, type Service } from '../support/service.js';

/**
 * Conversion factors. NIST SP 811 (2008), "Guide for the Use of the International System of Units (SI)", appendix
 * B.8 "Factors for units listed alphabetically" and B.9 "Factors for units listed by kind of quantity or field of
 * science": a factor in boldface is exact, all others are rounded to seven significant digits.
 * https://www.nist.gov/pml/special-publication-811
 */

/** As many significant digits as a rounded factor of SP 811 prints. */
const toSevenDigits = (value: number): string => value.toPrecision(7);

describe('length', () => {
  it('an inch is 25.4 mm exactly (yard and pound agreement of 1959; the row of SP 811 from memory)', () => {
    expect(toMm({ value: 1, unit: 'in' })).toBe(25.4);
  });

  // Not the U.S. survey inch of 25.400 050 8 mm, deprecated since 2023.
  it('an inch is never the survey inch, even over many inches', () => {
    expect(toMm({ value: 1_000_000, unit: 'in' })).toBe(25_400_000);
  });

  // 1/32 in = 25.4 mm / 32, from the exact inch.
  it.each([
    [1, 0.79375],
    [2, 1.5875],
    [3, 2.38125],
    [4, 3.175],
    [5, 3.96875],
    [6, 4.7625],
    [8, 6.35],
    [10, 7.9375],
    [12, 9.525],
    [16, 12.7],
  ])('%i/32 in is %f mm exactly', (thirtySeconds, mm) => {
    expect(toMm({ value: thirtySeconds, unit: 'in/32' })).toBe(mm);
  });

  // The thousandth of an inch that micrometers and dial indicators read, from the exact inch.
  it.each([
    [0.001, 0.0254],
    [0.0015, 0.0381],
    [0.002, 0.0508],
    [1.081, 27.4574],
  ])('%f in is %f mm exactly, without binary noise', (inches, mm) => {
    expect(toMm({ value: inches, unit: 'in' })).toBe(mm);
  });
});

describe('distance', () => {
  it('a mile is 1.609344 km exactly (5280 ft of 0.3048 m)', () => {
    expect(toKm({ value: 1, unit: 'mi' })).toBe(1.609344);
    expect(toKm({ value: 15_625, unit: 'mi' })).toBe(25_146);
  });

  it('38052 mi are 61238.757888 km exactly', () => {
    expect(toKm({ value: 38_052, unit: 'mi' })).toBe(61_238.757888);
  });
});

describe('torque', () => {
  it('a foot pound-force agrees with all seven digits that SP 811 prints, 1.355 818 E+00', () => {
    expect(toSevenDigits(toNm({ value: 1, unit: 'ft-lbf' }))).toBe('1.355818');
  });

  it('a foot pound-force is the exact product of 0.45359237 kg, 9.80665 m/s² and 0.3048 m', () => {
    expect(toNm({ value: 1, unit: 'ft-lbf' })).toBe(Number('1.3558179483314004'));
    // Integers times powers of ten keep every digit of the product: 45359237 × 980665 × 3048.
    const digits = 45_359_237n * 980_665n * 3_048n;
    expect(digits).toBe(135_581_794_833_140_040n);
    expect(toNm({ value: 1, unit: 'ft-lbf' })).toBe(Number(`${digits}e-17`));
  });

  // Wall charts of workshop torques print these whole numbers (common practice, no source).
  it.each([
    [25, 34],
    [75, 102],
  ])('%i ft-lbf are %i N·m to the nearest', (footPounds, newtonMetres) => {
    expect(Math.round(toNm({ value: footPounds, unit: 'ft-lbf' }))).toBe(newtonMetres);
  });
});

describe('mass', () => {
  it('a pound is 0.45359237 kg exactly (yard and pound agreement of 1959; SP 811 from memory)', () => {
    expect(toKg({ value: 1, unit: 'lb' })).toBe(0.45359237);
    expect(toKg({ value: 10_001, unit: 'lb' })).toBe(4536.37729237);
  });
});

describe('a quantity in SI units', () => {
  it('a quantity in SI units stays unchanged', () => {
    expect(toMm({ value: 6.5, unit: 'mm' })).toBe(6.5);
    expect(toKm({ value: 61_240, unit: 'km' })).toBe(61_240);
    expect(toNm({ value: 120, unit: 'Nm' })).toBe(120);
    expect(toKg({ value: 3500, unit: 'kg' })).toBe(3500);
  });
});

describe('a nested object with quantities', () => {
  it('the conversions are added inside a nested object, and nothing else changes', () => {
    const sent = {
      note: 'as read',
      odometer: { value: 38_052, unit: 'mi' },
      readings: [{ kind: 'rotor-runout', value: 0.002, unit: 'in' }],
      torque: { value: 25, unit: 'ft-lbf', tolerance: { value: 10, unit: 'Nm' } },
      missing: null,
    };
    const untouched = structuredClone(sent);
    expect(withConversions(sent)).toEqual({
      note: 'as read',
      odometer: { value: 38_052, unit: 'mi', km: 61_238.757888 },
      readings: [{ kind: 'rotor-runout', value: 0.002, unit: 'in', mm: 0.0508 }],
      torque: {
        value: 25,
        unit: 'ft-lbf',
        Nm: 33.89544870828501,
        tolerance: { value: 10, unit: 'Nm', Nm: 10 },
      },
      missing: null,
    });
    expect(sent).toEqual(untouched);
  });
});

describe('conversions over HTTP', () => {
  let service: Service;
  let vehicle: { id: string; grossMass: unknown; axles: { front: Record<string, unknown> } };

  beforeAll(async () => {
    service = await startService();
    const created = await service.as('technician', 'post', '/v1/vehicles').send({
      externalId: 'UNITS-1',
      grossMass: { value: 7716, unit: 'lb' },
      axles: {
        front: {
          brake: 'disc',
          pad: { new: { value: 14, unit: 'in/32' }, limit: { value: 2, unit: 'in/32' } },
          rotor: { discard: { value: 1.024, unit: 'in' } },
          torque: { 'wheel-nut': { value: 75, unit: 'ft-lbf' } },
        },
      },
    });
    expect(created.status).toBe(201);
    vehicle = created.body;
  });
  afterAll(() => service.close());

  it('a specification is returned as sent, with its conversion inside', () => {
    expect(vehicle.grossMass).toEqual({ value: 7716, unit: 'lb', kg: 3499.91872692 });
    expect(vehicle.axles.front).toMatchObject({
      pad: { new: { value: 14, unit: 'in/32', mm: 11.1125 }, limit: { value: 2, unit: 'in/32', mm: 1.5875 } },
      rotor: { discard: { value: 1.024, unit: 'in', mm: 26.0096 } },
      torque: { 'wheel-nut': { value: 75, unit: 'ft-lbf', Nm: Number('101.68634612485503') } },
    });
  });

  it('a visit is returned as read, with its conversions inside, and forecasts are in millimetres', async () => {
    const recorded = await service.as('technician', 'post', `/v1/vehicles/${vehicle.id}/visits`).send({
      date: '2026-03-02',
      odometer: { value: 38_052, unit: 'mi' },
      readings: [
        { kind: 'pad-thickness', axle: 'front', side: 'left', pad: 'inner', value: 8, unit: 'in/32' },
        { kind: 'rotor-thickness', axle: 'front', side: 'left', point: 1, value: 1.081, unit: 'in' },
        { kind: 'rotor-runout', axle: 'front', side: 'left', value: 0.0015, unit: 'in' },
      ],
      torques: [
        { fastener: 'wheel-nut', axle: 'front', side: 'left', position: 1, value: 88, unit: 'ft-lbf' },
      ],
    });
    expect(recorded.status).toBe(201);
    expect(recorded.body.odometer).toEqual({ value: 38_052, unit: 'mi', km: 61_238.757888 });
    expect(recorded.body.readings).toMatchObject([
      { kind: 'pad-thickness', value: 8, unit: 'in/32', mm: 6.35 },
      { kind: 'rotor-thickness', value: 1.081, unit: 'in', mm: 27.4574 },
      { kind: 'rotor-runout', value: 0.0015, unit: 'in', mm: 0.0381 },
    ]);
    expect(recorded.body.torques).toMatchObject([
      { value: 88, unit: 'ft-lbf', Nm: Number('119.3119794531632352') },
    ]);

    const wear = await service.as('front-desk', 'get', `/v1/vehicles/${vehicle.id}/wear`);
    expect(wear.status).toBe(200);
    expect(wear.body.asAt).toEqual({ date: '2026-03-02', odometerKm: 61_238.757888 });
    const [front] = wear.body.axles;
    const pad = front.pads.find(
      ({ side, pad }: { side: string; pad: string }) => side === 'left' && pad === 'inner',
    );
    expect(pad.latest).toEqual({ valueMm: 6.35, date: '2026-03-02' });
    expect(pad.limits).toMatchObject([{ limitMm: 1.5875 }]);
    expect(front.rotors[0]).toMatchObject({
      thinnestMm: 27.4574,
      discardMm: 26.0096,
      marginMm: 1.4478,
      runoutMm: 0.0381,
    });

    const read = await service.as('front-desk', 'get', `/v1/visits/${recorded.body.id}`);
    expect(read.body.odometer).toEqual(recorded.body.odometer);
    expect(read.body.readings).toEqual(recorded.body.readings);
  });
});
