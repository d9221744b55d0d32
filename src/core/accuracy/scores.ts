import { itemAt, required } from '../items.js';
import { padSetOf } from '../assessment/axle.js';
import { liningsOf, type LiningAt } from '../assessment/linings.js';
import { forecastOfPads, POINTS, type PadForecast } from '../assessment/padForecast.js';
import type { PadPosition } from '../assessment/padPosition.js';
import type { ExperienceFor } from '../assessment/outlookShape.js';
import { toDay } from '../calendar.js';
import { chanceWithin, PROBABILITIES, type Crossing } from '../forecast/crossing.js';
import { usageOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import { mixtureQuantiles } from '../forecast/normal.js';
import { misreadRangeMm, partMixture } from '../forecast/wear.js';
import type { History } from '../history.js';
import { padLives, type Life } from '../lives.js';
import { layRoad, type Road } from '../odometer.js';
import {
  AXLES,
  STAGES,
  type Axle,
  type EndKnown,
  type PadSet as PadSetKnown,
  type Stage,
} from '../vocabulary/terms.js';
import { readingForetold, scoreReading, type ReadingScore } from './nextReading.js';
import { padSets, type PadSet } from './padSets.js';
import { lineRule, twoPointRule, type LinePad } from './rivals.js';

/**
 * Scores past forecasts of one vehicle against what happened. Recomputes each forecast from the history up to its visit
 * and the experience of that day, so that nothing later leaks in.
 */

/** 10 %, 50 % and 90 % points; null beyond the forecast's range. */
export interface Points {
  early: number | null;
  median: number | null;
  late: number | null;
}

/** A forecast made at a visit, and when the limit was reached, if known. Days and km count from that visit. */
export interface DateScore {
  axle: Axle;
  /** Number of the axle's pad set, from 1. */
  setNumber: number;
  /** What the forecast knew of the set's origin. */
  set: PadSetKnown;
  date: string;
  /** Readings so far of the pads then fitted. */
  readings: number;
  experience: string;
  days: Points;
  km: Points;
  reached: { days: number; km: number; how: EndKnown } | null;
  /** The predicted chance of reaching the limit by the day it was reached, or by the day of the last pad reading. */
  chance: number;
  twoPointDays: number | null;
  lineDays: number | null;
}

/** Maximum number of readings in each of {@link STAGES}. */
const STAGE_ENDS = [0, 4, 8, 16, Infinity];

export const stageOf = (readings: number): Stage =>
  itemAt(
    STAGES,
    STAGE_ENDS.findIndex((end) => readings <= end),
  );

/** Nominal coverage of the prediction intervals of readings. */
export const INTERVALS = [0.5, 0.8, 0.95] as const;

/** Sums over the predicted readings of one axle; lengths in mm. */
export interface ReadingTally {
  axle: Axle;
  stage: Stage;
  set: PadSetKnown;
  readings: number;
  /** Readings minus the predicted medians. */
  offMm: number;
  absoluteOffMm: number;
  crpsMm: number;
  /** Readings inside each of {@link INTERVALS}. */
  inside: number[];
  /** Readings by their probability integral transform, in tenths. */
  tenths: number[];
}

export interface VehicleScores {
  dates: DateScore[];
  readings: ReadingTally[];
}

/** The experience of wear and use before a date. */
export type ExperienceBefore = (date: string) => ExperienceFor;

/**
 * Scores the forecasts made at every visit of a vehicle. Yields after each, so that the caller can do other work in
 * between.
 */
export function* scoreVehicle(
  history: History,
  experienceBefore: ExperienceBefore,
): Generator<void, VehicleScores> {
  const road = layRoad(history);
  const scores: VehicleScores = { dates: [], readings: [] };
  const axles = AXLES.filter((axle) => history.vehicle.axles[axle]);
  for (const axle of axles) {
    if (history.vehicle.axles[axle]?.brake === 'drum') continue;
    const sets = padSets(history, road, axle);
    const lives = livesOf(history, road, axle);
    for (let visit = 0; visit < history.visits.length; visit++) {
      const set = sets.findLast(({ from }) => from <= visit);
      if (!set || !canBeScored(history, axle, set, visit)) continue;
      const made = makeForecast(history, visit, axle, experienceBefore);
      const whole = { history, road, axle, lives, visit };
      const date = scoreDate(whole, set, made);
      if (date) scores.dates.push({ ...date, setNumber: sets.indexOf(set) + 1 });
      tally(scores.readings, axle, made, scoreNext(whole, made));
      yield;
    }
  }
  return scores;
}

interface LivedLining extends LiningAt {
  lives: Life<object>[];
}

const livesOf = (history: History, road: Road, axle: Axle): LivedLining[] =>
  liningsOf(history, axle).map((at) => ({ ...at, lives: padLives(history, road, axle, at.side, at.pad) }));

/** Scores one visit's predictions of the next visit's pad readings. */
export function scoreReadingsAfter(
  history: History,
  visit: number,
  axle: Axle,
  experienceBefore: ExperienceBefore,
): ReadingScore[] {
  const road = layRoad(history);
  const whole = { history, road, axle, lives: livesOf(history, road, axle), visit };
  return scoreNext(whole, makeForecast(history, visit, axle, experienceBefore));
}

/** Whether any later record can score the forecast of a visit. */
function canBeScored({ visits }: History, axle: Axle, set: PadSet, visit: number): boolean {
  const next = visits[visit + 1];
  if (next?.readings.some((reading) => reading.kind === 'pad-thickness' && reading.axle === axle))
    return true;
  const until = knownUntil(set);
  return until !== null && until > toDay(itemAt(visits, visit).date);
}

/** The day up to which a set's forecasts can be judged. */
const knownUntil = ({ reached, lastReadDay }: PadSet): number | null => reached?.day ?? lastReadDay;

interface MadeForecast {
  road: Road;
  pads: PadPosition[];
  forecast: PadForecast;
  experience: Experience;
  readings: number;
  set: PadSetKnown;
}

/** Scores use the parts' own limits, whatever the shop's policy was. */
const OWN_LIMITS = { ruleSets: [], padMinimum: null };

/** An axle's forecast as made at a visit, from the history up to it and the experience of that day. */
function makeForecast(
  { vehicle, visits, gauges }: History,
  visit: number,
  axle: Axle,
  experienceBefore: ExperienceBefore,
): MadeForecast {
  const history = { vehicle, visits: visits.slice(0, visit + 1), gauges };
  const road = layRoad(history);
  const experienceFor = experienceBefore(itemAt(visits, visit).date);
  const experience = experienceFor(axle);
  const first = required(
    AXLES.find((each) => vehicle.axles[each]),
    'axle of the vehicle',
  );
  const usage = usageOn(road, experienceFor(first));
  const { pads, forecast } = forecastOfPads({ history, road, usage, ...OWN_LIMITS }, axle, experience);
  const readings = pads.reduce((sum, { present }) => sum + present.observations.length, 0);
  return { road, pads, forecast, experience, readings, set: padSetOf(pads, forecast) };
}

/** The whole history, to compare a forecast made at one visit with what followed. */
interface Whole {
  history: History;
  road: Road;
  axle: Axle;
  lives: readonly LivedLining[];
  visit: number;
}

function scoreDate(
  { history, road, axle, visit }: Whole,
  set: PadSet,
  made: MadeForecast,
): Omit<DateScore, 'setNumber'> | null {
  const { crossing, distances } = made.forecast;
  const { date } = itemAt(history.visits, visit);
  const here = road.places[visit];
  const { reached } = set;
  const until = knownUntil(set);
  if (!crossing || !made.road.isByDistance || !here || until === null || until <= toDay(date)) return null;
  const days = until - toDay(date);
  const kmAt = (probability: number) => {
    const distance = distances[POINTS.indexOf(probability)] ?? null;
    return distance === null ? null : distance * 1000;
  };
  const marks = markedVisits(history, made.road);
  const lines = linePads(made.pads);
  return {
    axle,
    set: made.set,
    date,
    readings: made.readings,
    experience: made.experience.name,
    days: pointsOf(crossing),
    km: { early: kmAt(0.1), median: kmAt(0.5), late: kmAt(0.9) },
    reached: reached && { days, km: reached.km - here.km, how: reached.how },
    chance: chanceWithin(crossing, days),
    twoPointDays: finite(twoPointRule(lines, marks)),
    lineDays: finite(lineRule(lines, marks)),
  };
}

/** Replaces infinity, which JSON lacks, with the largest safe integer. */
const finite = (days: number | null): number | null =>
  days === null ? null : Math.min(days, Number.MAX_SAFE_INTEGER);

function pointsOf({ days }: Crossing): Points {
  const at = (probability: number) => days[PROBABILITIES.indexOf(probability)] ?? null;
  return { early: at(0.1), median: at(0.5), late: at(0.9) };
}

/** Day and position of the fitting and of every visit up to the forecast. */
const markedVisits = ({ visits, vehicle }: History, { places, inService }: Road) => {
  const start =
    inService && vehicle.inService ? [{ day: toDay(vehicle.inService.date), km: inService.km }] : [];
  const seen = places.map(({ km }, index) => ({ day: toDay(itemAt(visits, index).date), km }));
  return [...start, ...seen];
};

/** The pads for the straight-line rules: from the fitting, or from the first reading if the fitting is unknown. */
function linePads(pads: readonly PadPosition[]): LinePad[] {
  return pads.flatMap(({ present, governing }): LinePad[] => {
    const { start, startMm } = present;
    const looks = present.observations.flatMap(({ day, place, mm }) =>
      place ? [{ day, km: place.km, mm }] : [],
    );
    const fitted =
      start?.place && startMm !== null ? { day: start.day, km: start.place.km, mm: startMm } : looks.shift();
    return governing && fitted ? [{ fitted, looks, limitMm: governing.limitMm }] : [];
  });
}

/** Scores the next visit's readings of the same pads against their predictions. */
function scoreNext({ history, road, lives, visit }: Whole, made: MadeForecast): ReadingScore[] {
  const [from, to] = [history.visits[visit], history.visits[visit + 1]];
  const [here, there] = [road.places[visit], road.places[visit + 1]];
  // If a position is only estimated from dates, the distance in between is unknown.
  const isRead = from?.odometer && to?.odometer && here && there && here.sdKm === there.sdKm;
  if (!isRead || !made.road.isByDistance) return [];
  const ahead = (there.km - here.km) / 1000;
  return made.pads.flatMap((position, part): ReadingScore[] => {
    const { side, pad } = position;
    const lived = lives.find((each) => each.side === side && each.pad === pad);
    const next = lived?.lives[position.lives.length - 1]?.observations.find(
      (observation) => observation.visit.id === to.id,
    );
    if (!next || !made.forecast.known.includes(part)) return [];
    const thickness = partMixture(made.forecast.posterior, part, 'thickness', [ahead]);
    const foretold = readingForetold(thickness, made.experience, {
      gaugeUncertaintyMm: next.standardUncertaintyMm,
      misreadRangeMm: misreadRangeMm(itemAt(position.tracks.lives, -1)),
    });
    return [scoreReading(foretold, itemAt(mixtureQuantiles(thickness, [0.5]), 0), next.mm)];
  });
}

/** Adds reading scores to the tally for their axle, stage and what is known of the set. */
function tally(
  tallies: ReadingTally[],
  axle: Axle,
  { readings, set }: MadeForecast,
  scores: readonly ReadingScore[],
): void {
  if (scores.length === 0) return;
  const stage = stageOf(readings);
  let found = tallies.find((each) => each.axle === axle && each.stage === stage && each.set === set);
  if (!found) {
    found = {
      axle,
      stage,
      set,
      readings: 0,
      offMm: 0,
      absoluteOffMm: 0,
      crpsMm: 0,
      inside: [0, 0, 0],
      tenths: TENTHS.slice(),
    };
    tallies.push(found);
  }
  for (const { chance, offMm, crpsMm } of scores) {
    found.readings += 1;
    found.offMm += offMm;
    found.absoluteOffMm += Math.abs(offMm);
    found.crpsMm += crpsMm;
    INTERVALS.forEach((share, index) => {
      if (Math.abs(chance - 0.5) <= share / 2) found.inside[index]! += 1;
    });
    found.tenths[Math.min(9, Math.floor(10 * chance))]! += 1;
  }
}

const TENTHS: readonly number[] = Array.from({ length: 10 }, () => 0);
