import type { Finding, Wear } from '../core/vocabulary/wear.js';
import { axleInWords, capital } from '../core/words.js';

const placeOf = ({ code, axle, side, pad }: Finding): string => [code, axle, side, pad].join(' ');
const said = ({ axle, side, pad, message }: Finding): string => {
  const place = [axle && axleInWords(axle), side, pad].filter(Boolean).join(', ');
  return place ? `${capital(place)}: ${message}` : message;
};

/** How a visit changed a vehicle's forecast, in sentences; empty if nothing changed. */
export function wearChanges(before: Wear, after: Wear): string[] {
  const advice = after.axles.flatMap(({ axle, advice: now }) => {
    const was = before.axles.find((other) => other.axle === axle)?.advice;
    return was?.words === now.words
      ? []
      : [`${capital(axleInWords(axle))}: ${now.words}${was ? ` Before: ${was.words}` : ''}`];
  });
  const findings = (wear: Wear): Finding[] => wear.axles.flatMap((each) => each.findings);
  const known = new Set(findings(before).map(placeOf));
  const standing = new Set(findings(after).map(placeOf));
  const isNew = (finding: Finding) => !known.has(placeOf(finding)) && finding.severity !== 'note';
  const isSettled = (finding: Finding) => !standing.has(placeOf(finding)) && finding.severity !== 'note';
  return [
    ...advice,
    ...findings(after)
      .filter(isNew)
      .map((finding) => `New check. ${said(finding)}`),
    ...findings(before)
      .filter(isSettled)
      .map((finding) => `Settled. ${said(finding)}`),
  ];
}
