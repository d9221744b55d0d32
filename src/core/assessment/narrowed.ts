import { withoutCounts } from '../forecast/fit.js';
import type { Outlook } from './outlookShape.js';

/** An outlook for callers who see only part of the shop: its words omit how many vehicles the whole shop has. */
export function withoutShopCounts(outlook: Outlook): Outlook {
  const axles = outlook.axles.map((axle) => {
    const { replacement } = axle;
    const { basis } = replacement;
    return {
      ...axle,
      replacement: { ...replacement, basis: { ...basis, words: withoutCounts(basis.words) } },
    };
  });
  return { ...outlook, axles };
}
