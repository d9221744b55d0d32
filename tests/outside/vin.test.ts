import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasValidVinCheckDigit, vinCheckDigit } from '../../src/core/vin.js';
import { startService, type Service } from '../support/service.js';

/**
 * The check digit of a vehicle identification number. 49 CFR 565.15(c), "Content requirements", tables III to VI:
 * https://www.ecfr.gov/current/title-49/section-565.15
 */

/** Vectors for both the core and HTTP. */
const VALID: readonly (readonly [vin: string, source: string])[] = [
  ['1G4AH59H45G118341', '49 CFR 565.15(c), the worked example: total 411, 411/11 = 37 4/11'],
  ['1J9RP1A36A1644345', 'outline of the VIN requirements by the NHTSA: total 314, 314/11 = 28 6/11'],
  ['JH2RC3605MM101581', 'a commonly published example: total 280, remainder 5'],
  ['1M8GDM9AXKP042788', 'a commonly published example: total 351, remainder 10, written X'],
  ['1HGCM82633A004352', 'a commonly published example: total 311, remainder 3'],
  ['11111111111111111', 'a commonly published example: total 89, remainder 1'],
  ['1G4AH59HX5G118344', 'the worked example with another serial: total 417, remainder 10, written X'],
];
const WRONG_DIGIT: readonly (readonly [vin: string, due: string, why: string])[] = [
  ['1G4AH59H45G118331', '1', 'one digit of the worked example changed: total 408, remainder 1'],
  ['1G4AH59H55G118341', '4', 'the worked example with 5 in position 9'],
  ['1G4AH59HZ5G118341', '4', 'the worked example with Z in position 9, as markets without a check digit use'],
];
const ILLEGAL: readonly (readonly [vin: string, why: string])[] = [
  ['1G4AH59H45I118341', 'the letter I, 49 CFR 565.13(g)'],
  ['1G4AH59H45O118341', 'the letter O, 49 CFR 565.13(g)'],
  ['1G4AH59H45Q118341', 'the letter Q, 49 CFR 565.13(g)'],
  ['1G4AH59H45G11834', '16 characters'],
  ['1G4AH59H45G1183411', '18 characters'],
  ['1g4ah59h45g118341', 'lower case'],
  ['1G4AH59H45G 18341', 'a space'],
  ['', 'nothing'],
];

describe('the check digit of a VIN', () => {
  it.each(VALID)('%s is right (%s)', (vin) => {
    expect(hasValidVinCheckDigit(vin)).toBe(true);
    expect(vinCheckDigit(vin)).toBe(vin[8]);
  });

  it('the computation ignores position 9', () => {
    for (const standing of '0123456789X') {
      expect(vinCheckDigit(`1G4AH59H${standing}5G118341`)).toBe('4');
    }
  });

  it.each(WRONG_DIGIT)('%s is wrong, it should be %s (%s)', (vin, due) => {
    expect(hasValidVinCheckDigit(vin)).toBe(false);
    expect(vinCheckDigit(vin)).toBe(due);
  });

  /** Table III: the value of every letter. */
  it.each(
    Object.entries({
      ...{ A: 1, B: 2, C: 3, D: 4, E: 5, F: 6, G: 7, H: 8 },
      ...{ J: 1, K: 2, L: 3, M: 4, N: 5, P: 7, R: 9 },
      ...{ S: 2, T: 3, U: 4, V: 5, W: 6, X: 7, Y: 8, Z: 9 },
    }),
  )('the value of %s is %i', (letter, value) => {
    // Position 17 has weight 2, and zeros add nothing.
    expect(vinCheckDigit(`0000000000000000${letter}`)).toBe(vinCheckDigit(`0000000000000000${value}`));
    expect(vinCheckDigit(`0000000000000000${letter}`)).toBe(String((2 * value) % 11).replace('10', 'X'));
  });

  /** Table IV: the weight of every position. */
  it.each([8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2].map((weight, index) => [index + 1, weight]))(
    'the weight of position %i is %i',
    (position, weight) => {
      const vin = '1'.padStart(position, '0').padEnd(17, '0');
      expect(vinCheckDigit(vin)).toBe(weight === 10 ? 'X' : String(weight));
    },
  );
});

describe('a VIN over HTTP', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.close());

  const create = (vin: string) =>
    service.as('technician', 'post', '/v1/vehicles').send({ vin, axles: { front: {} } });

  it.each(VALID)('a VIN such as %s is accepted without a warning', async (vin) => {
    const { status, body } = await create(vin);
    expect(status).toBe(201);
    expect(body).toMatchObject({ vin, warnings: [] });
  });

  // Not every market uses the check digit: 49 CFR 565 applies in one of them only.
  it.each(WRONG_DIGIT)('a VIN such as %s is accepted with a warning that names %s', async (vin, due) => {
    const { status, body } = await create(vin);
    expect(status).toBe(201);
    expect(body.vin).toBe(vin);
    expect(body.warnings).toMatchObject([{ code: 'vin-check-digit', pointer: '#/vin' }]);
    expect(body.warnings[0].detail).toContain(`would be ${due}`);
    const { body: read } = await service.as('front-desk', 'get', `/v1/vehicles/${body.id}`);
    expect(read.warnings).toEqual(body.warnings);
  });

  it.each(ILLEGAL)('a VIN such as "%s" is refused: %s', async (vin) => {
    const { status, type, body } = await create(vin);
    expect(status).toBe(422);
    expect(type).toBe('application/problem+json');
    expect(body.errors).toMatchObject([{ pointer: '#/vin' }]);
    const { body: found } = await service.as('front-desk', 'get', '/v1/vehicles?limit=200');
    expect(found.items.map((vehicle: { vin: string }) => vehicle.vin)).not.toContain(vin);
  });
});
