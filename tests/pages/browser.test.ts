import { execFileSync } from 'node:child_process';
import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fourPads, rotorReading, vehicleBody, visitBody } from '../support/bodies.js';
import { hasBrowser, launchBrowser } from '../support/browser.js';
import { hasCommand } from '../support/commands.js';
import { recordHistory } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** The pages in a real browser: accessibility, keyboard, and sizes of screen and paper. */

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 800 };

describe.skipIf(!hasBrowser())('the pages in a browser', () => {
  let service: Service;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let address: string;
  let sheet: string;
  const complaints: string[] = [];

  beforeAll(async () => {
    service = await startService();
    const axle = (vehicleBody().axles as { front: object }).front;
    const vehicle = vehicleBody({
      registration: 'KR 4471',
      axles: {
        front: axle,
        rear: { brake: 'drum', shoe: { new: { value: 5, unit: 'mm' }, limit: { value: 1, unit: 'mm' } } },
      },
    });
    const shoes = ['left', 'right'].map((side) => ({
      kind: 'shoe-thickness',
      axle: 'rear',
      side,
      shoe: 'leading',
      value: 3,
      unit: 'mm',
    }));
    const { id } = await recordHistory(service, vehicle, [
      visitBody('2024-03-04', 20_000, fourPads([8.5, 9, 8.7, 9.1])),
      visitBody('2026-03-02', 61_000, [
        ...fourPads([3.1, 5.2, 4.6, 5.3]),
        rotorReading('left', 27.1),
        ...shoes,
      ]),
    ]);
    await recordHistory(service, vehicleBody({ registration: 'KR 4472' }), []);
    const at = service.app.server.address() as { port: number };
    address = `http://127.0.0.1:${at.port}`;
    sheet = `${address}/vehicles/${id}`;
    browser = await launchBrowser();
    context = await browser.newContext({ viewport: DESK });
    page = await context.newPage();
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    await service.close();
  });

  /** The accessibility errors that axe finds on the page. */
  async function violations(): Promise<string[]> {
    await page.evaluate(axe.source);
    const result = (await page.evaluate('axe.run()')) as axe.AxeResults;
    expect(result.passes.length).toBeGreaterThan(5);
    return result.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
  }

  it('a technician signs in and reaches a sheet by keyboard', async () => {
    await page.goto(`${address}/?q=KR%204471`);
    expect(new URL(page.url()).pathname).toBe('/sign-in');
    expect(await violations()).toEqual([]);
    await page.getByLabel('Key').fill('bws_wrong');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('That key is not valid').waitFor();
    // The browser itself reports the refusal.
    expect(complaints.splice(0).every((text) => text.includes('401'))).toBe(true);
    expect(await violations()).toEqual([]);
    await page.getByLabel('Key').fill(service.keys.technician);
    await page.keyboard.press('Enter');
    await page.waitForURL(sheet);
    expect(await page.getByRole('heading', { level: 1 }).innerText()).toContain('KR 4471');
    const [cookie] = await context.cookies();
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Strict', secure: false });
    expect(await page.evaluate('document.cookie')).toBe('');
  });

  it('a search lists several vehicles, and opens the chosen one', async () => {
    await page.goto(address);
    await page.getByLabel('Registration, number or VIN').fill('kr44');
    await page.getByRole('button', { name: 'Find' }).click();
    expect(await page.getByRole('status').innerText()).toContain('2 vehicles match “kr44”');
    await page.getByRole('link', { name: 'KR 4471' }).click();
    await page.waitForURL(sheet);
  });

  const paths = ['/', '/?q=kr', '/?q=nothing', '/due-soon?withinDays=3000', '/vehicles/none', 'sheet'];
  it.each(paths)('axe and the console report nothing, and nothing is cut off at 360 px: %s', async (path) => {
    await page.setViewportSize(DESK);
    await page.goto(path === 'sheet' ? sheet : address + path);
    expect(await violations()).toEqual([]);
    await page.setViewportSize(PHONE);
    expect(await violations()).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(PHONE.width);
    const expected = path === '/vehicles/none' ? [expect.stringContaining('404')] : [];
    expect(complaints.splice(0)).toEqual(expected);
  });

  it('at 360 px, links and buttons that stand alone are 44 px high, and none covers another', async () => {
    await page.setViewportSize(PHONE);
    for (const path of [
      '/',
      '/?q=kr',
      '/due-soon?withinDays=3000',
      '/measure-first',
      '/due-soon?withinDays=x',
    ]) {
      await page.goto(address + path);
      expect(await page.evaluate(TAP_TARGETS), path).toEqual([]);
    }
    for (const path of [sheet, `${sheet}/record`, `${sheet}/change`, `${address}/import`]) {
      await page.goto(path);
      expect(await page.evaluate(TAP_TARGETS), path).toEqual([]);
    }
    // The browser itself reports the refused list.
    complaints.splice(0);
  });

  it('long names fit: on a phone, beside the main button on a desk, and on one page per axle in print', async () => {
    const rotors = (value: number) => [rotorReading('left', value), rotorReading('right', value)];
    const { id } = await recordHistory(
      service,
      vehicleBody({
        registration: 'KR 44719 WWWWWWWWWWW',
        externalId: `number-${'9'.repeat(90)}`,
        vin: '0DEM0001XX7000006',
        description: 'a van with a high roof, a tail lift and a second bench '.repeat(8).trim(),
        fleet: 'north-depot',
      }),
      [
        visitBody('2024-03-02', 20_000, [...fourPads([9.1, 9.5, 9.1, 9.5]), ...rotors(27.8)]),
        visitBody('2025-03-02', 40_000, [...fourPads([6.8, 7.2, 6.8, 7.2]), ...rotors(27.4)]),
        visitBody('2026-03-02', 61_240, [...fourPads([4.2, 4.6, 4.2, 4.6]), ...rotors(26.7)]),
      ],
    );
    await page.setViewportSize(PHONE);
    for (const path of [`/vehicles/${id}`, '/', '/?q=kr', '/due-soon?withinDays=3000', '/measure-first']) {
      await page.goto(address + path);
      expect(await page.evaluate('document.documentElement.scrollWidth'), path).toBe(PHONE.width);
    }
    await page.setViewportSize(DESK);
    await page.goto(`${address}/vehicles/${id}`);
    const button = (await page.getByRole('link', { name: 'Record a visit' }).boundingBox())!;
    const words = (await page.locator('.vehicle .under').first().locator('xpath=..').boundingBox())!;
    expect(words.x + words.width).toBeLessThanOrEqual(button.x);
    const printed = await print();
    expect(pagesOf(printed)).toBe(1);
    if (hasCommand('pdftotext')) expect(textsOf(printed)[0]).toContain('KR 44719 WWWWWWWWWWW');
  });

  it('lists print as tables, with the list’s name, the date and the columns at the top of every page', async () => {
    await page.emulateMedia({ media: 'print' });
    // A4 between its margins.
    await page.setViewportSize({ width: 718, height: 1000 });
    for (const [path, row] of [
      ['/due-soon?withinDays=3000', '.due-row'],
      ['/measure-first', '.measure-row'],
    ] as const) {
      await page.goto(address + path);
      const tops = (await page.evaluate(
        `[...document.querySelector('${row}').children].filter((cell) => cell.getBoundingClientRect().width > 0).map((cell) => Math.round(cell.getBoundingClientRect().top / 8))`,
      )) as number[];
      expect(tops.length).toBeGreaterThanOrEqual(3);
      expect(new Set(tops).size, path).toBe(1);
      expect(await page.evaluate(`getComputedStyle(document.querySelector('main > .running')).display`)).toBe(
        'table-header-group',
      );
      expect(await page.locator('main > .running').innerText()).toMatch(
        /(Due soon|Measure first)\s+\d+ March 2026/,
      );
    }
    await page.emulateMedia({ media: null });
    await page.setViewportSize(DESK);
  });

  it('a refused field, and no other, stands out and has room for its error at 360 px', async () => {
    await page.setViewportSize(PHONE);
    await page.goto(`${sheet}/record`);
    await page.locator('summary', { hasText: 'Rotors' }).first().click();
    await page.locator('[name="front.rotors.found.left.2"]').fill('thin');
    await page.locator('summary', { hasText: 'More about the visit' }).click();
    await page.locator('[name="odometerOldFinal"]').fill('many');
    await page.locator('summary', { hasText: 'Found and done' }).first().click();
    await page.locator('[name="front.work.pads-replaced"]').check();
    await page.locator('[name="front.work.pads-replaced.new"]').fill('eleven');
    await page.locator('[name="front.work.pads-replaced"]').uncheck();
    await page.getByRole('button', { name: 'Save the visit' }).click();
    await page.getByRole('alert').getByText('Not saved').waitFor();
    for (const error of await page.locator('.error').all())
      expect((await error.boundingBox())!.width).toBeGreaterThan(280);
    const borderOf = (name: string) =>
      page.evaluate(
        `getComputedStyle(document.querySelector('[name="front.work.pads-replaced.${name}"]')).borderTopWidth`,
      );
    expect([await borderOf('new'), await borderOf('part')]).toEqual(['3px', '1px']);
    complaints.splice(0);
  });

  it('the side and the parts of work are asked for once it is ticked, and the fields of the chosen brake', async () => {
    await page.setViewportSize(PHONE);
    await page.goto(`${sheet}/record`);
    await page.locator('summary', { hasText: 'Found and done' }).first().click();
    const part = page.locator('[name="front.work.pads-replaced.part"]');
    expect(await part.isVisible()).toBe(false);
    await page.locator('[name="front.work.pads-replaced"]').check();
    expect(await part.isVisible()).toBe(true);
    await page.goto(`${address}/vehicles/new`);
    const [pad, shoe] = [page.locator('[name="rear.pad.new"]'), page.locator('[name="rear.shoe.new"]')];
    expect([await pad.isVisible(), await shoe.isVisible()]).toEqual([true, false]);
    await page.locator('[name="rear.brake"]').selectOption('drum');
    expect([await pad.isVisible(), await shoe.isVisible()]).toEqual([false, true]);
    await page.locator('[name="rear.brake"]').selectOption('');
    expect([await pad.isVisible(), await shoe.isVisible()]).toEqual([false, false]);
  });

  it('focus is visible, and the keyboard can skip to the content', async () => {
    await page.setViewportSize(DESK);
    await page.goto(sheet);
    await page.keyboard.press('Tab');
    const focused = page.locator(':focus');
    expect(await focused.innerText()).toBe('Skip to the content');
    expect((await focused.boundingBox())!.x).toBeGreaterThanOrEqual(0);
    expect(await page.evaluate('getComputedStyle(document.activeElement).outlineStyle')).toBe('solid');
  });

  it('each chart appears once, redrawn for the width, with a text alternative', async () => {
    const widths = [
      [PHONE, 344],
      [{ width: 800, height: 800 }, 720],
      [{ width: 1000, height: 800 }, 344],
      [DESK, 720],
    ] as const;
    for (const [size, width] of widths) {
      await page.setViewportSize(size);
      await page.goto(sheet);
      const charts = page.locator('figure > svg:visible');
      expect(await charts.count()).toBe(3);
      const front = page.getByRole('img', { name: 'Front pads of KR 4471' }).and(charts);
      expect((await front.boundingBox())!.width).toBe(width);
      expect(await page.evaluate(OVERLAPS)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(size.width);
    }
  });

  it('a phone’s first screen shows the advice on both axles', async () => {
    await page.setViewportSize(PHONE);
    await page.goto(sheet);
    const advice = page.locator('.advice .what');
    expect(await advice.count()).toBe(2);
    const last = (await advice.last().boundingBox())!;
    expect(last.y + last.height).toBeLessThanOrEqual(PHONE.height);
  });

  it('a sheet with two axles is short', async () => {
    for (const [size, maxPx] of [
      [DESK, 2600],
      [PHONE, 5000],
    ] as const) {
      await page.setViewportSize(size);
      await page.goto(sheet);
      expect(await page.evaluate('document.documentElement.scrollHeight')).toBeLessThanOrEqual(maxPx);
    }
  });

  it('the pages are as readable in dark mode', async () => {
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.setViewportSize(DESK);
    await page.goto(sheet);
    expect(await page.evaluate('getComputedStyle(document.documentElement).backgroundColor')).toBe(
      'rgb(18, 18, 22)',
    );
    expect(await violations()).toEqual([]);
    await page.emulateMedia({ colorScheme: null });
  });

  it('the reference page has neither the framework’s bar nor its logo, nor pale text', async () => {
    await page.goto(`${address}/docs/`, { waitUntil: 'networkidle' });
    await page.getByText('Brake wear service').first().waitFor();
    expect(await page.locator('.topbar').count()).toBe(0);
    expect(await page.title()).toBe('Brake wear service: reference');
    await page.evaluate(axe.source);
    const { violations: pale, passes } = (await page.evaluate(
      `axe.run({ runOnly: ['color-contrast'] })`,
    )) as axe.AxeResults;
    expect(passes).not.toEqual([]);
    expect(pale.flatMap(({ nodes }) => nodes.map(({ html }) => html))).toEqual([]);
  });

  it('the sheet prints one A4 page an axle, with the name and the date on each', async () => {
    await page.setViewportSize(DESK);
    await page.goto(sheet);
    const printed = await print();
    expect(pagesOf(printed)).toBe(2);
    if (hasCommand('pdftotext')) {
      const texts = textsOf(printed);
      for (const [index, text] of texts.entries()) {
        expect(text).toContain('KR 4471');
        expect(text.slice(0, 200)).toMatch(/\d{1,2}\s[A-Z]\w+\s\d{4}/);
        expect(text).toContain(`page ${index + 1} of 2`);
      }
    }
    await page.emulateMedia({ media: 'print' });
    for (const boxes of ['New: as found', 'Point 1', 'Odometer (last 61,000 km)', 'Pulsation: yes / no'])
      expect(await page.getByText(boxes).first().isVisible(), boxes).toBe(true);
    await page.emulateMedia({ media: null });
    await page.goto(`${address}/due-soon?withinDays=3000`);
    expect(pagesOf(await print())).toBe(1);
  });

  it.each(['combustion', 'battery-electric'])(
    'the sheet of a vehicle with one axle prints on one page, cautions included: %s',
    async (powertrain) => {
      const rotors = (value: number) => [rotorReading('left', value), rotorReading('right', value)];
      const { id } = await recordHistory(service, vehicleBody({ powertrain }), [
        visitBody('2024-03-02', 20_000, [...fourPads([9.1, 9.5, 9.1, 9.5]), ...rotors(27.8)]),
        visitBody('2025-03-02', 40_000, [...fourPads([6.8, 7.2, 6.8, 7.2]), ...rotors(27.4)]),
        visitBody('2026-03-02', 61_240, [...fourPads([4.2, 4.6, 4.2, 4.6]), ...rotors(26.7)]),
      ]);
      await page.goto(`${address}/vehicles/${id}`);
      expect(pagesOf(await print())).toBe(1);
    },
  );

  const print = (): Promise<Buffer> => page.pdf({ preferCSSPageSize: true });

  function pagesOf(pdf: Buffer): number {
    const boxes = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)];
    expect(boxes.length).toBeGreaterThan(0);
    // A4 in points.
    for (const [, width, height] of boxes) {
      expect(Number(width)).toBeCloseTo(595, -1);
      expect(Number(height)).toBeCloseTo(842, -1);
    }
    return boxes.length;
  }

  /** The text of each page; needs pdftotext. */
  const textsOf = (pdf: Buffer): string[] =>
    execFileSync('pdftotext', ['-', '-'], { input: pdf, encoding: 'utf8' }).split('\f').slice(0, -1);

  it('a user can sign out', async () => {
    await page.goto(sheet);
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.waitForURL(`${address}/sign-in`);
    await page.goto(sheet);
    expect(new URL(page.url()).pathname).toBe('/sign-in');
  });
});

