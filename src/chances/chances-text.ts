/** A band of chances in lines for a reader. */
import type { Farm } from '../plan/farm';
import { shownIn, toShown } from '../plan/quantities';
import { type Result, results, resultWords } from './chance-year';
import type { Chances } from './chances';
import { inputs, inputWords, spreadSource } from './spreads';

const digits = (value: number): string => String(Number(value.toPrecision(3)));
const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** A mover below this share says nothing that chance alone would not. */
const MIN_SHARE = 0.02;

type Units = Pick<Farm, 'units' | 'currency'>;

/** A result as the farm's units have it. */
export const inUnits = (result: Result, value: number, units: Farm['units']): number =>
  result === 'fish' ? toShown(value, 'mass', units) : value;

/** Empty for shares. */
export const unitOfResult = (result: Result, { units, currency }: Units): string =>
  result === 'fish' ? shownIn('mass', units).unit : result === 'income' ? currency : '';

export function chancesText(
  { years, weeks, seed, bands, spreads, notes }: Chances,
  { units, currency }: Units,
): string[] {
  const shown = (result: Result, value: number): string => digits(inUnits(result, value, units));
  return [
    `${years} times ${weeks} weeks, played by chance from the rows that are typed (seed ${seed}: the same seed gives the same answer). A year in ten is below the first figure, half are below the second, nine in ten below the third.`,
    ...results.flatMap((result) => {
      const band = bands[result];
      if (band === undefined) return [];
      const moved = band.movers
        .filter(({ share }) => share >= MIN_SHARE)
        .map(({ input, share }) => `${inputWords[input].toLowerCase()} ${percent(share)}`);
      const by = moved.length === 0 ? '' : `; moved by ${moved.join(', ')}`;
      return [
        `${[resultWords[result], unitOfResult(result, { units, currency })].filter(Boolean).join(', ')}: ${shown(result, band.tenth)} / ${shown(result, band.half)} / ${shown(result, band.ninetieth)}${by}`,
      ];
    }),
    'What it rests on, as shares of each figure:',
    ...inputs.map((input) => {
      const spread = spreads[input];
      return `  ${inputWords[input]}: ${percent(spread.batch)} from batch to batch, ${percent(spread.year)} from year to year (${spreadSource(spread)})`;
    }),
    ...notes,
  ];
}
