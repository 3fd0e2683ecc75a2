import { call } from '../formula-parts';
import { inShownUnits, shownIn } from '../quantities';
import { fixedRef } from '../references';
import { area } from '../sheet-builder';
import { WEEK_ROWS } from './stock-weeks-block';
import { TANK_YEAR, HEAD_ROW, FIRST_ROW, FIRST_TANK, type TankYear } from './tank-year-layout';
import { LISTED } from './tank-year-list';

/** Tanks that the picture shows: more lines cannot be told apart. */
const MAX_DRAWN = 8;

/** Each tank's density through the year, and the least of the limits. */
export function tankYearPicture({ ctx, sheet, tanks, place, put }: TankYear): void {
  const { system } = ctx;
  const density = shownIn('density', system);
  const limits = fixedRef(area(FIRST_ROW, place.held + 2, tanks));
  const least = call('SMALL', limits, call('COUNTIF', limits, '<=0').plus(1));
  put(HEAD_ROW - 1, place.limit, call('IFERROR', inShownUnits(least, 'density', system), ''));
  for (let w = 0; w < WEEK_ROWS; w++) {
    put(FIRST_ROW + w, place.limit, fixedRef(area(HEAD_ROW - 1, place.limit)), density.format);
  }
  const drawn = (name: string, column: number) => ({
    name,
    sheet: TANK_YEAR,
    area: area(FIRST_ROW, column, WEEK_ROWS),
  });
  const { list } = place;
  const picture = list + LISTED + 4;
  // A page that ends in the picture would cut it in two.
  sheet.printOnPages([
    area(0, 0, list, place.rows),
    area(list, 0, picture - list, place.rows),
    area(picture, 0, 20, place.rows),
  ]);
  sheet.chart({
    kind: 'line',
    title: `Density, tank by tank, and the least limit, ${density.unit}`,
    place: area(picture, 0, 20, FIRST_TANK + Math.min(tanks, 6)),
    categories: { sheet: TANK_YEAR, area: area(FIRST_ROW, 1, WEEK_ROWS) },
    series: [
      ...ctx.farm.tanks.slice(0, MAX_DRAWN).map(({ name }, k) => drawn(name, FIRST_TANK + k)),
      drawn('Limit', place.limit),
    ],
    categoryTitle: 'Week of',
    valueTitle: density.unit,
  });
}
