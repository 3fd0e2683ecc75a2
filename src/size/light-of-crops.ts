import { serialOf } from '../core/serial-date';
import { ask } from './ask-functions';
import { cropNamed, leastLight } from './bed-size';
import { MONTH_NAMES } from '../core/month-names';
import { percent } from './figure-words';
import { preset } from './water-size';

/** Months whose light falls short of the least that crops want. */

interface Grown {
  readonly crop: string;
  /** In which it is sold, from 0; all of them where that is not known. */
  readonly months?: readonly number[];
}

/** Light of a day inside, mol/m2, month by month, as the Plant room sheet has it without lamps. */
const lightOfMonths = (latitude: number, year: number): number[] =>
  MONTH_NAMES.map((_, i) =>
    ask(
      'LIGHT.INSIDE',
      latitude,
      serialOf({ year, month: i + 1, day: 15 }),
      preset('Plant_clearness'),
      preset('Plant_film'),
    ),
  );

/** A sentence of the crops that are short of light in the months of their sale or just before; undefined where none is. */
export function lightShort(
  crops: readonly Grown[],
  latitude: number,
  year: number,
): string | undefined {
  const light = lightOfMonths(latitude, year);
  const short = crops.flatMap(({ crop, months = light.map((_, i) => i) }) => {
    const least = leastLight(cropNamed(crop));
    if (least === undefined) return [];
    const grows = new Set(months.flatMap((month) => [month, (month + 11) % 12]));
    const dark = light.flatMap((share, month) =>
      grows.has(month) && share < least ? [{ month, share: share / least }] : [],
    );
    if (dark.length === 0) return [];
    const names = dark.map(({ month }) => MONTH_NAMES[month]).join(', ');
    return [
      `${crop} in ${names} (${percent(Math.min(...dark.map(({ share }) => share)))} of it at worst)`,
    ];
  });
  return short.length === 0
    ? undefined
    : `Without lamps light falls short of the least that a crop wants: ${short.join('; ')}. It grows slowly and thin then: add lamps, or sell less of it.`;
}
