import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';

const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  'CONTRIBUTING.md',
  'SECURITY.md',
  ...readdirSync('docs', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];
const LINK = /\]\(([^)\s]+)\)/g;

const linksOf = (page: string): string[] =>
  [...readFileSync(page, 'utf8').matchAll(LINK)]
    .map(([, target]) => target!)
    .filter((target) => !target.includes('://'));

/** The anchor of a heading in the rendered page. */
const anchorsOf = (page: string): string[] =>
  [...readFileSync(page, 'utf8').matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
    heading!
      .toLowerCase()
      .replace(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-'),
  );

describe('the links of the documentation', () => {
  it.each(PAGES)('every link in %s leads to an existing file and heading', (page) => {
    for (const link of linksOf(page)) {
      const [target, anchor] = link.split('#') as [string, string?];
      const file = target === '' ? page : join(dirname(page), target);
      expect(existsSync(file), link).toBe(true);
      if (anchor !== undefined) expect(anchorsOf(file), link).toContain(anchor);
    }
  });

  it('the index links to every page', () => {
    const listed = linksOf('docs/README.md').map((link) => join('docs', link));
    expect(
      PAGES.filter((page) => page.startsWith('docs/') && page !== 'docs/README.md' && !listed.includes(page)),
    ).toEqual([]);
  });
});
