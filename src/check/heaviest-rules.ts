import { heaviestFish } from '../core/heaviest-fish';
import { speciesTable } from '../functions/species-table';
import { readNumberText } from '../functions/units';
import { figure, type Finding } from './finding';
import type { FoundTable } from './found-tables';
import { labelled, type Labelled } from './labels';
import type { OpenSheet } from './open-sheet';

/** Fish of so many grams against the heaviest of their species that is published. */
function tooHeavy(
  species: string | undefined,
  grams: number | undefined,
): Pick<Finding, 'level' | 'why' | 'remedy'> | undefined {
  const kind = speciesTable.book.find(species ?? '');
  const [heaviest] = (kind && heaviestFish.get(kind.name)) ?? [Infinity];
  if (kind === undefined || grams === undefined || grams <= heaviest) return undefined;
  return {
    level: 'watch',
    why: `The heaviest ${kind.name} that is published weighs about ${figure(heaviest / 1000)} kg: growth, feed and density beyond it hold for no fish.`,
    remedy: `Look at the unit and the point of the figure; ${kind.name} are usually sold at ${figure(kind.facts.harvest_weight[0])} g.`,
  };
}

/** Tanks whose fish weigh more than any of their species. */
export const heavyFishRules = (table: FoundTable): Finding[] =>
  table.roles.has('tank') && table.roles.has('species') && table.roles.has('weight')
    ? table.lines.flatMap((line): Finding[] => {
        const weight = line.number('weight');
        const found = tooHeavy(line.text('species'), weight);
        if (weight === undefined || found === undefined) return [];
        const what = `${line.called}: a mean weight of ${figure(weight / 1000)} kg.`;
        return [{ ...found, what, sheet: table.sheet, address: line.address('weight') }];
      })
    : [];

/** The species that stands beside the label of that name. */
function speciesBeside(sheet: OpenSheet | undefined): string | undefined {
  for (const row of sheet?.values ?? []) {
    const at = row.findIndex((cell) => typeof cell === 'string' && /^species$/i.test(cell.trim()));
    const beside = at < 0 ? undefined : row[at + 1];
    if (typeof beside === 'string' && speciesTable.book.find(beside)) return beside;
  }
  return undefined;
}

/** Undefined where the unit is no unit of weight. */
function gramsOf({ value, unit }: Labelled): number | undefined {
  if (unit === '') return value;
  try {
    return readNumberText(`${value} ${unit}`, 'g', 'weight');
  } catch {
    return undefined;
  }
}

/** A plan to sell fish that weigh more than any of their species. */
export function heavySaleRules(sheets: readonly OpenSheet[]): Finding[] {
  const sold = labelled(sheets, /^weight when sold$/i);
  if (sold === undefined) return [];
  const { sheet, address } = sold;
  const grams = gramsOf(sold);
  const found = tooHeavy(speciesBeside(sheets.find(({ name }) => name === sheet)), grams);
  if (grams === undefined || found === undefined) return [];
  const what = `Fish are to be sold at ${figure(grams / 1000)} kg.`;
  return [{ ...found, what, sheet, address }];
}
