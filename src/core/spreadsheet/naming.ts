/** What the errors of a spreadsheet say about the name of a vehicle. */

const UNKNOWN = 'no vehicle has the externalId or registration ';
const NUMBER_IT = ': give the externalId, or number the vehicle in the column vehicleNumber';

export const noVehicleNamed = (name: string): string => `${UNKNOWN}${name}`;

export const severalVehiclesNamed = (count: number, name: string): string =>
  `${count} vehicles are called ${name}`;

export const ambiguousVehicle = (count: number, name: string): string =>
  `${severalVehiclesNamed(count, name)}${NUMBER_IT}`;

/** The name of the vehicle in an error written here; null if it has none. */
export function vehicleNamedIn(detail: string): string | null {
  if (detail.startsWith(UNKNOWN)) return detail.slice(UNKNOWN.length);
  const several = /^\d+ vehicles are called /.exec(detail);
  if (!several) return null;
  const name = detail.slice(several[0].length);
  return name.endsWith(NUMBER_IT) ? name.slice(0, -NUMBER_IT.length) : name;
}
