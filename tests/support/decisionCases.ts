import type { OpenPoints } from '../../src/core/vocabulary/openPoints.js';
import type { Advice, Finding, Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, mm, padReading, rotorReading, vehicleBody, type Body } from './bodies.js';
import { read, recordVehicle, recordVisit } from './recording.js';
import type { Service } from './service.js';

/** Cases of a workshop's decisions: an axle, its visits, and the service's answer. */

export const ROTOR = {
  new: mm(28),
  discard: mm(26),
  machineTo: mm(26.4),
  runoutLimit: mm(0.05),
  variationLimit: mm(0.02),
};
export const FRONT = { brake: 'disc', pad: { new: mm(11), limit: mm(2) }, rotor: ROTOR };
export const OTHER_PADS = [
  padReading('left', 'outer', 6),
  padReading('right', 'inner', 6),
  padReading('right', 'outer', 6),
];
export const EVEN = fourPads([7, 7, 7, 7]);

export const points = (side: 'left' | 'right', values: readonly number[], more: Body = {}): Body[] =>
  values.map((value, index) => rotorReading(side, value, { point: index + 1, ...more }));
/** Both rotors at four points around the face. */
export const rotors = (thickness: number, more: Body = {}): Body[] =>
  (['left', 'right'] as const).flatMap((side) =>
    points(side, [thickness, thickness, thickness, thickness], more),
  );
export const runout = (value: number, more: Body = {}): Body => ({
  kind: 'rotor-runout',
  axle: 'front',
  side: 'left',
  value,
  unit: 'mm',
  gauge: 'dial-indicator',
  ...more,
});
export const done = (kind: string, more: Body = {}) => ({ work: [{ kind, axle: 'front', ...more }] });
export const found = (part: string, state: string) => ({
  conditions: [{ part, axle: 'front', side: 'left', state }],
});
export const TORQUED = { torques: [{ fastener: 'bolt', axle: 'front', value: 100, unit: 'Nm' }] };
export const FINE = { roadTest: { pulls: 'none', pulsation: false, noise: false } };

export interface CaseAnswer {
  advice: Advice;
  findings: Finding[];
  rotors: Wear['axles'][number]['rotors'];
  pads: Wear['axles'][number]['pads'];
  overdue: boolean;
  openPoints: OpenPoints;
  visitIds: string[];
  vehicleId: string;
}

/** The answer about the first axle of a vehicle after its visits. */
export async function answerAfter(
  service: Service,
  visits: readonly Body[],
  front: Body = FRONT,
  vehicle: Body = {},
): Promise<CaseAnswer> {
  const { id } = await recordVehicle(service, vehicleBody({ axles: { front }, ...vehicle }));
  const visitIds: string[] = [];
  for (const visit of visits) visitIds.push((await recordVisit(service, id, visit)).id);
  return answerOn(service, id, visitIds);
}

export async function answerOn(service: Service, vehicleId: string, visitIds: string[]): Promise<CaseAnswer> {
  const wear = await read<Wear>(service, `/v1/vehicles/${vehicleId}/wear`);
  const openPoints = visitIds.length
    ? await read<OpenPoints>(service, `/v1/visits/${visitIds.at(-1)}/open-points`)
    : { visitId: '', complete: true, items: [] };
  const [axle] = wear.axles;
  const { findings, pads } = axle!;
  return {
    advice: axle!.advice,
    findings,
    rotors: axle!.rotors,
    pads,
    overdue: axle!.replacement.overdue,
    openPoints,
    visitIds,
    vehicleId,
  };
}

export const codesOf = ({ findings }: CaseAnswer): string[] => findings.map(({ code }) => code);
export const stopsOf = ({ findings }: CaseAnswer): string[] =>
  findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);
export const openOf = ({ openPoints }: CaseAnswer): string[] =>
  openPoints.items.map(({ code, finding }) => finding ?? code);
