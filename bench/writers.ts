import type { Chance } from '../seed/random.js';
import { EXAMPLE_VEHICLE } from '../src/core/vocabulary/vehicle.js';
import { ask, type Answer } from './serverProcess.js';

/** Callers that write without a pause until answers stop, and record what they sent and received. */

export type DeedKind = 'vehicle' | 'visit' | 'entry' | 'correction' | 'change' | 'import';

/** One write, as it was sent. */
export interface Deed {
  kind: DeedKind;
  /** A text that occurs nowhere else in the database, which identifies the write's effect. */
  mark: string;
  method: 'POST' | 'PATCH';
  path: string;
  headers: Record<string, string>;
  body: string;
  idempotencyKey: string | null;
  /** The vehicles it concerns, if they are known. */
  vehicleIds: string[];
  /** Null if no answer arrived. */
  answer: Answer | null;
}

/** A vehicle as its writer knows it. Date and odometer reading only increase, whatever the result of a write. */
interface KnownVehicle {
  id: string;
  name: string;
  version: number;
  day: number;
  km: number;
  padMm: number;
  visits: { id: string; version: number; hasMorningOnly: boolean }[];
}

/** All within one half-year, so that the service has no past experience to fit. */
const FIRST_DAY = Date.UTC(2025, 0, 1);
const MAX_DAYS = 150;
const VISITS_A_VEHICLE = 12;
const DAY_MS = 86_400_000;

const MERGE_PATCH = 'application/merge-patch+json';

/** One caller with its own connection; no one else writes to its vehicles. */
export class Writer {
  readonly deeds: Deed[] = [];
  #vehicles: KnownVehicle[] = [];
  #made = 0;

  constructor(
    readonly name: string,
    readonly chance: Chance,
  ) {}

  /** Writes until an answer is missing, or it is told to stop. */
  async run(address: string, key: string, isOver: () => boolean): Promise<void> {
    while (!isOver()) {
      const { deed, note } = this.#next();
      this.deeds.push(deed);
      try {
        deed.answer = await send(address, key, deed);
      } catch {
        // The result of this write is unknown, so it leaves these vehicles alone.
        this.#vehicles = this.#vehicles.filter(({ id }) => !deed.vehicleIds.includes(id));
        return;
      }
      if (deed.answer.status < 300) note(deed.answer);
    }
  }

