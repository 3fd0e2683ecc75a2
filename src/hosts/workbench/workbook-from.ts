import {
  helpers,
  iterateAstNodes,
  parse,
  registries,
  type Model,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { GillError } from '../../core/errors';
import { NAMESPACE } from '../../functions/card-list';
import { storedCalls } from '../../functions/stored-name';
import { atOnce, partly, type Steps } from '../../plan/in-steps';
import { cellAddress } from '../../plan/addresses';
import { numberFormats } from '../../plan/looks';
import type {
  Area,
  CellModel,
  NameModel,
  SheetModel,
  TableModel,
  ValidationModel,
  WorkbookModel,
} from '../../plan/workbook-model';
import type { ComputedValues } from '../../plan/computed-values';
import type { LookStyle } from '../../engine/cell-styles';
import { areaOf, spread } from './grid-cells';
import { engineFormula } from '../../engine/engine-formula';
import { valueOf } from '../../engine/evaluate-formula';
import { exportingData } from '../../engine/patches/exported-data';
import { charactersOf } from '../../engine/grid-data';
import { readFormat, readLook } from './read-looks';
import { Losses } from './losses';
import { ordinaryFunctions } from '../../engine/ordinary-functions';
import { readCharts, readConditions, sheetArea, readValidations } from './read-rules';

type SheetData = WorkbookData['sheets'][number];

/** So many cells are looked at in one step. */
const CELLS = 500;

/** The plans whose sheets are in a workbook, by the prefix that their sheets' ids have there. */
export type Plans = Readonly<Record<string, WorkbookModel>>;

/** A plan's sheet or rule that a part of the engine's workbook was made from. */
function originOf(id: string, kind: 'sheet' | 'validation', plans: Plans) {
  const match = new RegExp(`^(.*)${kind}(\\d+)(?:-(\\d+))?$`).exec(id);
  const sheet = plans[match?.[1] ?? '']?.sheets[Number(match?.[2]) - 1];
  return { sheet, index: Number(match?.[3]) };
}

const validationOf = (id: string, plans: Plans): ValidationModel | undefined => {
  const { sheet, index } = originOf(id, 'validation', plans);
  return sheet?.validations[index];
};

/** Functions that only the engine has: other spreadsheets would show #NAME?. */
function foreignFunctions(formula: string): readonly string[] {
  const names = [...iterateAstNodes(parse(`=${formula}`))].flatMap((node) =>
    node.type === 'FUNCALL' ? [node.value.toUpperCase()] : [],
  );
  return names.filter(
    (name) =>
      !name.startsWith(`${NAMESPACE}.`) &&
      !ordinaryFunctions.has(name) &&
      registries.functionRegistry.get(name).isExported !== true,
  );
}

/** The engine writes a range of one cell as that cell. */
const collapsed = (formula: string): string =>
  formula.replace(/(\$?[A-Z]+\$?\d+):(\$?[A-Z]+\$?\d+)/g, (range, from: string, to: string) =>
    from.replaceAll('$', '') === to.replaceAll('$', '') ? from : range,
  );

/** The plan's own words where a cell still says the same, so that a formula fills down as it did. */
function asPlanned(cell: CellModel, before: CellModel | undefined): CellModel {
  if (!before) return cell;
  const sameFormula =
    before.formula !== undefined && collapsed(engineFormula(before.formula)) === cell.formula;
  const sameFormat =
    numberFormats[before.format ?? 'general'] === numberFormats[cell.format ?? 'general'];
  const same = sameFormula || (before.formula === undefined && before.value === cell.value);
  return {
    ...cell,
    ...(sameFormula && { formula: before.formula }),
    ...(sameFormat && before.format !== undefined && { format: before.format }),
    ...(same && before.note !== undefined && { note: before.note }),
  };
}

interface Reading {
  readonly engine: Model;
  readonly data: WorkbookData;
  readonly plans: Plans;
  readonly names: NameModel[];
  readonly losses: Losses;
}

function* cellsOf(
  reading: Reading,
  sheet: SheetData,
  origin: SheetModel | undefined,
): Steps<(CellModel | undefined)[][]> {
  const { engine, data, losses } = reading;
  const { getters } = engine;
  const styles = spread(sheet.styles, data.styles as Record<number, LookStyle>);
  const formats = spread(sheet.formats, data.formats);
  const borders = spread(sheet.borders, data.borders);
  const filled = new Set<string>();
  let lastRow = 0;
  const positions = getters.getEvaluatedCellsPositions(sheet.id);
  for (const [n, position] of positions.entries()) {
    if (n % CELLS === 0) yield 0;
    filled.add(cellAddress(position.row, position.col));
    if (getters.getEvaluatedCell(position).value === null) continue;
    lastRow = Math.max(lastRow, position.row);
  }
  const addresses = new Set([...filled, ...styles.keys(), ...borders.keys()]);
  const rows: (CellModel | undefined)[][] = [];

  const contentOf = (address: string): Pick<CellModel, 'value' | 'formula' | 'spill'> => {
    const { top: row, left: col } = helpers.toZone(address);
    const position = { sheetId: sheet.id, row, col };
    const where = `${sheet.name}!${address}`;
    const cell = getters.getCell(position);
    const shown = valueOf(getters.getEvaluatedCell(position));
    const asValue = shown instanceof GillError ? shown.code : shown;
    if (cell?.isFormula) {
      const formula = cell.compiledFormula.toFormulaString(getters).replace(/^=/, '');
      const zone = getters.getSpreadZone(position);
      const spill = zone && areaOf(zone);
      const fills = spill !== undefined && spill.rows * spill.columns > 1;
      const foreign = cell.compiledFormula.isBadExpression ? [] : foreignFunctions(formula);
      if (cell.compiledFormula.isBadExpression) {
        losses.add('A formula that cannot be read is saved as text', where);
        return { value: `=${formula}` };
      }
      if (foreign.length > 0) {
        losses.add(
          `${foreign[0]} is a function that only the workbench has; its value is saved`,
          where,
        );
        return { value: asValue };
      }
      if (fills && storedCalls(formula).length === 0) {
        losses.add('A formula that fills several cells is saved as values', where);
        return { value: asValue };
      }
      return {
        formula,
        ...(fills && { spill: { rows: spill.rows, columns: spill.columns } }),
      };
    }
    if (asValue === '') return {};
    const from = getters.getArrayFormulaSpreadingOn(position);
    if (!from) return { value: asValue };
    const source = getters.getCell(from);
    const formula = source?.isFormula ? source.compiledFormula.toFormulaString(getters) : '';
    // What a GILL formula spills comes back with it; other spills were turned into values above.
    return storedCalls(formula.replace(/^=/, '')).length > 0 ? {} : { value: asValue };
  };

  let looked = 0;
  for (const address of addresses) {
    if (++looked % CELLS === 0) yield looked / addresses.size;
    const { top: row, left: column } = helpers.toZone(address);
    // Empty cells far below the last filled one were only coloured in.
    if (!filled.has(address) && row > lastRow + 200) continue;
    const where = `${sheet.name}!${address}`;
    const { look, exact } = readLook(styles.get(address) ?? {}, borders.get(address));
    if (!exact) losses.add("Colours, fonts or borders of your own become the plan's", where);
    const { format, exact: same } = readFormat(formats.get(address));
    if (!same) losses.add('A number format of your own becomes the nearest of the plan', where);
    const content = contentOf(address);
    const bare = !styles.has(address) && !borders.has(address) && format === 'general';
    if (bare && content.value === undefined && content.formula === undefined) continue;
    const isDate = typeof content.value === 'number' && format === 'general';
    const cell: CellModel = {
      ...content,
      look,
      ...(format !== 'general' && { format }),
      ...(isDate && dateFormatOf(reading, sheet.id, row, column)),
    };
    const line = rows[row] ?? [];
    rows[row] = line;
    const planned = origin?.rows[row];
    line[column] = asPlanned(cell, planned?.[column]);
  }
  for (let row = 0; row < rows.length; row++) rows[row] ??= [];
  return rows;
}

/** A date that was typed has no format of its own in the engine, which knows it by its writing. */
function dateFormatOf(
  { engine }: Reading,
  sheetId: string,
  row: number,
  col: number,
): { format: 'date' } | undefined {
  const { format } = engine.getters.getEvaluatedCell({ sheetId, row, col });
  return format !== undefined && helpers.isDateTimeFormat(format) ? { format: 'date' } : undefined;
}

function tablesOf(
  reading: Reading,
  sheet: SheetData,
  rows: SheetModel['rows'],
  origin: SheetModel | undefined,
): TableModel[] {
  return sheet.tables.flatMap(({ range }, i): TableModel[] => {
    const area = sheetArea(range, sheet.name)?.area;
    if (!area) return [];
    const heads = Array.from({ length: area.columns }, (_, c) => {
      const head = rows[area.row]?.[area.column + c]?.value;
      return typeof head === 'string' ? head : '';
    });
    const distinct = new Set(heads.map((head) => head.toLowerCase()));
    if (distinct.size !== heads.length || distinct.has('') || area.rows < 2) {
      reading.losses.add(
        'A table without a different text over every column is saved as plain cells',
        `${sheet.name}!${range}`,
      );
      return [];
    }
    const name =
      origin?.tables.find((table) => table.heads.join('\n') === heads.join('\n'))?.name ??
      `Table_${sheet.name.replace(/[^A-Za-z0-9]/g, '_')}_${i + 1}`;
    return [{ name, area, heads }];
  });
}

const emptyMerges = (rows: (CellModel | undefined)[][], merges: readonly Area[]): void => {
  for (const { row, column, rows: height, columns } of merges) {
    for (let r = row; r < row + height; r++) {
      for (let c = column; c < column + columns; c++) {
        const cell = rows[r]?.[c];
        if (cell && (r > row || c > column)) (rows[r] ?? [])[c] = { look: cell.look };
      }
    }
  }
};

function* sheetFrom(reading: Reading, sheet: SheetData): Steps<SheetModel> {
  const { plans, names, losses } = reading;
  const { sheet: origin } = originOf(sheet.id, 'sheet', plans);
  const rows = yield* cellsOf(reading, sheet, origin);
  const merges = sheet.merges.flatMap((range) => sheetArea(range, sheet.name)?.area ?? []);
  emptyMerges(rows, merges);
  if (!sheet.isVisible) losses.add('A hidden sheet is saved as a visible one', sheet.name);
  const folded = foldedColumns(sheet);
  const hidden = Object.entries(sheet.cols).filter(([, { isHidden }]) => isHidden);
  const unfolded = hidden.some(
    ([at]) => !folded || Number(at) < folded.column || Number(at) >= folded.column + folded.columns,
  );
  if (groupsOf(sheet).length > (folded ? 1 : 0)) {
    losses.add('Groups of rows or columns are saved without their group', sheet.name);
  }
  if (unfolded || Object.values(sheet.rows).some(({ isHidden }) => isHidden)) {
    losses.add('Hidden rows or columns are saved as visible ones', sheet.name);
  }
  // One by one: a sheet may have more rows than a function takes arguments.
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  return {
    name: sheet.name,
    question: origin?.question ?? '',
    columnWidths: Array.from({ length: width }, (_, c) => charactersOf(sheet.cols[c]?.size)),
    rows,
    merges,
    tables: tablesOf(reading, sheet, rows, origin),
    validations: readValidations(sheet, names, (id) => validationOf(id, plans), losses),
    conditions: readConditions(sheet, losses),
    charts: readCharts(sheet, losses),
    ...(folded && { folded }),
    frozen: { rows: sheet.panes?.ySplit ?? 0, columns: sheet.panes?.xSplit ?? 0 },
    ...(sheet.color !== undefined && { tabColour: sheet.color }),
    print: origin?.print ?? { landscape: width > 8, headRows: sheet.panes?.ySplit ?? 0 },
  };
}

const groupsOf = ({ headerGroups }: SheetData) => [
  ...(headerGroups?.COL ?? []),
  ...(headerGroups?.ROW ?? []),
];

/** The sheet's one group of columns, where it is folded; a group that stands open stays in sight. */
function foldedColumns({ headerGroups }: SheetData): SheetModel['folded'] {
  const [group, ...more] = headerGroups?.COL ?? [];
  return group?.isFolded && more.length === 0
    ? { column: group.start, columns: group.end - group.start + 1 }
    : undefined;
}

export interface ReadWorkbook {
  readonly model: WorkbookModel;
  readonly values: ComputedValues;
  readonly losses: Losses;
}

/** What the cells of the engine's workbook show, by the names that its sheets have there. */
export function shownValues(engine: Model, sheets: WorkbookData['sheets']): ComputedValues {
  const ids = new Map(sheets.map(({ name, id }) => [name, id]));
  return (sheet, row, col) => {
    const sheetId = ids.get(sheet);
    if (sheetId === undefined) throw new Error(`There is no sheet called "${sheet}"`);
    const cell = engine.getters.getEvaluatedCell({ sheetId, row, col });
    return cell.value === null ? undefined : valueOf(cell);
  };
}

/** Some sheets of the engine's workbook as the project's own model. Lists of their rules may bring names along. */
export function sheetsFrom(
  engine: Model,
  data: WorkbookData,
  plans: Plans,
  isWanted: (id: string) => boolean,
): { readonly sheets: SheetModel[]; readonly names: NameModel[]; readonly losses: Losses } {
  const losses = new Losses();
  const names = Object.entries(data.namedRanges).flatMap(([name, range]): NameModel[] => {
    const found = sheetArea(range, data.sheets[0]?.name ?? '');
    return found ? [{ name, ...found }] : [];
  });
  const known = names.length;
  const reading: Reading = { engine, data, plans, names, losses };
  const sheets = data.sheets
    .filter(({ id }) => isWanted(id))
    .map((sheetData) => atOnce(sheetFrom(reading, sheetData)));
  return { sheets, names: names.slice(known), losses };
}

/** The engine's workbook as the project's own model, so that its writers can save it. */
export const workbookFrom = (engine: Model, plans: Plans, farm: string): ReadWorkbook =>
  atOnce(readingWorkbook(engine, plans, farm));

/** As `workbookFrom`, in steps. */
export function* readingWorkbook(engine: Model, plans: Plans, farm: string): Steps<ReadWorkbook> {
  const data = yield* partly(exportingData(engine), 0, 0.3);
  const losses = new Losses();
  const names = Object.entries(data.namedRanges).flatMap(([name, range]): NameModel[] => {
    const found = sheetArea(range, data.sheets[0]?.name ?? '');
    if (found) return [{ name, ...found }];
    losses.add(`The name ${name} points at nothing that can be saved`);
    return [];
  });
  if (Object.keys(data.pivots).length > 0) losses.add('Pivot tables are saved as values');
  const reading: Reading = { engine, data, plans, names, losses };
  const sheets: SheetModel[] = [];
  for (const [n, sheet] of data.sheets.entries()) {
    const all = data.sheets.length;
    sheets.push(
      yield* partly(sheetFrom(reading, sheet), 0.3 + (0.7 * n) / all, 0.3 + (0.7 * (n + 1)) / all),
    );
  }
  const first = Object.values(plans)[0];
  const calls = sheets.some(({ rows }) =>
    rows.some((row) => row.some((cell) => cell?.formula && storedCalls(cell.formula).length > 0)),
  );
  return {
    model: {
      title: first?.title ?? 'Gillbed workbook',
      formulas: calls ? 'live' : 'plain',
      made: first?.made ?? '2000-01-01',
      sheets,
      names,
      farm,
    },
    values: shownValues(engine, data.sheets),
    losses,
  };
}
