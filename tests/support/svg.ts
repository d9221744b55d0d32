import assert from 'node:assert/strict';

/** Reads an SVG as any XML reader would: an unclosed element, or a closing tag without an opening one, is refused. */

export interface Element {
  name: string;
  attributes: Record<string, string>;
  children: Element[];
  text: string;
}

const ENTITIES: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"', '#39': "'" };

function unescaped(text: string): string {
  return text.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    const code = /^#(\d+)$/.exec(name)?.[1];
    assert.ok(whole.endsWith(';') && (code !== undefined || name in ENTITIES), `no such entity: ${whole}`);
    return code === undefined ? ENTITIES[name]! : String.fromCodePoint(Number(code));
  });
}

export function parseXml(xml: string): Element {
  const root: Element = { name: '', attributes: {}, children: [], text: '' };
  const open = [root];
  const token = /<(\/?)([A-Za-z][\w:-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
  let end = 0;
  for (const match of xml.matchAll(token)) {
    const [whole, closing, name, attributes, closed, text] = match;
    end = match.index + whole.length;
    const parent = open.at(-1)!;
    if (text !== undefined) parent.text += unescaped(text);
    else if (closing) assert.equal(open.pop()!.name, name, `</${name}> closes what is not open`);
    else {
      const pairs = [...attributes!.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [
        key!,
        unescaped(value!),
      ]);
      assert.equal(new Set(pairs.map(([key]) => key)).size, pairs.length, `<${name}> has an attribute twice`);
      const element: Element = { name: name!, attributes: Object.fromEntries(pairs), children: [], text: '' };
      parent.children.push(element);
      if (!closed) open.push(element);
    }
  }
  assert.equal(end, xml.length, `not XML: ${xml.slice(end, end + 60)}`);
  assert.equal(open.length, 1, `${open.at(-1)!.name} is not closed`);
  assert.equal(root.children.length, 1);
  return root.children[0]!;
}

/** An element with the position of its own origin in the picture. */
export interface Placed extends Element {
  x: number;
  y: number;
  children: Placed[];
}

export function placed(element: Element, x = 0, y = 0): Placed {
  const [, dx = '0', dy = '0'] =
    /translate\(([^,]+),([^)]+)\)/.exec(element.attributes.transform ?? '') ?? [];
  const at = { x: x + Number(dx), y: y + Number(dy) };
  return { ...element, ...at, children: element.children.map((child) => placed(child, at.x, at.y)) };
}

export function descendants<Kind extends Element>(element: Kind): Kind[] {
  return [element, ...element.children.flatMap((child) => descendants(child as Kind))];
}

export const ofClass = <Kind extends Element>(root: Kind, name: string): Kind[] =>
  descendants(root).filter(({ attributes }) => attributes.class?.split(' ').includes(name));

/** A text with its position: the place of its anchor, and which side of the text is there. */
export interface Words {
  text: string;
  x: number;
  y: number;
  anchor: string;
  size: number;
  bold: boolean;
  colour: string;
}

export const wordsOf = (root: Placed): Words[] =>
  descendants(root)
    .filter(({ name, text }) => name === 'text' && text !== '')
    .map(({ x, y, text, attributes }) => ({
      text,
      x: x + Number(attributes.x ?? 0),
      y: y + Number(attributes.y ?? 0),
      anchor: attributes['text-anchor'] ?? 'start',
      size: Number(attributes['font-size'] ?? 12),
      bold: attributes['font-weight'] === '700',
      colour: attributes.fill ?? '',
    }));

/** The positions of readings' marks: the centres of circles and squares. */
export const marksOf = (root: Placed): { x: number; y: number; isFilled: boolean; isRound: boolean }[] =>
  descendants(root)
    .filter(
      ({ name, attributes }) => name === 'circle' || (name === 'rect' && attributes.stroke !== undefined),
    )
    .map(({ name, attributes: at }) => {
      const isRound = name === 'circle';
      const [x, y] = isRound
        ? [Number(at.cx), Number(at.cy)]
        : [Number(at.x) + Number(at.width) / 2, Number(at.y) + Number(at.height) / 2];
      return { x: x!, y: y!, isRound, isFilled: at.fill !== '#ffffff' };
    });

/** A chart's thickness scale, read from the labels of its axis. */
export function mmScale(root: Placed): (mm: number) => number {
  const labels = wordsOf(ofClass(root, 'axes')[0]!).filter(
    ({ anchor, text }) => anchor === 'end' && /^\d+(\.\d+)?$/.test(text),
  );
  return lineThrough(labels.map(({ text, y }) => ({ value: Number(text), at: y - 4 })));
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** The days of the dates below one half of a chart, as a scale of its pixels. */
export function dayScale(root: Placed, half: 'past' | 'ahead'): (day: number) => number {
  const all = wordsOf(ofClass(root, 'axes')[0]!);
  const lowest = Math.max(...all.map(({ y }) => y));
  const colour = half === 'past' ? '#15151a' : '#45349e';
  let year = '';
  const ticks = all
    .filter((each) => each.y === lowest && each.colour === colour)
    .map(({ text, x }) => {
      year = /\d{4}$/.exec(text)?.[0] ?? year;
      const month = MONTHS.findIndex((name) => text.includes(name));
      const day = /^(\d{1,2}) /.exec(text)?.[1] ?? '1';
      return { value: Date.UTC(Number(year), Math.max(0, month), Number(day)) / 86_400_000, at: x };
    });
  return lineThrough(ticks);
}

function lineThrough(ticks: readonly { value: number; at: number }[]): (value: number) => number {
  assert.ok(ticks.length >= 2, 'an axis needs two labels to be read');
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  const perUnit = (last.at - first.at) / (last.value - first.value);
  return (value) => first.at + (value - first.value) * perUnit;
}