  #next(): { deed: Deed; note: (answer: Answer) => void } {
    const usable = this.#vehicles.filter(
      ({ day, visits }) => day < MAX_DAYS && visits.length < VISITS_A_VEHICLE,
    );
    if (usable.length === 0 || this.chance.happens(0.08)) return this.#newVehicle();
    const vehicle = this.chance.pick(usable);
    const visit = vehicle.visits.at(-1);
    const dice = this.chance.between(0, 1);
    if (visit && dice < 0.15) return this.#entry(vehicle, visit);
    if (visit && dice < 0.3) return this.#correction(vehicle, visit);
    if (dice < 0.4) return this.#change(vehicle);
    return dice < 0.45 ? this.#import(usable) : this.#visit(vehicle);
  }

  #newVehicle() {
    const mark = this.#mark();
    const body = { ...EXAMPLE_VEHICLE, externalId: mark, registration: null };
    const deed = this.#deed('vehicle', mark, '/v1/vehicles', body);
    const note = ({ text }: Answer): void => {
      const { id, version } = JSON.parse(text) as { id: string; version: number };
      this.#vehicles.push({ id, name: mark, version, day: 0, km: 40_000, padMm: 10.5, visits: [] });
    };
    return { deed, note };
  }

  #visit(vehicle: KnownVehicle) {
    const mark = this.#mark();
    const inMorning = this.chance.happens(0.5);
    const body = {
      ...this.#nextHead(vehicle),
      notes: mark,
      workOrder: this.chance.happens(0.6) ? mark : null,
      readings: readingsOf(vehicle.padMm),
      conditions: [{ part: 'hose', axle: 'front', side: 'left', state: 'ok' }],
      notMeasured: [{ axle: 'front', side: 'left', part: 'slide', why: 'no time' }],
      ...(inMorning ? {} : workDone),
    };
    const deed = this.#deed('visit', mark, `/v1/vehicles/${vehicle.id}/visits`, body, [vehicle.id]);
    const note = ({ text }: Answer): void => {
      const { id, version } = JSON.parse(text) as { id: string; version: number };
      vehicle.visits.push({ id, version, hasMorningOnly: inMorning });
    };
    return { deed, note };
  }

  #entry(vehicle: KnownVehicle, visit: KnownVehicle['visits'][number]) {
    const mark = this.#mark();
    const conditions = [{ part: 'caliper', axle: 'front', side: 'right', state: 'ok', notes: mark }];
    const body = { conditions, ...(visit.hasMorningOnly ? workDone : {}) };
    const deed = this.#deed('entry', mark, `/v1/visits/${visit.id}/entries`, body, [vehicle.id]);
    const note = ({ text }: Answer): void => {
      Object.assign(visit, {
        version: (JSON.parse(text) as { version: number }).version,
        hasMorningOnly: false,
      });
    };
    return { deed, note };
  }

  #correction(vehicle: KnownVehicle, visit: KnownVehicle['visits'][number]) {
    const mark = this.#mark();
    const readings = readingsOf(vehicle.padMm + this.chance.whole(-2, 2) / 10);
    const body = { reason: mark, changes: { complaint: mark, readings } };
    const deed = this.#deed('correction', mark, `/v1/visits/${visit.id}/corrections`, body, [vehicle.id]);
    deed.headers['if-match'] = `"v${visit.version}"`;
    const note = ({ text }: Answer): void => {
      visit.version = (JSON.parse(text) as { version: number }).version;
    };
    return { deed, note };
  }

  #change(vehicle: KnownVehicle) {
    const mark = this.#mark();
    const path = `/v1/vehicles/${vehicle.id}`;
    const deed = this.#deed('change', mark, path, { description: mark }, [vehicle.id]);
    Object.assign(deed, { method: 'PATCH', idempotencyKey: null });
    deed.headers = { 'content-type': MERGE_PATCH, 'if-match': `"v${vehicle.version}"` };
    const note = ({ text }: Answer): void => {
      vehicle.version = (JSON.parse(text) as { version: number }).version;
    };
    return { deed, note };
  }

  #import(vehicles: KnownVehicle[]) {
    const mark = this.#mark();
    const rows = vehicles.slice(0, 3).flatMap((vehicle) => {
      const { date, odometer } = this.#nextHead(vehicle);
      return ['inner', 'outer'].map((pad) =>
        [
          vehicle.name,
          date,
          odometer.value,
          'km',
          mark,
          'pad-thickness',
          'front',
          'left',
          pad,
          vehicle.padMm,
          'mm',
        ].join(','),
      );
    });
    const header = 'vehicle,date,odometer,odometerUnit,notes,entry,axle,side,pad,value,unit';
    const ids = vehicles.slice(0, 3).map(({ id }) => id);
    const deed = this.#deed('import', mark, '/v1/imports/visits', null, ids);
    deed.headers['content-type'] = 'text/csv';
    deed.body = [header, ...rows].join('\r\n');
    return { deed, note: () => undefined };
  }

  #nextHead(vehicle: KnownVehicle) {
    vehicle.day += this.chance.whole(3, 12);
    vehicle.km += this.chance.whole(200, 900);
    vehicle.padMm = Math.round((vehicle.padMm - 0.1) * 100) / 100;
    const date = new Date(FIRST_DAY + vehicle.day * DAY_MS).toISOString().slice(0, 10);
    return { date, odometer: { value: vehicle.km, unit: 'km' } };
  }

  #mark(): string {
    this.#made += 1;
    return `${this.name}-${this.#made}`;
  }

  #deed(kind: DeedKind, mark: string, path: string, body: unknown, vehicleIds: string[] = []): Deed {
    const idempotencyKey = this.chance.happens(0.5) ? mark : null;
    return {
      kind,
      mark,
      method: 'POST',
      path,
      headers: {
        'content-type': 'application/json',
        ...(idempotencyKey === null ? {} : { 'idempotency-key': idempotencyKey }),
      },
      body: JSON.stringify(body),
      idempotencyKey,
      vehicleIds,
      answer: null,
    };
  }
}

export const send = (address: string, key: string, { method, path, headers, body }: Deed): Promise<Answer> =>
  ask(address, key, path, { method, headers, body });

const readingsOf = (padMm: number): object[] => [
  ...['left', 'right'].flatMap((side) =>
    ['inner', 'outer'].map((pad) => ({
      kind: 'pad-thickness',
      axle: 'front',
      side,
      pad,
      value: padMm,
      unit: 'mm',
      gauge: 'pad-gauge',
    })),
  ),
  ...['left', 'right'].map((side) => ({
    kind: 'rotor-thickness',
    axle: 'front',
    side,
    point: 1,
    value: 27.4,
    unit: 'mm',
    gauge: 'micrometer',
  })),
];

const workDone = {
  work: [{ kind: 'slides-serviced', axle: 'front' }],
  torques: [
    { fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', position: 1, value: 120, unit: 'Nm' },
  ],
};
