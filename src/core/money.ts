/**
 * Income for each week that the plants hold their bed: of the bed, or of each m2 where its area is given.
 * `yieldEach` is what one plant gives in its whole time, in the unit that `price` is for (kg, heads, bunches).
 */
export const bedWeekIncome = (
  plants: number,
  yieldEach: number,
  price: number,
  weeks: number,
  area: number | undefined,
): number => (plants * yieldEach * price) / weeks / (area ?? 1);

/** Price for one unit of the crop at which the sale just covers the cost. */
export const breakEvenPrice = (cost: number, yieldTotal: number): number => cost / yieldTotal;