/** Links and buttons lower than 44 px, unless they are part of a sentence, and pairs that overlap by over 4 px. */
const TAP_TARGETS = `(() => {
  const targets = [...document.querySelectorAll('a[href], button, summary')]
    .map((element) => ({ element, words: element.textContent.trim(), box: element.getBoundingClientRect() }))
    .filter(({ element, box }) => element.checkVisibility() && box.right > 0 && !element.closest('svg'));
  const blockOf = (element) => {
    let block = element.parentElement;
    while (getComputedStyle(block).display.startsWith('inline')) block = block.parentElement;
    return block;
  };
  const isInSentence = ({ element, words }) => getComputedStyle(element).display === 'inline' &&
    blockOf(element).textContent.trim().length > words.length + 3;
  const overlap = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2 &&
    Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4;
  const overlaps = (a, b) => [...a.element.getClientRects()].some((one) =>
    [...b.element.getClientRects()].some((other) => overlap(one, other)));
  return targets.flatMap((target, index) => [
    ...(target.box.height < 43.5 && !isInSentence(target) ? [target.words + ' is ' + target.box.height + ' px high'] : []),
    ...targets.slice(index + 1).filter((other) => overlaps(target, other)).map(({ words }) => target.words + ' | ' + words),
  ]);
})()`;

/** Pairs of overlapping texts in one picture, and texts that leave it. */
const OVERLAPS = `[...document.querySelectorAll('figure > svg')].filter((svg) => svg.getBoundingClientRect().width > 0).flatMap((svg) => {
  const frame = svg.getBoundingClientRect();
  const boxes = [...svg.querySelectorAll('text')]
    .filter((text) => text.getAttribute('opacity') !== '0' && text.textContent)
    .map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
  return boxes.flatMap(({ words, box }, index) => [
    ...(box.left < frame.left - 1 || box.right > frame.right + 1 ? [words + ' leaves the picture'] : []),
    ...boxes.slice(index + 1)
      .filter((other) => Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left) > 1 &&
        Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top) > 3)
      .map((other) => words + ' | ' + other.words),
  ]);
})`;
