/** A stretch between two days on which the odometer was read. */
export interface Stretch {
  fromDay: number;
  toDay: number;
  km: number;
}

/** Mean daily distance over stretches; null if there are none. */
export function paceOf(stretches: readonly Stretch[]): { days: number; kmPerDay: number } | null {
  const days = stretches.reduce((sum, { fromDay, toDay: to }) => sum + to - fromDay, 0);
  const km = stretches.reduce((sum, stretch) => sum + stretch.km, 0);
  return days > 0 ? { days, kmPerDay: km / days } : null;
}
