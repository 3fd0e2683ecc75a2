/**
 * The twelve months between a coldest and a warmest one. Mean air follows a cosine over the year (the usual
 * first approximation); its warmest day comes some three and a half weeks after the longest one, which puts
 * the extremes into January and July north of the equator, and half a year later south of it. Common practice,
 * no source: coasts lag by up to two weeks more.
 */

/** Months that a year is shifted by south of the equator. */
const HALF_A_YEAR = 6;
/** July, from 0: where the air is warmest in the north. */
const WARMEST_NORTH = 6;

/** Mean air of January to December; the two extremes are met exactly. */
export function monthsBetween(
  coldest: number,
  warmest: number,
  latitude: number,
): readonly number[] {
  const warmestMonth = latitude < 0 ? WARMEST_NORTH - HALF_A_YEAR : WARMEST_NORTH;
  return Array.from({ length: 12 }, (_, month) => {
    const way = (1 + Math.cos((2 * Math.PI * (month - warmestMonth)) / 12)) / 2;
    return Number((coldest + (warmest - coldest) * way).toFixed(2));
  });
}
