import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { generateDemo } from '../seed/generate.js';
import { DEMO_SEED, loadDemo } from '../seed/load.js';
import { buildApp } from '../src/app.js';
import { createKey } from '../src/commands/keys.js';
import { STYLESHEET } from '../src/render/pages/stylesheet.js';
import { partCharts } from '../src/render/wearSvg.js';
import { LAYOUTS } from '../src/render/chart/frame.js';
import { openStore } from '../src/store/open.js';
import { hasBrowser, launchBrowser } from '../tests/support/browser.js';
import { chartCases } from '../tests/support/chartCases.js';

/**
 * `npm run screens` starts the demo, opens every page in Chromium and writes screenshots into `screens/`: on a phone,
 * on a desk, in dark mode and on A4, and every chart case at its three widths. `-- --only WORD` takes the pages and
 * cases whose name contains the word. `-- --answer` makes the README's image instead: the same vehicle and day as its
 * example.
 */

const { values } = parseArgs({
  options: {
    out: { type: 'string', default: 'screens' },
    only: { type: 'string', default: '' },
    answer: { type: 'boolean', default: false },
  },
});
const out = resolve(values.out);
const isWanted = (name: string): boolean => name.includes(values.only);

interface Look {
  name: string;
  width: number;
  dark?: boolean;
}

const LOOKS: readonly Look[] = [
  { name: '360', width: 360 },
  { name: '1280', width: 1280 },
  { name: 'dark-360', width: 360, dark: true },
  { name: 'dark-1280', width: 1280, dark: true },
];

/** Loading the demo takes half a minute; on a busy machine, longer. */
const READY_WITHIN_MS = 240_000;

if (!hasBrowser()) process.exit(1);
mkdirSync(out, { recursive: true });
const browser = await launchBrowser();
try {
  if (values.answer) await shootAnswer(browser);
  else {
    await shootCharts(browser);
    await shootDemo(browser);
  }
} finally {
  await browser.close();
}

async function shootDemo(browser: Browser): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'brake-screens-'));
  const file = join(folder, 'demo.sqlite');
  const port = await freePort();
  const demo = spawn(process.execPath, ['dist/seed/demo.js'], {
    env: { ...process.env, PORT: String(port), DATABASE_FILE: file, RATE_LIMIT_PER_MINUTE: '0' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  try {
    const address = `http://127.0.0.1:${port}`;
    await untilReady(demo, address);
    const keys = {
      technician: await keyFor(file, 'technician'),
      owner: await keyFor(file, 'owner'),
    };
    const paths = await pagesOf(address, keys.technician);
    for (const look of LOOKS) await shootAll(browser, { look, address, key: keys.technician, paths });
    await printAll(browser, { address, key: keys.technician, paths });
  } finally {
    const ended = new Promise((settle) => demo.once('exit', settle));
    demo.kill('SIGTERM');
    await ended;
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The README's image: the top of one sheet of the demo, on the day of the README's example. */
async function shootAnswer(browser: Browser): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'brake-answer-'));
  const today = '2026-03-10';
  const clock = (): Date => new Date(`${today}T12:00:00Z`);
  const store = await openStore({ file: join(folder, 'demo.sqlite'), timeZone: 'UTC', clock });
  const app = await buildApp({ store, config: { timeZone: 'UTC', rateLimitPerMinute: 0 }, clock });
  try {
    await loadDemo(store, generateDemo(DEMO_SEED, today));
    await store.experience.refit();
    const key = await createKey(store.keys, { role: 'technician', name: 'bay-technician', fleets: [] });
    const address = await app.listen({ host: '127.0.0.1', port: 0 });
    const page = await signedIn(browser, { address, key, paths: new Map() }, { name: 'answer', width: 1000 });
    // A search that finds one vehicle leads to its sheet.
    await page.goto(`${address}/?q=KR%206482`, { waitUntil: 'networkidle' });
    const clip = { x: 0, y: 56, width: 1000, height: 752 };
    await page.screenshot({ path: resolve('docs/images/answer.png'), clip, fullPage: true });
  } finally {
    await app.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function freePort(): Promise<number> {
  return new Promise((settle, reject) => {
    const probe = createServer().once('error', reject);
    probe.listen({ host: '127.0.0.1', port: 0 }, () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => settle(port));
    });
  });
}

async function untilReady(demo: ChildProcess, address: string): Promise<void> {
  for (const begun = Date.now(); Date.now() - begun < READY_WITHIN_MS;) {
    if (demo.exitCode !== null) throw new Error(`the demo exited with ${demo.exitCode}`);
    const response = await fetch(`${address}/health/ready`).catch(() => null);
    if (response?.ok) return;
    await new Promise((settle) => setTimeout(settle, 500));
  }
  throw new Error('the demo was not ready in time');
}

async function keyFor(file: string, role: 'technician' | 'owner'): Promise<string> {
  const store = await openStore({ file, timeZone: 'UTC' });
  try {
    return await createKey(store.keys, { role, name: `bay-${role}`, fleets: [] });
  } finally {
    await store.close();
  }
}

type Paths = ReadonlyMap<string, string>;

/** Every page by name; for the sheets one for each combination of advice, so that every case appears once. */
async function pagesOf(address: string, key: string): Promise<Paths> {
  const ask = async <Answer>(path: string): Promise<Answer> => {
    const response = await fetch(`${address}/v1${path}`, { headers: { authorization: `Bearer ${key}` } });
    return (await response.json()) as Answer;
  };
  const { items } = await ask<{
    items: { id: string; registration: string | null; externalId: string | null }[];
  }>('/vehicles?limit=200');
  const sheets = new Map<string, string>();
  const seen = new Set<string>();
  for (const { id, registration, externalId } of items) {
    const { axles } = await ask<{ axles: { axle: string; advice: { action: string; status: string } }[] }>(
      `/vehicles/${id}/wear`,
    );
    const kind = axles.map(({ advice }) => `${advice.action} ${advice.status}`).join(', ');
    const isFavourite = externalId === 'ND-1006';
    if (seen.has(kind) && !isFavourite) continue;
    seen.add(kind);
    const name = `${registration ?? externalId}`.replaceAll(/\W+/g, '');
    sheets.set(`sheet-${axles.map(({ advice }) => advice.action).join('-')}-${name}`, `/vehicles/${id}`);
  }
  const [first] = sheets.values();
  return new Map(
    [
      ['sign-in', '/sign-in'],
      ['home', '/'],
      ['home-found', '/?q=KR'],
      ['home-not-found', '/?q=nowhere'],
      ['due-soon', '/due-soon'],
      ['due-soon-wrong', '/due-soon?withinDays=soon'],
      ['measure-first', '/measure-first'],
      ['vehicle-new', '/vehicles/new'],
      ['import', '/import'],
      ['record', `${first}/record`],
      ['not-found', '/vehicles/none'],
      ['reference', '/docs/'],
      ...sheets,
    ].filter(([name]) => isWanted(name!)) as [string, string][],
  );
}

interface Shooting {
  address: string;
  key: string;
  paths: Paths;
}

async function signedIn(browser: Browser, { address, key }: Shooting, look: Look): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: look.width, height: 800 },
    colorScheme: look.dark ? 'dark' : 'light',
  });
  const page = await context.newPage();
  await page.goto(`${address}/sign-in`);
  await page.getByLabel('Key').fill(key);
  await page.keyboard.press('Enter');
  await page.waitForURL(`${address}/`);
  return page;
}

