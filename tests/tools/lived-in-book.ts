import { addSheet, type AddedRows } from '../../src/ooxml/added-sheets';
import type { CellChange } from '../../src/ooxml/cell-changes';
import { changeWorkbook } from '../../src/ooxml/change-workbook';
import { widenTable } from '../../src/ooxml/grafted-plan';
import { Package } from '../../src/ooxml/package';
import { readArea } from '../../src/plan/addresses';
import type { NameModel } from '../../src/plan/workbook-model';

/** What somebody put into a workbook of his own: by address, a text that begins with = is a formula. */
export interface OwnWork {
  readonly cells?: Readonly<Record<string, string | number>>;
  readonly sheets?: Readonly<Record<string, AddedRows>>;
  readonly names?: readonly NameModel[];
  /** Columns that a register's table was widened by, by sheet. */
  readonly columns?: Readonly<Record<string, readonly string[]>>;
}

/** The workbook as it is after somebody has worked in it. */
export function livedIn(
  bytes: Uint8Array,
  { cells = {}, sheets = {}, names = [], columns = {} }: OwnWork,
): Uint8Array {
  const file = Package.open(bytes);
  const changes = new Map<string, CellChange[]>();
  for (const [address, content] of Object.entries(cells)) {
    const at = address.lastIndexOf('!');
    const sheet = address.slice(0, at);
    const area = readArea(address.slice(at + 1));
    if (!area) throw new Error(`${address} is no cell`);
    const isFormula = typeof content === 'string' && content.startsWith('=');
    changes.set(sheet, [
      ...(changes.get(sheet) ?? []),
      {
        row: area.row,
        column: area.column,
        cell: isFormula
          ? { kind: 'formula', formula: content.slice(1), value: 0 }
          : { kind: 'value', value: content },
      },
    ]);
  }
  for (const [sheet, heads] of Object.entries(columns)) widenTable(file, sheet, heads);
  changeWorkbook(file, { cells: changes, names });
  for (const [name, rows] of Object.entries(sheets)) addSheet(file, name, rows);
  return file.bytes();
}
