import { serialFromIsoText } from '../core/serial-date';
import { type CellPlace, placeText } from './book-snapshot';
import { FarmFileError, pathText, readFarm } from './farm';
import { toShown } from './quantities';
import { type BookReading, isOfPlan, type TypedPlace } from './read-book';
import { placeKey } from './registers-of-farm';

/**
 * What is typed into a workbook for a field of its farm: exactly the cells that the field is read from, by the
 * declarations that wrote them.
 */

/** A field of the farm file that is to hold something else; undefined empties it. */
export interface FieldChange {
  /** "tanks[2].volume"; a place in a list one past its last is a new line. */
  readonly path: string;
  /** As the farm file has it. */
  readonly value: unknown;
}

/** A cell that gets a value; undefined empties it. */
export interface CellChange extends CellPlace {
  readonly value: string | number | undefined;
}

export type TypedCells =
  | { readonly cells: readonly CellChange[] }
  /** Why nothing is to be written, and whether a renewed plan can have it. */
  | { readonly refused: string; readonly renew?: true };

class Refused extends Error {
  constructor(
    says: string,
    readonly renew = false,
  ) {
    super(says);
  }
}

type Json = Record<string, unknown>;

const LINE = /^(\w+)\[(\d+)\]\.(.+)$/;

/** Fields that follow from the registers, by the list of the farm file, and where one writes down what changes them. */
const following: Readonly<Record<string, readonly [fields: readonly string[], says: string]>> = {
  tanks: [
    ['fish', 'weight', 'stocked'],
    'Follows from the Fish log: write down there, or under Note, what happens to the fish.',
  ],
  beds: [
    ['crop', 'plants', 'sown', 'planted'],
    'Follows from the Plantings: write down there, or under Note, what is sown, planted and cleared.',
  ],
};

/** The cell that a field is typed in; of a new line, the first prepared one that is free. */
export function placeOfField(
  { places, free, file }: Pick<BookReading, 'places' | 'free' | 'file'>,
  path: string,
): TypedPlace | undefined {
  const known = places.get(path);
  if (known) return known;
  const [, list = '', at, field = ''] = LINE.exec(path) ?? [];
  const rows = (file[list] as readonly unknown[] | undefined)?.length ?? 0;
  return Number(at) < rows ? undefined : free.get(list)?.[Number(at) - rows]?.get(field);
}

/** Why a field cannot be typed; undefined where it can. */
export function whyNotTyped(
  reading: Pick<BookReading, 'places' | 'free' | 'file'>,
  path: string,
): string | undefined {
  const place = placeOfField(reading, path);
  if (place) {
    return place.formula === undefined || isOfPlan(place.formula)
      ? undefined
      : `${placeText(place)} holds a formula of your own: change it there.`;
  }
  const [, list = '', , field = ''] = LINE.exec(path) ?? [];
  const [fields, says] = following[list] ?? [];
  if (fields?.includes(field)) return says;
  return 'This workbook has no cell for it: renew the plan, which brings one.';
}

