/**
 * A workbook with an older plan in it, renewed: the sheets of a fresh plan in place of the old ones, with every typed
 * cell, own columns and cells beside, own sheets, and formulas that point into the plan pointing at the same things.
 */
import { displayedCalls } from '../functions/gill-calls';
import { storedCalls } from '../functions/stored-name';
import { type CellChange, type FileValue, RefusedChange } from '../ooxml/cell-changes';
import { changeWorkbook } from '../ooxml/change-workbook';
import { graftPlan, setWidths, widenTable } from '../ooxml/grafted-plan';
import { planStyles } from '../ooxml/merged-styles';
import { snapshotOf } from '../ooxml/open-book';
import { Package } from '../ooxml/package';
import { childNamed, childrenNamed } from '../ooxml/read-xml';
import { readSheetCells, type SheetCell } from '../ooxml/sheet-cells';
import { calculateOnOpening } from '../ooxml/spare-parts';
import { sharedTexts, valueOf } from '../ooxml/stored-cell';
import { readWorkbookParts, type WorkbookParts } from '../ooxml/workbook-parts';
import { writeXlsx } from '../ooxml/write-xlsx';
import { type ErrorCode, GillError } from '../core/errors';
import { placeAddress } from '../plan/addresses';
import { BookCells, type CellPlace, placeText } from '../plan/book-snapshot';
import type { ComputedValues } from '../plan/computed-values';
import { readFarm } from '../plan/farm';
import type { FormulaMode } from '../plan/live-or-plain';
import type { PlanName } from '../plan/names';
import { planWorkbook } from '../plan/plan';
import { type BookReading, plansIn, readBook } from '../plan/read-book';
import { renamedPlan } from '../plan/renamed-plan';
import type { WorkbookModel } from '../plan/workbook-model';
import { countedFarm } from '../experience/taken-over';
import { changedFarm, entryPlaces, type FarmChanges } from './changed-farm';
import { ownBesidesCells } from './own-besides-cells';
import { placeDrawings } from './own-drawings';
import { withNotes } from './own-notes';
import { placeThreads } from './own-threads';
import { ownThings } from './own-things';
import { mergedSheets } from './earlier-words';
import { movedCells, type MovedCells } from './moved-cells';
import { formulasOfParts, partsOfSheets } from './part-formulas';
import type { Loss } from './renewal-loss';
import { sheetsReadingPlan } from './reading-sheets';
import { type Pointing, repointed } from './repointed';

export interface Renewal {
  /** The renewed workbook. The one that was read is as it was. */
  readonly bytes: Uint8Array;
  /** What the renewed workbook does not keep; nothing where all is carried. */
  readonly losses: readonly Loss[];
  /** What is otherwise without anything being lost, in sentences. */
  readonly notes: readonly string[];
  readonly carried: {
    /** Typed cells of the plan, own cells beside it, own sheets, formulas that point elsewhere now. */
    readonly typed: number;
    readonly own: number;
    readonly sheets: number;
    readonly formulas: number;
  };
}

/** The workbook cannot be renewed as it is; each sentence says what would help. */
export class NotRenewable extends Error {
  constructor(readonly sentences: readonly string[]) {
    super(sentences.join('\n'));
    this.name = 'NotRenewable';
  }
}

export interface RenewOptions {
  readonly changes?: FarmChanges;
  /** Without it as the workbook has them. */
  readonly formulas?: FormulaMode | undefined;
  /** What the cells of the fresh plan hold; without it they are computed when the file is opened. */
  readonly values?: (plan: WorkbookModel) => ComputedValues;
}

interface Opened {
  readonly file: Package;
  readonly book: WorkbookParts;
  readonly cells: BookCells;
  readonly reading: BookReading;
  readonly suffix: string;
}

function opened(bytes: Uint8Array): Opened {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const cells = new BookCells(snapshotOf(file, book));
  const [suffix = ''] = plansIn(cells);
  return { file, book, cells, reading: readBook(cells), suffix };
}

