import { cropTable } from '../functions/crop-table';
import type { SnapshotValue } from '../plan/book-snapshot';
import { isoText } from '../core/serial-date';
import { bedKindOf, cropNamed, type Kind } from './bed-size';
import { propose, type Proposal } from './proposal';
import { readWish } from './wish';
import { MAX_CROPS } from './variant-line';
import { MONTH_NAMES } from '../core/month-names';
import { FARM_NAME, FIRST, MAX_VARIANTS, VARIANT_HEAD } from './variants-sheet';
import { typedParts } from './variant-typed-lines';
import { cropIds } from './variant-line';

/** The sheet Variants, read back: each filled column as a wish. */

/** Something on the sheet that no farm can be made of. */
export class WrongVariants extends Error {}

export interface ReadVariant {
  readonly name: string;
  /** As a wish file has it, in the units of the sheet. */
  readonly wish: unknown;
}

type Rows = readonly (readonly SnapshotValue[])[];

const filled = (value: SnapshotValue | undefined): value is SnapshotValue =>
  value !== undefined && value !== '';

/** Puts a value into an object, at a path whose numbers are places of lists. */
function put(into: Record<string, unknown>, path: readonly (string | number)[], value: unknown) {
  let here: Record<string | number, unknown> = into;
  path.forEach((key, i) => {
    if (i === path.length - 1) here[key] = value;
    else here = (here[key] ??= typeof path[i + 1] === 'number' ? [] : {}) as typeof here;
  });
}

/** The columns of the sheet whose cells these are, from its first cell on. */
export function readVariants(rows: Rows): readonly ReadVariant[] {
  const places = new Map<string, number>();
  rows.forEach((cells, row) => {
    const label = cells[0];
    if (typeof label === 'string' && label !== '' && !places.has(label)) places.set(label, row);
  });
  const head = places.get(VARIANT_HEAD);
  if (head === undefined) throw new WrongVariants('The sheet has no row of variants.');
  const at = (label: string, column: number): SnapshotValue | undefined => {
    const row = places.get(label);
    return row === undefined ? undefined : rows[row]?.[column];
  };
  const system = String(at(MONTH_NAMES[0] as string, 1)).includes('F') ? 'US' : 'metric';
  const currency = String(at('One fingerling', 1) ?? 'EUR');
  const lines = typedParts(system, cropIds(MAX_CROPS), currency).flatMap((part) => part.lines);
  const asOf = at('Day of the plan', FIRST);
  const farm = at(FARM_NAME, FIRST);
  const months = MONTH_NAMES.map((month) => {
    const [high, low, humidity] = [0, 1, 2].map((i) => at(month, FIRST + i));
    return {
      ...(filled(high) && { high }),
      ...(filled(low) && { low }),
      ...(filled(humidity) && { humidity }),
    };
  });
  return Array.from({ length: MAX_VARIANTS }, (_, v) => FIRST + v).flatMap((column) => {
    const name = rows[head]?.[column];
    if (!filled(name)) return [];
    const file: Record<string, unknown> = {
      ...(filled(farm) && { name: String(farm) }),
      units: system,
      currency,
      ...(typeof asOf === 'number' && { asOf: isoText(asOf) }),
      ...(filled(at('Latitude', FIRST)) && { latitude: at('Latitude', FIRST) }),
      ...(filled(at('Altitude', FIRST)) && { altitude: at('Altitude', FIRST) }),
      choices: { excess: 'stays' },
      months,
    };
    for (const { id, label, wish } of lines) {
      const value = at(label, column);
      // What the water is held at shows in its months.
      if (wish !== undefined && id !== 'heat' && filled(value)) put(file, wish, value);
    }
    MONTH_NAMES.forEach((month, i) => {
      const value = at(`Water in ${month}`, column);
      if (filled(value)) put(file, ['months', i, 'water'], value);
    });
    return [{ name: String(name), wish: wishFile(file, String(name)) }];
  });
}

/** The farm of a variant. Throws a WishFileError or WrongVariants with what would be right. */
export function chosenVariant({ name, wish }: ReadVariant, today: number): Proposal {
  const proposal = propose(readWish(wish, today));
  if (proposal.fish === undefined || proposal.crops.length === 0)
    throw new WrongVariants(
      `${name}: ${proposal.fish === undefined ? 'the fish cannot be reckoned with' : 'no crop of it grows in its months and beds'}; ${proposal.remarks.map(({ says }) => says).join(' ')}`,
    );
  return proposal;
}

/** What a wish file says otherwise than the sheet: own tanks, the unit of the fish, no gaps in the market. */
function wishFile(file: Record<string, unknown>, name: string): unknown {
  const { ownTank, fish, market, ...rest } = file as {
    ownTank?: number;
    fish?: { species?: string; perMonth?: number };
    market?: ({ crop?: string; bed?: Kind } | undefined)[];
    choices: { tanks?: number };
    units: string;
  };
  const { perMonth, ...kind } = fish ?? {};
  const crops = (market ?? []).flatMap((row) => {
    if (row?.crop === undefined) return [];
    const found = cropTable.book.find(row.crop);
    if (found && row.bed !== undefined && bedKindOf(cropNamed(found.name), row.bed) !== row.bed)
      throw new WrongVariants(
        `${name}: ${found.name} grows in ${found.beds}, not in ${row.bed}; choose one of them.`,
      );
    return [row];
  });
  return {
    ...rest,
    fish: {
      ...kind,
      ...(perMonth !== undefined && {
        [rest.units === 'US' ? 'lbPerMonth' : 'kgPerMonth']: perMonth,
      }),
    },
    market: crops,
    ...(ownTank !== undefined &&
      rest.choices.tanks !== undefined && {
        have: [`${rest.choices.tanks} tanks of ${ownTank} ${rest.units === 'US' ? 'gal' : 'L'}`],
      }),
  };
}
