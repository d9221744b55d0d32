/** Where words go on a picture, in pixels, so that no two of them overlap. */

/** Rough width of a letter of the sans-serif face at 11 px, on the safe side. */
const LETTER = 6;

export const widthOf = (text: string): number => text.length * LETTER;

/** Words of no more than so many letters a line. */
export function wrapped(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= letters)
      lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

export interface Label {
  x: number;
  text: string;
  /** The side of x on which the words stand if there is room. */
  prefers: 'before' | 'after';
}

export interface PlacedLabel extends Label {
  /** Where the words begin. */
  left: number;
  row: number;
}

const GAP = 3;

/**
 * Puts labels beside their places, in the first of some rows that has room; one that fits nowhere is left out.
 *
 * @param span the room from left to right
 */
export function placeLabels(
  labels: readonly Label[],
  rows: number,
  span: readonly [number, number],
): PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  for (const label of labels) {
    const width = widthOf(label.text);
    const before = label.x - GAP - width;
    const after = label.x + GAP;
    const lefts = label.prefers === 'before' ? [before, after] : [after, before];
    const free = (left: number, row: number): boolean =>
      left >= span[0] &&
      left + width <= span[1] &&
      placed.every(
        (other) =>
          other.row !== row ||
          left + width + GAP < other.left ||
          other.left + widthOf(other.text) + GAP < left,
      );
    const places = Array.from({ length: rows }, (_, row) => lefts.map((left) => ({ left, row }))).flat();
    const place = places.find(({ left, row }) => free(left, row));
    if (place) placed.push({ ...label, ...place });
  }
  return placed;
}

/**
 * Heights of short words in one column, moved as far as it takes for none to overlap.
 *
 * @param way 1 to move them down, −1 to move them up
 * @param edge where given, none stands on the other side of it
 */
export function spread(ys: readonly number[], apart: number, way: 1 | -1, edge: number | null): number[] {
  const order = ys.map((_, index) => index).sort((a, b) => way * (ys[a]! - ys[b]!));
  const out = [...ys];
  let least = edge === null ? -Infinity : way * edge;
  for (const index of order) {
    out[index] = way * Math.max(way * ys[index]!, least);
    least = way * out[index]! + apart;
  }
  return out;
}

/** Round figures from low to high, at most so many. */
export function niceTicks(low: number, high: number, most: number): number[] {
  const rough = (high - low) / most;
  const unit = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * unit).find((each) => each >= rough)!;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  // Multiplied rather than added up, and shorn of binary noise.
  return Array.from({ length: last - first + 1 }, (_, index) =>
    Number(((first + index) * step).toPrecision(12)),
  );
}
