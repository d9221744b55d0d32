import { itemAt } from '../../core/items.js';
/**
 * Text widths. The server cannot know the reader's font, so this uses the widths of DejaVu Sans, which is wider than
 * the other fonts of the pages: what fits in it fits in all of them.
 */

/** Thousandths of the font size (measured in Chromium), rounded up to tens; unlisted letters count as the widest. */
const WIDTHS: readonly (readonly [number, string])[] = [
  [280, 'ijl'],
  [320, 'IJ ,.’·'],
  [350, "/:;\\|f'"],
  [400, '-()[]t!'],
  [420, 'r'],
  [530, '"*_–sz?'],
  [560, 'cL'],
  [600, 'FkvxyP'],
  [640, 'TYaoeEhnu0123456789$Sbdgpq{}'],
  [690, 'KAVXZB'],
  [740, 'CRU'],
  [790, 'HND&GOQ'],
  [840, 'w#+<=>^~≈×÷−'],
  [870, 'M'],
];
const BY_LETTER = new Map(
  WIDTHS.flatMap(([width, letters]) => Array.from(letters).map((letter) => [letter, width])),
);
const WIDEST = 1000;
const BOLD = 1.13;

export interface Face {
  size?: number;
  bold?: boolean;
}

/** Maximum width in pixels. */
export function widthOf(text: string, { size = 12, bold = false }: Face = {}): number {
  let width = 0;
  for (const letter of text) width += BY_LETTER.get(letter) ?? WIDEST;
  return (width * size * (bold ? BOLD : 1)) / 1000;
}

/** Breaks text into lines of at most the given width. */
export function wrapped(text: string, width: number, face: Face = {}): string[] {
  const lines: string[] = [];
  for (const word of text.split(/ +/)) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(`${last} ${word}`, face) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/**
 * Spreads labels in one column: as close to their targets as spacing and bounds allow.
 *
 * @param ys the targets, in order
 */
export function spread(
  ys: readonly number[],
  apart: number,
  [from, to]: readonly [number, number],
): number[] {
  const out: number[] = [];
  for (const y of ys) out.push(Math.max(y, from, (out.at(-1) ?? -Infinity) + apart));
  let max = to;
  for (let index = out.length - 1; index >= 0; index--) {
    out[index] = Math.min(itemAt(out, index), max);
    max = itemAt(out, index) - apart;
  }
  return out;
}
