import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dateInWords } from '../../src/core/words.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, rotorReading, vehicleBody, visitBody } from '../support/bodies.js';
import { read, recordHistory, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { descendants, marksOf, ofClass, parseXml, placed } from '../support/svg.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const VISITS = [
  visitBody('2024-03-04', 20_000, fourPads([8.5, 9, 8.7, 9.1])),
  visitBody('2026-03-02', 61_000, [...fourPads([4.2, 5.2, 4.6, 5.3]), rotorReading('left', 27.1)]),
];
const pathOf = (id: string, query = 'axle=front'): string => `/v1/vehicles/${id}/wear.svg?${query}`;
const drawn = (text: string) => placed(parseXml(text));
const wordsOf = (text: string): string =>
  descendants(parseXml(text))
    .filter(({ name }) => name === 'desc')
    .map(({ text: words }) => words)
    .join();

/** The body as text; supertest returns SVG as bytes otherwise. */
const asText = async (path: string, role: Parameters<Service['as']>[0] = 'technician') => {
  const response = await service.as(role, 'get', path).buffer(true);
  return {
    ...response,
    status: response.status,
    headers: response.headers,
    text: response.text ?? String(response.body),
  };
};

describe('GET /v1/vehicles/{vehicleId}/wear.svg', () => {
  it('every role gets a chart that agrees with the wear answer', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    for (const role of ['front-desk', 'technician', 'fleet-manager', 'owner'] as const) {
      const { status, headers, text } = await asText(pathOf(id), role);
      expect(status).toBe(200);
      expect(headers['content-type']).toBe('image/svg+xml; charset=utf-8');
      expect(marksOf(ofClass(drawn(text), 'readings')[0]!)).toHaveLength(8);
      const { early, median, late } = wear.axles[0]!.replacement.date!;
      for (const date of [early, median, late]) expect(wordsOf(text)).toContain(dateInWords(date!));
    }
  });

  it('a chart with asOf shows what was known on that date', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const { text } = await asText(pathOf(id, 'axle=front&asOf=2025-01-01'));
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear?asOf=2025-01-01`);
    expect(marksOf(ofClass(drawn(text), 'readings')[0]!)).toHaveLength(4);
    // Where the interval is wide, the chart names only the month.
    const month = dateInWords(wear.axles[0]!.replacement.date!.median!).replace(/^\d+ /, '');
    expect(wordsOf(text)).toContain(month);
    expect(wordsOf(text)).not.toContain('2 March 2026');
  });

  it('GET /v1/vehicles/{vehicleId}/wear.svg answers 304 until something has changed', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const { headers } = await asText(pathOf(id));
    expect(headers.etag).toMatch(/^"[0-9a-f]{64}"$/);
    const again = await service.as('technician', 'get', pathOf(id)).set('If-None-Match', headers.etag!);
    expect(again.status).toBe(304);
    expect(again.headers.etag).toBe(headers.etag);
    await recordVisit(service, id, visitBody('2026-03-05', 61_300, fourPads([4.1, 5.1, 4.5, 5.2])));
    const changed = await service.as('technician', 'get', pathOf(id)).set('If-None-Match', headers.etag!);
    expect(changed.status).toBe(200);
    expect(changed.headers.etag).not.toBe(headers.etag);
  });

  it('an axle or vehicle that does not exist gets 404, and an invalid axle 400', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    expect((await service.as('technician', 'get', pathOf(id, 'axle=rear'))).status).toBe(404);
    expect((await service.as('technician', 'get', pathOf('none'))).status).toBe(404);
    for (const query of ['', 'axle=middle', 'axle=front&colour=red'])
      expect((await service.as('technician', 'get', pathOf(id, query))).status).toBe(400);
    expect((await service.anonymous('get', pathOf(id))).status).toBe(401);
  });

  it('a fleet manager gets 404 for another fleet’s vehicle', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ fleet: 'south-depot' }));
    expect((await service.as('fleet-manager', 'get', pathOf(id))).status).toBe(404);
  });

  it('text that people typed is escaped', async () => {
    const registration = `<script>"'&]]>$&$1`;
    const { id } = await recordVehicle(
      service,
      vehicleBody({ registration, axles: { front: axleWith(11, 2) } }),
    );
    const { text } = await asText(pathOf(id));
    const title = descendants(parseXml(text)).find(({ name }) => name === 'title')!;
    expect(title.text).toContain(registration);
    expect(text).not.toContain('<script');
  });

  it('GET /v1/vehicles/{vehicleId}/wear.svg says what is missing if nothing was measured', async () => {
    const { id } = await recordVehicle(
      service,
      vehicleBody({ inService: null, axles: { front: axleWith(11, 2) } }),
    );
    const { text } = await asText(pathOf(id));
    expect(wordsOf(text)).toMatch(/No chart and no forecast|not measured since/);
  });
});
