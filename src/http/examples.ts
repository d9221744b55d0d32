import { pastForecastOf } from '../core/accuracy/pastForecast.js';
import { scoreVehicle } from '../core/accuracy/scores.js';
import { atOnce } from '../core/accuracy/steps.js';
import { accuracyOf } from '../core/accuracy/summary.js';
import { outlookFor } from '../core/assessment/outlook.js';
import { wearAnswer } from '../core/assessment/wearAnswer.js';
import { experienceOf, STARTING } from '../core/assessment/whichExperience.js';
import { axleDue } from '../core/events/payloads.js';
import type { History } from '../core/history.js';
import { itemAt } from '../core/items.js';
import { round } from '../core/rounding.js';
import { withConversions } from '../core/units.js';
import type { Delivery, Endpoint, EndpointWithSecret } from '../core/vocabulary/events.js';
import type { Import } from '../core/vocabulary/import.js';
import { EXAMPLE_VEHICLE, VehicleBody } from '../core/vocabulary/vehicle.js';
import type { AuditEntry, VehicleVersion, VisitVersion } from '../core/vocabulary/records.js';
import { EXAMPLE_VISIT, VisitBody, type Visit } from '../core/vocabulary/visit.js';
import { DEFAULT_POLICY } from '../core/assessment/policy.js';
import type { DueAxle } from '../store/contract/reports.js';
import { toVehicle } from '../store/vehicles/answer.js';

/**
 * Example answers for the OpenAPI document, built by the same code as real answers. Those that need a forecast are
 * functions, called when the document is first requested: computing them at startup would take a third of its time.
 */

function computedOnce<Value extends object>(compute: () => Value): () => Value {
  let known: Value | null = null;
  return () => (known ??= compute());
}

const vehicleId = '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001';
const visitId = '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002';
const createdAt = '2026-03-02T09:15:00.000Z';
const body = VehicleBody.parse(EXAMPLE_VEHICLE);
const sent = VisitBody.parse(EXAMPLE_VISIT);

export const exampleVehicle = toVehicle({
  id: vehicleId,
  version: 1,
  body,
  mergedInto: null,
  erasedAt: null,
  createdAt,
  updatedAt: createdAt,
});

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
  voided: null,
  createdAt,
  updatedAt: createdAt,
}) as Visit;

/** The history from which the example answers are computed. */
export const exampleHistory: History = { vehicle: body, visits: [{ ...exampleVisit, arrival: 1 }] };

export const exampleOutlook = computedOnce(() =>
  outlookFor(exampleHistory, experienceOf(body, STARTING), DEFAULT_POLICY),
);

export const exampleWear = computedOnce(() =>
  wearAnswer(vehicleId, exampleOutlook(), { today: '2026-03-02', until: null }),
);

export const exampleRecordedVisit = computedOnce(() => {
  const { axles, cautions } = exampleWear();
  return {
    ...exampleVisit,
    findings: axles.flatMap((axle) => axle.findings),
    cautions,
    outlook: Object.fromEntries(axles.map((axle) => [axle.axle, axle])),
  };
});

export const exampleVisitVersion: VisitVersion = {
  version: 1,
  kind: 'recorded',
  at: createdAt,
  by: 'front-desk',
  reason: null,
  vehicleId,
  body: sent,
};

export const exampleVehicleVersion: VehicleVersion = {
  version: 1,
  kind: 'recorded',
  at: createdAt,
  by: 'front-desk',
  reason: null,
  effectiveFrom: null,
  mergedWith: null,
  body,
};

export const exampleAuditEntry: AuditEntry = {
  id: '1',
  at: createdAt,
  key: 'front-desk',
  method: 'POST',
  action: 'recorded',
  resource: 'visit',
  resourceId: visitId,
  detail: null,
};

/** A van like the example's, whose front pads lose this much in half a year and are worn out at the third visit. */
const wornOut = (lossMm: number) => {
  const visits = ['2023-11-04', '2024-05-04', '2024-11-04'].map((date, index) => ({
    ...exampleVisit,
    id: `${visitId}-${index}`,
    arrival: index,
    date,
    odometer: { value: 20_000 * (index + 1), unit: 'km' as const, km: 20_000 * (index + 1) },
    readings: exampleVisit.readings
      .filter(({ kind }) => kind === 'pad-thickness')
      .map((reading) => {
        const value = round(11 - (index + 1) * lossMm, 1);
        return { ...reading, value, unit: 'mm' as const, mm: value };
      }),
  }));
  return atOnce(scoreVehicle({ vehicle: body, visits }, () => experienceOf(body, STARTING)));
};
const { externalId = null, registration = null, fleet = null, model = null } = body;

export const exampleAccuracy = computedOnce(() => {
  const worn = [2.8, 3, 3.2, 3.4, 3.6].map(wornOut);
  const told = itemAt(worn, 0).dates.map((score) => pastForecastOf(score)!);
  return {
    ...atOnce(accuracyOf(worn.map((scores) => ({ model, scores })))),
    vehicles: worn.length,
    pendingVehicles: 0,
    reasons: [],
    total: worn.flatMap(({ dates }) => dates).length,
    items: [{ vehicleId, externalId, registration, fleet, model, ...itemAt(told, -1) }],
    nextCursor: 'WyJleGFtcGxlIl0',
  };
});

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

export const exampleEndpoint: Endpoint = {
  id: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004',
  version: 1,
  url: 'https://desk.example.com/hooks/brakes',
  eventTypes: ['axle.due', 'limit.passed'],
  fleets: ['north-depot'],
  enabled: true,
  disabledBecause: null,
  previousSecretUntil: null,
  createdAt,
  updatedAt: createdAt,
};

/** The example secret from the Standard Webhooks specification; it signs nothing here. */
export const exampleEndpointWithSecret: EndpointWithSecret = {
  ...exampleEndpoint,
  secret: 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
};

export const exampleDue: DueAxle = {
  vehicleId,
  ...{ externalId, registration, fleet, model },
  axle: 'front',
  overdue: false,
  chance: 0.31,
  earlyDate: '2026-04-11',
  medianDate: '2026-05-23',
  lateDate: '2026-07-19',
  governingPad: { side: 'left', pad: 'inner' },
  linings: 'pads',
  limitMm: 3,
  limitSource: 'wear-indicator',
  lastReadingDate: '2026-03-02',
  part: 'pads',
  changedAt: createdAt,
};

export const exampleEvent = axleDue({ ...exampleDue, horizon: '2026-05-01' }, createdAt);

export const exampleDelivery: Delivery = {
  id: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005',
  version: 2,
  endpointId: exampleEndpoint.id,
  webhookId: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de006',
  type: 'axle.due',
  status: 'pending',
  attempts: [{ at: '2026-03-02T09:15:00.412Z', status: 503, detail: 'try later' }],
  nextAttemptAt: '2026-03-02T09:15:05.602Z',
  deliveredAt: null,
  createdAt,
  event: exampleEvent,
};
