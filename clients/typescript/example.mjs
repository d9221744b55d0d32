// Lists the axles that are due within 60 days, soonest first, with what to do about each.
// Run: BRAKES=http://127.0.0.1:3000 KEY=… node example.mjs
import { connect, dataOf, Refused } from 'brake-wear-client';

const brakes = connect({
  baseUrl: process.env.BRAKES ?? 'http://127.0.0.1:3000',
  key: process.env.KEY ?? '',
});
try {
  const query = { withinDays: 60, limit: 5 };
  const due = dataOf(await brakes.GET('/v1/reports/due-soon', { params: { query } }));
  console.log(`${due.total} axles are due within ${query.withinDays} days.`);
  for (const { vehicleId, registration, externalId, axle } of due.items) {
    const wear = dataOf(
      await brakes.GET('/v1/vehicles/{vehicleId}/wear', { params: { path: { vehicleId } } }),
    );
    const { advice } = wear.axles.find((each) => each.axle === axle);
    console.log(`${registration ?? externalId}, ${axle}: ${advice.words}`);
  }
} catch (error) {
  if (!(error instanceof Refused)) throw error;
  console.error(`The service refused the call: ${error.message}`);
  process.exitCode = 1;
}
