import { z } from 'zod';
import { inWords } from '../rounding.js';
import { DISTANCE_UNITS, LENGTH_UNITS, MASS_UNITS, TORQUE_UNITS } from './terms.js';

/** Quantities as sent: a number and the unit it was read in. */
export const EnteredLength = z
  .strictObject({ value: z.number(), unit: z.enum(LENGTH_UNITS) })
  .meta({ id: 'EnteredLength', description: 'A length, in the unit in which it was read.' });
export const EnteredDistance = z
  .strictObject({ value: z.number().min(0), unit: z.enum(DISTANCE_UNITS) })
  .meta({ id: 'EnteredDistance', description: 'A distance, in the unit that the odometer shows.' });
export const EnteredTorque = z
  .strictObject({ value: z.number().min(0), unit: z.enum(TORQUE_UNITS) })
  .meta({ id: 'EnteredTorque', description: 'A torque, in the unit in which it was set or read.' });
export const EnteredMass = z
  .strictObject({ value: z.number().min(0), unit: z.enum(MASS_UNITS) })
  .meta({ id: 'EnteredMass', description: 'A mass, in the unit in which it is given.' });

/** Quantities as answered: as sent, plus the exact conversion. */
export const Length = z
  .strictObject({ value: z.number(), unit: z.enum(LENGTH_UNITS), mm: z.number() })
  .meta({ id: 'Length', description: 'A length as it was sent, and in millimetres.' });
export const Distance = z
  .strictObject({ value: z.number(), unit: z.enum(DISTANCE_UNITS), km: z.number() })
  .meta({ id: 'Distance', description: 'A distance as it was sent, and in kilometres.' });
export const Torque = z
  .strictObject({ value: z.number(), unit: z.enum(TORQUE_UNITS), Nm: z.number() })
  .meta({ id: 'Torque', description: 'A torque as it was sent, and in newton metres.' });
export const Mass = z
  .strictObject({ value: z.number(), unit: z.enum(MASS_UNITS), kg: z.number() })
  .meta({ id: 'Mass', description: 'A mass as it was sent, and in kilograms.' });

/**
 * No control characters except tab and line ends. Published in the OpenAPI document, so the pattern must be portable
 * between languages.
 */
// oxlint-disable-next-line no-control-regex -- control characters are exactly what is refused
const PRINTABLE = /^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$/;
/** Half of a surrogate pair. Checked separately from {@link PRINTABLE}: many languages' patterns lack `\p{Cs}`. */
const BROKEN = /\p{Cs}/u;

/** Free text as stored: trimmed, in Unicode NFC. */
export const normalText = (value: string): string => value.normalize('NFC').trim();

/** Invisible characters: zero-width spaces and joiners, soft hyphens, direction marks and the like. */
const INVISIBLE = /\p{Default_Ignorable_Code_Point}/gu;

/** Identifying text, without invisible characters, so that two texts that look the same are the same. */
export const identifyingText = (value: string): string => normalText(value.replace(INVISIBLE, ''));

const boundedText = (maxLength: number, normalize: (value: string) => string) =>
  z
    .string()
    .overwrite(normalize)
    .min(1)
    .regex(PRINTABLE, 'must not contain control characters')
    .refine((value) => !BROKEN.test(value), 'must not contain broken characters')
    // Counts characters like JSON Schema; a string's length counts many symbols twice.
    .refine((value) => lengthOf(value) <= maxLength, `must have at most ${inWords(maxLength)} characters`)
    .meta({ maxLength });

/** A short piece of free text. */
export const text = (maxLength: number) => boundedText(maxLength, normalText);

/** A name or number that identifies something: on one line, without invisible characters. */
export const identifier = (maxLength: number) =>
  boundedText(maxLength, identifyingText)
    .refine((value) => !/[\t\r\n]/.test(value), 'must be on one line, without tabs')
    .meta({ maxLength });

function lengthOf(value: string): number {
  let length = 0;
  for (const _character of value) length++;
  return length;
}

export const fullDate = z.iso.date().meta({ description: 'RFC 3339 full-date.', example: '2026-03-02' });
export const timeOfDay = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time of day as HH:MM')
  .meta({ description: 'Local time of day, HH:MM.', example: '08:10' });

/** For answers, whose values were validated on input. */
export const date = z.string().meta({ format: 'date' });
export const instant = z.string().meta({ format: 'date-time' });
export const wholeNumber = z.number().meta({ type: 'integer', minimum: 0 });

/** Why a field is null. */
export const Reason = z
  .strictObject({
    field: z
      .string()
      .meta({ description: 'The field that is null, as a path from the object that holds `reasons`.' }),
    code: z.string().meta({ description: 'Stable, kebab-case.' }),
    detail: z.string().meta({ description: 'The reason in words.' }),
  })
  .meta({ id: 'Reason' });
export type Reason = z.infer<typeof Reason>;

/** 10 %, 50 % and 90 % points of a quantity that is not known exactly. */
export const Range = z
  .strictObject({ low: z.number(), median: z.number(), high: z.number() })
  .meta({ id: 'Range', description: '10 %, 50 % and 90 % points.' });
export type Range = z.infer<typeof Range>;