/** Sheets of the older plan that stand on another sheet of the newer one, by that one's name. */
function sheetsMerged({ cells, suffix }: Opened, plan: WorkbookModel): Map<string, string> {
  const now = new Map(plan.names.map(({ name, sheet }) => [name, sheet]));
  const mostly = (sheet: string): string | undefined => {
    const counts = new Map<string, number>();
    for (const { name } of cells.namesOn(sheet)) {
      const on = name.endsWith(suffix)
        ? now.get(name.slice(0, name.length - suffix.length) as PlanName)
        : undefined;
      if (on !== undefined) counts.set(on, (counts.get(on) ?? 0) + 1);
    }
    return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
  };
  const found = new Map<string, string>();
  for (const names of mergedSheets) {
    const [there, ...others] = new Set(
      names.flatMap((name) => cells.name(name + suffix)?.sheet ?? []),
    );
    const target = now.get(names[0] as PlanName);
    if (there === undefined || others.length > 0 || target === undefined) continue;
    // Before it was a sheet of its own it may have stood on yet another, which the newer plan still has.
    if (mostly(there) === target) found.set(there, target);
  }
  return found;
}

/**
 * The older plan's sheets by their names in the workbook, each with the name of the plan's own: first those that give
 * theirs to the newer plan's, then those that stand on another now.
 */
function planSheets(
  { cells, suffix }: Opened,
  plan: WorkbookModel,
  merged: ReadonlyMap<string, string>,
): Map<string, string> {
  const found = new Map<string, string>();
  const votes = new Map<string, Map<string, number>>();
  for (const { name, sheet } of plan.names) {
    const there = cells.name(name + suffix)?.sheet;
    if (there === undefined || merged.has(there)) continue;
    const of = votes.get(sheet) ?? new Map<string, number>();
    votes.set(sheet, of.set(there, (of.get(there) ?? 0) + 1));
  }
  for (const [sheet, of] of votes) {
    const [best] = [...of].sort((a, b) => b[1] - a[1]);
    if (best && !found.has(best[0])) found.set(best[0], sheet);
  }
  // Sheets without names are known by their title.
  for (const { name, rows } of plan.sheets) {
    if ([...found.values()].includes(name)) continue;
    const column = rows[0]?.findIndex((cell) => cell?.look === 'title') ?? -1;
    const title = rows[0]?.[column];
    const own = cells.sheetNames.find(
      (sheetName) => sheetName.toLowerCase() === name.toLowerCase(),
    );
    if (own === undefined || found.has(own) || merged.has(own) || column < 0) continue;
    const there = cells.at({ sheet: own, row: 0, column }).value;
    if (title?.formula !== undefined || there === title?.value) found.set(own, name);
  }
  for (const [own, name] of merged) found.set(own, name);
  return found;
}

/** The names of sheets and of cells that are somebody's own and that the fresh plan wants for itself. */
function refuseTaken(
  from: Opened,
  plan: WorkbookModel,
  sheets: ReadonlyMap<string, string>,
  merged: ReadonlyMap<string, string>,
): void {
  const says: string[] = [];
  const matched = new Set([...sheets].flatMap(([own, name]) => (merged.has(own) ? [] : [name])));
  for (const { name } of plan.sheets) {
    if (matched.has(name)) continue;
    const own = from.cells.sheetNames.find(
      (sheetName) => sheetName.toLowerCase() === name.toLowerCase(),
    );
    if (own !== undefined && !merged.has(own))
      says.push(
        `The newer plan has a sheet "${name}", and so does the workbook: give yours another name and renew again.`,
      );
  }
  const now = new Map(plan.names.map(({ name, sheet }) => [name.toLowerCase(), sheet]));
  for (const { name, sheet } of from.cells.names) {
    if (!now.has(name.toLowerCase()) || sheets.has(sheet)) continue;
    says.push(
      `The name ${name} of your own stands on ${sheet}, and the newer plan calls a cell so: give yours another name and renew again.`,
    );
  }
  if (says.length > 0) throw new NotRenewable(says);
}

const isLive = (file: Package, book: WorkbookParts, sheets: ReadonlyMap<string, string>): boolean =>
  book.sheets.some(({ name, part }) => sheets.has(name) && storedCalls(file.text(part)).length > 0);

interface OldCells {
  readonly at: (place: CellPlace) => SheetCell | undefined;
  readonly value: (cell: SheetCell) => FileValue;
}

