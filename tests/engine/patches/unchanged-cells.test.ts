import { Model } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';
import { conditionCells, conditions } from './conditions';
import { oneOf, randomNumbers } from '../../soak/random';

registerFunctions();

const sheetId = 's';
const ROWS = 40;

interface Evaluator {
  computeFormulaCell(...cell: unknown[]): unknown;
}

const open = (cells: Record<string, string>): Model =>
  quietly(
    () =>
      new Model({
        sheets: [{ id: sheetId, name: 'S', colNumber: 12, rowNumber: ROWS + 20, cells }],
        namedRanges: { Keys: `S!$A$1:$A$${ROWS}`, Places: `S!$B$1:$B$${ROWS}` },
      } as never),
  );

/** Types into a cell; the addresses of the formulas that were computed. */
function typeInto(model: Model, address: string, content: string): string[] {
  const { handlers } = model as unknown as { handlers: { evaluator?: Evaluator }[] };
  const evaluator = handlers.find((handler) => handler.evaluator)?.evaluator as Evaluator;
  const { computeFormulaCell } = evaluator;
  const computed: string[] = [];
  evaluator.computeFormulaCell = (...cell) => {
    const { col, row } = cell[0] as { col: number; row: number };
    computed.push(`${'ABCDEFGHIJKL'[col]}${row + 1}`);
    return computeFormulaCell.call(evaluator, ...cell);
  };
  const col = 'ABCDEFGHIJKL'.indexOf(address[0] as string);
  const row = Number(address.slice(1)) - 1;
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId, col, row, content }));
  evaluator.computeFormulaCell = computeFormulaCell;
  return computed.sort();
}

const valueAt = (model: Model, address: string): unknown =>
  model.getters.getEvaluatedCell({
    sheetId,
    col: 'ABCDEFGHIJKL'.indexOf(address[0] as string),
    row: Number(address.slice(1)) - 1,
  }).value;

const column = (letter: string, formula: (row: number) => string): Record<string, string> =>
  Object.fromEntries(Array.from({ length: ROWS }, (_, i) => [`${letter}${i + 1}`, formula(i + 1)]));

describe('after an edit', () => {
  it('nothing is computed beyond a cell that is unchanged', () => {
    const model = open({ A1: '6', B1: '=MIN(A1,5)', C1: '=B1*2', D1: '=C1+A1' });
    expect(typeInto(model, 'A1', '7')).toEqual(['B1', 'D1']);
    expect(typeInto(model, 'A1', '3')).toEqual(['B1', 'C1', 'D1']);
    expect(valueAt(model, 'D1')).toBe(9);
  });

  it('each cell is computed once, after all that it reads', () => {
    const model = open({ A1: '1', B1: '=C1+A1', C1: '=D1+A1', D1: '=A1*2', E1: '=B1+C1+D1' });
    expect(typeInto(model, 'A1', '2')).toEqual(['B1', 'C1', 'D1', 'E1']);
    expect(valueAt(model, 'E1')).toBe(18);
  });

  it('a row that looks at single cells of a column is computed when one of these changes', () => {
    const model = open({
      ...column('A', (row) => String(row * 10)),
      ...column('B', (row) => `=INDEX(Keys,${ROWS + 1 - row})`),
      ...column('C', (row) => `=MATCH(${row * 10 + 5},Keys,1)`),
      D1: '=SUM(Keys)+INDEX(Keys,3)',
      D2: '=INDEX(Keys,3)+INDEX(Keys,4)',
      D3: '=SUMPRODUCT(INDEX(Keys,3)*Keys)',
    });
    typeInto(model, 'A5', '51');
    expect(typeInto(model, 'A30', '301').filter((address) => address[0] !== 'C')).toEqual([
      'B11',
      'D1',
      'D3',
    ]);
    expect(typeInto(model, 'A3', '31')).toEqual(expect.arrayContaining(['B38', 'D1', 'D2', 'D3']));
    expect(valueAt(model, 'D2')).toBe(71);
    // Only searches that pass the cell see it.
    expect(typeInto(model, 'A3', '32').filter((address) => address[0] === 'C').length).toBeLessThan(
      ROWS / 3,
    );
    typeInto(model, 'A3', '46');
    expect(valueAt(model, 'C4')).toBe(2);
  });

  it('a branch that its condition does not ask for is not looked at', () => {
    const model = open({
      ...column('A', (row) => String(row)),
      B1: '1',
      C1: '=IF(B1>0,7,SUM(Keys))',
      C2: '=IF(B1>0,IF(B1>1,SUM(Keys),INDEX(Keys,4)),SUM(Keys))',
      C3: '=IF(B1>0,7,SUM(INDIRECT("A1:A9")))',
    });
    typeInto(model, 'A5', '49');
    // What an INDIRECT would read, nobody knows: C3 is always computed.
    expect(typeInto(model, 'A5', '50')).toEqual(['C3']);
    expect(typeInto(model, 'A4', '40')).toEqual(['C2', 'C3']);
    expect(valueAt(model, 'C2')).toBe(40);
    typeInto(model, 'B1', '0');
    const all = (ROWS * (ROWS + 1)) / 2 + 45 + 36;
    expect([valueAt(model, 'C1'), valueAt(model, 'C2')]).toEqual([all, all]);
    expect(valueAt(model, 'C3')).toBe(45 + 45 + 36);
    expect(typeInto(model, 'A5', '5')).toEqual(['C1', 'C2', 'C3']);
    expect(valueAt(model, 'C1')).toBe(all - 45);
    expect(valueAt(model, 'C3')).toBe(45 + 36);
  });

  it.each(conditions)('%s', (formula, value) => {
    expect(valueAt(open({ ...conditionCells, H40: formula }), 'H40')).toBe(value);
  });

  it('a circle is still an error, also where a changed cell leads into it', () => {
    const model = open({ A1: '1', B1: '=C1+A1', C1: '5', D1: '=B1' });
    typeInto(model, 'C1', '=B1');
    expect([valueAt(model, 'B1'), valueAt(model, 'D1')]).toEqual(['#CYCLE', '#CYCLE']);
    typeInto(model, 'A1', '2');
    expect([valueAt(model, 'B1'), valueAt(model, 'D1')]).toEqual(['#CYCLE', '#CYCLE']);
    typeInto(model, 'C1', '4');
    expect([valueAt(model, 'B1'), valueAt(model, 'D1')]).toEqual([6, 6]);
  });

  it('cells beside a block are free once it has shrunk, and what reads them follows', () => {
    const model = open({ A1: '3', B1: '=SEQUENCE(A1,1)*2', C1: '=SUM(B1:B9)', C3: '=B3+1' });
    expect([valueAt(model, 'C1'), valueAt(model, 'C3')]).toEqual([12, 7]);
    typeInto(model, 'A1', '2');
    expect([valueAt(model, 'C1'), valueAt(model, 'C3'), valueAt(model, 'B3')]).toEqual([
      6,
      1,
      null,
    ]);
    typeInto(model, 'A1', '4');
    expect([valueAt(model, 'C1'), valueAt(model, 'C3')]).toEqual([20, 7]);
  });
});

