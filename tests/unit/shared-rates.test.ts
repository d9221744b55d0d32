import { describe, expect, test } from 'vitest';
import { sharedRates } from '../../src/http/sharedRates.js';
import type { SharedCounts } from '../../src/store/contract/counts.js';

const MINUTE = 60_000;

/** What a database would store. */
function countsInMemory(): SharedCounts {
  const kept = new Map<string, { period: number; count: number }>();
  return {
    add: async (additions) =>
      additions.map(({ name, period, by }) => {
        const known = kept.get(name);
        const count = (known?.period === period ? known.count : 0) + by;
        kept.set(name, { period, count });
        return count;
      }),
  };
}

describe('request counts that servers share', () => {
  function twoServers(counts = countsInMemory()) {
    let now = 10 * MINUTE;
    const onFault = (): void => undefined;
    const [one, other] = [0, 1].map(() => {
      const Rates = sharedRates(counts, onFault, () => now);
      return new Rates();
    });
    const ask = (server: typeof one, name = 'api bay-1'): { current: number; ttl: number } => {
      let answer = { current: 0, ttl: 0 };
      server!.incr(name, (_error, counted) => (answer = counted!), MINUTE);
      return answer;
    };
    return { one, other, ask, advance: (ms: number) => (now += ms) };
  }

  test('a server counts its own requests at once, and those of another after both have shared', async () => {
    const { one, other, ask } = twoServers();
    for (let request = 1; request <= 3; request++) expect(ask(one).current).toBe(request);
    expect(ask(other).current).toBe(1);
    await one!.share();
    await other!.share();
    expect(ask(other).current).toBe(5);
    await other!.share();
    ask(one);
    await one!.share();
    expect(ask(one).current).toBe(7);
  });

  test('callers are counted separately, and each period begins at zero', async () => {
    const { one, ask, advance } = twoServers();
    ask(one);
    expect(ask(one, 'api bay-2').current).toBe(1);
    await one!.share();
    advance(MINUTE - 1);
    expect(ask(one)).toEqual({ current: 2, ttl: 1 });
    advance(1);
    expect(ask(one)).toEqual({ current: 1, ttl: MINUTE });
  });

  test('counts that could not be shared are shared later', async () => {
    const counts = countsInMemory();
    let isDown = true;
    const { one, other, ask } = twoServers({
      add: (additions) => (isDown ? Promise.reject(new Error('down')) : counts.add(additions)),
    });
    ask(one);
    await expect(one!.share()).rejects.toThrow('down');
    isDown = false;
    expect(ask(one).current).toBe(2);
    await one!.share();
    ask(other);
    await other!.share();
    expect(ask(other).current).toBe(4);
  });
});
