import ical, { escape, ICalCalendarMethod, ICalEventTransparency, type ICalEventData } from 'ical-generator';
import { DECIDES_NOTHING } from '../core/assessment/cautions.js';
import { dueLimit, dueNames, dueWhen, dueWork } from '../core/assessment/dueWords.js';
import { toDay } from '../core/calendar.js';
import { capital, chanceInWords, dateInWords, positionInWords } from '../core/words.js';
import type { DueAxle } from '../store/contract/reports.js';

/** The due-soon report as an iCalendar object (RFC 5545, with those properties of RFC 7986 that programs read). */

/** How often subscribed calendar programs may refresh. */
const REFRESH_S = 6 * 3600;

export interface CalendarFrame {
  /** The calendar's name in calendar programs. */
  name: string;
  today: string;
  horizon: string;
  /** When the calendar is generated. */
  now: Date;
}

/** An all-day event for every axle, on its early date, or today if that is past. */
export function dueSoonCalendar(items: readonly DueAxle[], frame: CalendarFrame): string {
  const calendar = ical({
    // An unregistered owner, in the syntax of ISO 9070.
    prodId: '//brake-wear//due-soon//EN',
    method: ICalCalendarMethod.PUBLISH,
    // The library escapes every text but this one.
    name: escape(frame.name, false),
    ttl: REFRESH_S,
  });
  const head = calendar.toString().slice(0, -END.length);
  const events = items.map((item) => fold(calendar.createEvent(eventOf(item, frame)).toString()));
  // RFC 5545 section 3.1 requires a line break after every line; the library omits the last one.
  return `${head}${events.join('')}${END}\r\n`;
}

const END = 'END:VCALENDAR';
const MAX_OCTETS = 75;

/**
 * Folds lines by RFC 5545 section 3.1: at most 75 octets, no character cut in two. The library's own folding would
 * block the service for seconds over a thousand events, so its events are generated unfolded.
 */
function fold(lines: string): string {
  return lines.replace(/[^\r\n]+/g, (line) => {
    const bytes = Buffer.from(line);
    const pieces: string[] = [];
    for (let from = 0, to; from < bytes.length; from = to) {
      // The leading space of a continuation line counts too.
      to = Math.min(bytes.length, from + MAX_OCTETS - Number(from > 0));
      while (isWithinCharacter(bytes[to])) to -= 1;
      pieces.push(bytes.toString('utf8', from, to));
    }
    return pieces.join('\r\n ');
  });
}

/** In UTF-8, every byte of a character except the first is marked. */
const isWithinCharacter = (byte: number | undefined): boolean => byte !== undefined && (byte & 0xc0) === 0x80;

function eventOf(item: DueAxle, { today, horizon, now }: CalendarFrame): ICalEventData {
  const planned = item.earlyDate ?? horizon;
  const isPast = planned < today;
  return {
    id: `${item.vehicleId}-${item.axle}`,
    sequence: sequenceOf(item.changedAt, isPast ? today : null),
    stamp: now,
    start: `${isPast ? today : planned}T00:00:00Z`,
    allDay: true,
    transparency: ICalEventTransparency.TRANSPARENT,
    summary: `${vehicleInWords(item)}: ${dueWork(item)}${item.overdue ? ' now' : ''}`,
    description: description(item, { today, horizon }),
  };
}

/**
 * Increases with every change of the outlook, and with every day on which a past date moves to today: seconds from 2020
 * to the change, plus a day for each day since.
 */
function sequenceOf(changedAt: string, movedTo: string | null): number {
  const seconds = Math.floor((Date.parse(changedAt) - Date.parse('2020-01-01T00:00:00Z')) / 1000);
  return seconds + (movedTo === null ? 0 : Math.max(0, toDay(movedTo) - toDay(changedAt.slice(0, 10))));
}

function vehicleInWords({ registration, externalId, vehicleId }: DueAxle): string {
  if (registration === null) return externalId ?? vehicleId;
  return externalId === null ? registration : `${registration} (${externalId})`;
}

function description(item: DueAxle, { today, horizon }: Pick<CalendarFrame, 'today' | 'horizon'>): string {
  const { fleet, model, lastReadingDate } = item;
  return [
    `${capital(dueWork(item))} ${dueWhen(item, today)}.`,
    item.overdue
      ? 'Overdue: a reading fails its limit, or the limit has more likely than not been reached.'
      : `The first of the ${dueNames(item)} may reach its limit from the early date on.`,
    `Early date (1 chance in 10 by then): ${sayDate(item.earlyDate)}`,
    `Median date (1 in 2): ${sayDate(item.medianDate)}`,
    `Late date (9 in 10): ${sayDate(item.lateDate)}`,
    `Chance by ${dateInWords(horizon)}: ${chanceInWords(item.chance)}`,
    ...(item.part === 'pads'
      ? [`Likely the first: ${item.governingPad ? positionInWords(item.governingPad) : 'not known'}`]
      : []),
    `Limit: ${item.limitMm === null ? 'not known' : dueLimit(item)}`,
    `Last reading: ${lastReadingDate ? dateInWords(lastReadingDate) : 'none'}`,
    `Fleet: ${fleet ?? 'none'}; model: ${model ?? 'none'}`,
    '',
    'A date is a forecast from few and coarse readings; a driver, a route or a seized slide can change it within days. Look at the brakes.',
    DECIDES_NOTHING.message,
  ].join('\n');
}

const sayDate = (date: string | null): string =>
  date ? dateInWords(date) : 'not known, or more than 30 years ahead';
