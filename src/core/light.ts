/** Light that plants can use. */
import { radiation } from './sun';

/** Share of the sun's energy that plants can use, and µmol in a joule of it (Akitsu et al. 2022: 0.41 to 0.48, 4.55 to 4.57). */
export const USABLE_SHARE = 0.45;
export const MICROMOL_PER_JOULE = 4.57;

/** mol/m2/day on a date under a cover; shares for clearness of the sky, the cover and the shade cloth. */
export const lightInside = (
  latitude: number,
  date: number,
  clearness: number,
  cover: number,
  shade: number,
): number =>
  radiation(latitude, date) * clearness * USABLE_SHARE * MICROMOL_PER_JOULE * cover * (1 - shade);

/** mol/m2/day of lamps that give `ppfd` umol/m2/s for `hours`. */
export const lampLight = (ppfd: number, hours: number): number => (ppfd * hours * 3600) / 1e6;
