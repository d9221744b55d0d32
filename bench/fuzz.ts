import { parseArgs } from 'node:util';
import { fuzz, type Tally } from '../tests/support/fuzz/run.js';
import { wholeNumber } from './options.js';

/** Calls every operation of the served document with valid and invalid input, and checks every answer. */

const { values } = parseArgs({
  options: {
    requests: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
  },
});
const requests = wholeNumber('requests', values.requests);
const seed = wholeNumber('seed', values.seed, 0);
const began = performance.now();
const tallies = await fuzz({ requests, seed }, (number) => {
  if ((number + 1) % 2000 === 0) console.error(`${number + 1} of ${requests} requests`);
});
const took = (performance.now() - began) / 1000;

const statusesOf = ({ statuses }: Tally): string =>
  [...statuses]
    .sort(([a], [b]) => a - b)
    .map(([status, count]) => `${status}: ${count}`)
    .join(', ');
for (const tally of tallies) {
  console.log(`${tally.operation.padEnd(42)} ${String(tally.requests).padStart(6)}   ${statusesOf(tally)}`);
}
const beyond = new Map<string, number>();
for (const { beyondSchema } of tallies) {
  for (const [words, count] of beyondSchema) {
    const kind = words.replace(/-?\d[\d.e+-]*/g, 'N').slice(0, 140);
    beyond.set(kind, (beyond.get(kind) ?? 0) + count);
  }
}
console.log('\nReasons for refusing bodies that match the schema with 422, most frequent first:');
for (const [words, count] of [...beyond].sort(([, a], [, b]) => b - a).slice(0, 60)) {
  console.log(`${String(count).padStart(6)}   ${words}`);
}
const failures = tallies.flatMap((tally) => tally.failures);
for (const { number, what, asked } of failures.slice(0, 50)) {
  console.log(`\nrequest ${number} of seed ${seed}: ${what}\n  ${asked}`);
}
console.log(`\n${requests} requests in ${took.toFixed(1)} s, seed ${seed}: ${failures.length} failures`);
process.exitCode = failures.length > 0 ? 1 : 0;