async function shootAll(browser: Browser, shooting: Shooting & { look: Look }): Promise<void> {
  const { address, paths, look } = shooting;
  const page = await signedIn(browser, shooting, look);
  for (const [name, path] of paths) {
    if (look.dark && name.startsWith('sheet') === false && look.width === 360) continue;
    await page.goto(address + path, { waitUntil: 'networkidle' });
    await page.screenshot({ path: join(out, `${name}-${look.name}.png`), fullPage: true });
    const [width, height] = (await page.evaluate(
      '[document.documentElement.scrollWidth, document.documentElement.scrollHeight]',
    )) as [number, number];
    say(name, look.name, `${height} px${width > look.width ? `, ${width} px WIDE` : ''}`);
  }
  await page.context().close();
}

async function printAll(browser: Browser, shooting: Shooting): Promise<void> {
  const page = await signedIn(browser, shooting, { name: 'print', width: 1280 });
  for (const [name, path] of shooting.paths) {
    if (name === 'reference') continue;
    await page.goto(shooting.address + path);
    const pdf = await page.pdf({ preferCSSPageSize: true, path: join(out, `${name}-print.pdf`) });
    const pages = [...pdf.toString('latin1').matchAll(/\/MediaBox/g)].length;
    say(name, 'print', `${pages} ${pages === 1 ? 'page' : 'pages'}`);
  }
  await page.context().close();
}

async function shootCharts(browser: Browser): Promise<void> {
  const cases = chartCases().filter(({ name }) => isWanted(`chart ${name}`));
  if (cases.length === 0) return;
  for (const { name: layout, width } of LAYOUTS) {
    const figures = cases.map(({ name, picture, history }) => {
      const charts = partCharts(picture, history.vehicle).map(({ name: part, drawings, silence }) =>
        drawings
          ? `<figure class="chart shown">${drawings[layout]}</figure>`
          : `<p class="chart none"><strong>${part}</strong> ${silence}</p>`,
      );
      return `<div><h3>${name}</h3>${charts.join('')}</div>`;
    });
    const columns = layout === 'wide' ? 2 : 4;
    const own = `.chart.shown { display: block !important; margin: 8px 0; } .grid { display: grid; gap: 24px 40px; padding: 16px; grid-template-columns: repeat(${columns}, ${width}px); }`;
    const page = `<!doctype html><meta charset="utf-8"><title>Charts</title><style>${STYLESHEET}${own}</style><div class="grid">${figures.join('')}</div>`;
    writeFileSync(join(out, `charts-${layout}.html`), page);
    for (const dark of [false, true]) {
      if (dark && layout === 'print') continue;
      const tab = await browser.newPage({
        viewport: { width: columns * (width + 40), height: 900 },
        colorScheme: dark ? 'dark' : 'light',
      });
      await tab.setContent(page);
      const name = `charts-${layout}${dark ? '-dark' : ''}`;
      await tab.screenshot({ path: join(out, `${name}.png`), fullPage: true });
      await tab.close();
      say(name, '', `${cases.length} cases`);
    }
  }
}

function say(...words: string[]): void {
  process.stdout.write(`${words.filter(Boolean).join('  ')}\n`);
}
