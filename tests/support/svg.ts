import assert from 'node:assert/strict';

/** Reads an SVG as any reader of XML would: what does not close, or closes what is not open, is refused. */

export interface Element {
  name: string;
  attributes: Record<string, string>;
  children: Element[];
  text: string;
}

const ENTITIES: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"', '#39': "'" };

function unescaped(text: string): string {
  return text.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    assert.ok(whole.endsWith(';') && name in ENTITIES, `no such entity: ${whole}`);
    return ENTITIES[name]!;
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

/** An element with where its own origin lies on the picture. */
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

/** The marks that one class of the picture holds. */
export const marksOf = (root: Placed, name: string): Placed[] =>
  ofClass(root, name).flatMap(({ children }) => children);

/** Where the points of a path stand on the picture. */
export function pointsOf(path: Placed): { x: number; y: number }[] {
  return [...path.attributes.d!.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => ({
    x: path.x + Number(x),
    y: path.y + Number(y),
  }));
}

/** A picture's own scale, read off the labelled ticks of one of its axes, as who looks at it does. */
export function scaleOf(
  plot: Placed,
  axis: 'left' | 'bottom',
  toNumber: (label: string) => number,
): (value: number) => number {
  const axes = ofClass(plot, 'role-axis').filter((each) => ofClass(each, 'role-axis-label').length > 0);
  const labels = ofClass(axes[axis === 'left' ? 0 : 1]!, 'role-axis-label')
    .flatMap(({ children }) => children)
    .filter(({ attributes }) => attributes.opacity !== '0');
  const along = axis === 'left' ? 'y' : 'x';
  const ticks = labels.map((label) => ({
    value: toNumber(label.text.replaceAll(',', '').replace('−', '-')),
    at: label[along],
  }));
  assert.ok(ticks.length >= 2, 'an axis needs two labels to be read');
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  const perUnit = (last.at - first.at) / (last.value - first.value);
  // A label stands a few pixels off its tick: by as much everywhere along the axis.
  const off = axis === 'left' ? -3 : 0;
  return (value) => first.at + off + (value - first.value) * perUnit;
}
