import type { Release } from './contract/engine.js';

/** Named locks within this process. */
export function ownLocks() {
  const held = new Set<string>();
  return async (name: string): Promise<Release | null> => {
    if (held.has(name)) return null;
    held.add(name);
    return async () => void held.delete(name);
  };
}
