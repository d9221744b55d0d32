import { least } from 'd3-array';
import { PLACEMENT_SD_MM } from '../placement.js';
import { round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { lengthInWords } from './lengths.js';
import { liningInWords, readInWords } from './limitFindings.js';
import { isMeasured, type PadPosition } from './padPosition.js';
import { fitsInInches, fitsInThirtySeconds } from './unitDoubt.js';

/** Findings that doubt a lining's reading or its specification. */

/** A reading above this thickness is not a concern by itself, mm (common practice, no source). */
const AMPLE_MM = 3;
/** Standard deviation of a new part's thickness about its specification, mm (common practice, no source). */
const NEW_SD_MM = 0.15;
const THICKER_SDS = 3;

/** A reading thicker than new: it includes the backing plate, or the specification is for another part. */
export function thickerThanNew(axle: Axle, position: PadPosition): Finding[] {
  const { side, pad, latest, present } = position;
  const specified = present.spec.new;
  if (!latest || !specified) return [];
  const newMm = toMm(specified);
  const sdMm = Math.hypot(latest.standardUncertaintyMm, PLACEMENT_SD_MM, NEW_SD_MM);
  const overMm = latest.mm - newMm;
  if (overMm <= THICKER_SDS * sdMm) return [];
  return [
    {
      code: 'thicker-than-new',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords(position, latest)}, ${lengthInWords(overMm, latest.unit)} thicker than a new one (${lengthInWords(newMm, latest.unit)}). The true thickness may be well below the reading.`,
      check:
        'Measure the friction material alone, without backing plate and shim. If the reading stands, correct the specification.',
      numbers: { readingMm: latest.mm, newMm, overMm: roundMm(overMm), normalSpreadMm: round(sdMm, 3) },
    },
  ];
}

/** A reading in millimetres that would fit better in another unit. */
export function unitDoubtful(axle: Axle, position: PadPosition): Finding[] {
  const { side, pad, latest } = position;
  if (!latest) return [];
  const inchesMm = fitsInInches(position);
  const otherMm = inchesMm ?? fitsInThirtySeconds(position);
  if (otherMm === null) return [];
  const unit = inchesMm === null ? 'thirty-seconds of an inch' : 'inches';
  return [
    {
      code: 'unit-doubtful',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords(position, latest)}. The same figure in ${unit} would be ${lengthInWords(otherMm)}, which would fit this lining better.`,
      check: `Was it read in ${unit}? If so, correct the visit. If not, the reading stands.`,
      numbers: { readingMm: latest.mm, otherUnitMm: roundMm(otherMm) },
    },
  ];
}

/** Repeats at one place that differ by more than reading error explains. */
export function repeatsDisagree(axle: Axle, position: PadPosition): Finding[] {
  const { side, pad, latest, standing } = position;
  if (!latest?.disagreement || standing?.isLatest) return [];
  const { first, second, sdMm } = latest.disagreement;
  const say = ({ mm, gauge }: typeof first): string => `${lengthInWords(mm, latest.unit)} (${gauge.name})`;
  return [
    {
      code: 'repeats-disagree',
      axle,
      side,
      pad,
      severity: 'check',
      message: `Repeats on the ${liningInWords(position)} read ${say(first)} and ${say(second)}. Reading error does not explain the difference. The service uses ${lengthInWords(latest.mm, latest.unit)}.`,
      check: 'Measure this place again with one gauge until two readings agree.',
      numbers: {
        firstMm: first.mm,
        secondMm: second.mm,
        countedMm: latest.mm,
        normalSpreadMm: round(sdMm, 3),
      },
    },
  ];
}

/** A reading of the thinnest lining that disagrees with those of its candidate linings on the same day. */
export function thinnestDisagrees(
  axle: Axle,
  position: PadPosition,
  pads: readonly PadPosition[],
): Finding[] {
  const { side, pad, latest, sameDay } = position;
  const other = pads.find((each) => each.side === sameDay?.side && each.pad === sameDay.pad);
  if (!latest || !sameDay || other?.latest?.day !== latest.day || sameDay.isExplained) return [];
  // The thinnest may be a lining that was not read by name.
  if (sameDay.thinnerMm > 0 && !sameDay.isComplete) return [];
  return [
    {
      code: 'thinnest-disagrees',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords(position, latest)}, but of the linings read one by one that day, the thinnest was the ${liningInWords(other)} at ${lengthInWords(other.latest.mm, other.latest.unit)}. Reading error does not explain the difference. The thinner figure counts.`,
      check: 'Measure these linings again, and correct the visit with the wrong figure.',
      numbers: {
        thinnestMm: latest.mm,
        otherMm: other.latest.mm,
        differenceMm: roundMm(Math.abs(sameDay.thinnerMm)),
      },
    },
  ];
}

/** Measured linings without a known limit: only bare metal can fail. One finding per axle. */
export function limitUnknown(axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const thinnest = least(
    pads.filter(isMeasured).filter(({ governing }) => !governing),
    ({ latest }) => latest.mm,
  );
  if (!thinnest) return [];
  const { mm, unit } = thinnest.latest;
  return [
    {
      code: 'pad-limit-unknown',
      axle,
      side: null,
      pad: null,
      severity: mm <= AMPLE_MM ? 'check' : 'note',
      message: `No limit is recorded for these linings, so only bare metal counts as a failure. The thinnest is the ${liningInWords(thinnest)} at ${lengthInWords(mm, unit)}.`,
      check:
        'Find the maker’s limit and record it on the vehicle, or ask the owner to set a minimum for the shop.',
      numbers: { thinnestMm: mm },
    },
  ];
}
