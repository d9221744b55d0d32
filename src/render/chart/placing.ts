import { itemAt } from '../../core/items.js';
import type { XY } from './draw.js';
import { ROW } from './frame.js';
import { widthOf, type Face } from './letters.js';

/** Places labels beside lines: each gets the first of its candidate places that touches no line and no other label. */

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** A label of one or more rows, at its left edge and the baseline of its first row. */
export interface Label {
  rows: readonly string[];
  left: number;
  baseline: number;
}

/** What a label should not touch: lines and other labels. It may cross edges if it must. */
export interface Obstacles {
  lines: readonly (readonly XY[])[];
  boxes: readonly Box[];
  /** Lines that only bound an area. */
  edges?: readonly (readonly XY[])[];
}

/** Cost of each thing that a label touches. */
const COST = { box: 20, line: 4, edges: 1 } as const;

const ASCENT = 10;
const DESCENT = 3;

export function boxOf({ rows, left, baseline }: Label, face: Face = {}): Box {
  return {
    left,
    right: left + Math.max(...rows.map((row) => widthOf(row, face))),
    top: baseline - ASCENT,
    bottom: baseline + (rows.length - 1) * ROW + DESCENT,
  };
}

/** The first candidate with the lowest cost. */
export function clearest<Place extends Label & { cost?: number }>(
  places: readonly Place[],
  { lines, boxes, edges = [] }: Obstacles,
  face: Face = {},
): Place {
  const costs = places.map((place) => {
    const box = boxOf(place, face);
    const overlapping = boxes.filter((other) => overlap(box, other)).length;
    const onEdge = crossings(box, edges) > 0 ? COST.edges : 0;
    return (place.cost ?? 0) + COST.box * overlapping + COST.line * crossings(box, lines) + onEdge;
  });
  return itemAt(places, costs.indexOf(Math.min(...costs)));
}

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const crossings = (box: Box, lines: Obstacles['lines']): number =>
  lines.reduce(
    (sum, points) =>
      sum + points.slice(1).filter((to, index) => crosses(itemAt(points, index), to, box)).length,
    0,
  );

/** Whether a straight line passes through a box (Liang and Barsky's clipping). */
function crosses([x0, y0]: XY, [x1, y1]: XY, { left, right, top, bottom }: Box): boolean {
  let [from, to] = [0, 1];
  for (const [step, room] of [
    [x0 - x1, x0 - left],
    [x1 - x0, right - x0],
    [y0 - y1, y0 - top],
    [y1 - y0, bottom - y0],
  ] as const) {
    if (step === 0 && room < 0) return false;
    if (step < 0) from = Math.max(from, room / step);
    if (step > 0) to = Math.min(to, room / step);
  }
  return from < to;
}