/** The farm file with a field set; lists and sections on the way are copied. */
function withField(file: Json, path: string, value: unknown): Json {
  const keys = [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map(([, name, at]) =>
    at === undefined ? (name as string) : Number(at),
  );
  const set = (holder: unknown, [key, ...rest]: readonly (string | number)[]): unknown => {
    const into: Json = Array.isArray(holder)
      ? ([...(holder as unknown[])] as unknown as Json)
      : { ...(holder as Json | undefined) };
    const at = key as string;
    if (rest.length > 0) into[at] = set(into[at], rest);
    else if (value === undefined) Reflect.deleteProperty(into, at);
    else into[at] = value;
    return into;
  };
  return set(file, keys) as Json;
}

/** What is wrong in a farm file, each with the path of its field. */
function faultsOf(file: Json): { path: string; missing: boolean; says: string }[] {
  try {
    readFarm(file);
    return [];
  } catch (thrown) {
    if (!(thrown instanceof FarmFileError)) throw thrown;
    return thrown.fields.map(({ path, ...rest }) => ({ path: pathText(path), ...rest }));
  }
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Rows of the registers that call a tank or a bed by its name. */
const callers: Readonly<Record<string, readonly (readonly [list: string, field: string])[]>> = {
  tanks: [
    ['fishLog', 'tank'],
    ['fishLog', 'toTank'],
    ['feedLog', 'tank'],
    ['treatments', 'where'],
  ],
  beds: [
    ['plantings', 'bed'],
    ['harvests', 'bed'],
    ['treatments', 'where'],
  ],
};

/** A tank or bed that registers name keeps its name: its rows would belong to nothing. */
function heedRows(file: Json, { path, value }: FieldChange): void {
  const [, list = '', at, field] = LINE.exec(path) ?? [];
  const before = (file[list] as readonly Json[] | undefined)?.[Number(at)]?.['name'];
  if (field !== 'name' || typeof before !== 'string') return;
  if (typeof value === 'string' && placeKey(value) === placeKey(before)) return;
  const count = (callers[list] ?? []).reduce((sum, [register, column]) => {
    const rows = (file[register] as readonly Json[] | undefined) ?? [];
    const naming = rows.filter(
      ({ [column]: name }) => typeof name === 'string' && placeKey(name) === placeKey(before),
    );
    return sum + naming.length;
  }, 0);
  if (count > 0)
    throw new Refused(
      `${count} ${count === 1 ? 'row' : 'rows'} of the registers ${count === 1 ? 'calls' : 'call'} it ${before} and would belong to nothing: change the name in those rows and on the sheet.`,
    );
}

/** What goes into a cell for a value of the farm file. */
function contentOf(
  { holds, quantity, label }: TypedPlace,
  { path, value }: FieldChange,
  file: Json,
  dayShift: number,
): string | number | undefined {
  if (value === undefined || value === null) return undefined;
  if (holds === 'date') {
    const serial = typeof value === 'string' ? serialFromIsoText(value) : undefined;
    if (serial === undefined) throw new Refused(`${label} must be a date such as "2026-03-01".`);
    return serial - dayShift;
  }
  if (holds === 'text' || typeof value === 'number') return value as string | number;
  // A figure with a unit is worked out: formulas without Gillbed read numbers alone.
  try {
    const farm = readFarm(file);
    const read = path
      .split(/[.[\]]+/)
      .filter(Boolean)
      .reduce((holder: unknown, key) => (holder as Json)[key], farm);
    if (typeof read === 'number') return quantity ? toShown(read, quantity, farm.units) : read;
  } catch (thrown) {
    if (!(thrown instanceof FarmFileError)) throw thrown;
  }
  throw new Refused(`Type the number alone, in the unit of the workbook.`);
}

/**
 * The cells for changed fields, of one line or of several that are there. Nothing is written over a formula that
 * somebody typed, and nothing that the farm would be wrong with.
 */
export function cellsForFields(
  reading: Pick<BookReading, 'places' | 'free' | 'file'>,
  changes: readonly FieldChange[],
  dayShift = 0,
): TypedCells {
  try {
    const placed = changes.map((change) => {
      const place = placeOfField(reading, change.path);
      const why = whyNotTyped(reading, change.path);
      if (!place || why !== undefined) throw new Refused(why ?? '', place === undefined);
      if (change.value === undefined && place.computed)
        throw new Refused(
          `A formula of the plan stood in ${placeText(place)} before a figure was typed over it: undo, or copy the formula from the line above or below.`,
        );
      heedRows(reading.file, change);
      return { change, place };
    });
    const file = changes.reduce<Json>(
      (before, { path, value }) => withField(before, path, value),
      reading.file,
    );
    const known = new Set(faultsOf(reading.file).map(({ path, says }) => `${path} ${says}`));
    const own = new Set(changes.map(({ path }) => path));
    // A line is filled in cell by cell.
    const begun = new Set(changes.map(({ path }) => LINE.exec(path)?.slice(1, 3).join()));
    const wrong = faultsOf(file).find(({ path, missing, says }) => {
      if (own.has(path)) return true;
      const line = LINE.exec(path)?.slice(1, 3).join();
      return !known.has(`${path} ${says}`) && !(missing && line !== undefined && begun.has(line));
    });
    if (wrong) {
      const says = wrong.missing ? 'must not be blank' : wrong.says;
      throw new Refused(`${own.has(wrong.path) ? upper(says) : `${wrong.path} ${says}`}.`);
    }
    return {
      cells: placed.map(({ change, place }) => ({
        sheet: place.sheet,
        row: place.row,
        column: place.column,
        value: contentOf(place, change, file, dayShift),
      })),
    };
  } catch (thrown) {
    if (!(thrown instanceof Refused)) throw thrown;
    return { refused: thrown.message, ...(thrown.renew && { renew: true }) };
  }
}
