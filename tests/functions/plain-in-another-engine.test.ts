import { HyperFormula, type RawCellContent } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { cards } from '../../src/functions/card-list';
import { fullAddress } from '../../src/plan/addresses';
import type { CellModel, WorkbookModel } from '../../src/plan/workbook-model';
import { howMany } from '../tools/how-many';
import { type Expectation, proofWorkbook } from '../tools/proof-workbook';

/**
 * Plain forms computed by a second engine. LibreOffice goes through more of the grid of arguments, in the long form all
 * (plain-equals-live.test.ts); this takes some of each card, fast enough to be asked for every change.
 */
const CLOSE = 1e-9;
/** Below this a number is nothing. */
const NOTHING = 1e-12;
const LISTS = howMany(5, 10);
/** Each list of these gives hundreds of cells. */
const LISTS_OF_BLOCKS = howMany(2, 3);
const upTo = (last: number): readonly number[] => Array.from({ length: last }, (_, i) => i + 1);

/**
 * HyperFormula gives for ROW of a range the number of its first row alone, and has no 0 for "the whole row" in
 * INDEX. The first is written out, the second becomes a product with a row of noughts and a one.
 */
function inItsWords(formula: string, rows: (name: string) => number): string {
  return formula
    .replace(
      /\bROW\(\$A\$1:\$A\$(\d+)\)/g,
      (_, last: string) => `{${upTo(Number(last)).join(';')}}`,
    )
    .replace(
      /\bINDEX\((\w+),(INDEX\(\w+,MATCH\((?:(?!MATCH).)*,\w+_key,0\)\)),0\)/g,
      (_, block: string, row: string) =>
        `MMULT(({${upTo(rows(block)).join(',')}}=${row})*1,${block})`,
    );
}

const isError = (found: unknown): boolean => typeof found === 'object' && found !== null;

function agrees({ live }: Expectation, found: unknown): boolean {
  if (live instanceof GillError) return isError(found);
  if (typeof live === 'string') return (found ?? '') === live;
  if (typeof found !== 'number') return false;
  const size = Math.max(Math.abs(live), Math.abs(found));
  return Math.abs(live - found) <= Math.max(CLOSE * size, NOTHING);
}

function computed({ sheets, names }: WorkbookModel): HyperFormula {
  const engine = HyperFormula.buildEmpty({
    licenseKey: 'gpl-v3',
    precisionRounding: 15,
    smartRounding: false,
    useArrayArithmetic: true,
    dateFormats: ['YYYY-MM-DD'],
  });
  for (const { name } of sheets) engine.addSheet(name);
  // It knows the two words only as functions.
  for (const word of ['TRUE', 'FALSE']) engine.addNamedExpression(word, `=${word}()`);
  for (const { name, sheet, area } of names)
    engine.addNamedExpression(name, `=${fullAddress(sheet, area)}`);
  const rowsOf = (wanted: string): number =>
    names.find(({ name }) => name === wanted)?.area.rows ?? 0;
  const content = (cell: CellModel | undefined): RawCellContent => {
    if (cell === undefined) return null;
    if (cell.formula !== undefined) return `=${inItsWords(cell.formula, rowsOf)}`;
    return cell.value as RawCellContent;
  };
  for (const { name, rows } of sheets) {
    const cells = rows.map((row) => Array.from(row, content));
    engine.setSheetContent(engine.getSheetId(name) as number, cells);
  }
  return engine;
}

describe('the plain form, computed by a second engine, gives what the card gives', () => {
  it.each(cards.map((card) => [card.id, card] as const))('%s', (_, card) => {
    const lists = card.columns ? LISTS_OF_BLOCKS : LISTS;
    const { model, expectations } = proofWorkbook([card], lists);
    const engine = computed(model);
    const wrong = expectations.flatMap((expectation) => {
      const sheet = engine.getSheetId(expectation.sheet) as number;
      // An error of a whole block may stand in any of its cells.
      const cells = Array.from({ length: expectation.rows * expectation.columns }, (__, i) => {
        const row = expectation.row + Math.floor(i / expectation.columns);
        return engine.getCellValue({
          sheet,
          row,
          col: expectation.column + (i % expectation.columns),
        });
      });
      const found = cells.find(isError) ?? cells[0];
      return agrees(expectation, found)
        ? []
        : [
            `${expectation.call}: ${String(expectation.live)}, its plain form ${JSON.stringify(found)}`,
          ];
    });
    engine.destroy();
    expect(wrong).toEqual([]);
    expect(expectations.some(({ live }) => !(live instanceof GillError))).toBe(true);
  });
});
