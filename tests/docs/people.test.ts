import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { format } from 'prettier';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { generateDemo } from '../../seed/generate.js';
import { DEMO_SEED, loadDemo } from '../../seed/load.js';
import { buildApp } from '../../src/app.js';
import { createKey } from '../../src/commands/keys.js';
import { openStore } from '../../src/store/open.js';
import { isShown, runInShell, shownOf, stepsOf, withAnswers, type Step } from '../support/documentPages.js';

/**
 * The documentation pages compared with the demo fleet's answers on one day. `UPDATE_PAGES=1` first writes the new
 * answers; check what it changed.
 */

const TODAY = '2026-03-10';
const clock = (): Date => new Date(`${TODAY}T12:00:00Z`);
/** Every load creates new ids. */
const ID = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;
const LAYOUT = { parser: 'json', printWidth: 110 };
/** The pages, or the part of a page between two headings, with the minimum number of answers in each. */
const PAGES: { path: string; from?: string; to?: string; minAnswers: number }[] = [
  { path: 'README.md', from: '## Ask one question', to: '## A first day', minAnswers: 1 },
  { path: 'docs/walkthrough.md', minAnswers: 4 },
  { path: 'docs/front-desk.md', minAnswers: 4 },
  { path: 'docs/technician.md', minAnswers: 4 },
  { path: 'docs/fleet-manager.md', minAnswers: 4 },
];

describe('the documentation pages with calls', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-pages-'));
  const loaded = join(folder, 'demo.sqlite');

  beforeAll(async () => {
    const store = await openStore({ file: loaded, timeZone: 'UTC', clock });
    await loadDemo(store, generateDemo(DEMO_SEED, TODAY));
    await store.experience.refit();
    await store.close();
  }, 300_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** What the steps print for the demo's fleet, and the statuses of the problems they met. */
  async function follow(steps: readonly Step[]): Promise<{ printed: string[]; problems: number[] }> {
    const own = mkdtempSync(join(folder, 'page-'));
    const file = join(own, 'demo.sqlite');
    copyFileSync(loaded, file);
    const store = await openStore({ file, timeZone: 'UTC', clock });
    const app = await buildApp({ store, config: { timeZone: 'UTC', rateLimitPerMinute: 0 }, clock });
    const problems: number[] = [];
    app.server.on('request', (_request, response) =>
      response.once('finish', () => {
        if (response.statusCode >= 400) problems.push(response.statusCode);
      }),
    );
    try {
      const key = (role: 'front-desk' | 'technician' | 'fleet-manager' | 'owner', fleets: string[] = []) =>
        createKey(store.keys, { role, name: `page-${role}`, fleets });
      const environment = {
        FRONT_DESK_KEY: await key('front-desk'),
        TECHNICIAN_KEY: await key('technician'),
        FLEET_MANAGER_KEY: await key('fleet-manager', ['north-depot']),
        OWNER_KEY: await key('owner'),
        BRAKES: await app.listen({ host: '127.0.0.1', port: 0 }),
      };
      return { printed: await runInShell(steps, own, environment), problems };
    } finally {
      await app.close();
      await store.close();
    }
  }

  for (const { path, from, to, minAnswers } of PAGES) {
    it(`${path} shows the answers that its calls get`, { timeout: 120_000 }, async () => {
      const whole = readFileSync(path, 'utf8');
      const page = partOf(whole, from, to);
      const steps = stepsOf(page);
      const { printed, problems } = await follow(steps);
      if (process.env.UPDATE_PAGES) {
        const answers = steps.map(async ({ answer }, index) => {
          if (!answer) return null;
          const shown = shownOf(answer, printed[index]!);
          if (typeof shown === 'string') return shown.replace(ID, '…');
          return (await format(JSON.stringify(shown).replace(ID, '…'), LAYOUT)).trimEnd();
        });
        const written = withAnswers(page, await Promise.all(answers));
        writeFileSync(
          path,
          whole.replace(page, () => written),
        );
      }
      const shownSteps = stepsOf(partOf(readFileSync(path, 'utf8'), from, to));
      shownSteps.forEach(({ command, answer }, index) => {
        if (answer && !isShown(answer, printed[index]!))
          expect(shownOf(answer, printed[index]!), command).toEqual(
            answer.language === 'json' ? JSON.parse(answer.text) : answer.text.trimEnd(),
          );
      });
      const shownProblems = shownSteps.flatMap(({ answer }) =>
        answer?.language === 'json' ? problemIn(JSON.parse(answer.text)) : [],
      );
      expect(problems).toEqual(shownProblems);
      expect(shownSteps.filter(({ answer }) => answer).length).toBeGreaterThanOrEqual(minAnswers);
    });
  }

  it('a page with a wrong answer fails', () => {
    const answer = { language: 'json' as const, text: '{"a": [{"b": 1}, "…"], "id": "x-…"}' };
    expect(isShown(answer, '{"a": [{"b": 1, "c": 2}, {"b": 3}], "id": "x-7", "more": null}')).toBe(true);
    expect(isShown(answer, '{"a": [{"b": 2}], "id": "x-7"}')).toBe(false);
    expect(isShown(answer, '{"a": [], "id": "x-7"}')).toBe(false);
    expect(isShown(answer, '{"a": [{"b": 1}], "id": "y-7"}')).toBe(false);
    expect(isShown({ language: 'text', text: 'a,…\nb\n…\n' }, 'a,1\r\nb\r\nc\r\n')).toBe(true);
    expect(isShown({ language: 'text', text: 'a\nb\n' }, 'a\nb\nc\n')).toBe(false);
  });
});

function partOf(page: string, from = '', to?: string): string {
  const start = page.indexOf(from);
  const end = to === undefined ? page.length : page.indexOf(to);
  if (start < 0 || end <= start) throw new Error(`the page has no part from ${from} to ${to}`);
  return page.slice(start, end);
}

function problemIn(answer: unknown): number[] {
  const { status } = answer as { status?: number };
  return typeof status === 'number' && status >= 400 ? [status] : [];
}
