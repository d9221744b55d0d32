import { describe, expect, it } from 'vitest';
import { outlookFor, wearAnswer } from '../../src/core/assessment/outlook.js';
import { axlePicture, type AxlePicture, type Panel } from '../../src/core/assessment/picture.js';
import { toDay } from '../../src/core/calendar.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import type { Axle } from '../../src/core/vocabulary/terms.js';
import type { AxleWear } from '../../src/core/vocabulary/wear.js';
import { wearDrawing, wearSvg } from '../../src/render/wearSvg.js';
import {
  DISC_AXLE,
  fourPads,
  historyOf,
  km,
  mm,
  POLICY,
  rotorReadings,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';
import {
  descendants,
  marksOf,
  ofClass,
  parseXml,
  placed,
  pointsOf,
  scaleOf,
  type Placed,
} from '../support/svg.js';

const TODAY = '2026-03-10';
const IN_SERVICE = { date: '2023-05-04', odometer: km(12) };
const experience = startingExperience({ steeredOrFront: true, regenerative: false });

interface Drawn {
  picture: AxlePicture;
  wear: AxleWear;
  svg: string;
  root: Placed;
}

async function draw(
  vehicle: VehicleDraft,
  visits: readonly VisitDraft[],
  axle: Axle = 'front',
  today = TODAY,
): Promise<Drawn> {
  const history = historyOf(vehicle, visits);
  const answer = wearAnswer(
    'v',
    outlookFor(history, () => experience, POLICY),
    { today, until: null },
  );
  const picture = axlePicture(history, answer, axle, today)!;
  const svg = await wearSvg(wearDrawing(picture, history.vehicle));
  return { picture, wear: picture.wear, svg, root: placed(parseXml(svg)) };
}

const plotOf = (root: Placed, part: Panel['part']): Placed => ofClass(root, `plot-${part}`)[0]!;
const yScale = (plot: Placed) => scaleOf(plot, 'left', Number);
const xScale = (plot: Placed) => scaleOf(plot, 'bottom', toDay);
const textsOf = (root: Placed): string[] =>
  descendants(root)
    .filter(({ name }) => name === 'text')
    .map(({ text }) => text);
const near = (value: number, wanted: number): void => expect(Math.abs(value - wanted)).toBeLessThan(1);

const VAN: VehicleDraft = { registration: 'KR 4471', inService: IN_SERVICE, axles: { front: DISC_AXLE } };
const VISITS: VisitDraft[] = [
  {
    date: '2024-03-04',
    odometer: km(20_000),
    readings: [...fourPads([8.5, 9, 8.7, 9.1]), ...rotorReadings('left', [27.6, 27.55])],
  },
  {
    date: '2025-01-07',
    odometer: km(41_000),
    readings: [...fourPads([6.1, 7, 6.4, 7.2]), ...rotorReadings('left', [27.2, 27.1])],
  },
  {
    date: '2026-03-02',
    odometer: km(61_000),
    readings: [
      ...fourPads([4.2, 5.2, 4.6, 5.3], { gauge: 'pad-gauge' }),
      ...rotorReadings('left', [26.9, 26.8]),
    ],
  },
];

describe('a picture of an axle', () => {
  it('is a picture with a title and a description in words and numbers', async () => {
    const { root, wear } = await draw(VAN, VISITS);
    expect(root.name).toBe('svg');
    expect(root.attributes).toMatchObject({ role: 'img', width: '600' });
    const byId = new Map(descendants(root).map((element) => [element.attributes.id, element]));
    const title = byId.get(root.attributes['aria-labelledby'])!;
    const words = byId.get(root.attributes['aria-describedby'])!;
    expect([title.name, words.name]).toEqual(['title', 'desc']);
    expect(title.text).toContain('KR 4471');
    const { early, median, late } = wear.replacement.date!;
    for (const said of [
      early,
      median,
      late,
      'Left inner: 3 readings',
      '4.2 mm',
      'discard at 26 mm',
      '26.8 mm',
    ])
      expect(words.text.toLowerCase()).toContain(said!.toLowerCase());
    expect(words.text).toContain('no picture says that a vehicle is fit to drive');
    expect(words.text).not.toMatch(/\bsafe\b|undefined|NaN|null/);
  });

  it('has a mark and a gauge interval for every reading, where its value and date are on the axes', async () => {
    const { root, picture } = await draw(VAN, VISITS);
    const [pads] = picture.panels;
    const plot = plotOf(root, 'pads');
    const [x, y] = [xScale(plot), yScale(plot)];
    const marks = marksOf(plot, 'readings-pads');
    const intervals = marksOf(plot, 'gauge-intervals-pads');
    const told = VISITS.flatMap(({ date, readings }) =>
      readings!
        .filter(({ kind }) => kind === 'pad-thickness')
        .map(({ value, gauge }) => ({ date, value, gauge })),
    );
    expect(marks).toHaveLength(told.length);
    expect(intervals).toHaveLength(told.length);
    const inOrder = pads!.positions.flatMap((_, position) =>
      VISITS.map((_visit, visit) => told[visit * 4 + position]!),
    );
    inOrder.forEach(({ date, value, gauge }, index) => {
      near(marks[index]!.y, y(value));
      // A visit's four marks stand 5 px apart about its date.
      near(marks[index]!.x, x(toDay(date)) + (Math.floor(index / 3) - 1.5) * 5);
      const u = gauge === 'depth-gauge' ? 0.05 : 0.5 / Math.sqrt(12);
      const length = Math.abs(Number(intervals[index]!.attributes.y2));
      near(length, y(value - 1.96 * u) - y(value + 1.96 * u));
    });
    expect(marksOf(plotOf(root, 'rotors'), 'readings-rotors')).toHaveLength(3);
    near(marksOf(plotOf(root, 'rotors'), 'readings-rotors')[2]!.y, yScale(plotOf(root, 'rotors'))(26.8));
  });

  it('draws the limit at its height, and the forecast down to it on the dates of the answer', async () => {
    const { root, wear } = await draw(VAN, VISITS);
    const plot = plotOf(root, 'pads');
    const [x, y] = [xScale(plot), yScale(plot)];
    const [limit] = marksOf(plot, 'limits-pads');
    near(limit!.y, y(2));
    const { governingPad, date } = wear.replacement;
    const pad = wear.pads.find((each) => each.side === governingPad!.side && each.pad === governingPad!.pad)!;
    const ends = { low: date!.early!, median: date!.median!, high: date!.late! };
    for (const [name, day] of Object.entries(ends)) {
      const [from, to] = pointsOf(marksOf(plot, `band-${name}-pads`)[0]!);
      near(from!.x, x(toDay('2026-03-02')));
      near(from!.y, y(2 + pad.remainingMm![name as keyof typeof ends]));
      near(to!.x, x(toDay(day)));
      near(to!.y, limit!.y);
    }
    const drops = marksOf(plot, 'dates-pads').map((drop) => drop.x);
    Object.values(ends).forEach((day, index) => near(drops[index]!, x(toDay(day))));
    for (const day of Object.values(ends)) expect(textsOf(plot).join(' ')).toContain(day);
    expect(textsOf(plot)).toContain('limit 2 mm, maker’s figure');
  });

  it('ends a rotor’s forecast at the margin of the answer on the day the pads are used up', async () => {
    const { root, wear } = await draw(VAN, VISITS);
    const plot = plotOf(root, 'rotors');
    const [, end] = pointsOf(marksOf(plot, 'band-median-rotors')[0]!);
    near(end!.x, xScale(plot)(toDay(wear.replacement.date!.median!)));
    near(end!.y, yScale(plot)(26 + wear.rotors[0]!.marginAtPadReplacementMm!.median));
    const limits = marksOf(plot, 'limits-rotors').map((line) => line.y);
    near(limits[0]!, yScale(plot)(26));
    near(limits[1]!, yScale(plot)(26.4));
    expect(textsOf(plot)).toEqual(expect.arrayContaining(['discard at 26 mm', 'machine to 26.4 mm']));
  });

  it('ends a trend where the answer says the pad stands, and begins it at fitting', async () => {
    const { picture, wear } = await draw(VAN, VISITS);
    const [leftInner] = picture.panels[0]!.positions;
    const line = leftInner!.trends[0]!;
    expect(line[0]).toEqual({ day: toDay('2023-05-04'), mm: 11 });
    expect(line.at(-1)).toEqual({ day: toDay('2026-03-02'), mm: 2 + wear.pads[0]!.remainingMm!.median });
    // Straight by distance: at 20,000 of the 60,988 km driven.
    const share = (20_000 - 12) / (61_000 - 12);
    expect(line[1]!.mm).toBeCloseTo(11 + share * (line.at(-1)!.mm - 11), 9);
  });

  it('stands its distance axis on the road as driven', async () => {
    const { root } = await draw(VAN, VISITS);
    const plot = plotOf(root, 'pads');
    const x = xScale(plot);
    const at20 = marksOf(plot, 'distance-labels').find(({ text }) => text === '20,000')!;
    near(at20.x, x(toDay('2024-03-04')));
    const days = toDay('2026-03-02') - toDay('2025-01-07');
    const at60 = marksOf(plot, 'distance-labels').find(({ text }) => text === '60,000')!;
    near(at60.x, x(toDay('2025-01-07') + (days * 19) / 20));
  });

  it('tells positions apart by shape, dash and letters, without any colour', async () => {
    const { root, svg } = await draw(VAN, VISITS);
    expect(marksOf(root, 'codes-pads').map(({ text }) => text)).toEqual(['LI', 'LO', 'RI', 'RO']);
    const shapes = marksOf(root, 'key-pads').map(({ attributes }) => attributes.d);
    expect(new Set(shapes).size).toBe(4);
    const dashes = [0, 1, 2, 3].map(
      (index) => marksOf(root, `trend-pads-${index}-0`)[0]!.attributes['stroke-dasharray'] ?? '',
    );
    expect(new Set(dashes).size).toBe(4);
    for (const [, red, green, blue] of svg.matchAll(/#([\da-f]{2})([\da-f]{2})([\da-f]{2})\b/gi))
      expect([red, red]).toEqual([green, blue]);
    expect(svg).not.toMatch(/style=|<script|@font-face|https?:\/\/(?!www\.w3\.org)/);
  });

  it('marks what was replaced, and draws each life for itself', async () => {
    const { root, picture } = await draw(VAN, [
      ...VISITS,
      {
        date: '2026-03-05',
        odometer: km(61_200),
        work: [{ kind: 'pads-replaced', axle: 'front', new: mm(12), limit: mm(3) }],
      },
    ]);
    expect(textsOf(plotOf(root, 'pads'))).toContain('pads replaced 2026-03-05');
    const plot = plotOf(root, 'pads');
    near(marksOf(plot, 'replacements-pads')[0]!.x, xScale(plot)(toDay('2026-03-05')));
    const [position] = picture.panels[0]!.positions;
    expect(position).toMatchObject({ latest: null, stands: { day: toDay('2026-03-05') } });
    expect(position!.stands!.mm).toBeCloseTo(12, 0);
    // The limit is that of the pads now fitted, and holds from their fitting.
    expect(picture.panels[0]!.limits).toMatchObject([{ mm: 3, from: toDay('2026-03-05') }]);
    expect(position!.trends).toEqual([
      [
        expect.objectContaining({ mm: 11 }),
        expect.anything(),
        expect.anything(),
        expect.objectContaining({ mm: 4.2 }),
      ],
    ]);
  });

  it('draws one position’s other limit for itself', async () => {
    const { picture, root } = await draw(VAN, [
      ...VISITS,
      {
        date: '2026-03-05',
        odometer: km(61_200),
        work: [{ kind: 'pads-replaced', axle: 'front', side: 'left', new: mm(12), limit: mm(3) }],
      },
    ]);
    expect(picture.panels[0]!.limits.map(({ mm: at, positions }) => [at, positions])).toEqual([
      [3, ['left inner', 'left outer']],
      [2, ['right inner', 'right outer']],
    ]);
    expect(textsOf(plotOf(root, 'pads'))).toContain('left pads replaced 2026-03-05');
  });

  it('lets a drum grow towards its maximum', async () => {
    const drum: VehicleDraft = {
      inService: IN_SERVICE,
      axles: {
        rear: {
          brake: 'drum',
          shoe: { new: mm(5), limit: mm(1) },
          drum: { new: mm(228.6), maximum: mm(230), machineTo: mm(229.6) },
        },
      },
    };
    const readings = (shoe: number, diameter: number): VisitDraft['readings'] =>
      (['left', 'right'] as const).flatMap((side) => [
        { kind: 'shoe-thickness', axle: 'rear', side, shoe: 'leading', gauge: 'depth-gauge', ...mm(shoe) },
        { kind: 'drum-diameter', axle: 'rear', side, point: 1, gauge: 'drum-gauge', ...mm(diameter) },
      ]);
    const { root, wear } = await draw(
      drum,
      [
        { date: '2024-05-06', odometer: km(15_000), readings: readings(4.2, 228.8) },
        { date: '2025-12-06', odometer: km(31_000), readings: readings(3.3, 229.1) },
      ],
      'rear',
    );
    const plot = plotOf(root, 'drums');
    const y = yScale(plot);
    const marks = marksOf(plot, 'readings-drums');
    near(marks[1]!.y, y(229.1));
    expect(marks[1]!.y).toBeLessThan(marks[0]!.y);
    near(marksOf(plot, 'limits-drums')[0]!.y, y(230));
    const [, end] = pointsOf(marksOf(plot, 'band-median-drums')[0]!);
    near(end!.y, y(230 - wear.drums[0]!.marginAtShoeReplacementMm!.median));
    expect(textsOf(plot)).toEqual(expect.arrayContaining(['maximum 230 mm', 'machine to 229.6 mm']));
  });
});

describe('a picture of little', () => {
  const bare: VehicleDraft = { axles: { front: { brake: 'disc', pad: { new: mm(11), limit: mm(2) } } } };
  const rows: [string, VehicleDraft, VisitDraft[], RegExp[]][] = [
    ['no visit', bare, [], [/has been measured/, /no discard thickness is known/]],
    ['no odometer', bare, [{ date: '2025-03-03', readings: fourPads(6) }], [/no odometer reading is known/]],
    [
      'one reading',
      VAN,
      [{ date: '2025-03-03', odometer: km(20_000), readings: fourPads(6).slice(0, 1) }],
      [/^Left outer, right inner, right outer: not measured/],
    ],
    [
      'no limit',
      { axles: { front: { brake: 'disc' } } },
      [{ date: '2025-03-03', odometer: km(20_000), readings: fourPads(6) }],
      [/No limit is known/],
    ],
    [
      'a replaced odometer',
      VAN,
      [
        { date: '2025-03-03', odometer: km(20_000), readings: fourPads(6) },
        {
          date: '2025-06-03',
          odometer: km(200),
          odometerReplaced: { oldFinal: km(24_000), newStart: km(0) },
          readings: fourPads(5.7),
        },
      ],
      [/km driven since the first odometer reading \(replaced 2025-06-03\)/],
    ],
  ];
  it.each(rows)('says what is missing with %s', async (_name, vehicle, visits, said) => {
    const { root, svg, picture } = await draw(vehicle, visits);
    const texts = textsOf(root);
    for (const words of said)
      expect(texts.some((text) => words.test(text)) || words.test(texts.join(' '))).toBe(true);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    for (const { part, positions } of picture.panels) {
      const isEmpty = positions.every(({ readings, trends }) => readings.length + trends.length === 0);
      expect(ofClass(root, `plot-${part}`)).toHaveLength(isEmpty ? 0 : 1);
    }
  });

  it('draws every share at the limit where a reading fails it, and says overdue', async () => {
    const { picture, root, wear } = await draw(VAN, [
      { date: '2026-03-02', odometer: km(61_000), readings: fourPads([1, 5, 5, 5]) },
    ]);
    expect(wear.replacement.overdue).toBe(true);
    expect(picture.panels[0]!.band).toMatchObject({
      of: 'left inner',
      start: { low: 2, median: 2, high: 2 },
    });
    expect(textsOf(root)).toContain('Overdue: look at the brakes now.');
    near(marksOf(plotOf(root, 'pads'), 'readings-pads')[0]!.y, yScale(plotOf(root, 'pads'))(1));
  });

  it('stops the forecast’s late edge at the frame where that lies more than 30 years ahead', async () => {
    const { root, wear } = await draw(VAN, [
      { date: '2026-03-02', odometer: km(5000), readings: fourPads(10.2) },
    ]);
    expect(wear.replacement.date!.late).toBeNull();
    const plot = plotOf(root, 'pads');
    const end = pointsOf(marksOf(plot, 'band-high-pads')[0]!).at(-1)!;
    expect(end.x).toBeLessThan(588);
    expect(end.y).toBeLessThan(marksOf(plot, 'limits-pads')[0]!.y - 1);
    expect(textsOf(root).join(' ')).toContain('late more than 30 years ahead');
  });

  it('keeps every word on the picture and none on another', async () => {
    const { root } = await draw(VAN, VISITS);
    const boxes = descendants(root)
      .filter(({ name, attributes, text }) => name === 'text' && attributes.opacity !== '0' && text !== '')
      .map(({ x, y, text, attributes }) => {
        const size = Number.parseInt(attributes['font-size']!);
        // Somewhat narrower than most faces, so that only true overlaps count.
        const width = text.length * size * 0.5;
        const anchor = attributes['text-anchor'];
        const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
        return { text, left, right: left + width, top: y - size * 0.7, bottom: y };
      });
    for (const box of boxes) {
      expect(box.left, box.text).toBeGreaterThanOrEqual(0);
      expect(box.right, box.text).toBeLessThanOrEqual(602);
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
  });
});
