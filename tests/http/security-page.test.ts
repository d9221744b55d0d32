import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startService, type Service } from '../support/service.js';

const root = new URL('../../', import.meta.url);
const textOf = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const page = textOf('docs/security.md');
const sections = page.split(/^## /m).slice(1);
const TEST = /^- `(tests\/\S+\.test\.ts)`: `(.+)`$/gm;
const testsIn = (text: string) =>
  [...text.matchAll(TEST)].map(([, file, title]) => ({ file: file!, title: title! }));

describe('docs/security.md', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.close());

  it('the page has every item of the list, each with a test', () => {
    const items = sections.filter((section) => section.startsWith('API'));
    expect(items.map((item) => item.split(' ')[0])).toEqual(
      Array.from({ length: 10 }, (_, index) => `API${index + 1}`),
    );
    for (const item of items)
      expect([item.split('\n')[0], testsIn(item).length > 0]).toEqual([item.split('\n')[0], true]);
  });

  it('the page names only tests that exist, by file and title', () => {
    const named = testsIn(page);
    expect(named.length).toBe(page.split('\n').filter((line) => line.startsWith('- ')).length);
    const missing = named.filter(({ file, title }) => !textOf(file).includes(`'${title}'`));
    expect(missing).toEqual([]);
  });

  it('the page names every operation that takes an address to call', () => {
    const taking = Object.entries(service.contract.document.paths).flatMap(([path, methods]) =>
      Object.entries(methods)
        .filter(([, { requestBody }]) =>
          Object.values(requestBody?.content ?? {}).some(({ schema }) => takesAddress(schema)),
        )
        .map(([method]) => `${method.toUpperCase()} ${path}`),
    );
    const [section] = sections.filter((text) => text.startsWith('API7'));
    const said = /Operations that take an address to call: (.+)\.$/m.exec(section!)![1]!;
    expect(said === 'none' ? [] : said.split(', ').map((name) => name.replaceAll('`', ''))).toEqual(taking);
  });

  /** Whether a body has a member that is a URL, at any depth. */
  function takesAddress(schema: unknown, seen = new Set<string>()): boolean {
    if (typeof schema !== 'object' || schema === null) return false;
    const { $ref: reference, format } = schema as { $ref?: string; format?: string };
    if (format === 'uri' || format === 'url') return true;
    if (reference !== undefined && !seen.has(reference)) {
      seen.add(reference);
      if (takesAddress(service.contract.document.components.schemas[reference.split('/').at(-1)!], seen))
        return true;
    }
    return Object.entries(schema).some(
      ([name, member]) => (/url$/i.test(name) && typeof member === 'object') || takesAddress(member, seen),
    );
  }
});
