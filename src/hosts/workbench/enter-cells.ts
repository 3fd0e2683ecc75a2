/** Many cells entered as one step, which one undo takes back; tables are made longer before. */
import {
  type DispatchResult,
  helpers,
  type Model,
  registries,
  UIPlugin,
} from '@odoo/o-spreadsheet';
import { engineFormula } from '../../engine/engine-formula';
import { inFigures } from '../../engine/number-content';
import type { LongerTable } from '../../ooxml/longer-tables';
import type { EnteredCell } from '../../sidebar/host';

const ENTER = 'ENTER_MANY_CELLS';

interface EnterCommand {
  readonly type: typeof ENTER;
  readonly cells: readonly EnteredCell[];
  readonly longer: readonly LongerTable[];
  /** Why a part could not be done. */
  readonly faults: string[];
}

type Dispatch = (type: string, payload: object) => DispatchResult;
type Getters = Model['getters'];
type Zone = ReturnType<typeof helpers.toZone>;

function sheetIdOf(getters: Getters, name: string): string {
  const id = getters.getSheetIdByName(name);
  if (id === undefined) throw new Error(`There is no sheet called "${name}".`);
  return id;
}

const rangeData = (sheetId: string, zone: Zone) => ({ _sheetId: sheetId, _zone: zone });

/** Looks, rules and marks of a table's last row go on to the rows below it, then its formulas. */
function grow(getters: Getters, dispatch: Dispatch, table: LongerTable): void {
  const { area, lastRow, formulas } = table;
  const sheetId = sheetIdOf(getters, table.sheet);
  const end = area.row + area.rows - 1;
  const [left, right] = [area.column, area.column + area.columns - 1];
  const missing = lastRow + 1 - getters.getNumberRows(sheetId);
  if (missing > 0) {
    dispatch('ADD_COLUMNS_ROWS', {
      sheetId,
      sheetName: table.sheet,
      dimension: 'ROW',
      base: getters.getNumberRows(sheetId) - 1,
      quantity: missing,
      position: 'after',
    });
  }
  const longer = (zone: Zone): Zone =>
    zone.bottom === end && zone.left >= left && zone.right <= right
      ? { ...zone, bottom: lastRow }
      : zone;
  for (let col = left; col <= right; col++) {
    const above = { sheetId, row: end, col };
    const target = [{ top: end + 1, bottom: lastRow, left: col, right: col }];
    const { format } = getters.getEvaluatedCell(above);
    dispatch('SET_FORMATTING', {
      sheetId,
      target,
      style: getters.getCellStyle(above),
      ...(format !== undefined && { format }),
    });
    const border = getters.getCellBorder(above);
    if (border) dispatch('SET_BORDERS_ON_TARGET', { sheetId, target, border });
  }
  for (const { ranges, ...rule } of getters.getDataValidationRules(sheetId)) {
    const zones = ranges.map(({ zone }) => longer(zone));
    if (zones.every((zone, i) => zone === ranges[i]?.zone)) continue;
    const grown = zones.map((zone) => rangeData(sheetId, zone));
    dispatch('ADD_DATA_VALIDATION_RULE', { sheetId, rule, ranges: grown });
  }
  for (const { ranges, ...cf } of getters.getConditionalFormats(sheetId)) {
    const zones = ranges.map((range) => helpers.toZone(range));
    const grown = zones.map(longer);
    if (zones.every((zone, i) => zone === grown[i])) continue;
    dispatch('ADD_CONDITIONAL_FORMAT', {
      sheetId,
      cf,
      ranges: grown.map((zone) => rangeData(sheetId, zone)),
    });
  }
  const zone = { top: area.row, bottom: end, left, right };
  const newTableRange = rangeData(sheetId, { ...zone, bottom: lastRow });
  dispatch('UPDATE_TABLE', { sheetId, zone, newTableRange });
  for (const { row, column, formula } of formulas) {
    const content = `=${engineFormula(formula)}`;
    dispatch('UPDATE_CELL', { sheetId, row, col: column, content });
  }
}

function enter(getters: Getters, dispatch: Dispatch, { cells, longer }: EnterCommand): void {
  for (const table of longer) grow(getters, dispatch, table);
  for (const { sheet, row, column, value } of cells) {
    const content = typeof value === 'number' ? inFigures(value) : (value ?? '');
    dispatch('UPDATE_CELL', { sheetId: sheetIdOf(getters, sheet), row, col: column, content });
  }
}

let registered = false;

/** Has the grid know the step; once, before the first workbook is made. */
export function acceptEntries(): void {
  if (registered) return;
  registered = true;
  registries.featurePluginRegistry.add(
    'enter-many-cells',
    class extends UIPlugin {
      override handle(command: { readonly type: string }): void {
        if (command.type !== ENTER) return;
        const asked = command as EnterCommand;
        const dispatch: Dispatch = (type, payload) => {
          const done = this.dispatch(type as never, payload as never) as DispatchResult;
          // What is as it is to be already is no fault.
          const reasons = [...done.reasons].filter((reason) => !/^NoChanges/.test(String(reason)));
          if (!done.isSuccessful && reasons.length > 0) {
            asked.faults.push(`${type}: ${reasons.join(', ')}`);
          }
          return done;
        };
        enter(this.getters as Getters, dispatch, asked);
      }
    } as never,
  );
}

/** Throws a sentence, with everything as it was, where a part of it cannot be done. */
export function enterCells(
  model: Model,
  cells: readonly EnteredCell[],
  longer: readonly LongerTable[],
): void {
  const command: EnterCommand = { type: ENTER, cells, longer, faults: [] };
  const done = model.dispatch(ENTER as never, command as never) as DispatchResult;
  const faults = [...command.faults, ...(done.isSuccessful ? [] : done.reasons)];
  if (faults.length === 0) return;
  model.dispatch('REQUEST_UNDO');
  throw new Error(`The rows could not be written: ${faults[0]}. Nothing was changed.`);
}
