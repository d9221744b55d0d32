import { describe, expect, it } from 'vitest';
import type { AxlePicture } from '../../src/core/assessment/pictureShape.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { LAYOUTS, type Layout } from '../../src/render/chart/frame.js';
import { dateInWords, precisionOf, shortDate } from '../../src/core/words.js';
import { partCharts, wearSvg, type PartChart } from '../../src/render/wearSvg.js';
import { chartCases } from '../support/chartCases.js';
import {
  dayScale,
  descendants,
  marksOf,
  mmScale,
  ofClass,
  parseXml,
  placed,
  wordsOf,
  type Placed,
  type Words,
} from '../support/svg.js';

const CASES = new Map(chartCases().map((each) => [each.name, each]));

interface Drawn {
  picture: AxlePicture;
  charts: PartChart[];
}

function drawn(name: string): Drawn {
  const { picture, history } = CASES.get(name)!;
  return { picture, charts: partCharts(picture, history.vehicle) };
}

const PARTS = { linings: 0, counterparts: 1 } as const;

const chartOf = (
  name: string,
  part: keyof typeof PARTS = 'linings',
  layout: Layout['name'] = 'wide',
): Placed => placed(parseXml(drawn(name).charts[PARTS[part]]!.drawings![layout]));

const textsOf = (root: Placed): string[] => wordsOf(root).map(({ text }) => text);
const near = (value: number, wanted: number, within = 1): void =>
  expect(Math.abs(value - wanted)).toBeLessThan(within);
const only = <Item>(items: readonly Item[]): Item => {
  expect(items).toHaveLength(1);
  return items[0]!;
};

