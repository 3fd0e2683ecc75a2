/** A band of chances in lines for a reader. */
import type { Farm } from '../plan/farm';
import { shownIn, toShown } from '../plan/quantities';
import { type Result, results, resultWords } from './chance-year';
import type { Chances } from './chances';
import { inputs, inputWords } from './spreads';

const digits = (value: number): string => String(Number(value.toPrecision(3)));
const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** A mover below this share says nothing that chance alone would not. */
const LEAST_SHARE = 0.02;

export function chancesText(
  { years, weeks, seed, bands, spreads, notes }: Chances,
  { units, currency }: Pick<Farm, 'units' | 'currency'>,
): string[] {
  const mass = shownIn('mass', units).unit;
  const shown = (result: Result, value: number): string =>
    digits(result === 'fish' ? toShown(value, 'mass', units) : value);
  const unitOf: Partial<Record<Result, string>> = { fish: mass, income: currency };
  return [
    `${years} times ${weeks} weeks, played by chance from the rows that are typed (seed ${seed}: the same seed gives the same answer). A year in ten is below the first figure, half are below the second, nine in ten below the third.`,
    ...results.flatMap((result) => {
      const band = bands[result];
      if (band === undefined) return [];
      const moved = band.movers
        .filter(({ share }) => share >= LEAST_SHARE)
        .map(({ input, share }) => `${inputWords[input].toLowerCase()} ${percent(share)}`);
      const by = moved.length === 0 ? '' : `; moved by ${moved.join(', ')}`;
      return [
        `${[resultWords[result], unitOf[result]].filter(Boolean).join(', ')}: ${shown(result, band.tenth)} / ${shown(result, band.half)} / ${shown(result, band.ninetieth)}${by}`,
      ];
    }),
    'What it rests on, as shares of each figure:',
    ...inputs.map((input) => {
      const { batch, year, batches } = spreads[input];
      const from =
        batches > 0 ? `${batches} own batches or sales` : 'as stated: common practice, no source';
      return `  ${inputWords[input]}: ${percent(batch)} from batch to batch, ${percent(year)} from year to year (${from})`;
    }),
    ...notes,
  ];
}
