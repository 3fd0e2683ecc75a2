import { isoText, MAX_SERIAL, MIN_SERIAL } from '../core/serial-date';
import { tokenize } from '@borgar/fx';
import { cropTable } from '../functions/crop-table';
import type { LookupTable } from '../functions/lookup';
import { speciesTable } from '../functions/species-table';
import { shareFormula } from './lookup-sheet';
import {
  BookCells,
  type BookSnapshot,
  type CellPlace,
  type Cells,
  type FoundCell,
  placeText,
} from './book-snapshot';
import { type Farm, FarmFileError, pathText, readFarm, type WrongField } from './farm';
import { findTyped, type FoundFigure, type FoundRegister } from './find-typed';
import { figureNames } from './names';
import { type NumberPreset, presetOf } from './presets';
import { toShown, type UnitSystem } from './quantities';
import type { TypedColumn, TypedRegister } from './typed-cells';
import { typedOfPlan } from './typed-of-plan';

/** The farm that a workbook holds, read from its typed cells alone. */

/** What stands in a cell and should not. */
export interface BookFault extends Partial<CellPlace> {
  /** Names the cell, what is wrong with it, and what would be right. */
  readonly says: string;
  /** The same without the name of the cell: goes on from it. */
  readonly what: string;
  /** What the cell is called on its sheet. */
  readonly label?: string;
}

export interface BookReading {
  readonly units: UnitSystem;
  /** The farm file as the cells have it, right or not. */
  readonly file: Readonly<Record<string, unknown>>;
  /** Undefined as long as something is wrong. */
  readonly farm?: Farm;
  readonly faults: readonly BookFault[];
  /** Where each field of the file stands, by its path: "tanks[2].volume". */
  readonly places: ReadonlyMap<string, TypedPlace>;
  /** Prepared rows of each list that nobody has typed into, each field with its cell. */
  readonly free: ReadonlyMap<string, readonly ReadonlyMap<string, TypedPlace>[]>;
}

/** A cell that is typed, and how the farm's units have it. */
export type TypedPlace = FoundCell & TypedLabels;

type TypedLabels = Pick<TypedColumn, 'label' | 'holds' | 'quantity' | 'computed'>;

/** Field by field, since a register has tens of thousands of them. */
function typedPlace(
  { sheet, row, column, value, formula }: FoundCell,
  { label, holds, quantity, computed }: TypedLabels,
): TypedPlace {
  const place: { -readonly [Field in keyof TypedPlace]: TypedPlace[Field] } = {
    sheet,
    row,
    column,
    value,
    label,
    holds,
  };
  if (formula !== undefined) place.formula = formula;
  if (quantity) place.quantity = quantity;
  if (computed) place.computed = computed;
  return place;
}

/** The workbook holds no plan, or several. */
export class NoPlanFound extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'NoPlanFound';
  }
}

const DAY_NAME = /^Farm_date((?:_\d+)?)$/i;

/** What the names of each plan in the workbook end with, the newest last: nothing, "_2", … */
export const plansIn = ({ names }: Pick<Cells, 'names'>): string[] =>
  names
    .flatMap(({ name }) => DAY_NAME.exec(name)?.[1] ?? [])
    .sort((a, b) => a.length - b.length || (a < b ? -1 : 1));

const ERROR = /^#(VALUE!|N\/A|NUM!|NAME\?|REF!|DIV\/0!|NULL!|SPILL!|CALC!|BUSY!|ERROR)$/;
/** Of a figure: what tells it from one that was typed anew. */
const SAME = 1e-9;

const same = (a: number, b: number): boolean =>
  Math.abs(a - b) <= SAME * Math.max(1e-300, Math.abs(a), Math.abs(b));

const planNames: ReadonlySet<string> = new Set(
  Object.values<readonly string[]>(figureNames)
    .flat()
    .map((name) => name.toLowerCase()),
);

/** A formula that the plan wrote: it calls the plan's cells by their names. */
export const isOfPlan = (formula: string | undefined): boolean =>
  formula !== undefined &&
  // The plan's names have this sign in them.
  formula.includes('_') &&
  tokenize(formula).some(
    ({ type, value }) =>
      type === 'range_named' &&
      (/^(Fish|Crop|Beds|Tanks|Stock|Own|Plant)_/i.test(value) ||
        planNames.has(value.toLowerCase())),
  );

/** A formula by which a figure of a table follows the grower's switch on Own figures. */
const isSwitch = (formula: string | undefined): boolean =>
  formula !== undefined && /\bOwn_key(_\d+)?\b/i.test(formula);

