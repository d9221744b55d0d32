import { onDay, openAxle, wearAnswer, type OpenOutlook, type Question } from './wearAnswer.js';
import type { Outlook } from './outlookShape.js';

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
  const answer = wearAnswer(OPEN, outlook, { today: '1970-01-01', until: null });
  const axles = answer.axles.map((axle) => ({
    ...axle,
    advice: OPEN,
    replacement: { ...axle.replacement, overdue: OPEN, untilNextVisit: OPEN, reasons: OPEN },
    rotors: axle.rotors.map((rotor) => ({ ...rotor, untilNextVisit: OPEN })),
    drums: axle.drums.map((drum) => ({ ...drum, untilNextVisit: OPEN })),
    findings: OPEN,
  }));
  const { asAt, rhythmDays, policy } = outlook;
  return {
    text: JSON.stringify({ ...answer, axles }).replaceAll(OPEN_JSON, GAP),
    open: {
      asAt,
      rhythmDays,
      policy,
      axles: outlook.axles.map(openAxle),
    },
  };
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