describe('the chart of an axle', () => {
  it('the chart’s title names the vehicle and the axle, and its description says what the chart shows', () => {
    const root = chartOf('usual, one pad wears faster');
    const byId = new Map(descendants(root).map((element) => [element.attributes.id, element]));
    const title = byId.get(root.attributes['aria-labelledby'])!;
    const words = byId.get(root.attributes['aria-describedby'])!;
    expect(title.text).toBe('Front pads of KR 6482, V-1: readings and forecast');
    const { date } = drawn('usual, one pad wears faster').picture.wear.replacement;
    expect(words.text).toContain('Left inner: 7 readings, the latest 3.7');
    expect(words.text).toContain('Limit 3 mm, wear indicator.');
    for (const day of [date!.early, date!.median, date!.late])
      expect(words.text).toContain(dateInWords(day!));
    expect(words.text).not.toMatch(/\bsafe\b|undefined|NaN|null|\d{4}-\d{2}/);
  });

  it('every reading is at its value and date on the labelled axes', () => {
    const root = chartOf('one side replaced');
    const { picture } = drawn('one side replaced');
    const [y, x] = [mmScale(root), dayScale(root, 'past')];
    const marks = marksOf(ofClass(root, 'readings')[0]!);
    const expected = picture.panels[0]!.positions.flatMap(({ lives }) =>
      lives.flatMap(({ readings }) => readings),
    );
    expect(marks).toHaveLength(expected.length);
    for (const { day, mm } of expected)
      expect(marks.some((mark) => Math.abs(mark.y - y(mm)) < 1 && Math.abs(mark.x - x(day)) < 23)).toBe(true);
  });

  it('readings of one visit are at one place, those of removed parts before the replacement', () => {
    const root = chartOf('four pads alike, replacement in between');
    const { picture } = drawn('four pads alike, replacement in between');
    const x = dayScale(root, 'past');
    const marks = marksOf(ofClass(root, 'readings')[0]!);
    const replaced = only(picture.panels[0]!.events).day;
    const visits = [
      ...new Set(
        picture.panels[0]!.positions.flatMap(({ lives }) =>
          lives.flatMap((life) => life.readings.map(({ day }) => day)),
        ),
      ),
    ];
    for (const day of visits) {
      const of = marks.filter((mark) => Math.abs(mark.x - x(day)) < 16);
      expect(of.length).toBeGreaterThanOrEqual(4);
    }
    const atReplacement = marks.filter((mark) => mark.x > x(replaced) - 18 && mark.x < x(replaced) + 8);
    expect(atReplacement.length).toBe(4);
    for (const mark of atReplacement) expect(mark.x).toBeLessThan(x(replaced));
    expect(textsOf(root)).toContain(`New pads ${shortDate(replaced)}`);
  });

  it('positions differ by shape and filling, and each is labelled with its latest reading', () => {
    const labels = ofClass(chartOf('usual, one pad wears faster'), 'labels')[0]!;
    const texts = textsOf(labels);
    expect(texts).toEqual(
      expect.arrayContaining(['Left inner', 'Left outer', 'Right inner', 'Right outer', '0.146 in = 3.7']),
    );
    const shapes = marksOf(labels).map(({ isRound, isFilled }) => `${isRound} ${isFilled}`);
    expect(new Set(shapes).size).toBe(4);
    const names = wordsOf(labels).filter(({ text }) => /^(Left|Right)/.test(text));
    const heights = names.map(({ y }) => y).sort((a, b) => a - b);
    heights.slice(1).forEach((at, index) => expect(at - heights[index]!).toBeGreaterThanOrEqual(16));
    expect(only(names.filter(({ bold }) => bold)).text).toBe('Left inner');
  });

  it('a reading shared by all four pads is labelled once', () => {
    const labels = textsOf(ofClass(chartOf('four pads alike, replacement in between'), 'labels')[0]!);
    expect(labels).toEqual(['All four', '5.0']);
  });

  it('the forecast ends on the limit at the dates of the answer, with three rows of text', () => {
    const name = 'usual, one pad wears faster';
    const root = chartOf(name);
    const { date } = drawn(name).picture.wear.replacement;
    const [y, x] = [mmScale(root), dayScale(root, 'ahead')];
    const [thin, thick, tick] = descendants(ofClass(root, 'outcome')[0]!).filter(
      ({ name: kind }) => kind === 'rect',
    );
    const span = ({ attributes: at }: Placed): [number, number] => [
      Number(at.x),
      Number(at.x) + Number(at.width),
    ];
    const day = (quantile: keyof NonNullable<typeof date>): number => toDay(date![quantile]!);
    near(span(thin!)[0], x(day('early')));
    near(span(thin!)[1], x(day('late')));
    near(span(thick!)[0], x(day('lowerQuartile')));
    near(span(thick!)[1], x(day('upperQuartile')));
    near((span(tick!)[0] + span(tick!)[1]) / 2, x(day('early')));
    near(Number(thin!.attributes.y), y(3), 6);
    expect(textsOf(ofClass(root, 'outcome')[0]!)).toEqual([
      `fit before ${shortDate(day('early'))}`,
      `50 % ${shortDate(day('lowerQuartile'))} – ${shortDate(day('upperQuartile'))}`,
      `80 % ${shortDate(day('early'))} – ${shortDate(day('late'))}`,
    ]);
  });

  it('a rotor is drawn to its discard thickness, with what is left when the pads are due', () => {
    const name = 'usual, one pad wears faster';
    const root = chartOf(name, 'counterparts');
    const { rotors } = drawn(name).picture.wear;
    const first = [...rotors].sort((a, b) => a.date!.early!.localeCompare(b.date!.early!))[0]!;
    const early = toDay(first.date!.early!);
    expect(textsOf(root)).toContain(
      `at discard from ${shortDate(early, precisionOf({ early, late: first.date!.late! }))}`,
    );
    expect(textsOf(root)).toContain(`pads due: ${first.marginAtPadReplacementMm!.median.toFixed(2)} mm left`);
    expect(textsOf(root)).toEqual(expect.arrayContaining(['Discard at 26 mm', 'machine to 26.4 mm']));
  });

  it('a drum grows upwards to its maximum', () => {
    const root = chartOf('drum: shoes and diameter', 'counterparts');
    const y = mmScale(root);
    expect(y(327)).toBeLessThan(y(325));
    const marks = marksOf(ofClass(root, 'readings')[0]!);
    expect(Math.min(...marks.map((mark) => mark.y))).toBeGreaterThan(y(327));
    expect(textsOf(root).join(' ')).toMatch(
      /at maximum from .* Maximum 327 mm|Maximum 327 mm .* at maximum from/,
    );
  });

  it('overdue, under the limit and beyond 30 years are labelled as such', () => {
    expect(textsOf(chartOf('overdue by the forecast')).join(' ')).toMatch(/probably at its limit since \d/);
    const under = ofClass(chartOf('under the limit'), 'outcome')[0]!;
    expect(textsOf(under)).toEqual(['Under its limit on 1 Sep 2026']);
    const beyond = ofClass(chartOf('not expected within 30 years'), 'outcome')[0]!;
    expect(textsOf(beyond)).toEqual(['Not expected within 30 years']);
  });

  it('the chart uses one time scale if there is room, and otherwise states the difference of the two', () => {
    expect(textsOf(chartOf('one reading only')).filter((text) => text.startsWith('time'))).toEqual([]);
    const split = chartOf('usual, one pad wears faster');
    const [past, ahead] = [dayScale(split, 'past'), dayScale(split, 'ahead')];
    const factor = (ahead(100) - ahead(0)) / (past(100) - past(0));
    expect(factor).toBeGreaterThan(1.5);
    expect(textsOf(split)).toContain(`time × ${Math.round(factor)}`);
  });

  it('only the governing pad is marked where visits crowd', () => {
    const { picture } = drawn('two hundred visits on one set');
    const marks = marksOf(ofClass(chartOf('two hundred visits on one set'), 'readings')[0]!);
    const { fan, positions } = picture.panels[0]!;
    expect(marks).toHaveLength(positions[fan!.position]!.lives.at(-1)!.readings.length);
  });

  it('the present set and the one before are shown, and the number of omitted sets is stated', () => {
    const root = chartOf('just fitted, nothing read since');
    expect(textsOf(root)).toEqual(
      expect.arrayContaining(['Not measured since they were fitted.', '1 earlier set is not drawn.']),
    );
  });

  it('the chart without measurements is a sentence', () => {
    const { charts } = drawn('never measured');
    expect(charts.map(({ drawings }) => drawings)).toEqual([null, null]);
    expect(charts[0]!.silence).toBe(
      'No chart and no forecast: none of these shoes has been measured since they were fitted, Oct 2024.',
    );
  });

  it('limits of one side are drawn for that side, and without a limit there is no forecast', () => {
    expect(textsOf(chartOf('one side replaced'))).toContain('New pads, left 18 Aug 2025');
    const without = chartOf('no limit known');
    expect(ofClass(without, 'forecast')).toEqual([]);
    expect(textsOf(without).join(' ')).toMatch(/No limit is known/);
    expect(ofClass(chartOf('no odometer'), 'forecast')).not.toEqual([]);
  });

  it('distances are marked where the vehicle had driven them', () => {
    const root = chartOf('usual, one pad wears faster');
    const x = dayScale(root, 'past');
    const tick = wordsOf(root).find(({ text }) => text === '20,000')!;
    // Between the visits at 17,100 km and 21,900 km.
    const days = toDay('2026-08-18') - toDay('2026-06-24');
    near(tick.x, x(toDay('2026-06-24') + (days * 2900) / 4800), 1.5);
  });

  const all = [...CASES.keys()].flatMap((name) => LAYOUTS.map(({ name: layout }) => [name, layout] as const));
  it.each(all)('no text leaves the chart or overlaps another: %s, %s', (name, layout) => {
    for (const { drawings } of drawn(name).charts) {
      if (!drawings) continue;
      const svg = drawings[layout];
      expect(svg).not.toMatch(/NaN|undefined|Infinity|\sstyle=|<script|https?:\/\/(?!www\.w3\.org)/);
      const root = placed(parseXml(svg));
      const { width } = LAYOUTS.find((each) => each.name === layout)!;
      expect(root.attributes.width).toBe(String(width));
      const boxes = wordsOf(root).map(boxOf);
      for (const box of boxes) {
        expect(box.left, box.text).toBeGreaterThanOrEqual(-1);
        expect(box.right, box.text).toBeLessThanOrEqual(width + 2);
        const over = boxes.filter(
          (other) =>
            other !== box &&
            other.left < box.right &&
            box.left < other.right &&
            other.top < box.bottom &&
            box.top < other.bottom,
        );
        expect(
          over.map(({ text }) => text),
          box.text,
        ).toEqual([]);
      }
    }
  });

  it.each(all)('no line but a hairline runs through a label: %s, %s', (name, layout) => {
    for (const { drawings } of drawn(name).charts) {
      if (!drawings) continue;
      const root = placed(parseXml(drawings[layout]));
      const boxes = wordsOf(root).map(boxOf);
      for (const { group, points } of linesOf(root)) {
        const through = boxes.filter(({ text, left, right, top, bottom }) => {
          if (group === 'whiskers' && interrupting(root).includes(text)) return false;
          return points.some(([x, y]) => x > left && x < right && y > top && y < bottom);
        });
        expect(
          through.map(({ text }) => text),
          group,
        ).toEqual([]);
      }
    }
  });

  /** The labels that are drawn over the whiskers, on a ground of their own, so that a whisker passes behind them. */
  function interrupting(root: Placed): string[] {
    const groups = descendants(root).map(({ attributes }) => attributes.class);
    return ['limits', 'events']
      .filter((name) => groups.indexOf('whiskers') < groups.indexOf(name))
      .flatMap((name) => descendants(ofClass(root, name)[0]!))
      .filter(({ name, attributes }) => name === 'text' && attributes['paint-order'] === 'stroke')
      .map(({ text }) => text);
  }

  /** Every line except hairlines as points a pixel apart, as far as it is not clipped. */
  function linesOf(root: Placed): { group: string; points: [number, number][] }[] {
    const found: { group: string; points: [number, number][] }[] = [];
    const visit = (element: Placed, group: string, clip: Record<string, string> | null): void => {
      const { attributes: at, name } = element;
      if (name === 'path' && at.fill === 'none' && at.class !== 's-hair')
        found.push({ group, points: pointsOf(at.d!).filter((point) => !clip || isWithin(point, clip)) });
      const own = name === 'svg' && element !== root ? at : clip;
      for (const child of element.children) visit(child, name === 'g' ? at.class! : group, own);
    };
    visit(root, '', null);
    return found;
  }

  const isWithin = ([x, y]: [number, number], { x: left, y: top, width, height }: Record<string, string>) =>
    x >= Number(left) &&
    x <= Number(left) + Number(width) &&
    y >= Number(top) &&
    y <= Number(top) + Number(height);

  function pointsOf(path: string): [number, number][] {
    const corners = [...path.matchAll(/([ML])(-?[\d.]+) (-?[\d.]+)/g)].map(([, kind, x, y]) => ({
      isFirst: kind === 'M',
      at: [Number(x), Number(y)] as [number, number],
    }));
    return corners.flatMap(({ isFirst, at: [x, y] }, index) => {
      if (isFirst) return [];
      const [fromX, fromY] = corners[index - 1]!.at;
      const steps = Math.max(1, Math.ceil(Math.hypot(x - fromX, y - fromY)));
      return Array.from({ length: steps + 1 }, (_, step): [number, number] => [
        fromX + ((x - fromX) * step) / steps,
        fromY + ((y - fromY) * step) / steps,
      ]);
    });
  }

  /** Slightly smaller than in most typefaces, so that only true overlaps count. */
  function boxOf({ text, x, y, anchor, size }: Words) {
    const width = text.length * size * 0.48;
    const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
    return { text, left, right: left + width, top: y - size * 0.66, bottom: y };
  }
});

describe('the chart of an axle as one file', () => {
  it('the chart of an axle as one file shows the vehicle’s name, both charts and the texts that belong to neither', () => {
    const { picture, history } = CASES.get('usual, one pad wears faster')!;
    const svg = wearSvg(picture, history.vehicle);
    const texts = textsOf(placed(parseXml(svg)));
    expect(texts[0]).toBe('Front brakes of KR 6482, V-1');
    expect(texts).toEqual(expect.arrayContaining(['Front pads', 'Front rotors']));
    expect(texts.join(' ')).toContain('no chart says that a vehicle is fit to drive');
    expect(svg).not.toMatch(/NaN|undefined|\sstyle=|<script/);
    expect(toFullDate(picture.today)).toBe('2026-11-29');
  });
});