/** Lists of what happened, whose sheets look for numbers and days. */
const diaries: ReadonlySet<string> = new Set([
  'fishLog',
  'feedLog',
  'plantings',
  'harvests',
  'waterTests',
  'treatments',
]);

type Json = Record<string, unknown>;
type Column = TypedRegister['columns'][number];

class Reader {
  readonly file: Json;
  readonly faults: BookFault[] = [];
  readonly places = new Map<string, TypedPlace>();
  readonly free = new Map<string, ReadonlyMap<string, TypedPlace>[]>();

  constructor(
    private readonly cells: Cells,
    private readonly units: UnitSystem,
    private readonly suffix: string,
    private readonly dayShift: number,
  ) {
    this.file = { name: undefined, units, currency: undefined, asOf: undefined };
  }

  fault(cell: FoundCell, label: string, says: string): void {
    const { sheet, row, column } = cell;
    const name = `${placeText(cell)} (${label})`;
    this.faults.push({ sheet, row, column, says: `${name} ${says}`, what: says, label });
  }

  /** Registers count numbers alone: what they would pass over must not count elsewhere. */
  private readRow(cell: FoundCell, column: TypedColumn, list: string): unknown {
    const { value } = cell;
    const { holds, label } = column;
    if (typeof value === 'string' && value.trim() !== '' && !ERROR.test(value)) {
      if (holds !== 'text') {
        const right =
          holds === 'date'
            ? 'type it in a cell that is not formatted as text'
            : 'type the number alone, in the unit of the heading';
        this.fault(cell, label, `is text ("${value.trim()}"), not a ${holds}: ${right}.`);
        return undefined;
      }
    }
    if (list === 'fishLog' && holds === 'date' && typeof value === 'number' && value % 1 !== 0) {
      this.fault(cell, label, 'has a time of day: type the day alone.');
      return undefined;
    }
    return this.read(cell, column);
  }

  /** What a cell says in the farm file's own spelling; undefined for a blank one. */
  private read(cell: FoundCell, { holds, label }: TypedColumn): unknown {
    const { value } = cell;
    if (typeof value === 'string' && (value.trim() === '' || ERROR.test(value))) {
      if (value.trim() !== '')
        this.fault(cell, label, `shows ${value}: type the ${holds} itself, or mend its formula.`);
      return undefined;
    }
    if (holds === 'text') return String(value);
    if (holds === 'date' && typeof value === 'number') {
      const day = Math.floor(value) + this.dayShift;
      return day >= MIN_SERIAL && day <= MAX_SERIAL ? isoText(day) : String(value);
    }
    return value;
  }

  private place(path: readonly (string | number)[], cell: FoundCell, typed: TypedLabels): void {
    this.places.set(pathText(path), typedPlace(cell, typed));
  }

  private put(path: readonly string[], value: unknown): void {
    let at = this.file;
    for (const key of path.slice(0, -1)) at = (at[key] ??= {}) as Json;
    at[path.at(-1) as string] = value;
  }

  /** Whether the plan in the workbook may be one that brought along what is brought no more. */
  private isFormer({ formerlyWithout }: NumberPreset): boolean {
    const name = formerlyWithout && `${formerlyWithout}${this.suffix}`.toLowerCase();
    return !this.cells.names.some((found) => found.name.toLowerCase() === name);
  }

  figure({ typed, cell }: FoundFigure): void {
    if (!cell) return;
    const path = 'farm' in typed.to ? typed.to.farm.split('.') : ['figures', typed.to.preset];
    this.place(path, cell, typed);
    // The plan's own formula stands there as long as nobody types a figure.
    if (isOfPlan(cell.formula)) return;
    const value = this.read(cell, typed);
    if ('farm' in typed.to) {
      if (value !== undefined) this.put(path, value);
      return;
    }
    const preset = presetOf(typed.to.preset);
    if (value === undefined) {
      if (cell.value !== '') return;
      if (preset.usual !== undefined || ('quantity' in preset && preset.follows))
        this.put(path, null);
      return;
    }
    const brought =
      'quantity' in preset && this.isFormer(preset)
        ? (preset.usual ?? preset.formerly)
        : preset.usual;
    const usual =
      'quantity' in preset && typeof brought === 'number'
        ? toShown(brought, preset.quantity, this.units)
        : brought;
    const isUsual =
      typeof usual === 'number'
        ? typeof value === 'number' && same(value, usual)
        : typeof value === 'string' && value.toLowerCase() === usual?.toLowerCase();
    if (!isUsual) this.put(path, value);
  }

