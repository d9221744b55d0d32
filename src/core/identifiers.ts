/**
 * A registration or VIN in the form used for comparison: letters and digits only, in capitals, so that `KR 88 ab` and
 * `kr-88-AB` are the same plate. Full-width and other compatibility forms count as their plain letters (Unicode NFKC).
 */
export const identifierKey = (identifier: string): string =>
  identifier
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, '');
