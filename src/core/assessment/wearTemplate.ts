import type { AxleOutlook, Outlook } from './outlookShape.js';
import {
  axleWearWith,
  onDay,
  openAxle,
  wearAnswerWith,
  type AxleOnDay,
  type OpenOutlook,
  type Question,
} from './wearAnswer.js';

/**
 * A wear answer prepared when its outlook is computed: the text that does not depend on the date, and the inputs of the
 * rest. Filling a template is much faster than reading an outlook and building the whole answer.
 */
export interface WearTemplate {
  /** JSON with a line end in place of every open value; JSON.stringify itself never emits one. */
  text: string;
  open: OpenOutlook;
}

/** Placeholder for an open value; no text that the service accepts or creates contains this character. */
const OPEN = '\u0000';
const OPEN_JSON = JSON.stringify(OPEN);
const GAP = '\n';

export function wearTemplate(outlook: Outlook): WearTemplate {
  const axles = outlook.axles.map((axle) => axleWearWith(axle, outlook, openDay(axle)));
  const { asAt, rhythmDays, policy } = outlook;
  return {
    text: JSON.stringify(wearAnswerWith(OPEN, outlook, axles)).replaceAll(OPEN_JSON, GAP),
    open: {
      asAt,
      rhythmDays,
      policy,
      axles: outlook.axles.map(openAxle),
    },
  };
}

/** Placeholders for what depends on the date in an axle’s part of the answer. */
function openDay({ rotors, drums }: AxleOutlook): AxleOnDay {
  const open = {
    advice: OPEN,
    overdue: OPEN,
    untilNextVisit: OPEN,
    reasons: OPEN,
    counterparts: [...rotors, ...drums].map(() => OPEN),
    findings: OPEN,
  };
  return open as unknown as AxleOnDay;
}

/**
 * Fills a template on its bytes, without decoding it, which takes a third of the time.
 *
 * @param text the template's text, in UTF-8
 * @returns the JSON of the wear answer on one day in UTF-8, identical byte for byte to building it
 */
export function fillTemplate(vehicleId: string, text: Buffer, open: OpenOutlook, question: Question): Buffer {
  const left = open.axles.flatMap((axle) => {
    const { advice, overdue, untilNextVisit, reasons, counterparts, findings } = onDay(axle, open, question);
    return [advice, overdue, untilNextVisit, reasons, ...counterparts, findings];
  });
  const pieces: Buffer[] = [];
  let from = 0;
  for (const filling of [vehicleId, ...left]) {
    const gap = text.indexOf(GAP, from);
    pieces.push(text.subarray(from, gap), Buffer.from(JSON.stringify(filling)));
    from = gap + GAP.length;
  }
  return Buffer.concat([...pieces, text.subarray(from)]);
}
