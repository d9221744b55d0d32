import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/core/assessment/cautions.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { WORK_KINDS, type WorkKind } from '../../src/core/vocabulary/terms.js';

const VEHICLE = VehicleBody.parse({ externalId: 'C-1', axles: { front: {} } });
const codesAfter = (...done: WorkKind[]): string[] =>
  cautionsFor(VEHICLE, { done, renewal: false }).map(({ code }) => code);

describe('cautions for the work done', () => {
  it.each(WORK_KINDS)(
    'bedding in is named after %s exactly if it fits or machines friction parts',
    (kind) => {
      const isFriction = /^(pads|shoes|rotor|drum)-/.test(kind);
      expect(codesAfter(kind).includes('bedding-in')).toBe(isFriction);
    },
  );

  it('pushing pistons back is named after pads or rotors are replaced, but not after shoes', () => {
    expect(codesAfter('pads-replaced')).toContain('pistons-back');
    expect(codesAfter('rotor-replaced')).toContain('pistons-back');
    expect(codesAfter('shoes-replaced')).not.toContain('pistons-back');
  });
});
