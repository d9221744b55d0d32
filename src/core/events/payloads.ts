import { inWords } from '../rounding.js';
import type { Axle } from '../vocabulary/terms.js';
import type { WebhookEvent } from '../vocabulary/events.js';
import type { News } from './news.js';

/** The bodies of webhooks: ids, words, dates and numbers; no plates, names or notes. */

const DECIDES =
  'it supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first.';
const FORECAST_CAUTION = `A forecast from few and coarse readings, which can change within days: ${DECIDES}`;
const READING_CAUTION = `A reading with its gauge’s error in it, and perhaps a mistake: ${DECIDES}`;

export interface NamedVehicle {
  vehicleId: string;
  externalId: string | null;
  fleet: string | null;
  model: string | null;
}

type DueData = Extract<WebhookEvent, { type: 'axle.due' }>['data'];
/** An axle that is due, as the report has it. */
export type DueFacts = Omit<DueData, 'message' | 'caution'>;

export function axleDue(due: DueFacts, timestamp: string): WebhookEvent {
  const { vehicleId, externalId, fleet, model, axle, overdue, chance, horizon, earlyDate, medianDate } = due;
  const { lateDate, governingPad, limitMm, limitSource, lastReadingDate } = due;
  return {
    type: 'axle.due',
    timestamp,
    data: {
      ...{ vehicleId, externalId, fleet, model, axle, overdue, chance, horizon },
      ...{ earlyDate, medianDate, lateDate, governingPad, limitMm, limitSource, lastReadingDate },
      message: dueInWords(due),
      caution: FORECAST_CAUTION,
    },
  };
}

function dueInWords(due: DueFacts): string {
  const { axle, overdue, chance, horizon, earlyDate, medianDate, lateDate, limitMm, limitSource } = due;
  const limit =
    limitMm === null
      ? 'its limit'
      : `its limit of ${inWords(limitMm)} mm (${limitSource ?? 'source unknown'})`;
  const dates = `early ${sayDate(earlyDate)}, median ${sayDate(medianDate)}, late ${sayDate(lateDate)}`;
  const state = overdue
    ? `is overdue: a lining has reached ${limit}, by its reading or more likely than not`
    : `is due: a lining reaches ${limit} by ${horizon} with a chance of ${inWords(100 * chance, 1)} %`;
  return `${sayAxle(axle)} ${state}; ${dates}.`;
}

const sayAxle = (axle: Axle): string =>
  axle === 'front' || axle === 'rear' ? `The ${axle} axle` : `Axle ${axle.slice('axle-'.length)}`;
const sayDate = (date: string | null): string => date ?? 'beyond 30 years';

export function readingNews(vehicle: NamedVehicle, news: News, timestamp: string): WebhookEvent {
  const { axle, readingDate, finding } = news;
  const data = { ...vehicle, axle, readingDate, finding, caution: READING_CAUTION };
  return news.type === 'limit.passed'
    ? { type: news.type, timestamp, data: { ...data, tooCloseToTell: news.tooCloseToTell } }
    : { type: news.type, timestamp, data };
}

export function testEvent(endpointId: string, timestamp: string): WebhookEvent {
  const message = 'A test: nothing has happened. Answer it with any status from 200 to 299.';
  return { type: 'webhook.test', timestamp, data: { endpointId, message } };
}
