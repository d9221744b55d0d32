import { describe, expect, it } from 'vitest';
import { pastForecastOf } from '../../src/core/accuracy/pastForecast.js';
import type { DateScore, ReadingTally } from '../../src/core/accuracy/scores.js';
import { atOnce } from '../../src/core/accuracy/steps.js';
import { accuracyOf as stepsOf, type ScoredVehicle } from '../../src/core/accuracy/summary.js';

/** A forecast of 80, 100 and 130 days whose limit was reached after a given number of days. */
const forecast = (reachedDays: number | null, more: Partial<DateScore> = {}): DateScore => ({
  axle: 'front',
  setNumber: 1,
  set: 'recorded',
  date: '2025-01-01',
  readings: 4,
  experience: 'starting-values',
  days: { early: 80, median: 100, late: 130 },
  km: { early: 8000, median: 10_000, late: 13_000 },
  reached: reachedDays === null ? null : { days: reachedDays, km: 100 * reachedDays, how: 'interpolated' },
  chance: 0.5,
  twoPointDays: 140,
  lineDays: null,
  ...more,
});
const vehicleWith = (dates: DateScore[], model: string | null = 'van'): ScoredVehicle => ({
  model,
  scores: { dates, readings: [] },
});
/** Off by +10, −10, +30, −40 and 0 days. */
const FIVE = [90, 110, 70, 140, 100].map((days) => vehicleWith([forecast(days)]));

const accuracyOf = (vehicles: ScoredVehicle[]) => atOnce(stepsOf(vehicles));
const totalOf = (vehicles: ScoredVehicle[]) => accuracyOf(vehicles).dates.total;
const figuresOf = (vehicles: ScoredVehicle[]) => totalOf(vehicles).figures!;

