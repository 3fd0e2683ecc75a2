import { Model } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';

registerFunctions();

const sheetId = 's';

/** What formulas give beside 1, #N/A, 3, #DIV/0! in A1:A4 and 1, 1, 1, 2 in B1:B4. */
function given(...formulas: string[]): unknown[] {
  const cells: Record<string, string> = {
    ...{ A1: '1', A2: '=NA()', A3: '3', A4: '=1/0', B1: '1', B2: '1', B3: '1', B4: '2' },
  };
  formulas.forEach((formula, i) => (cells[`D${i + 1}`] = formula));
  const { getters } = quietly(
    () => new Model({ sheets: [{ id: sheetId, name: 'S', colNumber: 6, rowNumber: 60, cells }] }),
  );
  return formulas.map((_, row) => getters.getEvaluatedCell({ sheetId, col: 3, row }).value);
}

/** As LibreOffice 7.4 and the open standard have it: ISO/IEC 26300-2 (OpenFormula), 4.6 and 5.7, errors propagate. */
describe('errors in ranges', () => {
  it('come out of sums of products, OR and ranks', () => {
    expect(
      given(
        '=SUMPRODUCT(A1:A4)',
        '=SUMPRODUCT(B1:B4,A1:A4)',
        '=SUMPRODUCT((B1:B4=2)*A1:A4)',
        '=SUMXMY2(A1:A4,B1:B4)',
        '=OR(TRUE,A2)',
        '=RANK(1,A1:A4)',
      ),
    ).toEqual(['#N/A', '#N/A', '#N/A', '#N/A', '#N/A', '#N/A']);
    expect(given('=SUMPRODUCT(A1:A1,B1:B1)', '=SUMPRODUCT(B1:B4)', '=OR(A1=2,B1=1)')).toEqual([
      ...[1, 5, true],
    ]);
  });

  it('come out where they are among the cells that a criterion chooses, the first of them', () => {
    expect(
      given(
        '=SUMIF(B1:B4,1,A1:A4)',
        '=SUMIF(B1:B4,2,A1:A4)',
        '=SUMIFS(A1:A4,B1:B4,">0")',
        '=AVERAGEIF(B1:B4,2,A1:A4)',
        '=AVERAGEIFS(A1:A4,B1:B4,1)',
        '=MAXIFS(A1:A4,B1:B4,2)',
        '=MINIFS(A1:A4,B1:B4,1)',
      ),
    ).toEqual(['#N/A', '#DIV/0!', '#N/A', '#DIV/0!', '#N/A', '#DIV/0!', '#N/A']);
  });

  it('stay out where no criterion chooses them', () => {
    expect(
      given(
        '=SUMIF(A1:A4,"<5")',
        '=SUMIFS(A1:A4,B1:B4,3)',
        '=SUMIFS(B1:B4,A1:A4,3)',
        '=AVERAGEIF(A1:A4,">0")',
        '=MAXIFS(A1:A3,A1:A3,">2")',
        '=COUNTIF(A1:A4,"<5")',
      ),
    ).toEqual([4, 0, 1, 2, 3, 2]);
  });

  it('and a range that is gone is no empty one', () => {
    const lost = [
      ...['COUNTIF(#REF!,1)', 'COUNTIFS(A1:A3,1,#REF!,1)', 'COUNTBLANK(#REF!)'],
      ...['SUMIF(#REF!,1)', 'SUMIF(B1:B3,1,#REF!)', 'SUMIFS(#REF!,B1:B3,1)'],
      ...['SUMIFS(B1:B3,#REF!,1)', 'AVERAGEIF(#REF!,1)', 'MAXIFS(#REF!,B1:B3,1)'],
      ...['MATCH(1,#REF!,0)', 'VLOOKUP(1,#REF!,1,FALSE)', 'LOOKUP(1,#REF!)', 'SUMPRODUCT(#REF!)'],
    ];
    expect(given(...lost.map((formula) => `=${formula}`))).toEqual(lost.map(() => '#REF!'));
    expect(given('=LOOKUP(2,1/(B1:B4=1),B1:B4)')).toEqual([1]);
    expect(given('=COUNTIF(A2,1)', '=MATCH(3,A1:A4,0)')).toEqual([0, 3]);
  });
});
