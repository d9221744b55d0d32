import { connect, dataOf, type Schemas } from 'brake-wear-client';

/** The service's main job, done with the client alone. */

type Axle = Schemas['PadThicknessBody']['axle'];

const FRONT: Axle = 'front';

/** Readings of the four pads of the front axle, mm: left inner, left outer, right inner, right outer. */
function padReadings(values: readonly [number, number, number, number]): Schemas['ReadingBody'][] {
  const places = [
    { side: 'left', pad: 'inner' },
    { side: 'left', pad: 'outer' },
    { side: 'right', pad: 'inner' },
    { side: 'right', pad: 'outer' },
  ] as const;
  return places.map((place, index) => ({
    kind: 'pad-thickness',
    axle: FRONT,
    ...place,
    value: values[index] ?? 0,
    unit: 'mm',
    gauge: 'depth-gauge',
  }));
}

const vehicle: Schemas['VehicleBody'] = {
  externalId: 'CLIENT-1',
  model: 'parcel-van-3t5',
  fleet: 'north-depot',
  powertrain: 'combustion',
  inService: { date: '2023-05-04', odometer: { value: 12, unit: 'km' } },
  axles: {
    front: {
      brake: 'disc',
      pad: { new: { value: 11, unit: 'mm' }, limit: { value: 2, unit: 'mm' } },
      rotor: { new: { value: 28, unit: 'mm' }, discard: { value: 26, unit: 'mm' } },
    },
  },
};

/** A finding in one line, allowing for every missing member. */
const sentence = ({ severity, axle, side, pad, message }: Schemas['Finding']): string =>
  [severity, axle, side, pad, message].filter((word) => word !== null).join(' ');

/** When to fit new pads, from the members that may be null. */
function dueDate({ replacement }: Schemas['AxleWear']): string {
  if (replacement.date === null) return replacement.reasons.map(({ code }) => code).join(', ');
  return replacement.date.median ?? 'beyond thirty years';
}

export interface Shop {
  baseUrl: string;
  frontDesk: string;
  fleetManager: string;
}

export async function mainJob({ baseUrl, frontDesk, fleetManager }: Shop) {
  const desk = connect({ baseUrl, key: frontDesk });
  const manager = connect({ baseUrl, key: fleetManager });

  const { id: vehicleId } = dataOf(await desk.POST('/v1/vehicles', { body: vehicle }));

  const visits: Schemas['VisitBody'][] = [
    {
      date: '2025-03-03',
      odometer: { value: 39_120, unit: 'km' },
      workOrder: 'WO-1',
      readings: padReadings([7, 7.4, 7.1, 7.3]),
    },
    {
      date: '2026-03-02',
      odometer: { value: 61_240, unit: 'km' },
      workOrder: 'WO-2',
      readings: [
        ...padReadings([3.1, 5, 4.6, 4.9]),
        {
          kind: 'rotor-thickness',
          axle: FRONT,
          side: 'left',
          point: 1,
          value: 1.081,
          unit: 'in',
          gauge: 'micrometer',
        },
      ],
    },
  ];
  const recorded: Schemas['RecordedVisit'][] = [];
  for (const body of visits) {
    const path = { vehicleId };
    const header = { 'Idempotency-Key': `client-${body.workOrder ?? body.date}` };
    recorded.push(
      dataOf(await desk.POST('/v1/vehicles/{vehicleId}/visits', { params: { path, header }, body })),
    );
  }
  const [, latest] = recorded;
  if (latest === undefined) throw new Error('the visits were not recorded');

  const wear = dataOf(
    await desk.GET('/v1/vehicles/{vehicleId}/wear', {
      params: { path: { vehicleId }, query: { until: '2026-09-01' } },
    }),
  );
  const [front] = wear.axles;
  if (front === undefined) throw new Error('the front axle is missing');

  const dueSoon = dataOf(
    await manager.GET('/v1/reports/due-soon', {
      params: { query: { withinDays: 365, chance: 0.1, axle: FRONT, format: 'json', limit: 10 } },
    }),
  );

  const plan = dataOf(
    await desk.GET('/v1/vehicles/{vehicleId}/replacement-plan', {
      params: {
        path: { vehicleId },
        query: { dates: ['2026-06-01', '2026-12-01'], costTooLate: 500, costPerMmWasted: 12 },
      },
    }),
  );
  const demand = dataOf(await manager.GET('/v1/reports/parts-demand', { params: { query: { months: 12 } } }));

  const visitPath = { path: { visitId: latest.id } };
  const openPoints = dataOf(await desk.GET('/v1/visits/{visitId}/open-points', { params: visitPath }));

  const read = await desk.GET('/v1/visits/{visitId}', { params: visitPath });
  const etag = read.response.headers.get('ETag') ?? '';
  const corrected = dataOf(
    await desk.POST('/v1/visits/{visitId}/corrections', {
      params: { ...visitPath, header: { 'If-Match': etag } },
      body: { reason: 'two digits swapped', changes: { odometer: { value: 61_420, unit: 'km' } } },
    }),
  );

  const limits = dataOf(await desk.GET('/v1/limits', { params: { query: { vehicleId } } }));

  const { data: none, error: refusal } = await desk.POST('/v1/vehicles/{vehicleId}/visits', {
    params: { path: { vehicleId } },
    body: { date: '2026-03-03', readings: padReadings([80, 5, 5, 5]) },
  });

  return {
    vehicleId,
    findings: latest.findings.map(sentence),
    /** mm per 1000 km, by side and pad. */
    rates: front.pads.map(({ side, pad, ratePer1000KmMm }) => ({
      side,
      pad,
      rate: ratePer1000KmMm?.median ?? null,
    })),
    due: dueDate(front),
    chanceUntilSeptember: front.replacement.untilNextVisit.chanceLimitReached,
    rotors: front.rotors.map(({ side, decision, marginMm }) => ({ side, decision, marginMm })),
    dueSoon: dueSoon.items.map(({ vehicleId: due, axle, overdue, earlyDate }) => ({
      due,
      axle,
      overdue,
      earlyDate,
    })),
    plan: plan.axles.map(({ item, visits: coming, recommended }) => ({
      item,
      wastedMm: coming.map(({ date, wastedMm }) => ({ date, mm: wastedMm.expected })),
      recommended,
    })),
    padSetsInAYear: demand.totals
      .filter(({ item }) => item === 'pad-set')
      .reduce((sum, { expected }) => sum + expected, 0),
    openPoints: openPoints.items.map(({ code }) => code),
    correctedKm: corrected.odometer?.km ?? null,
    correctedReadings: corrected.readings.map((reading) =>
      reading.kind === 'pad-thickness' ? `${reading.side} ${reading.pad} ${reading.mm}` : reading.kind,
    ),
    ruleSets: limits.items.map(({ id }) => id),
    rulesOnFront: limits.vehicle?.axles.map(({ axle, ruleSets }) => ({ axle, sets: ruleSets.length })) ?? [],
    refused:
      none === undefined && refusal !== undefined ? { code: refusal.code, errors: refusal.errors } : null,
  };
}