describe('the accuracy of dates', () => {
  const figures = figuresOf(FIVE);

  it('the accuracy of dates is how far the median date was off, and in which direction', () => {
    expect(totalOf(FIVE)).toMatchObject({ vehicles: 5, padSets: 5, forecasts: 5, underWay: 0 });
    expect(figures).toMatchObject({
      meanAbsoluteErrorDays: 18,
      medianAbsoluteErrorDays: 10,
      biasDays: -2,
      meanAbsoluteErrorKm: 1800,
      biasKm: -200,
    });
  });

  it('the accuracy of dates is the share of intervals that held, with its standard error over vehicles', () => {
    expect(figures).toMatchObject({ inside80: 3, before80: 1, after80: 1, inside80Share: 0.6 });
    // Residuals 0.4 three times and −0.6 twice: √(5/4 · (3·0.16 + 2·0.36)) / 5.
    expect(figures.inside80StandardError).toBeCloseTo(Math.sqrt(1.25 * 1.2) / 5, 4);
  });

  it('the forecasts of one vehicle count as one group', () => {
    const twice = FIVE.map(({ model, scores }) => vehicleWith([...scores.dates, ...scores.dates], model));
    expect(totalOf(twice)).toMatchObject({ forecasts: 10, padSets: 5 });
    expect(figuresOf(twice).inside80StandardError).toBe(figures.inside80StandardError);
    const one = [vehicleWith(FIVE.flatMap(({ scores }, setNumber) => ({ ...scores.dates[0]!, setNumber })))];
    expect(figuresOf(one).inside80StandardError).toBeNull();
    expect(totalOf(one).reasons).toContainEqual(
      expect.objectContaining({ field: 'figures.inside80StandardError', code: 'one-vehicle' }),
    );
  });

  it('the accuracy of dates is compared with a rule only where the rule gives a date', () => {
    // The rule is off by 50, 30, 70, 0 and 40 days.
    expect(figures.againstTwoPoint).toEqual({ forecasts: 5, meanAbsoluteErrorDays: 38, ratio: 0.47 });
    expect(figures.againstLine).toBeNull();
    expect(totalOf(FIVE).reasons).toEqual([
      expect.objectContaining({ field: 'figures.againstLine', code: 'too-few-pad-sets' }),
    ]);
  });

  it('no date within 30 years counts as 4000 days off, and a missing late date is never too early', () => {
    const never = { early: 80, median: null, late: null };
    const five = FIVE.map(() => vehicleWith([forecast(2000, { days: never })]));
    expect(figuresOf(five)).toMatchObject({
      meanAbsoluteErrorDays: 4000,
      biasDays: 4000,
      inside80: 5,
    });
  });

  it('a past forecast says how the day of reaching the limit is known', () => {
    const early = { days: 90, km: 9000, how: 'extrapolated' as const };
    const six = [...FIVE, vehicleWith([forecast(null, { reached: early })])];
    expect(figuresOf(six)).toMatchObject({
      interpolatedShare: 0.8333,
      extrapolatedShare: 0.1667,
    });
  });

  it('the accuracy of fewer than five sets of pads is null with a reason', () => {
    const { words, dates } = accuracyOf(FIVE.slice(1));
    expect(dates.total).toMatchObject({ padSets: 4, forecasts: 4, figures: null });
    expect(dates.total.reasons).toEqual([
      {
        field: 'figures',
        code: 'too-few-pad-sets',
        detail: '4 sets of pads can be judged; at least 5 are needed',
      },
    ]);
    expect(words).toBe(
      '4 sets of pads have reached their limit since a forecast was made. That is too few to judge the accuracy of the dates.',
    );
  });

  it('unfinished forecasts count as far as the readings decide them', () => {
    // Five sets that ended and one that is unfinished.
    const chances: [number, boolean][] = [
      [0.05, true],
      [0.5, true],
      [0.6, false],
      [0.7, true],
      [0.95, true],
      [0.85, true],
    ];
    const six = chances.map(([chance, isReached]) =>
      vehicleWith([forecast(isReached ? 100 : null, { chance })]),
    );
    // 5/6 are left at 0.1; at 0.9 it is 5/6 · 4/5 · 2/3 · 1/2.
    const share = 5 / 6 - ((5 / 6) * (4 / 5) * (2 / 3)) / 2;
    expect(totalOf(six)).toMatchObject({ underWay: 1, forecasts: 5 });
    expect(figuresOf(six).inside80ShareWithUnderWay).toBeCloseTo(share, 4);
    const open = [...FIVE, vehicleWith([forecast(null, { chance: 0.8 })])];
    expect(figuresOf(open).inside80ShareWithUnderWay).toBeNull();
  });

  it('a rule that is almost exact gets no ratio', () => {
    const exact = FIVE.map(({ scores }) =>
      vehicleWith(scores.dates.map((each) => ({ ...each, twoPointDays: each.reached!.days + 0.5 }))),
    );
    expect(figuresOf(exact).againstTwoPoint).toEqual({
      forecasts: 5,
      meanAbsoluteErrorDays: 0.5,
      ratio: null,
    });
    expect(totalOf(exact).reasons).toContainEqual(
      expect.objectContaining({ field: 'figures.againstTwoPoint.ratio', code: 'rule-exact' }),
    );
  });

  it('the accuracy of dates is given by axle and model, and by the number of readings', () => {
    const rear = FIVE.map(() => vehicleWith([forecast(100, { axle: 'rear', readings: 17 })], null));
    const { byAxleAndModel, byReadings } = accuracyOf([...rear, ...FIVE]).dates;
    expect(byAxleAndModel.map((group) => [group.axle, group.model, group.figures!.biasDays])).toEqual([
      ['front', 'van', -2],
      ['rear', null, 0],
    ]);
    expect(byReadings.map(({ stage, forecasts }) => [stage, forecasts])).toEqual([
      ['0', 0],
      ['1–4', 5],
      ['5–8', 0],
      ['9–16', 0],
      ['17+', 5],
    ]);
  });

  it('the accuracy of dates is grouped by what was known about the set', () => {
    const unknown = FIVE.map(() => vehicleWith([forecast(100, { set: 'unknown' })]));
    const { dates, words } = accuracyOf([...FIVE, ...unknown]);
    const { bySet } = dates;
    expect(words).toContain(
      'The day was between the early and late dates in 60 % of forecasts for sets whose fitting is recorded and 100 % of forecasts for sets of unknown age.',
    );
    expect(bySet.map(({ set, forecasts, figures }) => [set, forecasts, figures?.biasDays])).toEqual([
      ['recorded', 5, -2],
      ['original', 0, undefined],
      ['unknown', 5, 0],
      ['perhaps-replaced', 0, undefined],
    ]);
    expect(bySet[1]!.reasons).toEqual([
      expect.objectContaining({ field: 'figures', code: 'too-few-pad-sets' }),
    ]);
  });

  it('the accuracy of dates is described in words', () => {
    expect(accuracyOf(FIVE).words).toBe(
      'Of 5 forecasts for 5 sets of pads on 5 vehicles, 3 (60 %; the target is 80 %) had the day on which the first pad reached its limit between their early and late dates. In 1 it came sooner, in 1 later. Half of the median dates were off by 10 days or less; the mean error was 18. The dates were on average 2 days too early. The mean error of the dates is 0.47 times that of dates from the wear rate between new and the latest reading on the same 5 forecasts.',
    );
  });
});