describe('after any edits', () => {
  it.each([1, 2, 3, 4])('all cells equal those of a freshly opened sheet, seed %i', (seed) => {
    const random = randomNumbers(seed);
    const whole = (below: number): number => Math.floor(random() * below);
    const row = (): number => 1 + whole(ROWS);
    const figure = (): string =>
      random() < 0.1 ? oneOf(random, ['', 'word', '#N/A', 'TRUE']) : String(whole(60));
    const formula = (at: number): string =>
      oneOf(random, [
        () => `=IFERROR(INDEX(Places,A${row()}),0)`,
        () => `=IFERROR(MATCH(A${at},Places,1),0)+A${row()}`,
        () => `=IFERROR(LOOKUP(A${at},Places),B${at})`,
        () => `=IFERROR(SMALL(Keys,${row()}),0)`,
        () => `=IF(A${at}>30,INDEX($A$1:$B$${ROWS},${row()},2),SUM(Places))`,
        () => `=IFERROR(INDEX(Keys,B${row()})+INDEX(Keys,2)+COUNT(Keys),"none")`,
        () =>
          `=IF(N(A${row()})>30,IF(N(B${row()})>2,SUM(Places),INDEX(Keys,${row()})),IF(A${row()}="word",IFERROR(LOOKUP(A${at},Places),1),"x"))`,
        () => `=IF(N(A${row()})>20,SUM(INDIRECT("B${row()}:B${ROWS}")),COUNT(Keys))`,
        () => (at > 1 ? `=C${at - 1}+N(D${at})` : '=0'),
      ])();
    const cells: Record<string, string> = {
      ...column('A', figure),
      ...column('B', (at) => `=IFERROR(SMALL(Keys,${at}),0)`),
      ...column('C', formula),
      ...column('D', formula),
      E1: '=SEQUENCE(1+MOD(N(A1),5),2)+N(A2)',
      ...column('H', (at) => `=E${1 + (at % 8)}&F${1 + (at % 6)}&C${at}`),
    };
    // What reads its own column through others is left out.
    for (const address of Object.keys(cells)) {
      if (/^[CD]/.test(address) && /C\d/.test(cells[address] as string) && address[0] === 'D')
        cells[address] = '=0';
    }
    const model = open(cells);
    for (let n = 0; n < 60; n++) {
      const address = `A${row()}`;
      const content = figure();
      typeInto(model, address, content);
      if (content === '') delete cells[address];
      else cells[address] = content;
      if (n % 5 !== 4) continue;
      const anew = open(cells);
      for (const letter of 'ABCDEFGH') {
        for (let at = 1; at <= ROWS; at++) {
          const place = `${letter}${at}`;
          expect([n, place, valueAt(model, place)]).toEqual([n, place, valueAt(anew, place)]);
        }
      }
    }
  });
});
