/**
 * How wide words are. No renderer on the server knows the reader's face, so this takes the widths of DejaVu Sans, wider
 * than the other faces the pages name: what fits by these fits in all of them.
 */

/** Thousandths of the font size (measured in Chromium), rounded up to tens; letters not listed are as wide as the widest. */
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

/** Pixels at the most. */
export function widthOf(text: string, { size = 12, bold = false }: Face = {}): number {
  let width = 0;
  for (const letter of text) width += BY_LETTER.get(letter) ?? WIDEST;
  return (width * size * (bold ? BOLD : 1)) / 1000;
}

/** Lines no wider than so many pixels. */
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
 * Heights of labels in one column: as near to where they belong as keeps them apart and within bounds.
 *
 * @param ys where they belong, in order
 */
export function spread(
  ys: readonly number[],
  apart: number,
  [from, to]: readonly [number, number],
): number[] {
  const out: number[] = [];
  for (const y of ys) out.push(Math.max(y, from, (out.at(-1) ?? -Infinity) + apart));
  let most = to;
  for (let index = out.length - 1; index >= 0; index--) {
    out[index] = Math.min(out[index]!, most);
    most = out[index]! - apart;
  }
  return out;
}
