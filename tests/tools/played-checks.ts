/** What a workbook says of a day, set beside the ledger of a played year. */
import type { BookCells } from '../../src/plan/book-snapshot';
import type { ComputedValues } from '../../src/plan/computed-values';
import type { Balance } from './year-of-registers';

const NEAR = 1e-6;
const near = (a: unknown, b: number): boolean =>
  typeof a === 'number' && Math.abs(a - b) <= NEAR * Math.max(1, Math.abs(b));

/** Differences in sentences; `values` in place of what the file holds, where another program computed it. */
export function otherThanLedger(
  cells: BookCells,
  { tanks, beds, area, income, fishIncome }: Balance,
  values?: ComputedValues,
): string[] {
  const at = (name: string, i: number): unknown => {
    const found = cells.name(name);
    if (!found) throw new Error(`The workbook has no ${name}`);
    const place = { sheet: found.sheet, row: found.area.row + i, column: found.area.column };
    return values ? (values(place.sheet, place.row, place.column) ?? '') : cells.at(place).value;
  };
  const says: string[] = [];
  const rowsOf = (name: string): [number, string][] => {
    const rows = cells.name(name)?.area.rows ?? 0;
    return Array.from({ length: rows }, (_, i): [number, string] => [
      i,
      String(at(name, i)),
    ]).filter(([, word]) => word !== '');
  };
  for (const [i, name] of rowsOf('Tanks_name')) {
    const { fish, biomass } = tanks.get(name) ?? { fish: 0, biomass: 0 };
    const [there, kilograms] = [at('Tanks_fish', i), at('Tanks_biomass', i)];
    if (Number(there) !== fish) says.push(`${name}: ${String(there)} fish, not ${fish}`);
    if (!near(fish === 0 ? Number(kilograms) : kilograms, biomass))
      says.push(`${name}: ${String(kilograms)} kg, not ${biomass}`);
  }
  let planted = 0;
  for (const [i, name] of rowsOf('Beds_name')) {
    const standing = beds.get(name);
    const crop = String(at('Beds_crop', i));
    if (crop !== (standing?.crop ?? ''))
      says.push(`${name}: "${crop}", not "${standing?.crop ?? ''}"`);
    if (standing && at('Beds_plants', i) !== standing.plants)
      says.push(`${name}: ${String(at('Beds_plants', i))} plants, not ${standing.plants}`);
    if (crop !== '') planted += Number(at('Beds_area', i));
  }
  if (!near(planted, area)) says.push(`${planted} m2 are planted, not ${area}`);
  const money = { all: 0, fish: 0 };
  for (const [i] of rowsOf('Harvest_date')) {
    const earned = Number(at('Harvest_income', i));
    money.all += earned;
    if (at('Harvest_kind', i) === 'fish') money.fish += earned;
  }
  if (!near(money.all, income)) says.push(`income ${money.all}, not ${income}`);
  if (!near(money.fish, fishIncome)) says.push(`income of fish ${money.fish}, not ${fishIncome}`);
  for (const name of ['Fishlog_fault', 'Fishlog_says', 'Plantings_says', 'Harvest_says'])
    for (const [i, word] of rowsOf(name))
      if (/impossible|more (?:fish )?than|no such|twice|rests on/i.test(word))
        says.push(`${name} ${i + 1}: ${word}`);
  return says;
}
