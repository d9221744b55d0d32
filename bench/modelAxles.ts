import type { Chance } from '../seed/random.js';
import type { WearParameters } from '../src/core/forecast/experience.js';
import { LIKELIEST_FAST } from '../src/core/forecast/experience.js';
import { along, type WearBeliefs, type WearLearned } from '../src/core/forecast/starting.js';
import type { PartTracks } from '../src/core/forecast/wear.js';

/** Gross misreadings of linings fall within this, mm. */
const MISREAD_RANGE_MM = 12;

/**
 * Axles that wear and are measured exactly as the model says, truth and readings together, as simulation-based
 * calibration requires. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
 */
export interface ModelAxle {
  parts: PartTracks[];
  /** The distance of the latest visit. */
  now: number;
  truth: {
    /** Of the first pad. */
    rate: number;
    /** The first pad's next reading. */
    next: { ahead: number; mm: number; gaugeVariance: number };
    /** Distance ahead at which the first of the pads reaches the limit; 0 if one has. */
    crossing: number;
  };
}

/** A class of axles: the parameters of its models' vehicles, and the spread of the models' means. */
export interface ModelClass {
  parameters: WearParameters;
  modelSd: number;
}

export const NEW_MM = 11;
export const LIMIT_MM = 3;
const RATIO_SHARES = [0.5, -0.5, 0.5, -0.5];
const FAST_SPREAD = 0.2;

/** How often an axle is measured: past visits, and the median distance between them, 1000 km. */
export interface Visiting {
  min: number;
  max: number;
  gap: number;
}

const SELDOM: Visiting = { min: 1, max: 6, gap: 8 };
/** The next reading is close, so that its own error matters beside the uncertainty of the pad. */
const NEXT_GAP = 3;
const GAP_SPREAD = 0.5;
const MISSED = 0.15;
const GAUGE_VARIANCE = 0.5 ** 2 / 12;

/** Parameters drawn from the prior. */
export function drawClass(chance: Chance, { learned, given }: WearBeliefs): ModelClass {
  const drawn = (name: WearLearned): number => along(learned[name], chance.normal(0, 1));
  return {
    parameters: {
      ...given,
      logRateMean: drawn('logRateMean'),
      logRateSd: drawn('logRateSd'),
      partSpread: drawn('partSpread'),
      wander: drawn('wander'),
      logInnerOuter: drawn('logInnerOuter'),
      fastChance: Math.min(LIKELIEST_FAST, drawn('fastChance')),
      fastFactor: drawn('fastFactor'),
    },
    modelSd: drawn('modelSd'),
  };
}

interface Pad {
  ratioShare: number;
  mm: number;
  rate: number;
  at: number[];
  read: number[];
}

/** One axle with a few past visits and one to come. */
export function driveAxle(
  chance: Chance,
  parameters: WearParameters,
  { min, max, gap: usual } = SELDOM,
): ModelAxle {
  const base = Math.exp(chance.normal(parameters.logRateMean, parameters.logRateSd));
  const pads = RATIO_SHARES.map((ratioShare) => fitPad(chance, parameters, base, ratioShare));
  const visits = chance.whole(min, max);
  let now = 0;
  for (let visit = 0; visit < visits; visit++) {
    const gap = chance.logNormal(usual, GAP_SPREAD);
    now += gap;
    for (const pad of pads) wearOn(chance, parameters, pad, gap);
    for (const pad of pads) {
      if (chance.happens(MISSED)) continue;
      pad.read.push(readPad(chance, parameters, pad));
      pad.at.push(now);
    }
  }
  const crossing = Math.min(...pads.map((pad) => crossingOf(chance, parameters, pad)));
  const [first] = pads as [Pad];
  const parts = pads.map(tracksOf);
  const ahead = chance.logNormal(NEXT_GAP, GAP_SPREAD);
  wearOn(chance, parameters, first, ahead);
  const mm = readPad(chance, parameters, first);
  return {
    parts,
    now,
    truth: { rate: first.rate, next: { ahead, mm, gaugeVariance: GAUGE_VARIANCE }, crossing },
  };
}

function fitPad(chance: Chance, parameters: WearParameters, base: number, ratioShare: number): Pad {
  const { fastChance, fastFactor, logInnerOuter, partSpread, startSd } = parameters;
  const factor = chance.happens(fastChance)
    ? chance.normal(fastFactor, FAST_SPREAD)
    : chance.normal(1, partSpread);
  const rate = base * Math.exp(ratioShare * logInnerOuter) * factor;
  return { ratioShare, mm: chance.normal(NEW_MM, startSd), rate, at: [], read: [] };
}

function wearOn(chance: Chance, { wander }: WearParameters, pad: Pad, distance: number): void {
  pad.mm -= chance.normal(pad.rate * distance, wander * Math.sqrt(distance));
}

/** A reading; the pad may have had a sudden loss before it. */
function readPad(chance: Chance, parameters: WearParameters, pad: Pad): number {
  const { misreadChance, placementSd, suddenChance, suddenMm, suddenSd } = parameters;
  const kind = chance.between(0, 1);
  if (kind < misreadChance) return chance.between(0, MISREAD_RANGE_MM);
  if (kind < misreadChance + suddenChance) pad.mm -= chance.normal(suddenMm, suddenSd);
  return chance.normal(pad.mm, Math.sqrt(placementSd ** 2 + GAUGE_VARIANCE));
}

/**
 * A distance whose chance of being within x is that of the pad being under the limit at x, as the forecast defines
 * it: with one normal score z for the whole distance, limit = mm − rate·x + wander·√x·z has one root.
 */
function crossingOf(chance: Chance, { wander }: WearParameters, { mm, rate }: Pad): number {
  const pull = wander * chance.normal(0, 1);
  const left = mm - LIMIT_MM;
  if (left <= 0) return 0;
  const inner = pull * pull + 4 * rate * left;
  if (inner < 0 || (rate <= 0 && pull >= 0)) return Infinity;
  const root = rate === 0 ? left / -pull : (pull + Math.sqrt(inner)) / (2 * rate);
  return root * root;
}

function tracksOf({ ratioShare, at, read }: Pad): PartTracks {
  const life = {
    startAt: 0,
    startMm: NEW_MM,
    at: Float64Array.from(at),
    atSd: new Float64Array(at.length),
    mm: Float64Array.from(read),
    gaugeVariance: new Float64Array(at.length).fill(GAUGE_VARIANCE),
  };
  return { ratioShare, lives: [life] };
}
