/** What the errors of a spreadsheet say about the name of a vehicle. */

const UNKNOWN = 'no vehicle has the number (externalId) or registration ';
const NUMBER_IT = ': give its own number (externalId), or number the vehicle in the column vehicleNumber';

/** Wordings of earlier versions, which stored reports may still contain. */
const FORMER = {
  unknown: 'no vehicle has the externalId or registration ',
  numberIt: ': give the externalId, or number the vehicle in the column vehicleNumber',
};

export const noVehicleNamed = (name: string): string => `${UNKNOWN}${name}`;

export const severalVehiclesNamed = (count: number, name: string): string =>
  `${count} vehicles are called ${name}`;

export const ambiguousVehicle = (count: number, name: string): string =>
  `${severalVehiclesNamed(count, name)}${NUMBER_IT}`;

/** The name of the vehicle in such an error; null if it has none. */
export function vehicleNamedIn(detail: string): string | null {
  const unknown = [UNKNOWN, FORMER.unknown].find((beginning) => detail.startsWith(beginning));
  if (unknown !== undefined) return detail.slice(unknown.length);
  const several = /^\d+ vehicles are called /.exec(detail);
  if (!several) return null;
  const name = detail.slice(several[0].length);
  const end = [NUMBER_IT, FORMER.numberIt].find((ending) => name.endsWith(ending));
  return end === undefined ? name : name.slice(0, -end.length);
}
