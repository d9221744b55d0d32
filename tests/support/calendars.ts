import assert from 'node:assert/strict';
import ICAL from 'ical.js';

/** Reads iCalendar with an independent parser, and checks the octets about which the parser is lenient. */

// RFC 7986 section 5.1: a text; the parser knows RFC 5545 only.
ICAL.design.icalendar.property.name = { defaultType: 'text' };
ICAL.design.icalendar.property['x-wr-calname'] = { defaultType: 'text' };

const MAX_OCTETS = 75;

/** Throws unless every line ends in CRLF, is short enough and is whole UTF-8, as RFC 5545 section 3.1 requires. */
export function checkLines(text: string): void {
  assert.ok(text.endsWith('\r\n'), 'the last line has no CRLF');
  const bytes = Buffer.from(text, 'utf8');
  let from = 0;
  while (from < bytes.length) {
    const to = bytes.indexOf('\r\n', from);
    const line = bytes.subarray(from, to);
    assert.ok(line.length > 0 && line.length <= MAX_OCTETS, `a line of ${line.length} octets`);
    const decoded = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(line);
    // RFC 5545 section 3.1: a tab is the only control character allowed in a text.
    // oxlint-disable-next-line no-control-regex -- control characters are exactly what must not be there
    assert.doesNotMatch(decoded, /[\u0000-\u0008\u000a-\u001f\u007f]/);
    from = to + 2;
  }
}

export interface ParsedCalendar {
  calendar: ICAL.Component;
  events: ICAL.Component[];
}

export function parseCalendar(text: string): ParsedCalendar {
  checkLines(text);
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  assert.equal(calendar.name, 'vcalendar');
  return { calendar, events: calendar.getAllSubcomponents('vevent') };
}

export const valueOf = (component: ICAL.Component, name: string): string =>
  String(component.getFirstPropertyValue(name));
