import { netScore } from './net.js';

/**
 * Posterior of a few parameters around its mode: quasi-Newton minimisation with finite differences, a normal
 * approximation from the curvature at the mode, and a few balanced draws weighted by the exact posterior. Parameters
 * are in units of their priors' standard deviations, so that one step length suits all.
 */

export type Objective = (x: Float64Array) => number;

const STEP = 0.01;
const CURVATURE_STEP = 0.1;
const MAX_MOVE = 1;
const ITERATIONS = 40;
const HALVINGS = 6;

export interface Minimum {
  x: Float64Array;
  value: number;
}

/** Minimises by BFGS, started from the curvature along each axis. */
export function minimise(objective: Objective, start: Float64Array, tolerance = 0.02): Minimum {
  const n = start.length;
  let x: Float64Array = start.slice();
  let value = objective(x);
  const { slopes, curvatures } = alongAxes(objective, x, value);
  let gradient: Float64Array = slopes;
  let inverse: Float64Array[] = Array.from({ length: n }, (_, i) =>
    Float64Array.from({ length: n }, (_, j) => (i === j ? 1 / Math.max(0.5, curvatures[i]!) : 0)),
  );
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const move = shortened(inverse.map((row) => -dot(row, gradient)));
    const predicted = -dot(move, gradient);
    if (predicted < tolerance) break;
    const reached = search(objective, x, value, move, predicted);
    if (!reached) break;
    const next = gradientAt(objective, reached.x, reached.value);
    inverse = updated(inverse, difference(reached.x, x), difference(next, gradient));
    ({ x, value } = reached);
    gradient = next;
  }
  return { x, value };
}

/** Backtracks along a move until the objective falls by a fair share of the predicted decrease. */
function search(
  objective: Objective,
  from: Float64Array,
  value: number,
  move: Float64Array,
  predicted: number,
): Minimum | null {
  let share = 1;
  for (let halving = 0; halving < HALVINGS; halving++, share *= 0.4) {
    const x = from.map((at, i) => at + share * move[i]!);
    const reached = objective(x);
    if (reached < value - 1e-4 * share * predicted) return { x, value: reached };
  }
  return null;
}

function shortened(move: readonly number[]): Float64Array {
  const length = Math.max(...move.map(Math.abs));
  return Float64Array.from(move, (at) => (length > MAX_MOVE ? (at * MAX_MOVE) / length : at));
}

/** Gradient by forward differences; the step is far below the parameters' uncertainty. */
function gradientAt(objective: Objective, x: Float64Array, value: number): Float64Array {
  return x.map((_, i) => (objective(moved(x, i, STEP)) - value) / STEP);
}

function alongAxes(objective: Objective, x: Float64Array, value: number) {
  const slopes = new Float64Array(x.length);
  const curvatures = new Float64Array(x.length);
  x.forEach((_, i) => {
    const up = objective(moved(x, i, CURVATURE_STEP));
    const down = objective(moved(x, i, -CURVATURE_STEP));
    slopes[i] = (up - down) / (2 * CURVATURE_STEP);
    curvatures[i] = (up + down - 2 * value) / CURVATURE_STEP ** 2;
  });
  return { slopes, curvatures };
}

function moved(x: Float64Array, index: number, by: number): Float64Array {
  const copy = x.slice();
  copy[index]! += by;
  return copy;
}

const dot = (a: Float64Array, b: Float64Array): number =>
  a.reduce((sum, value, index) => sum + value * b[index]!, 0);

const difference = (a: Float64Array, b: Float64Array): Float64Array =>
  a.map((value, index) => value - b[index]!);

/** BFGS update of the inverse Hessian; unchanged if the curvature along the move is not positive. */
function updated(inverse: Float64Array[], move: Float64Array, turn: Float64Array): Float64Array[] {
  const curvature = dot(move, turn);
  if (curvature < 1e-8) return inverse;
  const applied = Float64Array.from(inverse, (row) => dot(row, turn));
  const scale = (1 + dot(turn, applied) / curvature) / curvature;
  return inverse.map((row, i) =>
    row.map(
      (value, j) =>
        value + scale * move[i]! * move[j]! - (applied[i]! * move[j]! + move[i]! * applied[j]!) / curvature,
    ),
  );
}

export interface WeightedPoint {
  weight: number;
  x: Float64Array;
}

/** Minimum curvature. The prior alone has curvature 1, so a flatter direction is noise. */
const MIN_CURVATURE = 0.5;
/** Maximum weight of a draw, as a multiple of its fair share. */
const MAX_WEIGHT = 2.5;

