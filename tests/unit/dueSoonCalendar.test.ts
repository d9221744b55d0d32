import { describe, expect, it } from 'vitest';
import { dueSoonCalendar } from '../../src/render/calendar.js';
import type { DueAxle } from '../../src/store/contract/reports.js';
import { parseCalendar, valueOf } from '../support/calendars.js';
import { dueAxle } from '../support/due.js';

const FRAME = {
  name: 'Brakes due soon, north-depot',
  today: '2026-03-10',
  horizon: '2026-05-09',
  now: new Date('2026-03-10T12:34:56.789Z'),
};
const read = (items: DueAxle[], frame = FRAME) => parseCalendar(dueSoonCalendar(items, frame));
const eventOf = (changes: Partial<DueAxle> = {}, frame = FRAME) => read([dueAxle(changes)], frame).events[0]!;
const sequence = (changes: Partial<DueAxle>, today = FRAME.today): number =>
  Number(valueOf(eventOf(changes, { ...FRAME, today }), 'sequence'));

// RFC 5545 sections 3.4, 3.6, 3.7 and RFC 7986 section 5.
describe('the due-soon calendar', () => {
  it('the due-soon calendar has its producer, its name and its refresh interval', () => {
    const { calendar } = read([dueAxle()]);
    const properties = [
      'version',
      'prodid',
      'method',
      'name',
      'x-wr-calname',
      'refresh-interval',
      'x-published-ttl',
    ];
    expect(properties.map((name) => valueOf(calendar, name))).toEqual([
      '2.0',
      '-//brake-wear//due-soon//EN',
      'PUBLISH',
      FRAME.name,
      FRAME.name,
      'PT6H',
      'PT6H',
    ]);
    expect(calendar.getFirstProperty('refresh-interval')!.type).toBe('duration');
  });

  it('the due-soon calendar has no events if nothing is due', () => {
    expect(read([]).events).toEqual([]);
  });
});

describe('a calendar event', () => {
  it('a calendar event covers the whole early date, and marks nobody as busy', () => {
    const event = eventOf();
    const start = event.getFirstProperty('dtstart')!;
    expect([start.type, start.getFirstValue()!.toString()]).toEqual(['date', '2026-04-01']);
    // RFC 5545 section 3.6.1: a date without an end is one day.
    expect(event.hasProperty('dtend') || event.hasProperty('duration')).toBe(false);
    expect(valueOf(event, 'transp')).toBe('TRANSPARENT');
    expect(valueOf(event, 'dtstamp')).toBe('2026-03-10T12:34:56Z');
  });

  it('a calendar event is today if the early date is past, and on the horizon if there is no early date', () => {
    expect(valueOf(eventOf({ earlyDate: '2026-03-10' }), 'dtstart')).toBe('2026-03-10');
    expect(valueOf(eventOf({ earlyDate: '2025-11-30' }), 'dtstart')).toBe('2026-03-10');
    expect(valueOf(eventOf({ earlyDate: null }), 'dtstart')).toBe('2026-05-09');
  });

  it('the UID of a calendar event follows from vehicle and axle alone', () => {
    const uid = (changes: Partial<DueAxle>) => valueOf(eventOf(changes), 'uid');
    const one = uid({});
    const changed = { registration: 'X', fleet: null, earlyDate: '2026-03-12', overdue: true };
    expect(uid({ ...changed, changedAt: '2026-03-09T00:00:00.000Z' })).toBe(one);
    expect(uid({ axle: 'rear' })).not.toBe(one);
    expect(uid({ vehicleId: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002' })).not.toBe(one);
  });

  it('the SEQUENCE of a calendar event rises when the outlook changes, and with each day that moves the event', () => {
    const past = { earlyDate: '2026-03-01', changedAt: '2026-03-02T09:15:00.000Z' };
    const days = ['2026-03-02', '2026-03-03', '2026-03-04', '2026-04-04'].map((today) =>
      sequence(past, today),
    );
    const changed = sequence({ ...past, changedAt: '2026-04-04T09:15:00.000Z' }, '2026-04-04');
    const ahead = sequence({ earlyDate: '2026-06-01', changedAt: '2026-04-04T09:15:02.000Z' }, '2026-04-04');
    const all = [...days, changed, ahead];
    expect(all).toEqual([...new Set(all)].sort((a, b) => a - b));
    // RFC 5545 section 3.3.8: a signed 32-bit integer.
    expect(sequence({ changedAt: '2080-01-01T00:00:00.000Z' })).toBeLessThan(2 ** 31);
    expect(sequence({ changedAt: '2020-01-01T00:00:00.000Z' })).toBe(0);
  });

  it('a calendar event stays the same while its date is ahead and nothing changes', () => {
    expect(sequence({}, '2026-03-10')).toBe(sequence({}, '2026-03-31'));
  });

  it.each([
    [{}, 'KR 4471 (FD-1007): fit front pads'],
    [{ overdue: true, externalId: null }, 'KR 4471: fit front pads now'],
    [{ axle: 'axle-3', registration: null }, 'FD-1007: fit pads on axle 3'],
    [{ axle: 'rear', linings: 'shoes' }, 'KR 4471 (FD-1007): fit rear shoes'],
    [{ part: 'rotors', governingPad: null }, 'KR 4471 (FD-1007): replace both front rotors'],
    [{ part: 'drums', axle: 'axle-2', overdue: true }, 'KR 4471 (FD-1007): replace both drums on axle 2 now'],
  ] as [Partial<DueAxle>, string][])(
    'a calendar event names the vehicle and the work: %j',
    (changes, summary) => {
      expect(valueOf(eventOf(changes), 'summary')).toBe(summary);
    },
  );

  it('a calendar event gives the work, the dates, the chance, the limit, the last reading and the cautions', () => {
    const description = valueOf(eventOf({ limitMm: 2.38125, limitSource: 'law' }), 'description');
    for (const said of [
      'Fit front pads before April 2026.\n',
      'Early date (1 chance in 10 by then): 1 April 2026\n',
      'Median date (1 in 2): 1 May 2026\n',
      'Late date (9 in 10): not known, or more than 30 years ahead\n',
      'Chance by 9 May 2026: 12 %\n',
      'Likely the first: left inner\n',
      'Limit: 2.38 mm (by law)\n',
      'Last reading: 2 March 2026\n',
      'Fleet: north-depot; model: parcel-van-3t5\n',
      'Look at the brakes.',
      'no answer here says that a vehicle is fit to drive',
    ])
      expect(description).toContain(said);
    expect(description).not.toContain('Overdue');
    expect(valueOf(eventOf({ overdue: true }), 'description')).toMatch(/^Fit front pads now\.\nOverdue: /);
  });
});