function oldCells({ file, book }: Opened): OldCells {
  const texts = sharedTexts(file, book.part);
  const sheets = new Map(
    book.sheets.map(({ name, part }) => [
      name.toLowerCase(),
      new Map(
        readSheetCells(file, part).rows.flatMap(({ cells }) =>
          cells.map((cell) => [placeAddress(cell), cell] as const),
        ),
      ),
    ]),
  );
  return {
    at: (place) => sheets.get(place.sheet.toLowerCase())?.get(placeAddress(place)),
    value: (cell) => {
      const value = valueOf(cell, texts);
      if (cell.type === 'e' && typeof value === 'string')
        return new GillError(value as ErrorCode, 'as the file says');
      return value === '' ? undefined : value;
    },
  };
}

type Looks = (place: CellPlace) => 'planned' | 'likely' | 'own';

/** Whether cells look as the plan's own do. */
function looksOf({ file, book }: Opened, old: OldCells): Looks {
  const styles = planStyles(file, book.part);
  return (place) => {
    const style = Number(old.at(place)?.element.attributes['s'] ?? 0);
    // Where another program has dropped the names of styles, all may be the plan's.
    if (styles.sure.size === 0 || styles.likely.has(style)) return 'likely';
    return styles.sure.has(style) ? 'planned' : 'own';
  };
}

/** Names that the older plan gave to its cells and the newer one knows no more, in small letters. */
function goneNames(
  { cells, suffix }: Opened,
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
  looks: Looks,
): ReadonlySet<string> {
  const now = new Set(plan.names.map(({ name }) => name.toLowerCase() + suffix.toLowerCase()));
  const prefixes = new Set(plan.names.map(({ name }) => name.split('_')[0]));
  return new Set(
    cells.names.flatMap(({ name, sheet, area }) =>
      !now.has(name.toLowerCase()) &&
      prefixes.has(name.split('_')[0]) &&
      sheets.has(sheet) &&
      looks({ sheet, row: area.row, column: area.column }) !== 'own'
        ? [name.toLowerCase()]
        : [],
    ),
  );
}

const sheetNow = (sheets: ReadonlyMap<string, string>, name: string): string | undefined =>
  sheets.get(name) ??
  [...sheets].find(([sheetName]) => sheetName.toLowerCase() === name.toLowerCase())?.[1];

function pointingOf(
  from: Opened,
  to: Opened,
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
  moved: MovedCells,
  namesGone: ReadonlySet<string>,
): Pointing {
  const names = new Map(
    plan.names.map(({ name }) => [name.toLowerCase() + from.suffix.toLowerCase(), name]),
  );
  const tables = new Map(to.book.tables.map((table) => [table.sheet, table]));
  const pairOf = (sheet: string) => {
    const before = from.book.tables.find(
      (tablePart) => tablePart.sheet.toLowerCase() === sheet.toLowerCase(),
    );
    const now = sheetNow(sheets, sheet);
    // On the sheet of another register its rows are no table any more.
    const after = now?.toLowerCase() === sheet.toLowerCase() ? tables.get(now) : undefined;
    return before && after ? { before, after } : undefined;
  };
  return {
    moved,
    sheets: new Map([...sheets].map(([name, now]) => [name.toLowerCase(), now])),
    name: (name) => names.get(name.toLowerCase()),
    nameGone: (name) => namesGone.has(name.toLowerCase()),
    table: (name) => {
      const table = from.book.tables.find(
        (tablePart) => tablePart.name.toLowerCase() === name.toLowerCase(),
      );
      if (!table || sheetNow(sheets, table.sheet) === undefined) return undefined;
      const pair = pairOf(table.sheet);
      if (!pair) return { name, head: () => undefined };
      const { before, after } = pair;
      const own = moved.widened.get(after.sheet) ?? [];
      return {
        name: after.name,
        head: (head) => {
          const at = before.columns.findIndex(
            (heading) => heading.toLowerCase() === head.toLowerCase(),
          );
          const column = at < 0 ? undefined : moved.column(before.sheet, before.area.column + at);
          if (column === undefined) return undefined;
          return [...after.columns, ...own][column - after.area.column];
        },
      };
    },
    register: (sheet, row) => {
      const pair = pairOf(sheet);
      if (!pair) return undefined;
      const rows = ({ area }: (typeof pair)['before']): readonly [number, number] => [
        area.row + 1,
        area.row + area.rows - 1,
      ];
      const [from, to] = [rows(pair.before), rows(pair.after)];
      return row >= from[0] && row <= from[1] ? { from, to } : undefined;
    },
    filled: (sheet, { row, column, rows, columns }) => {
      const found: CellPlace[] = [];
      for (let r = row; r < Math.min(row + rows, from.cells.end(sheet)); r++)
        for (let c = column; c < column + columns; c++) {
          const cell = from.cells.at({ sheet, row: r, column: c });
          if (cell.value !== '' || cell.formula !== undefined)
            found.push({ sheet, row: r, column: c });
        }
      return found;
    },
  };
}