  /** Registers of one list, each with some of its fields, row by row. */
  list(list: string, registers: readonly FoundRegister[]): void {
    const entries = new Map<number, { entry: Json; cells: [FoundCell, Column][] }>();
    const isDiary = diaries.has(list);
    for (const { typed, rows } of registers) {
      for (const { index, cells } of rows) {
        const row = entries.get(index) ?? { entry: {}, cells: [] };
        entries.set(index, row);
        cells.forEach((cell, i) => {
          const column = typed.columns[i];
          if (!cell || !column) return;
          // What follows from other registers is no field of its own, as long as nobody types over it.
          if (column.computed && cell.formula !== undefined) return;
          row.cells.push([cell, column]);
          const value = isDiary ? this.readRow(cell, column, list) : this.read(cell, column);
          if (value !== undefined) row.entry[column.field] = value;
        });
      }
    }
    const keepsAll = list === 'months';
    const filled = [...entries]
      .sort(([a], [b]) => a - b)
      .filter(([, { entry }]) => keepsAll || Object.keys(entry).length > 0);
    if (registers.every(({ sheet }) => sheet === undefined)) return;
    this.file[list] = filled.map(([, { entry }]) => entry);
    filled.forEach(([, { cells }], i) => {
      for (const [cell, column] of cells) this.place([list, i, column.field], cell, column);
    });
    const last = Math.max(-1, ...filled.map(([index]) => index));
    const free = [...entries].filter(([index]) => index > last).sort(([a], [b]) => a - b);
    this.free.set(
      list,
      free.map(
        ([, { cells }]) =>
          new Map(cells.map(([cell, column]) => [column.field, typedPlace(cell, column)])),
      ),
    );
  }

  /** The figures of a table that are not the ones it comes with. */
  table<R>(table: LookupTable<R>, list: 'crops' | 'species'): void {
    const named = (part: string) => this.cells.name(`${table.prefix}_${part}${this.suffix}`);
    const names = named('name');
    if (!names) return;
    const { sheet, area } = names;
    const columns = table.columns.flatMap((column) => {
      const name = named(column.fact);
      return name ? [{ column, at: name.area.column }] : [];
    });
    const lines = table.matrices.flatMap((matrix) => {
      const name = named(matrix.fact);
      return name ? [{ matrix, at: name.area }] : [];
    });
    const seen = new Set<R>();
    for (let row = area.row; row < area.row + area.rows; row++) {
      const cell = this.cells.at({ sheet, row, column: area.column });
      const its = typeof cell.value === 'string' ? table.book.find(cell.value) : undefined;
      if (its === undefined || seen.has(its)) {
        if (cell.value !== '')
          this.fault(
            cell,
            'Name',
            its === undefined
              ? `is no ${table.book.what} of the table: give it back its name; only figures can be overwritten.`
              : `stands there twice; remove one of the two lines.`,
          );
        continue;
      }
      seen.add(its);
      const name = table.nameOf(its);
      for (const { column, at } of columns) {
        const place = this.cells.at({ sheet, row, column: at });
        this.place([list, name, column.fact], place, {
          label: `${name}: ${column.label}`,
          holds: 'number',
        });
        if (isSwitch(place.formula)) continue;
        const usual = column.of(its);
        const value = this.read(place, {
          name: names.name as TypedColumn['name'],
          beside: 0,
          label: `${name}: ${column.label}`,
          holds: typeof usual === 'number' ? 'number' : 'text',
        });
        const isUsual =
          typeof usual === 'number'
            ? typeof value === 'number' && same(value, usual)
            : String(value ?? '') === usual || value === Number(usual);
        const unknown = value === undefined && (usual === '' || place.value !== '');
        if (!isUsual && !unknown) this.put([list, name, column.fact], this.asFigure(value));
      }
      for (const { matrix, at } of lines) {
        const usual = matrix.of(its);
        const found = usual.map((_, i) => this.cells.at({ sheet, row, column: at.column + i }));
        const values = found.map(({ value }) => value);
        const follows =
          matrix.goesWith !== undefined &&
          found.every(
            ({ formula }, i) =>
              formula?.replace(/^=/, '') ===
              shareFormula(usual[i] as number, row, at.column - 1).replace(/^=/, ''),
          );
        if (found[0])
          this.place([list, name, matrix.fact], found[0], {
            label: `${name}: ${matrix.label}`,
            holds: 'number',
          });
        const isUsual = values.every(
          (value, i) => typeof value === 'number' && same(value, usual[i] as number),
        );
        if (!follows && !isUsual) this.put([list, name, matrix.fact], values);
      }
    }
    for (const { heads } of table.matrices) {
      const name = named(heads.fact);
      if (!name) continue;
      const values = heads.values.map(
        (_, i) => this.cells.at({ sheet, row: name.area.row, column: name.area.column + i }).value,
      );
      const first = this.cells.at({ sheet, row: name.area.row, column: name.area.column });
      this.place(['feedWeights'], first, { label: heads.label, holds: 'number' });
      if (
        !values.every(
          (value, i) => typeof value === 'number' && same(value, heads.values[i] as number),
        )
      )
        this.file['feedWeights'] = values;
    }
  }

