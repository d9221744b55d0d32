/** How often or how much: `usual` in every run, `thorough` in `npm run test:thorough`. */
export const inDepth = (usual: number, thorough: number): number =>
  process.env['THOROUGH'] === '1' ? thorough : usual;