/** Draws around a mode, weighted by the exact posterior over the normal approximation. */
export function drawAround(objective: Objective, { x, value }: Minimum, draws: number): WeightedPoint[] {
  const { values, vectors } = eigen(hessian(objective, x, value));
  const spread = values.map((curvature) => 1 / Math.sqrt(Math.max(MIN_CURVATURE, curvature)));
  // Give the widest directions the best balanced scores.
  const order = Array.from(spread.keys()).sort((a, b) => spread[b]! - spread[a]!);
  const points = Array.from({ length: draws }, (_, index) => {
    const point = x.slice();
    let squares = 0;
    order.forEach((direction, dimension) => {
      const z = netScore(index, dimension, draws);
      squares += z * z;
      point.forEach((_, i) => (point[i]! += z * spread[direction]! * vectors[i]![direction]!));
    });
    return { x: point, logWeight: value - objective(point) + 0.5 * squares };
  });
  const weights = balanced(points.map(({ logWeight }) => logWeight));
  return points.map((point, index) => ({ weight: weights[index]!, x: point.x }));
}

/** Capping stops when the largest weight is within this factor of the cap. */
const ABOVE_CAP = 1.1;
const FLATTENINGS = 60;

/**
 * Normalised weights, none above its cap. If the posterior differs so much from the normal approximation that one or
 * two draws hold nearly all weight, flattens the differences until several draws count, since a single draw would hide
 * the uncertainty of the parameters.
 */
function balanced(logs: readonly number[]): number[] {
  const top = Math.max(...logs);
  let weights: number[] = [];
  for (let power = 1, flattening = 0; flattening < FLATTENINGS; flattening++, power /= 2) {
    weights = capped(logs.map((log) => Math.exp(power * (log - top))));
    if (Math.max(...weights) < (ABOVE_CAP * MAX_WEIGHT) / logs.length) break;
  }
  return weights;
}

/** Normalised weights, capped as far as the others can absorb the excess. */
function capped(raw: readonly number[]): number[] {
  let weights = raw.slice();
  for (let pass = 0; pass < 20; pass++) {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    weights = weights.map((weight) => Math.min(weight / total, MAX_WEIGHT / raw.length));
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** Hessian by central differences, with steps of about each parameter's uncertainty. */
function hessian(objective: Objective, x: Float64Array, value: number): Float64Array[] {
  const { curvatures } = alongAxes(objective, x, value);
  const steps = curvatures.map((curvature) => Math.min(0.5, 0.7 / Math.sqrt(Math.max(1, curvature))));
  const at = (i: number, j: number | null, sign: number): number => {
    const point = moved(x, i, sign * steps[i]!);
    if (j !== null) point[j]! += sign * steps[j]!;
    return objective(point);
  };
  const both = new Float64Array(x.length);
  const result = Array.from(x, () => new Float64Array(x.length));
  for (let i = 0; i < x.length; i++) {
    // Evaluate this next to its pairs: an objective may cache its work while only the first parameters change.
    both[i] = at(i, null, 1) + at(i, null, -1);
    result[i]![i] = (both[i]! - 2 * value) / steps[i]! ** 2;
    for (let j = 0; j < i; j++) {
      const together = at(i, j, 1) + at(i, j, -1) - both[i]! - both[j]! + 2 * value;
      result[i]![j] = result[j]![i] = together / (2 * steps[i]! * steps[j]!);
    }
  }
  return result;
}

const SWEEPS = 30;

/** Eigenvalues and eigenvectors (in columns) of a symmetric matrix, by Jacobi rotations. */
function eigen(matrix: Float64Array[]): { values: Float64Array; vectors: Float64Array[] } {
  const n = matrix.length;
  const a = matrix.map((row) => row.slice());
  const vectors = a.map((_, i) => Float64Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) rotate(a, vectors, p, q);
  }
  return { values: Float64Array.from({ length: n }, (_, i) => a[i]![i]!), vectors };
}

function rotate(a: Float64Array[], vectors: Float64Array[], p: number, q: number): void {
  const off = a[p]![q]!;
  if (Math.abs(off) < 1e-12) return;
  const theta = (a[q]![q]! - a[p]![p]!) / (2 * off);
  const tangent = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const cosine = 1 / Math.hypot(tangent, 1);
  const sine = tangent * cosine;
  const turn = (row: Float64Array): void => {
    const atP = row[p]!;
    row[p] = cosine * atP - sine * row[q]!;
    row[q] = sine * atP + cosine * row[q]!;
  };
  a.forEach(turn);
  vectors.forEach(turn);
  for (let j = 0; j < a.length; j++) {
    const atP = a[p]![j]!;
    const atQ = a[q]![j]!;
    a[p]![j] = cosine * atP - sine * atQ;
    a[q]![j] = sine * atP + cosine * atQ;
  }
}
