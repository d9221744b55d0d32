import { LIMIT_MM } from './shopLife.js';
import type { ShopVehicle } from './shopHistory.js';
import type { ShopJob, ShopResult } from './wholeShop.js';
import { errorOf, KINDS, type ShopCase } from './wholeShopScores.js';

/** The worst forecasts of each kind that has a bar, with the records they were made from, for inspection. */
export function worstWords(
  vehicles: readonly ShopVehicle[],
  finished: readonly { job: ShopJob; result: ShopResult }[],
  count: number,
): string {
  const all = finished.flatMap(({ result }) => result.cases);
  const offOf = ({ own, truth }: ShopCase) => errorOf(own.median, truth.daysLeft);
  return KINDS.filter(({ bar }) => bar)
    .flatMap(({ name, holds }) => {
      const worst = all
        .filter(holds)
        .sort((a, b) => offOf(b) - offOf(a))
        .slice(0, count);
      return [`## ${name}`, ...worst.map((each) => caseWords(each, vehicles[each.vehicle]!))];
    })
    .join('\n\n');
}

function caseWords(
  { vehicle, visits, truth, own, twin, twoPoint }: ShopCase,
  { history }: ShopVehicle,
): string {
  const { inService, axles } = history.vehicle;
  const rows = history.visits.slice(0, visits).map(({ date, odometer, readings, work }) => {
    const pads = readings.map((reading) =>
      reading.kind === 'pad-thickness'
        ? `${reading.side?.[0] ?? ''}${reading.pad[0]}${reading.taken === 'as-left' ? '*' : ''} ${reading.mm}`
        : '',
    );
    return `  ${date} ${String(odometer?.km ?? '?').padStart(7)} km  ${pads.join('  ')}${work.length > 0 ? '  replaced' : ''}`;
  });
  return [
    `vehicle ${vehicle}, visit ${visits}: truth ${truth.daysLeft} days; answer ${own.early}, ${own.median}, ${own.late}; clean twin ${twin.median}; two-point ${Math.round(twoPoint)}`,
    `  ${JSON.stringify(truth)}`,
    `  in service ${inService?.date ?? '?'} at ${inService?.odometer?.value ?? '?'} km, new ${axles.front!.pad!.new!.value} mm, limit ${LIMIT_MM} mm; dragging ${own.dragging}; set ${own.set}`,
    ...rows,
  ].join('\n');
}
