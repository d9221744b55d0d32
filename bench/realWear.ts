import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { parseArgs } from 'node:util';
import { markdownTable, writeSection } from './markdown.js';
import {
  fatigueUnits,
  FITTED,
  linerUnits,
  rawFatigueUnits,
  realWearScore,
  scoreUnits,
  type ReadingCase,
  type Row,
  type Unit,
} from './realWearScores.js';

/**
 * Scores forecasts of measured wear: cylinder liners and fatigue cracks (tests/outside/data), scaled to brake
 * pads. Each unit is a vehicle with one pad; the shop has learned from the other units.
 *
 *   npm run bench:real-wear -- [--write]
 */

const rowsOf = (file: string): Row[] => parse(readFileSync(`tests/outside/data/${file}`), { columns: true });

const SETS: readonly { name: string; units: Unit[] }[] = [
  { name: 'cylinder liners', units: linerUnits(rowsOf('cylinder_liners.csv')) },
  { name: 'fatigue cracks, straightened', units: fatigueUnits(rowsOf('fatigue.csv')) },
  { name: 'fatigue cracks as measured', units: rawFatigueUnits(rowsOf('fatigue.csv')) },
];

const KINDS: readonly [name: string, holds: (each: ReadingCase) => boolean][] = [
  ['all', () => true],
  ['the first reading', ({ before }) => before === 0],
  ['after one reading', ({ before }) => before === 1],
  ['after two or more', ({ before }) => before >= 2],
];

function main(): void {
  const { values } = parseArgs({ options: { write: { type: 'boolean', default: false } } });
  const rows = SETS.flatMap(({ name, units }) =>
    [null, FITTED].flatMap((folds) => {
      const cases = scoreUnits(units, folds);
      return KINDS.map(([kind, holds]) => {
        const score = realWearScore(cases.filter(holds));
        return [
          name,
          folds === null ? 'starting values' : 'fit to the other units',
          kind,
          String(score.readings),
          score.covers.toFixed(1),
          score.below.toFixed(1),
          score.above.toFixed(1),
          score.error.toFixed(2),
          score.line === null ? '' : score.line.toFixed(2),
          score.againstLine === null ? '' : score.againstLine.toFixed(2),
        ];
      });
    }),
  );
  const headings = [
    'data',
    'experience',
    'forecast of',
    'readings',
    '80 % covers',
    'below it',
    'above it',
    'error, mm',
    'line, mm',
    '/line',
  ];
  const text = ['`npm run bench:real-wear`', markdownTable(headings, rows)].join('\n\n');
  console.log(text);
  if (values.write) writeSection('real-wear', text);
}

main();
