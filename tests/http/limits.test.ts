import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RULE_SETS } from '../../src/core/assessment/ruleSets.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { ROLES } from '../../src/core/vocabulary/terms.js';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory, recordVehicle } from '../support/recording.js';
import { FLEET, startService, type Service } from '../support/service.js';

interface LimitList {
  items: { id: string; chosen: boolean; rules: Record<string, unknown>[] }[];
  nextCursor: null;
  vehicle: {
    vehicleId: string;
    axles: {
      axle: string;
      ruleSets: {
        ruleSet: string;
        chosen: boolean;
        applies: string;
        rules: { ruleId: string; applies: string; unknown: string[] }[];
        reasons: { code: string }[];
      }[];
    }[];
  } | null;
  notes: { code: string; message: string }[];
}

const lorry = (front: Body): Body =>
  vehicleBody({ grossMass: { value: 26_455, unit: 'lb' }, fleet: FLEET, axles: { front } });

describe('GET /v1/limits', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.close());

  it('GET /v1/limits lists every rule set with each figure and its source, none of them chosen', async () => {
    const list = await read<LimitList>(service, '/v1/limits');
    expect(list.items.map(({ id }) => id)).toEqual(RULE_SETS.map(({ id }) => id));
    expect(list.items.every(({ chosen }) => !chosen)).toBe(true);
    expect(list.vehicle).toBeNull();
    expect(list.items[0]!.rules).toContainEqual({
      id: '49-cfr-393-47-d-1-hydraulic',
      parts: ['pad', 'shoe'],
      actuations: ['hydraulic', 'electric'],
      linings: null,
      steered: true,
      clause:
        'steered axle of a truck, tractor or bus, hydraulic disc or drum brake, or electric brake: more than this',
      decidedBy: ['figure'],
      printed: '1.6 mm (1/16 in) or less',
      limitMm: 1.6,
      failsAt: 'at-or-below',
      result: null,
      source: {
        title: '49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors',
        section: '(d)(1)',
        edition: '70 FR 48008 of 15 August 2005, which wrote paragraph (d)',
        read: '2026-11',
        link: 'https://www.ecfr.gov/current/title-49/section-393.47',
      },
    });
  });

  it('GET /v1/limits says that local law and licensed practice decide, and never that a rotor’s figure fails a vehicle', async () => {
    const { notes } = await read<LimitList>(service, '/v1/limits');
    const messageOf = (code: string) => notes.find((note) => note.code === code)!.message;
    expect(messageOf('local-law-and-licence')).toContain('local law and licensed practice');
    expect(messageOf('rotor-figures')).toContain('not by itself an inspection failure');
  });

  it('every role may read the limits', async () => {
    for (const role of ROLES) expect((await service.as(role, 'get', '/v1/limits')).status).toBe(200);
  });

  it('GET /v1/limits says which rows fit a vehicle, and which facts about it are unknown', async () => {
    const { id } = await recordVehicle(service, lorry({ brake: 'disc', actuation: 'air', lining: 'bonded' }));
    const { vehicle } = await read<LimitList>(service, `/v1/limits?vehicleId=${id}`);
    expect(vehicle!.vehicleId).toBe(id);
    const [front] = vehicle!.axles;
    const under = (ruleSet: string) => front!.ruleSets.find((each) => each.ruleSet === ruleSet)!;
    expect(under('49-cfr-393-47')).toEqual({
      ruleSet: '49-cfr-393-47',
      chosen: false,
      applies: 'applies',
      rules: [
        { ruleId: '49-cfr-393-47-d-1-air-disc', applies: 'could-apply', unknown: ['steered'] },
        { ruleId: '49-cfr-393-47-d-2-air-disc', applies: 'could-apply', unknown: ['steered'] },
      ],
      reasons: [],
    });
    expect(under('quebec-c-24-2-r-32').rules).toEqual([
      { ruleId: 'quebec-c-24-2-r-32-31-2-bonded-air', applies: 'applies', unknown: [] },
      { ruleId: 'quebec-c-24-2-r-32-31-3', applies: 'applies', unknown: [] },
    ]);
  });

  it('GET /v1/limits says why a rule set does not cover a light vehicle', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const { vehicle } = await read<LimitList>(service, `/v1/limits?vehicleId=${id}`);
    const sets = vehicle!.axles[0]!.ruleSets;
    expect(sets.map(({ applies }) => applies)).toEqual([
      'does-not-apply',
      'does-not-apply',
      'does-not-apply',
      'applies',
      'applies',
      'applies',
    ]);
    expect(sets[0]).toMatchObject({ rules: [], reasons: [{ field: 'limits', code: 'below-mass' }] });
  });

  it('GET /v1/limits answers 404 for another fleet’s vehicle, and 400 for an unknown parameter', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ fleet: 'south-depot' }));
    const answers = [
      await service.as('fleet-manager', 'get', `/v1/limits?vehicleId=${id}`),
      await service.as('owner', 'get', '/v1/limits?vehicleId=nobody'),
      await service.as('owner', 'get', '/v1/limits?vehicle=1'),
      await service.as('owner', 'get', '/v1/limits?vehicleId='),
    ];
    expect(answers.map(({ status }) => status)).toEqual([404, 404, 400, 400]);
  });
});

describe('a policy that names a rule set', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
    const policy = { ruleSets: ['49-cfr-393-47'] };
    await service.as('owner', 'put', '/v1/policy').set('If-Match', '*').send(policy).expect(200);
  });
  afterAll(() => service.close());

  it('the list shows the rule set as chosen, and wear answers have its limit with its source', async () => {
    const { items } = await read<LimitList>(service, '/v1/limits');
    expect(items.filter(({ chosen }) => chosen).map(({ id }) => id)).toEqual(['49-cfr-393-47']);

    const axle = { brake: 'disc', actuation: 'hydraulic', pad: { limit: { value: 1, unit: 'mm' } } };
    const { id } = await recordHistory(service, lorry(axle), [
      visitBody('2026-03-02', 61_240, fourPads([1.6, 3, 3, 3])),
    ]);
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    const [pad] = wear.axles[0]!.pads;
    expect(pad!.limits[0]).toEqual({
      source: 'law',
      rule: '49 CFR 393.47 (d)(1): steered axle of a truck, tractor or bus, hydraulic disc or drum brake, or electric brake: more than this',
      ruleSet: '49-cfr-393-47',
      ruleId: '49-cfr-393-47-d-1-hydraulic',
      citation: '49 CFR 393.47(d)(1)',
      link: 'https://www.ecfr.gov/current/title-49/section-393.47',
      limitMm: 1.6,
      failsAt: 'at-or-below',
      fails: true,
      conformity: 'inconclusive',
      chanceOfConformity: 0.5,
      chanceWithPlacement: 0.5,
      governs: true,
    });
    expect(pad!.reasons).toContainEqual({
      field: 'limits',
      code: 'strictest-that-could-apply',
      detail: expect.stringContaining('whether the axle is steered') as string,
    });
    expect(wear.axles[0]!.replacement).toMatchObject({ limitMm: 1.6, overdue: true });
  });
});
