import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, afterEach, describe, expect, it } from 'vitest';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { contractVehicle, fourPads, visitBody } from '../support/bodies.js';
import { hasBrowser, launchBrowser } from '../support/browser.js';
import { OWN_FORM } from '../support/pages.js';
import { read, recordVehicle, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** Four people use the forms in a real browser: a technician, a front desk, an owner on the first day, and a clerk. */

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 800 };

describe.skipIf(!hasBrowser())('four users in a browser', () => {
  let service: Service;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let address: string;

  beforeAll(async () => {
    browser = await launchBrowser();
  }, 60_000);
  afterAll(() => browser.close());
  beforeEach(async () => {
    service = await startService();
    address = `http://127.0.0.1:${(service.app.server.address() as { port: number }).port}`;
  });
  afterEach(async () => {
    await context.close();
    await service.close();
  });

  async function signInAs(role: Role, viewport: { width: number; height: number }): Promise<void> {
    context = await browser.newContext({ viewport });
    page = await context.newPage();
    await page.goto(`${address}/sign-in`);
    await page.getByLabel('Key').fill(service.keys[role]);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.waitForURL(`${address}/`);
  }

  /** The accessibility errors that axe finds, and whether the page is wider than the window. */
  async function expectUsable(): Promise<void> {
    await page.evaluate(axe.source);
    const { violations } = (await page.evaluate('axe.run()')) as axe.AxeResults;
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
    const overflow = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';
    expect(await page.evaluate(overflow)).toBe(0);
  }

  const visitsOf = async (id: string) =>
    (await read<{ items: Record<string, unknown>[] }>(service, `/v1/vehicles/${id}/visits`)).items;

  const knownVehicle = async (): Promise<Recorded> => {
    const axles = contractVehicle().axles as { front: object };
    const vehicle = await recordVehicle(service, {
      ...contractVehicle(),
      axles: { ...axles, rear: axles.front },
    });
    const first = visitBody('2025-09-01', 50_000, fourPads([8, 8.5, 8, 8.5]));
    await service.as('technician', 'post', `/v1/vehicles/${vehicle.id}/visits`).send(first).expect(201);
    return vehicle;
  };

  it('a technician records two axles on a phone with few taps', async () => {
    const vehicle = await knownVehicle();
    await signInAs('technician', PHONE);
    let taps = 0;
    let typed = 0;
    const tap = async (name: string | RegExp, role: 'button' | 'link' | 'radio' = 'radio') => {
      taps += 1;
      await page.getByRole(role, { name }).first().click();
    };
    const fill = async (field: string, text: string) => {
      typed += 1;
      await page.locator(`[name="${field}"]`).fill(text);
    };
    await fill('q', 'kr-4471');
    await tap(/Find/, 'button');
    await tap(/Record/, 'link');
    await expectUsable();
    await fill('odometer', '61,240');
    for (const axle of ['front', 'rear']) {
      for (const [place, value] of [
        ['left.inner', '6.5'],
        ['left.outer', '7'],
        ['right.inner', '6.5'],
        ['right.outer', '7'],
      ]) {
        await fill(`${axle}.linings.found.${place!}`, value!);
      }
    }
    taps += 1;
    await page.getByRole('group', { name: 'Pulls' }).getByLabel('none').check();
    taps += 2;
    await page.getByRole('group', { name: 'Pulsation' }).getByLabel('no').check();
    await page.getByRole('group', { name: 'Noise' }).getByLabel('no').check();
    await tap('Save the visit', 'button');
    await page.getByText(/The visit of \d+\sMarch is saved/).waitFor();
    await expectUsable();
    const [visit] = await visitsOf(vehicle.id);
    expect(visit).toMatchObject({ odometer: { value: 61240 }, roadTest: { pulls: 'none', noise: false } });
    expect(visit!.readings).toHaveLength(8);
    // Three minutes are enough for ten fields and a dozen taps.
    expect({ typed, taps }).toEqual({ typed: 10, taps: 6 });
  }, 120_000);

  it('a front desk mistypes the odometer, sees the error, and corrects a visit later', async () => {
    const vehicle = await knownVehicle();
    await signInAs('front-desk', DESK);
    await page.goto(`${address}/vehicles/${vehicle.id}/record`);
    await page.getByLabel('Odometer', { exact: true }).fill('6,124');
    await page.locator('[name="front.linings.found.left.inner"]').fill('6.5');
    await page.getByRole('button', { name: 'Save the visit' }).click();
    await page.getByRole('alert').getByText('Not saved: 1 entry to check.').waitFor();
    await expectUsable();
    await page.getByText('is less than on 1 September').waitFor();
    await page.getByRole('alert').getByRole('link', { name: 'Odometer' }).click();
    expect(await page.locator('[name="front.linings.found.left.inner"]').inputValue()).toBe('6.5');
    await page.getByLabel('Odometer', { exact: true }).fill('61,420');
    await page.getByRole('button', { name: 'Save the visit' }).dblclick();
    await page.getByText('is saved').waitFor();
    const [saved] = await visitsOf(vehicle.id);
    await page.goto(`${address}/visits/${String(saved!.id)}/correct`);
    await page.getByLabel('Odometer', { exact: true }).fill('61240');
    await page.getByLabel('What was wrong').fill('two digits swapped');
    await page.getByRole('button', { name: 'Save the correction' }).click();
    await page.getByText('is corrected').waitFor();
    const visits = await visitsOf(vehicle.id);
    expect(visits).toHaveLength(2);
    expect(visits[0]).toMatchObject({ odometer: { value: 61240 }, version: 2 });
  }, 120_000);

  it('an owner records a first vehicle and a first visit by keyboard alone, and reads the first advice', async () => {
    await signInAs('owner', DESK);
    await page.goto(`${address}/vehicles/new`);
    await expectUsable();
    /** Moves to a field with the Tab key alone. */
    const moveTo = async (field: string) => {
      for (let presses = 0; presses < 150; presses += 1) {
        if (await page.evaluate(`document.activeElement?.getAttribute('name') === ${JSON.stringify(field)}`))
          return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`${field} cannot be reached by keyboard`);
    };
    const type = async (field: string, text: string) => {
      await moveTo(field);
      await page.keyboard.press('Control+A');
      await page.keyboard.type(text);
    };
    await type('registration', 'OW 1');
    await type('front.pad.new', '11');
    await type('front.pad.limit', '2');
    await page.keyboard.press('Enter');
    await page.getByText('Record its first visit next').waitFor();
    await page.goto(`${page.url().replace(/\?.*/, '')}/record`);
    await type('odometer', '40000');
    for (const place of ['left.inner', 'left.outer', 'right.inner', 'right.outer']) {
      await type(`front.linings.found.${place}`, '1.8');
    }
    await page.keyboard.press('Enter');
    await page.getByText('is saved').waitFor();
    expect(await page.locator('main').innerText()).toMatch(/Fit front pads now/);
    await expectUsable();
  }, 120_000);

  it('a clerk imports three years of visits from a spreadsheet', async () => {
    const vehicle = await knownVehicle();
    // Every second month from June 2023 on, after the vehicle went into service.
    const rows = Array.from({ length: 12 }, (_, index) => {
      const month = 5 + index * 2;
      const date = `15.${String(1 + (month % 12)).padStart(2, '0')}.${2023 + Math.floor(month / 12)}`;
      const value = (10.5 - index * 0.2).toFixed(1).replace('.', ',');
      return `kr-4471;${date};${10_000 + index * 3000};km;Pad-Thickness;Front;Left;Inner;${value};mm`;
    });
    const text = ['sep=;', 'Vehicle;Date;Odometer;OdometerUnit;Entry;Axle;Side;Pad;Value;Unit', ...rows].join(
      '\r\n',
    );
    await signInAs('front-desk', DESK);
    const choose = async (content: string) => {
      await page.goto(`${address}/import`);
      await page.getByLabel('How the file writes dates').selectOption('DD.MM.YYYY');
      const buffer = Buffer.from(content, 'latin1');
      await page
        .getByLabel('Spreadsheet')
        .setInputFiles({ name: 'visits.csv', mimeType: 'text/csv', buffer });
      await page.getByRole('button', { name: 'Check the file' }).click();
    };
    await page.goto(`${address}/import`);
    await expectUsable();
    await choose(text.replace('15.06.2023', '35.06.2023'));
    await page.getByRole('heading', { name: 'Nothing was recorded: 1 entry to correct.' }).waitFor();
    await expectUsable();
    await choose(text);
    await page.getByText('all of them can be recorded').waitFor();
    expect(await visitsOf(vehicle.id)).toHaveLength(1);
    await page.getByRole('button', { name: 'Record 12 rows' }).click();
    await page.getByText('12 rows recorded: 12 new visits').waitFor();
    expect(await visitsOf(vehicle.id)).toHaveLength(13);
  }, 120_000);

  it('a visit can be recorded without style sheets and without script', async () => {
    const vehicle = await knownVehicle();
    await signInAs('technician', PHONE);
    const { cookies } = await context.storageState();
    await context.close();
    context = await browser.newContext({ viewport: PHONE, javaScriptEnabled: false });
    await context.addCookies(cookies);
    page = await context.newPage();
    await page.route('**/pages.css', (route) => route.abort());
    await page.goto(`${address}/vehicles/${vehicle.id}/record`);
    await page.locator('[name="odometer"]').fill('61240');
    await page.locator('[name="front.linings.found.left.inner"]').fill('6.5');
    await page.getByRole('button', { name: 'Save the visit' }).click();
    await page.getByText('is saved').waitFor();
    expect(await visitsOf(vehicle.id)).toHaveLength(2);
    // The back button shows the form again; sending it again records nothing.
    await page.goBack();
    await page.getByRole('button', { name: 'Save the visit' }).click();
    // Depending on the browser's cache, the form is as sent, or empty.
    await page.getByText(/is saved|is recorded only once|Nothing is entered yet/).waitFor();
    expect(await visitsOf(vehicle.id)).toHaveLength(2);
  }, 120_000);

  it('a visit is recorded once when the connection drops while saving', async () => {
    const vehicle = await knownVehicle();
    await signInAs('technician', PHONE);
    await page.goto(`${address}/vehicles/${vehicle.id}/record`);
    await page.locator('[name="odometer"]').fill('61240');
    await page.locator('[name="front.linings.found.left.inner"]').fill('6.5');
    // The form arrives but its answer is lost: the page is still there, and the user sends it again.
    const sent = (await page.evaluate(
      `Object.fromEntries(new FormData(document.querySelector('form.narrow')))`,
    )) as Record<string, string>;
    const arrived = await page.request.post(page.url(), { form: sent, headers: OWN_FORM, maxRedirects: 0 });
    expect(arrived.status()).toBe(303);
    expect(await visitsOf(vehicle.id)).toHaveLength(2);
    await page.getByRole('button', { name: 'Save the visit' }).click();
    await page.getByText('is saved').waitFor();
    expect(await visitsOf(vehicle.id)).toHaveLength(2);
  }, 120_000);
});
