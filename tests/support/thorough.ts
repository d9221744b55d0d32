/** Whether this is a run of `npm run test:thorough`. */
export const isThorough = process.env['THOROUGH'] === '1';

/** How often or how much: `usual` in every run, `thorough` in `npm run test:thorough`. */
export const inDepth = (usual: number, thorough: number): number => (isThorough ? thorough : usual);
