/**
 * Un-ionised ammonia: the share of total ammonia nitrogen (TAN) that is NH3, which harms fish.
 * Fresh water: Emerson, Russo, Lund & Thurston 1975. Sea water, for probes on the NBS scale as farms
 * use them: Bell, Johnson, Jickells & Liss 2007 (corrected 2008). Between the two the pKa is taken
 * linearly with salinity, because neither equation covers brackish water.
 */

const SEA_WATER_SALINITY = 35;

/** pKa of ammonium in fresh water; `water` in degC, 0 to 50. Emerson et al. 1975. */
export const freshWaterPka = (water: number): number => 0.09018 + 2729.92 / (water + 273.15);

/** pKa of ammonium in sea water on the NBS scale; `salinity` in g/kg. Bell et al. 2007. */
const seaWaterPka = (water: number, salinity: number): number =>
  10.0423 - 0.0315536 * water + 0.003071 * salinity;

/** pKa at any salinity from 0 to 40 g/kg. */
export function ammoniumPka(water: number, salinity: number): number {
  const fresh = freshWaterPka(water);
  if (salinity === 0) return fresh;
  const sea = seaWaterPka(water, Math.max(salinity, SEA_WATER_SALINITY));
  return fresh + (sea - fresh) * Math.min(salinity / SEA_WATER_SALINITY, 1);
}

/** Share of TAN that is un-ionised, 0 to 1. */
export const unionisedShare = (ph: number, water: number, salinity: number): number =>
  1 / (1 + 10 ** (ammoniumPka(water, salinity) - ph));

/** mg/L TAN at which un-ionised ammonia reaches `limit` mg/L. */
export const ammoniaCeiling = (
  limit: number,
  ph: number,
  water: number,
  salinity: number,
): number => limit / unionisedShare(ph, water, salinity);