/** How far a renewal is, and what it does next. */
export interface RenewalStep {
  /** From 0 to 1. */
  readonly share: number;
  readonly doing: string;
}

/** So many places are named in a sentence. */
const MAX_TOLD = 20;

/** Renews a workbook. Throws NotRenewable, NoPlanFound, WrongChange or FarmFileError with sentences. */
export function renew(
  bytes: Uint8Array,
  { progress, ...options }: RenewOptions & { readonly progress?: (step: RenewalStep) => void } = {},
): Renewal {
  const steps = renewal(bytes, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
    progress?.(value);
  }
}

/** The same step by step, so that whoever waits can be shown how far it is, and can end it. */
export function* renewal(
  bytes: Uint8Array,
  { changes = {}, formulas, values }: RenewOptions = {},
): Generator<RenewalStep, Renewal> {
  yield { share: 0, doing: 'Reading the workbook' };
  const from = opened(bytes);
  const { file, book, reading } = from;
  if (book.date1904)
    throw new NotRenewable([
      'The workbook counts its days from 1904, and a plan counts from 1900: switch that off in its options, look at its dates, and renew again.',
    ]);
  if (reading.faults.length > 0) throw new NotRenewable(reading.faults.map(({ says }) => says));
  const before = reading.file;
  const after = changedFarm(before, changes);
  const farm = countedFarm(readFarm(after));
  yield { share: 0.1, doing: 'Making the plan' };
  const bare = planWorkbook(farm, { formulas: 'plain' });
  const merged = sheetsMerged(from, bare);
  const sheets = planSheets(from, bare, merged);
  refuseTaken(from, bare, sheets, merged);
  const mode = formulas ?? (isLive(file, book, sheets) ? 'live' : 'plain');
  const asNamed = new Map(
    [...sheets].flatMap(([own, name]) => (merged.has(own) ? [] : [[name.toLowerCase(), own]])),
  );
  const plan = renamedPlan(
    mode === 'plain' ? bare : planWorkbook(farm, { formulas: mode }),
    asNamed,
    new Map(),
  );
  // The fresh sheets are called as the older ones are.
  const kept = new Map(
    [...sheets].map(([own, name]) => [own, asNamed.get(name.toLowerCase()) ?? name]),
  );
  yield { share: 0.3, doing: 'Computing the plan' };
  const contents = values?.(plan) ?? (() => undefined);
  const fresh = writeXlsx(plan, contents);
  const to = opened(fresh);
  const [wrong] = to.reading.faults;
  if (wrong) throw new Error(`the renewed plan cannot be read: ${wrong.says}`);
  yield { share: 0.6, doing: 'Looking for what is your own' };
  const old = oldCells(from);
  const looks = looksOf(from, old);
  const entryAt = entryPlaces(before, JSON.parse(farm.file) as Record<string, unknown>);
  const moved = movedCells({
    from,
    to,
    sheets: kept,
    tables: book.tables,
    entry: (list, index) => `${list}[${entryAt(list, index) ?? 'gone'}]`,
    looks,
  });
  const namesGone = goneNames(from, kept, plan, looks);
  const pointing = pointingOf(from, to, kept, plan, moved, namesGone);
  const losses: Loss[] = moved.typedOver.map((cell) => ({
    kind: 'typed over',
    where: placeText(cell),
    says: `${String(cell.value)} was typed over a formula of the plan, which comes back.`,
  }));
  const pointed = { formulas: 0 };
  const rewritten = (formula: string, sheet: string, where: string): string => {
    const { formula: text, lost } = repointed(formula, sheet, pointing);
    if (lost.length > 0)
      losses.push({
        kind: 'points nowhere',
        where,
        says: `=${displayedCalls(formula).slice(0, 120)}: ${lost.join(', ')} has no counterpart in the newer plan and becomes #REF!.`,
      });
    if (text !== formula) pointed.formulas += 1;
    return text;
  };
  losses.push(...ownThings(from, kept, moved));
  const besides = ownBesidesCells(from, kept, plan, moved);
  losses.push(...besides.losses);
  for (const { name } of book.sheets) {
    if (!isGone(name, from, sheets)) continue;
    losses.push({
      kind: 'not carried',
      where: name,
      says: 'The newer plan has no such sheet: it goes, with all that stands on it.',
    });
  }
  yield { share: 0.7, doing: 'Putting the plan into the workbook' };
  const cells = new Map<string, CellChange[]>();
  const into = (sheet: string, change: CellChange): void => {
    cells.set(sheet, [...(cells.get(sheet) ?? []), change]);
  };
  for (const { from: own, to: place } of moved.own) {
    const stored = old.at(own);
    if (!stored) continue;
    const style = stored.element.attributes['s'];
    const value = old.value(stored);
    into(place.sheet, {
      row: place.row,
      column: place.column,
      ...(style !== undefined && { style: Number(style) }),
      cell:
        stored.formula === undefined
          ? { kind: 'value', value }
          : {
              kind: 'formula',
              formula: displayedCalls(rewritten(stored.formula, own.sheet, placeText(own))),
              // What it gave before may be otherwise now: it is computed when the file is opened.
              value: undefined,
              ...(stored.area && { fills: stored.area }),
            },
    });
  }
  const gone = new Set(
    book.sheets.flatMap(({ name }) =>
      sheets.has(name) || isGone(name, from, sheets) ? [name] : [],
    ),
  );
  const ownSheets = book.sheets.filter(({ name }) => !gone.has(name));
  const ownCells = new Map(
    ownSheets.map(({ name, part }) => [
      name,
      readSheetCells(file, part).rows.flatMap(({ cells: line }) =>
        line.flatMap((cell) =>
          cell.formula === undefined ? [] : [{ ...cell, formula: cell.formula }],
        ),
      ),
    ]),
  );
  const hanging = sheetsReadingPlan(
    new Map([...ownCells].map(([name, own]) => [name, own.map(({ formula }) => formula)])),
    new Set([...gone].map((name) => name.toLowerCase())),
  );
  for (const [name, own] of ownCells) {
    if (!hanging.has(name)) continue;
    for (const cell of own) {
      const { row, column, formula, area } = cell;
      const text = rewritten(formula, name, placeText({ sheet: name, row, column }));
      into(name, {
        row,
        column,
        cell:
          text === formula
            ? { kind: 'result', value: undefined }
            : {
                kind: 'formula',
                formula: displayedCalls(text),
                value: undefined,
                ...(area && { fills: area }),
              },
      });
    }
  }
  const ownFormulas =
    hanging.size > 0 || moved.own.some(({ from: { formula } }) => formula !== undefined);
  const parts = new Map([...partsOfSheets(file, ownSheets), ...besides.chartSheets]);
  const edits = formulasOfParts(file, parts, (formula, sheet) =>
    rewritten(formula, sheet, `on ${sheet}`),
  );
  const planNames = new Set(
    plan.names.map(({ name }) => name.toLowerCase() + from.suffix.toLowerCase()),
  );
  const isPlanName = (name: string): boolean => {
    if (namesGone.has(name.toLowerCase())) return true;
    const stands = from.cells.name(name)?.sheet;
    return planNames.has(name.toLowerCase()) && (stands === undefined || gone.has(stands));
  };
  const widths = ownWidths(file, book, moved);
  const noted = withNotes(plan, besides.notes);
  graftPlan(file, noted === plan ? fresh : writeXlsx(noted, contents), {
    gone,
    keptParts: new Set(besides.chartSheets.keys()),
    namesGone: isPlanName,
    nameText: (name, text) => rewritten(text, '', `the name ${name}`),
    farm: farm.file,
  });
  for (const [part, splices] of edits) file.edit(part, splices);
  for (const [sheet, heads] of moved.widened) widenTable(file, sheet, heads);
  const nowParts = readWorkbookParts(file);
  placeDrawings(file, nowParts.sheets, besides.drawings);
  placeThreads(file, nowParts.sheets, besides.threads);
  for (const { name, part } of nowParts.sheets)
    setWidths(file, part, widths.get(name) ?? new Map());
  try {
    changeWorkbook(file, { cells });
  } catch (problem) {
    if (problem instanceof RefusedChange) throw new NotRenewable([problem.message]);
    throw problem;
  }
  if (ownFormulas || values === undefined || mode === 'plain')
    calculateOnOpening(file, readWorkbookParts(file).part);
  yield { share: 0.9, doing: 'Looking whether all is there' };
  const done = file.bytes();
  refuseOther(to.reading, done);
  yield { share: 1, doing: 'Done' };
  const newSheets = plan.sheets.filter(({ name }) => !sheets.has(name)).map(({ name }) => name);
  const onOthers = [...kept].filter(([was, is]) => was !== is);
  return {
    bytes: done,
    losses,
    notes: [
      ...(newSheets.length > 0 ? [`New sheets: ${newSheets.join(', ')}.`] : []),
      ...onOthers.map(([was, is]) => `What stood on the sheet ${was} stands on ${is} now.`),
      ...(moved.aside.length > 0
        ? [
            `The newer plan has cells of its own where these of yours stood: ${moved.aside
              .slice(0, MAX_TOLD)
              .map(({ from: was, to: is }) => `${placeText(was)} is ${placeText(is)} now`)
              .join(', ')}${moved.aside.length > MAX_TOLD ? ', …' : ''}.`,
          ]
        : []),
      ...(moved.dropped.length > 0
        ? [
            `${moved.dropped.length} cells with words and formulas of the older plan make room for those of the newer one.`,
          ]
        : []),
    ],
    carried: {
      typed: reading.places.size,
      own: moved.own.length,
      sheets: ownSheets.length,
      formulas: pointed.formulas,
    },
  };
}

