import { withoutCounts } from '../forecast/fit.js';
import type { Outlook } from './outlookShape.js';

/** An outlook for whoever sees a part of the shop: its words do not say how many vehicles the whole shop has. */
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
