import type { Cell, CellPosition, Model } from '@odoo/o-spreadsheet';
import { mendEvaluator, needParts, type Patch } from './patch';

type Getters = Model['getters'];

/** A cell in which a value was typed. */
type Typed = Extract<Cell, { isFormula: false }>;

/** What the library makes of a cell: its value, how it is written, where it stands. */
interface Evaluated {
  readonly value: unknown;
  readonly format?: string;
  readonly type: string;
  readonly message?: unknown;
  readonly link?: unknown;
  readonly errorOriginPosition?: unknown;
  readonly position?: CellPosition;
  readonly origin?: CellPosition;
}

interface PositionMap {
  map: Record<string, Record<number, Record<number, unknown>> | undefined>;
  set(position: CellPosition, cell: unknown): void;
  get(position: CellPosition): unknown;
  delete(position: CellPosition): void;
  clearSheet(sheetId: string): void;
}

type PositionMapOf = new () => PositionMap;

interface Evaluator {
  readonly getters: Getters;
  evaluatedCells: PositionMap;
  computeCell(position: CellPosition): Evaluated;
}

const NAME = 'values-on-demand';

/** So many of the cells that were looked at last are kept as the library makes them, and up to twice as many. */
const KEPT = 16_384;

/** What a formula gave, where it has a format. */
class Given {
  constructor(
    readonly value: number | string | boolean,
    readonly format: string,
  ) {}
}

const isTyped = (entry: object): entry is Typed => 'isFormula' in entry;

const samePlace = (a: CellPosition | undefined, b: CellPosition): boolean =>
  a?.row === b.row && a.col === b.col && a.sheetId === b.sheetId;

/** A blank that a formula has looked at. */
const isBlank = ({ value, format, position }: Evaluated, at: CellPosition): boolean =>
  value === null && format === undefined && samePlace(position, at);

