/** Water that a farm loses and is given, and what the make-up leaves behind. */

/** L/day of make-up; below 0 where rain brings more than is lost. */
export const makeUp = (
  crops: number,
  evaporation: number,
  discharge: number,
  rain: number,
): number => crops + evaporation + discharge - rain;

export interface BuildUp {
  /** L */
  readonly volume: number;
  /** mg/L now, and in the make-up water */
  readonly from: number;
  readonly brings: number;
  /** L/day */
  readonly makeup: number;
  readonly discharge: number;
  readonly days: number;
  /** g/day that is added beside the make-up */
  readonly added: number;
}

/**
 * mg/L after so many days of what neither plants nor air take: volume x dC/dt = makeup x brings + added -
 * discharge x C, solved exactly.
 */
export function builtUp({ volume, from, makeup, brings, discharge, days, added }: BuildUp): number {
  const comes = makeup * brings + 1000 * added;
  if (discharge === 0) return from + (comes * days) / volume;
  const steady = comes / discharge;
  return steady + (from - steady) * Math.exp((-discharge * days) / volume);
}