/** A sheet that an older plan had and the newer one has not. */
function isGone(
  name: string,
  { cells, suffix }: Opened,
  sheets: ReadonlyMap<string, string>,
): boolean {
  if (sheets.has(name)) return false;
  const title = [0, 1].map((column) => cells.at({ sheet: name, row: 0, column }).value);
  return suffix === '' && name === 'Presets' && title.includes('Presets');
}

/** What of a column goes along with its cells. */
const KEPT_OF_COLUMNS: ReadonlySet<string> = new Set(['width', 'customWidth', 'bestFit', 'style']);

/** Widths of own columns, by the sheet and the column that they have now. */
function ownWidths(
  file: Package,
  book: WorkbookParts,
  moved: MovedCells,
): Map<string, Map<number, Readonly<Record<string, string>>>> {
  const found = new Map<string, Map<number, Readonly<Record<string, string>>>>();
  const columns = new Map(
    moved.own.map(({ from, to }) => [`${from.sheet} ${from.column}`, { from, to }] as const),
  );
  for (const { from, to } of columns.values()) {
    if (moved.column(from.sheet, from.column) !== to.column) continue;
    const part = book.sheets.find(({ name }) => name === from.sheet)?.part;
    const col =
      part === undefined
        ? undefined
        : childrenNamed(childNamed(file.root(part), 'cols'), 'col').find(
            ({ attributes }) =>
              Number(attributes['min']) <= from.column + 1 &&
              Number(attributes['max']) > from.column,
          );
    if (!col) continue;
    const look = Object.fromEntries(
      Object.entries(col.attributes).filter(([key]) => KEPT_OF_COLUMNS.has(key)),
    );
    found.set(to.sheet, (found.get(to.sheet) ?? new Map()).set(to.column, look));
  }
  return found;
}

/** The renewed file says the same farm as the fresh plan: anything else must not reach a disk. */
function refuseOther(wanted: BookReading, bytes: Uint8Array): void {
  const { reading } = opened(bytes);
  if (JSON.stringify(reading.file) === JSON.stringify(wanted.file) && reading.faults.length === 0)
    return;
  throw new NotRenewable([
    'Cells of your own stand where the renewed plan looks for its own, so that it would read another farm: move what stands below the lines of a register, and renew again.',
    ...reading.faults.slice(0, 3).map(({ says }) => says),
  ]);
}
