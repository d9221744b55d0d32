import type { AxlePicture } from '../core/assessment/pictureShape.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import { capital, onAxle, vehicleName } from '../core/words.js';
import { drawPanel, isDrawn, panelName, silence } from './chart/chart.js';
import { svgOf, text, type Drawing } from './chart/draw.js';
import { LAYOUTS, type Layout } from './chart/frame.js';
import { wrapped } from './chart/letters.js';
import { DISCLAIMER, panelInWords, pictureInWords } from './wearWords.js';

/** The charts of an axle: one renderer for pages, print and the picture in the API. */

/** A chart of one kind of part, or why there is none. */
export interface PartChart {
  name: string;
  /** One drawing per layout; null if there is nothing to draw. */
  drawings: Record<Layout['name'], string> | null;
  silence: string;
}

export function partCharts(picture: AxlePicture, vehicle: VehicleBody): PartChart[] {
  return picture.panels.map((panel): PartChart => {
    const name = panelName(picture, panel);
    if (!isDrawn(panel)) return { name, drawings: null, silence: silence(picture, panel) };
    const drawings = LAYOUTS.map((layout) => {
      const svg = svgOf(drawPanel(picture, panel, layout), {
        id: `${picture.axle}-${panel.part}-${layout.name}`,
        title: `${name} of ${vehicleName(vehicle)}: readings and forecast`,
        description: panelInWords(picture, panel),
      });
      return [layout.name, svg] as const;
    });
    return { name, drawings: Object.fromEntries(drawings) as PartChart['drawings'], silence: '' };
  });
}

const MARGIN = 16;
const [WIDE] = LAYOUTS as [Layout];

/** Both charts of an axle as one self-contained picture that names its vehicle. */
export function wearSvg(picture: AxlePicture, vehicle: VehicleBody): string {
  const name = `${capital(onAxle('brakes', picture.axle))} of ${vehicleName(vehicle)}`;
  const parts: string[] = [text([0, 18], name, { bold: true, size: 18 })];
  let y = 40;
  for (const panel of picture.panels) {
    const drawn = isDrawn(panel)
      ? drawPanel(picture, panel, WIDE)
      : sentence(panelName(picture, panel), silence(picture, panel));
    parts.push(`<g transform="translate(0 ${y})">${drawn.inner}</g>`);
    y += drawn.height + 24;
  }
  const closing = wrapped(DISCLAIMER, WIDE.width);
  parts.push(...closing.map((line, index) => text([0, y + index * 16], line, { colour: 'soft' })));
  const height = y + closing.length * 16 + MARGIN;
  const inner = `<rect width="100%" height="100%" fill="#ffffff"/><g transform="translate(${MARGIN} ${MARGIN})">${parts.join('')}</g>`;
  return svgOf(
    { inner, width: WIDE.width + 2 * MARGIN, height: Math.round(height + MARGIN) },
    {
      id: `wear-${picture.axle}`,
      title: `${name}: readings and forecast`,
      description: pictureInWords(picture),
    },
  );
}

/** Shown if nothing can be drawn. */
function sentence(name: string, words: string): Drawing {
  const rows = wrapped(words, WIDE.width);
  const inner = [
    text([0, 13], name, { bold: true, size: 13 }),
    ...rows.map((row, index) => text([0, 32 + index * 16], row)),
  ];
  return { inner: inner.join(''), width: WIDE.width, height: 32 + rows.length * 16 };
}