  /** A column that the table knows no figure for reads as text; a number typed there is a number. */
  private asFigure(value: unknown): unknown {
    if (value === undefined) return null;
    return typeof value === 'string' && value !== '' && Number.isFinite(Number(value))
      ? Number(value)
      : value;
  }
}

/** A wrong field in words about the cell that holds it. */
function faultOf({ path, missing, says }: WrongField, reader: Reader): BookFault {
  const text = pathText(path);
  const cell = reader.places.get(text);
  if (cell) {
    const { sheet, row, column, label } = cell;
    const what = missing ? 'is blank: type it, or clear its whole row.' : `${says}.`;
    return { sheet, row, column, says: `${placeText(cell)} (${label}) ${what}`, what, label };
  }
  const sentence = missing
    ? `The workbook has no cell for ${text}: its sheet or its name was deleted.`
    : `${text} ${says}.`;
  return { says: sentence, what: sentence };
}

const withoutGaps = (value: Json): Json =>
  Object.fromEntries(Object.entries(value).filter(([, field]) => field !== undefined));

/** The units of a plan: where they are not metric, metric figures stand beside the typed ones. */
export function unitsOf(cells: Cells, suffix: string): UnitSystem {
  const altitude = cells.name(`Farm_altitude${suffix}`);
  if (altitude === undefined) return 'metric';
  const { sheet, area } = altitude;
  const { formula } = cells.at({ sheet, row: area.row, column: area.column });
  return formula === undefined ? 'metric' : 'US';
}

/**
 * Reads the farm from the typed cells of a workbook with a plan in it, by the declarations that wrote them.
 * Throws NoPlanFound where there is none, or where there are several and none is named.
 */
export function readBook(book: BookSnapshot | Cells, plan?: string): BookReading {
  const suffixes = plansIn(book);
  const suffix = plan ?? suffixes[0];
  if (suffix === undefined || !suffixes.includes(suffix))
    throw new NoPlanFound('The workbook holds no plan of Gillbed: no cell is named Farm_date.');
  if (plan === undefined && suffixes.length > 1)
    throw new NoPlanFound(
      `The workbook holds ${suffixes.length} plans; delete the sheets of all but one, or say which one is meant.`,
    );
  const cells = 'at' in book ? book : new BookCells(book);
  const units = unitsOf(cells, suffix);
  const found = findTyped(cells, typedOfPlan(units), suffix);
  const reader = new Reader(cells, units, suffix, book.dayShift ?? 0);
  for (const figure of found.figures) if ('farm' in figure.typed.to) reader.figure(figure);
  const lists = [...new Set(found.registers.map(({ typed }) => typed.list))];
  for (const list of lists)
    reader.list(
      list,
      found.registers.filter(({ typed }) => typed.list === list),
    );
  for (const figure of found.figures) if ('preset' in figure.typed.to) reader.figure(figure);
  reader.table(cropTable, 'crops');
  reader.table(speciesTable, 'species');
  const file = withoutGaps(reader.file);
  const reading = { units, file, places: reader.places, free: reader.free };
  try {
    const farm = readFarm(file);
    return { ...reading, faults: reader.faults, ...(reader.faults.length === 0 && { farm }) };
  } catch (problem) {
    if (!(problem instanceof FarmFileError)) throw problem;
    const said = new Set(
      reader.faults.map(({ sheet, row, column }) => `${sheet},${row},${column}`),
    );
    const others = problem.fields
      .map((field) => faultOf(field, reader))
      .filter(({ sheet, row, column }) => !said.has(`${sheet},${row},${column}`));
    const faults = [...reader.faults, ...others];
    return { ...reading, faults };
  }
}