/** The library makes the same of the same value and format at a place; errors and links say more. */
function isMadeOfValue(cell: Evaluated, position: CellPosition): boolean {
  const { value } = cell;
  return (
    (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') &&
    cell.type !== 'error' &&
    cell.message === undefined &&
    cell.link === undefined &&
    cell.errorOriginPosition === undefined &&
    samePlace(cell.origin, position) &&
    samePlace(cell.position, position)
  );
}

/** The least that says what a cell shows. */
function shortest(cell: Evaluated, position: CellPosition, getters: Getters): unknown {
  if (isBlank(cell, position)) return null;
  if (!isMadeOfValue(cell, position)) return cell;
  const { value, format } = cell as { value: number | string | boolean; format?: string };
  const own = getters.getCell(position);
  // The cell itself says it: it is there in any case.
  if (own && !own.isFormula && own.parsedValue === value && own.format === format) return own;
  return format === undefined ? value : new Given(value, format);
}

/** Whether the library's own of a cell is held. */
const isWhole = (entry: unknown): entry is Evaluated =>
  typeof entry === 'object' && entry !== null && !isTyped(entry) && !(entry instanceof Given);

/** A typed cell of which the library makes what an entry stands for. */
function asTyped(entry: unknown): object | undefined {
  if (entry === null) return undefined;
  if (typeof entry === 'object' && isTyped(entry)) return entry;
  const [value, format] = entry instanceof Given ? [entry.value, entry.format] : [entry];
  return { id: 0, isFormula: false, content: value, parsedValue: value, format };
}

/** Makes of a typed cell what the library makes of it, without anything else of a workbook. */
function maker(
  evaluator: Evaluator,
): (position: CellPosition, cell: object | undefined) => Evaluated {
  const { computeCell } = Object.getPrototypeOf(evaluator) as Evaluator;
  const bare = {
    cell: undefined as object | undefined,
    evaluatedCells: { get: () => undefined },
    blockedArrayFormulas: { has: () => true },
    spreadingRelations: { isArrayFormula: () => false },
    cellsBeingComputed: new Set(),
    getters: { getCell: () => bare.cell, getLocale: () => evaluator.getters.getLocale() },
  };
  return (position, cell) => {
    bare.cell = cell;
    return computeCell.call(bare as never, position);
  };
}

/** The cells that were looked at last, as the library makes them. */
class LastLooked {
  private last = new Map<number, Evaluated>();
  private before = new Map<number, Evaluated>();
  private readonly sheets = new Map<string, number>();

  private keyOf({ sheetId, col, row }: CellPosition): number {
    let sheet = this.sheets.get(sheetId);
    if (sheet === undefined) this.sheets.set(sheetId, (sheet = this.sheets.size));
    return (sheet * 2 ** 14 + col) * 2 ** 21 + row;
  }

  get(position: CellPosition): Evaluated | undefined {
    const key = this.keyOf(position);
    const known = this.last.get(key);
    if (known) return known;
    const older = this.before.get(key);
    if (older) this.keep(key, older);
    return older;
  }

  set(position: CellPosition, cell: Evaluated): void {
    this.keep(this.keyOf(position), cell);
  }

  private keep(key: number, cell: Evaluated): void {
    if (this.last.size >= KEPT) {
      this.before = this.last;
      this.last = new Map();
    }
    this.last.set(key, cell);
  }

  delete(position: CellPosition): void {
    const key = this.keyOf(position);
    this.last.delete(key);
    this.before.delete(key);
  }

  clear(): void {
    this.last.clear();
    this.before.clear();
  }
}

/** A map of what cells show that holds the least of it, and has the library make the rest when it is looked at. */
export interface ValuesOnDemand {
  /** Notes a typed cell without having anything made of it; false where there is none, or more to be said. */
  setTyped(position: CellPosition): boolean;
}

const isOnDemand = (map: object): map is ValuesOnDemand => 'setTyped' in map;

/** Notes that a typed cell shows what was typed; false where the library has to compute what the cell shows. */
export const noteTyped = (map: object, position: CellPosition): boolean =>
  isOnDemand(map) && map.setTyped(position);

function onDemand(evaluator: Evaluator): PositionMapOf {
  const { getters } = evaluator;
  const make = maker(evaluator);
  const Library = evaluator.evaluatedCells.constructor as PositionMapOf;
  return class extends Library implements ValuesOnDemand {
    private readonly looked = new LastLooked();

    override set(position: CellPosition, cell: Evaluated): void {
      const entry = shortest(cell, position, getters);
      super.set(position, entry);
      if (entry === cell) this.looked.delete(position);
      else this.looked.set(position, cell);
    }

    setTyped(position: CellPosition): boolean {
      const cell = getters.getCell(position);
      if (!cell || cell.isFormula || cell.parsedValue === null) return false;
      super.set(position, cell);
      this.looked.delete(position);
      return true;
    }

    override get(position: CellPosition): Evaluated | undefined {
      const entry = super.get(position);
      if (entry === undefined) return undefined;
      if (isWhole(entry)) return entry;
      let cell = this.looked.get(position);
      if (cell) return cell;
      const { sheetId, col, row } = position;
      cell = make({ sheetId, col, row }, asTyped(entry));
      this.looked.set(position, cell);
      return cell;
    }

    override delete(position: CellPosition): void {
      super.delete(position);
      this.looked.delete(position);
    }

    override clearSheet(sheetId: string): void {
      super.clearSheet(sheetId);
      this.looked.clear();
    }
  };
}

/** Holds of what cells show the least from which the library makes it again. */
export const valuesOnDemand: Patch = {
  name: NAME,
  upstream:
    'Beside every cell, a number that was typed among them, an object holds its value once more, how it is written, and twice where it stands: half of the memory that a large workbook takes.',
  until: 'the library makes what a cell shows when it is looked at',
  apply: () =>
    mendEvaluator<Evaluator>(NAME, (evaluator) => {
      needParts(NAME, evaluator, ['getters', 'evaluatedCells', 'computeCell']);
      const parts = ['map', 'get', 'set', 'has', 'delete', 'keys', 'keysForSheet', 'clearSheet'];
      needParts(NAME, evaluator.evaluatedCells, parts);
      const OnDemand = onDemand(evaluator);
      let cells: PositionMap = new OnDemand();
      // The library begins a map of its own whenever it computes everything.
      Object.defineProperty(evaluator, 'evaluatedCells', {
        get: () => cells,
        set(map: PositionMap) {
          if (isOnDemand(map)) cells = map;
          else Object.assign((cells = new OnDemand()), { map: map.map });
        },
      });
    }),
};
