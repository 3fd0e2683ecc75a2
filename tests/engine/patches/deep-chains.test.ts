import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { Opening } from '../../../src/engine/patches/opening';
import { quietly } from '../../../src/engine/quietly';
import { takenApart } from '../../../src/engine/sheet-contents';
import { unpackedSheets } from '../../../src/hosts/workbench/packed-sheets';
import { randomNumbers } from '../../soak/random';
import { sheetsAsTexts } from '../../tools/sheets-as-texts';

registerFunctions();

const ROWS = 2000;

type Cells = Record<string, string>;

const sheet = (id: string, cells: Cells) => ({
  ...{ id, name: id, colNumber: 8, rowNumber: ROWS + 20, cells },
});

const open = (...sheets: object[]): Model =>
  quietly(() => new Model({ sheets } as Partial<WorkbookData>));

const column = (formula: (row: number) => string, rows = ROWS): Cells =>
  Object.fromEntries(Array.from({ length: rows }, (_, i) => [`A${i + 1}`, formula(i + 1)]));

/** Each row counts on from the one below it, up to the first. */
const counted = (formula: (below: string) => string, rows = ROWS): Cells =>
  column((row) => (row === rows ? '1' : formula(`A${row + 1}`)), rows);

const shown = (model: Model, address = 'A1', sheetId = 's'): unknown =>
  model.getters.getEvaluatedCell({
    sheetId,
    col: 'ABCDEFGH'.indexOf(address[0] as string),
    row: Number(address.slice(1)) - 1,
  }).value;

const type = (model: Model, address: string, content: string): void => {
  const [col, row] = ['ABCDEFGH'.indexOf(address[0] as string), Number(address.slice(1)) - 1];
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId: 's', col, row, content }));
};

describe('a chain of thousands of cells', () => {
  it.each([
    ['bare', (below: string) => `=${below}+1`],
    ['whose conditions ask for errors', (below: string) => `=IF(ISNUMBER(${below}),${below}+1,0)`],
    ['that hides errors', (below: string) => `=IFERROR(MAX(${below},IF(TRUE,${below}))+1,0)`],
  ])('counts to its end, %s', (_, formula) => {
    const model = open(sheet('s', counted(formula)));
    expect(shown(model)).toBe(ROWS);
    expect(shown(model, 'A1500')).toBe(ROWS - 1499);
  });

  it('of conditions within each other, as many as Excel takes', () => {
    const nested = (below: string) => `=${'IF(TRUE,'.repeat(60)}${below}${',0)'.repeat(60)}+1`;
    expect(shown(open(sheet('s', counted(nested, 300))))).toBe(300);
  });

  it('follows a number and a formula that are typed, a row that is put in, and one that goes', () => {
    const model = open(
      sheet(
        's',
        counted((below) => `=IF(ISNUMBER(${below}),${below}+1,0)`),
      ),
    );
    type(model, `A${ROWS}`, '11');
    expect(shown(model)).toBe(ROWS + 10);
    type(model, `A${ROWS}`, '=2+3');
    expect(shown(model)).toBe(ROWS + 4);
    const place = { sheetId: 's', sheetName: 's', dimension: 'ROW' as const };
    quietly(() =>
      model.dispatch('ADD_COLUMNS_ROWS', {
        ...place,
        ...{ base: 1500, quantity: 1, position: 'before' as const },
      }),
    );
    expect(shown(model)).toBe(ROWS + 4);
    quietly(() => model.dispatch('REMOVE_COLUMNS_ROWS', { ...place, elements: [1500] }));
    expect(shown(model)).toBe(ROWS + 4);
  });

  it('through another sheet, a block and a name', () => {
    const model = quietly(
      () =>
        new Model({
          sheets: [
            sheet('s', { A1: '=t!A1', B1: '=SUM(t!A1:A2000)', C1: '=Last+1' }),
            sheet('t', {
              ...counted((below) => `=${below}+1`),
              [`A${ROWS}`]: '=SUM(C1:C3)',
              C1: '=TRANSPOSE(D1:F1)',
              ...{ D1: '=1', E1: '=G1', F1: '=1', G1: '=1' },
            }),
          ],
          namedRanges: { Last: 't!$A$1' },
        } as never),
    );
    expect(shown(model)).toBe(ROWS + 2);
    expect(shown(model, 'B1')).toBe((ROWS * (ROWS + 5)) / 2);
    expect(shown(model, 'C1')).toBe(ROWS + 3);
  });

  it.each([
    ['each reads the one below it', counted((b) => `=IF(ISNUMBER(${b}),${b}+1,0)`), ROWS],
    ['each reads the one above it', column((r) => (r === 1 ? '1' : `=A${r - 1}+1`)), 1],
    ['a circle', { ...counted((b) => `=${b}+1`), [`A${ROWS}`]: '=A1' }, '#CYCLE'],
  ])('without values, sheet by sheet: %s', (_, cells, first) => {
    const data = { sheets: [sheet('s', cells)] };
    const { frame, contents } = takenApart(data as never, {});
    const opening = new Opening(unpackedSheets(sheetsAsTexts(contents)));
    const model = quietly(() => new Model(structuredClone(frame), { custom: { opening } }));
    quietly(() => opening.finish());
    expect(shown(model)).toBe(first);
    expect(shown(model, `A${ROWS}`)).toBe(typeof first === 'number' ? ROWS + 1 - first : first);
  });

  it('in a circle ends as a short circle does, and what hangs on it', () => {
    const circle = (rows: number) =>
      open(
        sheet('s', {
          ...counted((below) => `=${below}+1`, rows),
          [`A${rows}`]: '=A1+1',
          ...{ B1: '=A2', C1: '=D1', D1: '7' },
        }),
      );
    for (const rows of [3, 90, 400, ROWS]) {
      const model = circle(rows);
      for (const place of ['A1', `A${rows}`, 'A2', 'B1'])
        expect(shown(model, place), `${place} of ${rows}`).toBe('#CYCLE');
      expect(shown(model, 'C1')).toBe(7);
    }
  });

  it('whose cells are found by their addresses', () => {
    const model = open(
      sheet(
        's',
        counted((below) => `=INDIRECT("${below}")+1`, 700),
      ),
    );
    expect(shown(model)).toBe(700);
  });
});

it('cells that read others at random show what they show one after another', () => {
  const next = randomNumbers(20_260_617);
  const below = (row: number): number => row + 1 + Math.floor(next() * Math.min(3, 600 - row));
  for (let run = 0; run < 5; run++) {
    const formulas = new Map<number, readonly [number, number]>();
    for (let row = 1; row < 600; row++) formulas.set(row, [below(row), below(row)]);
    const values = new Map([[600, 1]]);
    for (let row = 599; row >= 1; row--) {
      const [one, other] = (formulas.get(row) as [number, number]).map((of) => values.get(of));
      values.set(row, ((one as number) + 2 * (other as number)) % 1009);
    }
    const model = open(
      sheet('s', {
        ...column((row) => {
          const read = formulas.get(row);
          return read ? `=MOD(IFERROR(A${read[0]},7)+2*A${read[1]},1009)` : '1';
        }, 600),
      }),
    );
    for (const [row, value] of values) expect(shown(model, `A${row}`), `A${row}`).toBe(value);
  }
});
