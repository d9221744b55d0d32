import { afterAll, describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/store/engine/sqlite/database.js';
import { rowsInserter } from '../../src/store/engine/sqlite/inserts.js';
import { sessions } from '../../src/store/engine/sqlite/schema.js';
import { openStage } from '../../src/store/engine/stage.js';

describe('rows inserted by one statement', () => {
  const { database, close } = openDatabase(':memory:');
  afterAll(close);
  database.$client.exec(
    "insert into api_keys (name, role, fleets, digest, created_at) values ('k', 'owner', '[]', 'd', '2026-01-01')",
  );
  const insert = rowsInserter(database, sessions);
  const rowsOf = (from: number, count: number) =>
    Array.from({ length: count }, (_, index) => ({
      digest: `s-${String(from + index).padStart(4, '0')}`,
      keyName: 'k',
      expiresAt: '2026-01-02',
    }));

  it('all rows are stored, however many there are', () => {
    const counts = [0, 1, 2, 15, 16, 17, 33, 3];
    let next = 0;
    for (const count of counts) {
      insert(rowsOf(next, count));
      next += count;
    }
    expect(database.select().from(sessions).orderBy(sessions.digest).all()).toEqual(rowsOf(0, next));
  });

  it('the table’s checks apply to each row', () => {
    const rows = rowsOf(1000, 16);
    const orphan = rows.map((row, index) => (index === 12 ? { ...row, keyName: 'unknown' } : row));
    expect(() => insert(orphan)).toThrow(/FOREIGN KEY/);
    const endless = rows.map((row, index) => (index === 7 ? { ...row, expiresAt: null } : row));
    expect(() => insert(endless)).toThrow(/NOT NULL/);
  });
});

describe('staged rows of a file', () => {
  it('staged rows of a file come back by vehicle in file order, whether they waited in memory or not', () => {
    const stage = openStage();
    const vehicles = [3, 1, 2];
    // Long enough that some rows are staged before all have arrived.
    const notes = 'n'.repeat(2000);
    const row = (line: number) => ({ line, entry: null, cells: { vehicle: 'V', date: '2026-01-01', notes } });
    for (let line = 2; line < 2000; line++) stage.addRow(vehicles[line % 3]!, row(line));
    stage.stageWaiting();
    expect(stage.vehicleCount()).toBe(3);
    expect([...stage.vehicles()]).toEqual([1, 2, 3]);
    for (const [index, vehicle] of vehicles.entries()) {
      const lines = Array.from({ length: 1998 }, (_, from) => from + 2).filter((line) => line % 3 === index);
      expect(stage.rowsOf(vehicle)).toEqual(lines.map(row));
    }
    stage.close();
  });
});
