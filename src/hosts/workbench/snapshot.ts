import type { Model } from '@odoo/o-spreadsheet';
import { areaAddress } from '../../plan/addresses';
import type { CellPlace, Cells, FoundCell, SheetSnapshot } from '../../plan/book-snapshot';
import type { Steps } from '../../plan/in-steps';
import type { NameModel } from '../../plan/workbook-model';
import {
  areaOf,
  type CellContent,
  readArea,
  shownValue,
  typedContent,
  usedArea,
} from './grid-cells';

/** So many rows are read in one step. */
const ROWS = 100;

/** Every sheet of the grid with its used cells, in steps. */
export function* readingSheets(model: Model): Steps<SheetSnapshot[]> {
  const ids = model.getters.getSheetIds();
  const sheets: SheetSnapshot[] = [];
  for (const [n, sheetId] of ids.entries()) {
    const area = usedArea(model, sheetId);
    if (!area) continue;
    const [formulas, values]: [CellContent[][], CellContent[][]] = [[], []];
    for (let row = 0; row < area.rows; row += ROWS) {
      const rows = Math.min(ROWS, area.rows - row);
      const some = { ...area, row: area.row + row, rows };
      formulas.push(...readArea(sheetId, some, (p) => typedContent(model, p)));
      values.push(...readArea(sheetId, some, (p) => shownValue(model, p)));
      yield (n + row / area.rows) / ids.length;
    }
    const from = areaAddress({ ...area, rows: 1, columns: 1 });
    sheets.push({ name: model.getters.getSheetName(sheetId), from, formulas, values });
  }
  return sheets;
}

/** The grid as the farm is read from it: cells are looked at only when they are asked for. */
export class GridCells implements Cells {
  readonly names: readonly NameModel[];
  private readonly named: ReadonlyMap<string, NameModel>;

  constructor(private readonly model: Model) {
    this.names = model.getters.getNamedRanges().map(({ name, range }): NameModel => ({
      name,
      sheet: model.getters.getSheetName(range.sheetId),
      area: areaOf(range.zone),
    }));
    this.named = new Map(this.names.map((model) => [model.name.toLowerCase(), model]));
  }

  name(name: string): NameModel | undefined {
    return this.named.get(name.toLowerCase());
  }

  at(place: CellPlace): FoundCell {
    const { row, column } = place;
    const sheetId = this.model.getters.getSheetIdByName(place.sheet);
    const { getters } = this.model;
    if (
      sheetId === undefined ||
      row >= getters.getNumberRows(sheetId) ||
      column >= getters.getNumberCols(sheetId)
    )
      return { ...place, value: '' };
    const position = { sheetId, row, col: column };
    const content = getters.getCell(position)?.isFormula ? typedContent(this.model, position) : '';
    return {
      sheet: place.sheet,
      row,
      column,
      value: shownValue(this.model, position),
      ...(typeof content === 'string' && content !== '' && { formula: content.replace(/^=/, '') }),
    };
  }

  end(sheet: string): number {
    const sheetId = this.model.getters.getSheetIdByName(sheet);
    return sheetId === undefined ? 0 : this.model.getters.getNumberRows(sheetId);
  }
}
