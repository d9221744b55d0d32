import { dueLimit, dueNames, dueWhen, dueWork } from '../assessment/dueWords.js';
import { capital, chanceInWords, dateInWords } from '../words.js';
import type { WebhookEvent } from '../vocabulary/events.js';
import type { News } from './news.js';

/** The bodies of webhooks: ids, words, dates and numbers; no plates, names or notes. */

const DECIDES =
  'It supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first.';
const FORECAST_CAUTION = `This is a forecast from few and coarse readings and can change within days. ${DECIDES}`;
const READING_CAUTION = `This is a reading. It includes the gauge’s error and may be a mistake. ${DECIDES}`;

export interface NamedVehicle {
  vehicleId: string;
  externalId: string | null;
  fleet: string | null;
  model: string | null;
}

type DueData = Extract<WebhookEvent, { type: 'axle.due' }>['data'];
/** A due axle, as in the report. */
export type DueFacts = Omit<DueData, 'message' | 'caution'>;

export function axleDue(due: DueFacts, timestamp: string): WebhookEvent {
  const { vehicleId, externalId, fleet, model, axle, overdue, chance, horizon, earlyDate, medianDate } = due;
  const { lateDate, governingPad, linings, limitMm, limitSource, lastReadingDate, part } = due;
  return {
    type: 'axle.due',
    timestamp,
    data: {
      ...{ vehicleId, externalId, fleet, model, axle, overdue, chance, horizon },
      ...{
        earlyDate,
        medianDate,
        lateDate,
        governingPad,
        linings,
        limitMm,
        limitSource,
        lastReadingDate,
        part,
      },
      message: dueInWords(due, timestamp.slice(0, 10)),
      caution: FORECAST_CAUTION,
    },
  };
}

function dueInWords(due: DueFacts, today: string): string {
  const { overdue, chance, horizon, earlyDate, medianDate, lateDate } = due;
  const order = `${capital(dueWork(due))} ${dueWhen(due, today)}.`;
  const names = dueNames(due);
  const state = overdue
    ? `Either a reading is beyond the limit of ${dueLimit(due)}, or one of the ${names} has probably reached it.`
    : `The chance that one of the ${names} reaches ${dueLimit(due)} by ${dateInWords(horizon)} is ${chanceInWords(chance)}.`;
  const dates = `Early date ${sayDate(earlyDate)}, median ${sayDate(medianDate)}, late ${sayDate(lateDate)}.`;
  return `${order} ${state} ${dates}`;
}

const sayDate = (date: string | null): string => (date ? dateInWords(date) : 'beyond 30 years');

export function readingNews(vehicle: NamedVehicle, news: News, timestamp: string): WebhookEvent {
  const { axle, readingDate, finding } = news;
  const data = { ...vehicle, axle, readingDate, finding, caution: READING_CAUTION };
  return news.type === 'limit.passed'
    ? { type: news.type, timestamp, data: { ...data, tooCloseToTell: news.tooCloseToTell } }
    : { type: news.type, timestamp, data };
}

export function testEvent(endpointId: string, timestamp: string): WebhookEvent {
  const message = 'This is a test event; nothing has happened. Answer it with any status from 200 to 299.';
  return { type: 'webhook.test', timestamp, data: { endpointId, message } };
}
