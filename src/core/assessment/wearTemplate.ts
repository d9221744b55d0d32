import { axleWear, wearAnswer, type Outlook, type Question } from './outlook.js';

/**
 * A wear answer made ready when its outlook was worked out: the text that stays as it is from day to day, and what the
 * rest of it is made of. Most of an answer stays, so that to fill a template takes a small part of the time that it
 * takes to read an outlook and to write the answer anew.
 */
export interface WearTemplate {
  /** JSON with a line end, which JSON has no other use for, in place of everything that is left open. */
  text: string;
  /** The outlook without what the text has of it. */
  open: Outlook;
}

/** Stands for what is left open; no text that the service takes or makes has this character. */
const OPEN = '\u0000';
const OPEN_JSON = JSON.stringify(OPEN);

export function wearTemplate(outlook: Outlook): WearTemplate {
  const answer = wearAnswer(OPEN, outlook, { today: '1970-01-01', until: null });
  const axles = answer.axles.map((axle) => ({
    ...axle,
    replacement: { ...axle.replacement, overdue: OPEN, untilNextVisit: OPEN },
    findings: OPEN,
  }));
  return {
    text: JSON.stringify({ ...answer, axles }).replaceAll(OPEN_JSON, '\n'),
    open: {
      ...outlook,
      usage: { kmPerDay: null, reasons: [] },
      cautions: [],
      axles: outlook.axles.map((axle) => ({ ...axle, pads: [], rotors: [], drums: [] })),
    },
  };
}

/** @returns the JSON of the wear answer on one day, byte for byte */
export function fillTemplate(vehicleId: string, { text, open }: WearTemplate, question: Question): string {
  const left = open.axles.flatMap((axle) => {
    const { replacement, findings } = axleWear(axle, open, question);
    return [replacement.overdue, replacement.untilNextVisit, findings];
  });
  const fillings = [vehicleId, ...left].values();
  return text.replaceAll('\n', () => JSON.stringify(fillings.next().value));
}
