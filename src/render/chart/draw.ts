import { html } from 'ghtml';

/**
 * SVG building blocks. Each has its light-theme colour as an attribute, so that a chart works without styles, and a
 * class with which the pages' stylesheet sets the page's colour.
 */

const COLOURS = {
  ink: '#15151a',
  soft: '#4c4c58',
  rule: '#7d7d89',
  hair: '#d8d8df',
  paper: '#ffffff',
  accent: '#45349e',
  'fan-50': '#968bd4',
  'fan-80': '#dcd8f4',
} as const;
export type Colour = keyof typeof COLOURS;

const fill = (colour: Colour): string => `class="f-${colour}" fill="${COLOURS[colour]}"`;
const stroke = (colour: Colour): string => `class="s-${colour}" stroke="${COLOURS[colour]}"`;

/** A number rounded to screen precision. */
const px = (value: number): string => String(Math.round(value * 10) / 10 + 0);

export type XY = readonly [x: number, y: number];

export interface LineStyle {
  colour: Colour;
  width?: number;
  dash?: string;
}

const pathOf = (points: readonly XY[]): string =>
  points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('');

/** Lines with the same style, as one path. */
export function lines(strokes: readonly (readonly XY[])[], { colour, width = 1, dash }: LineStyle): string {
  const drawn = strokes.filter((points) => points.length > 1);
  if (drawn.length === 0) return '';
  return `<path d="${drawn.map(pathOf).join('')}" fill="none" ${stroke(colour)}${
    width === 1 ? '' : ` stroke-width="${width}"`
  }${dash ? ` stroke-dasharray="${dash}"` : ''}/>`;
}

export const line = (points: readonly XY[], style: LineStyle): string => lines([points], style);

export const area = (points: readonly XY[], colour: Colour): string =>
  `<path d="${pathOf(points)}Z" ${fill(colour)}/>`;

export const box = (x: number, y: number, width: number, height: number, colour: Colour): string =>
  `<rect x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${px(height)}" ${fill(colour)}/>`;

export interface MarkStyle {
  shape: 'round' | 'square' | 'diamond';
  isFilled: boolean;
  colour: Colour;
  radius: number;
}

/** The mark of a reading: round, square or diamond, filled or open. */
export function mark([x, y]: XY, { shape, isFilled, colour, radius }: MarkStyle): string {
  const inside = isFilled ? colour : 'paper';
  const colours = `class="f-${inside} s-${colour}" fill="${COLOURS[inside]}" stroke="${COLOURS[colour]}"`;
  if (shape === 'round')
    return `<circle cx="${px(x)}" cy="${px(y)}" r="${radius}" ${colours} stroke-width="1.3"/>`;
  if (shape === 'diamond') {
    const reach = radius * 1.25;
    const path = `M${px(x - reach)} ${px(y)}L${px(x)} ${px(y - reach)}L${px(x + reach)} ${px(y)}L${px(x)} ${px(y + reach)}Z`;
    return `<path d="${path}" ${colours} stroke-width="1.3"/>`;
  }
  const side = radius * 1.8;
  return `<rect x="${px(x - side / 2)}" y="${px(y - side / 2)}" width="${px(side)}" height="${px(side)}" ${colours} stroke-width="1.3"/>`;
}

export interface TextStyle {
  colour?: Colour;
  anchor?: 'start' | 'middle' | 'end';
  bold?: boolean;
  size?: number;
  /** A paper-coloured outline around letters, for text over lines. */
  halo?: boolean;
}

export function text(
  [x, y]: XY,
  words: string,
  { colour = 'ink', anchor = 'start', bold = false, size = 12, halo = false }: TextStyle = {},
): string {
  const attributes = [
    `x="${px(x)}" y="${px(y)}" ${halo ? `class="f-${colour} s-paper" fill="${COLOURS[colour]}" stroke="${COLOURS.paper}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"` : fill(colour)}`,
    anchor === 'start' ? '' : `text-anchor="${anchor}"`,
    bold ? 'font-weight="700"' : '',
    size === 12 ? '' : `font-size="${size}"`,
  ];
  return html`<text !${attributes.filter(Boolean).join(' ')}>${words}</text>`;
}

/** Named group of elements. */
export const group = (name: string, inner: string): string =>
  inner === '' ? '' : `<g class="${name}">${inner}</g>`;

/** Clips its content to a rectangle. */
export const clipped = (x: number, y: number, width: number, height: number, inner: string): string =>
  `<svg x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${px(height)}" viewBox="${px(x)} ${px(y)} ${px(width)} ${px(height)}">${inner}</svg>`;

const HATCH_APART = 7;

/** Slanting lines over an area. */
export function hatch(x: number, y: number, width: number, height: number): string {
  const strokes: XY[][] = [];
  for (let at = x - height; at < x + width; at += HATCH_APART)
    strokes.push([
      [at, y + height],
      [at + height, y],
    ]);
  return clipped(x, y, width, height, lines(strokes, { colour: 'hair' }));
}

export interface Drawing {
  inner: string;
  width: number;
  height: number;
}

/** A complete SVG document, with a text alternative. */
export function svgOf(
  { inner, width, height }: Drawing,
  { id, title, description }: { id: string; title: string; description: string },
): string {
  return html`<svg
    xmlns="http://www.w3.org/2000/svg"
    width="${width}"
    height="${px(height)}"
    viewBox="0 0 ${width} ${px(height)}"
    font-family="Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"
    font-size="12"
    role="img"
    aria-labelledby="${id}-title"
    aria-describedby="${id}-words"
  >
    <title id="${id}-title">${title}</title>
    <desc id="${id}-words">${description}</desc>
    !${inner}
  </svg>`;
}
