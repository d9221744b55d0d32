import { outlookFor, wearAnswer } from '../core/assessment/outlook.js';
import { withConversions } from '../core/units.js';
import type { Import } from '../core/vocabulary/import.js';
import { EXAMPLE_VEHICLE, VehicleBody } from '../core/vocabulary/vehicle.js';
import { EXAMPLE_VISIT, VisitBody, type Visit } from '../core/vocabulary/visit.js';
import { DEFAULT_POLICY } from '../store/open.js';
import { experienceOf, STARTING } from '../store/experience.js';
import { toVehicle } from '../store/vehicles.js';

/** The answers shown in the OpenAPI document: made by the same code that makes the real ones. */

const vehicleId = '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001';
const visitId = '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002';
const createdAt = '2026-03-02T09:15:00.000Z';
const body = VehicleBody.parse(EXAMPLE_VEHICLE);
const sent = VisitBody.parse(EXAMPLE_VISIT);

export const exampleVehicle = toVehicle({ id: vehicleId, version: 1, body, createdAt, updatedAt: createdAt });

const numbered = (items: readonly object[] | null | undefined, letter: string) =>
  (items ?? []).map((item, index) => ({ id: `${visitId}-${letter}${index + 1}`, ...item }));

export const exampleVisit = withConversions({
  id: visitId,
  version: 1,
  vehicleId,
  ...sent,
  readings: numbered(sent.readings, 'r'),
  notMeasured: sent.notMeasured ?? [],
  conditions: [],
  work: [],
  torques: numbered(sent.torques, 't'),
  createdAt,
  updatedAt: createdAt,
}) as Visit;

const outlook = outlookFor(
  { vehicle: body, visits: [{ ...exampleVisit, arrival: 1 }] },
  experienceOf(body, STARTING),
  DEFAULT_POLICY,
);

export const exampleWear = wearAnswer(vehicleId, outlook, {
  today: '2026-03-02',
  until: null,
  policy: DEFAULT_POLICY,
});

export const exampleRecordedVisit = {
  ...exampleVisit,
  findings: exampleWear.axles.flatMap((axle) => axle.findings),
  cautions: exampleWear.cautions,
  outlook: Object.fromEntries(exampleWear.axles.map((axle) => [axle.axle, axle])),
};

export const EXAMPLE_SPREADSHEET = [
  'vehicle,date,odometer,odometerUnit,workOrder,entry,axle,side,pad,value,unit,gauge',
  'FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,inner,6.5,mm,pad-gauge',
  'FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,outer,7,mm,pad-gauge',
  '',
].join('\r\n');

export const exampleImport: Import = {
  id: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003',
  version: 5,
  kind: 'visits',
  dryRun: false,
  state: 'done',
  detail: null,
  by: 'front-desk-1',
  rows: 2,
  vehicles: 1,
  vehiclesChecked: 1,
  vehiclesForecast: 1,
  vehiclesWritten: 1,
  visitsAdded: 1,
  visitsExtended: 0,
  rowsAdded: 2,
  rowsSkipped: 0,
  errorsTotal: 0,
  errors: [],
  createdAt,
  finishedAt: createdAt,
};