describe('the accuracy of next readings', () => {
  const tally = (more: Partial<ReadingTally> = {}): ReadingTally => ({
    axle: 'front',
    stage: '1–4',
    set: 'recorded',
    readings: 10,
    offMm: 1,
    absoluteOffMm: 3,
    crpsMm: 2,
    inside: [5, 8, 10],
    tenths: [1, 1, 1, 1, 1, 1, 1, 1, 1, 1],
    ...more,
  });
  const vehicles = [
    tally(),
    tally(),
    tally(),
    tally(),
    tally({ readings: 20, inside: [5, 10, 18], offMm: -8 }),
  ];

  it('the accuracy of next readings is the mean over readings, with standard errors over vehicles', () => {
    const { total } = accuracyOf(
      vehicles.map((each) => ({ model: null, scores: { dates: [], readings: [each] } })),
    ).nextReadings;
    expect(total).toMatchObject({ vehicles: 5, readings: 60, reasons: [] });
    expect(total.figures).toMatchObject({
      biasMm: round(-4 / 60, 3),
      meanAbsoluteErrorMm: 0.25,
      meanCrpsMm: round(10 / 60, 4),
      inside50Share: round(25 / 60, 4),
      inside80Share: 0.7,
      inside95Share: round(58 / 60, 4),
    });
    // Residuals: 8 − 7 four times, 10 − 14 once.
    expect(total.figures!.inside80StandardError).toBeCloseTo(Math.sqrt(1.25 * (4 + 16)) / 60, 4);
  });

  it('the accuracy of readings of fewer than five vehicles is null with a reason', () => {
    const { total } = accuracyOf([{ model: null, scores: { dates: [], readings: [tally()] } }]).nextReadings;
    expect(total).toMatchObject({ vehicles: 1, readings: 10, figures: null });
    expect(total.reasons[0]!.code).toBe('too-few-vehicles');
  });
});

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));

describe('a past forecast in the answer', () => {
  it('a past forecast in the answer has its dates, what happened, and how far each was off', () => {
    expect(pastForecastOf(forecast(90.4))).toEqual({
      axle: 'front',
      set: 'recorded',
      forecastDate: '2025-01-01',
      readings: 4,
      experience: 'starting-values',
      earlyDate: '2025-03-22',
      medianDate: '2025-04-11',
      lateDate: '2025-05-11',
      reachedDate: '2025-04-02',
      howKnown: 'interpolated',
      errorDays: 9.6,
      errorKm: 960,
      inside80: true,
      twoPointErrorDays: 49.6,
      lineErrorDays: null,
      reasons: [expect.objectContaining({ field: 'lineErrorDays', code: 'no-line' })],
    });
  });

  it('a forecast whose outcome is unknown is not in the answer', () => {
    expect(pastForecastOf(forecast(null))).toBeNull();
  });
});
