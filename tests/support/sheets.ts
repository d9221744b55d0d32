import type { Role } from '../../src/core/vocabulary/terms.js';
import type { Service } from './service.js';

/** Spreadsheets to send, and calls for imports and exports. */

export type Cells = Record<string, string | number>;

/** A spreadsheet of rows that name their own cells; its columns are all that any row names. */
export function sheetOf(rows: readonly Cells[], { separator = ',', newline = '\r\n' } = {}): string {
  const columns = [...new Set(['vehicle', 'date', 'entry', ...rows.flatMap(Object.keys)])];
  const quoted = (cell: string): string =>
    /["\r\n]/.test(cell) || cell.includes(separator) ? `"${cell.replaceAll('"', '""')}"` : cell;
  const lines = [columns, ...rows.map((row) => columns.map((name) => quoted(String(row[name] ?? ''))))];
  return lines.map((cells) => cells.join(separator) + newline).join('');
}

export const padRow = (cells: Cells = {}): Cells => ({
  vehicle: 'FD-1007',
  date: '2026-03-02',
  odometer: 61240,
  odometerUnit: 'km',
  workOrder: 'WO-1',
  entry: 'pad-thickness',
  axle: 'front',
  side: 'left',
  pad: 'inner',
  value: 6.5,
  unit: 'mm',
  ...cells,
});

export const sendSheet = (service: Service, text: string | Buffer, query = '', role: Role = 'front-desk') =>
  service.as(role, 'post', `/v1/imports/visits${query}`).set('Content-Type', 'text/csv').send(text);

export const sendVehicles = (service: Service, text: string, query = '', role: Role = 'front-desk') =>
  service
    .as(role, 'post', `/v1/imports/vehicles${query}`)
    .set('Content-Type', 'application/x-ndjson')
    .send(text);

export async function exported(service: Service, kind: 'visits' | 'vehicles'): Promise<string> {
  const response = await service.as('owner', 'get', `/v1/exports/${kind}`).buffer(true).parse(readText);
  if (response.status !== 200) throw new Error(`${response.status} ${String(response.body)}`);
  return response.body as string;
}

/** Supertest does not parse every type; it calls this with the raw response. */
function readText(response: unknown, done: (fault: Error | null, body: string) => void): void {
  const stream = response as NodeJS.ReadableStream & { text?: string };
  const chunks: Buffer[] = [];
  stream.on('data', (chunk: Buffer) => chunks.push(Buffer.from(chunk)));
  stream.on('end', () => {
    stream.text = Buffer.concat(chunks).toString('utf8');
    done(null, stream.text);
  });
}
