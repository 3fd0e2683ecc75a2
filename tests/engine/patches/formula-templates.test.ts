import { CompiledFormula, Model } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { FormulaTemplates } from '../../../src/engine/patches/formula-templates';
import { SharedFormulaParts } from '../../../src/engine/patches/shared-formula-parts';
import { quietly } from '../../../src/engine/quietly';
import { planWorkbook } from '../../../src/plan/plan';
import { sampleFarm } from '../../tools/farms';

interface Token {
  readonly type: string;
  readonly value: string;
}

/** What these hold the library writes into them each time a formula is shown: it stands beside them. */
const WRITTEN_IN = ['REFERENCE', 'NUMBER', 'STRING', 'INVALID_REFERENCE'];

const parts = (formula: CompiledFormula, ranges = formula.rangeDependencies) => ({
  tokens: (formula as unknown as { tokens: readonly Token[] }).tokens.map(({ type, value }) =>
    WRITTEN_IN.includes(type) && !formula.isBadExpression ? type : `${type} ${value}`,
  ),
  literals: formula.literalValues,
  symbols: formula.symbols,
  ranges,
  isBad: formula.isBadExpression,
  normalized: formula.normalizedFormula,
  execute: formula.execute.toString(),
});

describe('formulas that are alike', () => {
  it('come out as the library takes each of them apart: all of a plan', () => {
    const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' });
    const data = gridFrom(plan);
    const model = quietly(
      () => new Model({ sheets: data.sheets?.map((sheet) => ({ ...sheet, cells: {} })) }),
    );
    const templates = new FormulaTemplates(new SharedFormulaParts());
    let compared = 0;
    let at = 0;
    for (const { id, cells } of data.sheets ?? [])
      for (const text of Object.values(cells as Record<string, string>)) {
        if (!text.startsWith('=')) continue;
        const { alike, ranges } = templates.takeApart(text, id, model.getters);
        // Nearly all of a column are alike.
        if (at++ % 7 > 0) continue;
        compared += 1;
        expect(parts(alike, ranges), text).toEqual(
          parts(CompiledFormula.Compile(text, id, model.getters)),
        );
      }
    expect(compared).toBeGreaterThan(1500);
  });

  const sheets = [
    { id: 's', name: 'One', cells: {} },
    { id: 't', name: 'My sheet', cells: {} },
  ];
  const { getters } = quietly(() => new Model({ sheets }));
  it.each([
    ['references of both kinds', '=A1+$B$2*SUM(C3:D4)', '=A2+$B$3*SUM(C4:D5)'],
    ['other sheets', "='My sheet'!A1+One!B2", "='My sheet'!A7+One!B9"],
    ['sheets that are not there', '=Gone!A1', '=Gone!A2'],
    ['texts that hold references', '=A1&" of A1"', '=A2&" of A2"'],
    ['a text in place of a reference', '=LEN("x A1")+a1', '=LEN("x A2")+a1'],
    ['small letters', '=a1+b2', '=a2+b3'],
    ['functions with numbers in their names', '=LOG10(A1)+ATAN2(B1,C1)', '=LOG10(A2)+ATAN2(B2,C2)'],
    ['names with numbers in them', '=Tank_A1+A1', '=Tank_A1+A2'],
    ['whole columns and rows', '=SUM(A:A)+SUM(1:1)+A1', '=SUM(A:A)+SUM(2:2)+A2'],
    ['blanks between', '=A1 : B2', '=A2 : B3'],
    ['a block written from its end', '=SUM(B9:A1)', '=SUM(B8:A2)'],
    ['what is beyond the sheet', '=ZZ99999+A1', '=ZZ99998+A2'],
    ['what is no formula', '=A1+', '=A2+'],
    ['a block where a cell was', '=SUM(A1)', '=SUM(A1:A2)'],
    ['numbers', '=A1*2', '=A2*3'],
    ['a block that spills', '=A1#+1', '=A2#+1'],
  ])('%s', (_, first, second) => {
    const templates = new FormulaTemplates(new SharedFormulaParts());
    for (const text of [first, second, first])
      for (const id of ['s', 't']) {
        const { alike, ranges } = templates.takeApart(text, id, getters);
        expect(parts(alike, ranges), text).toEqual(
          parts(CompiledFormula.Compile(text, id, getters)),
        );
      }
  });

  it('share the ranges that they name, until what they stand for may have changed', () => {
    const templates = new FormulaTemplates(new SharedFormulaParts());
    const range = (text: string) => templates.takeApart(text, 's', getters).ranges[0];
    expect(range('=A1+1')).toBe(range('=2*A1'));
    const before = range('=A1+1');
    templates.forget();
    expect(range('=A1+1')).not.toBe(before);
  });

  it('of one workbook serve the next, whatever its sheets and names are called', () => {
    const texts = ["='My sheet'!A1+One!B2*11", '=Some_name+One!C3*12', '=One!B7&"13"'];
    const apart = (from: typeof getters) => {
      const templates = new FormulaTemplates(new SharedFormulaParts());
      return texts.map((text) => templates.takeApart(text, 's', from));
    };
    const first = apart(getters);
    const other = quietly(() => new Model({ sheets: [{ id: 's', name: 'Elsewhere', cells: {} }] }));
    const second = apart(other.getters);
    second.forEach(({ alike, ranges }, i) => {
      expect(alike, texts[i]).toBe(first[i]?.alike);
      expect(parts(alike, ranges), texts[i]).toEqual(
        parts(CompiledFormula.Compile(texts[i] ?? '', 's', other.getters)),
      );
    });
  });

  it('are not those that read a block where the others read a cell: the block fills its cells', () => {
    const cells = { A1: '1', A2: '2', A3: '3', B1: '=A1*2', C1: '=A1:A3*2' };
    const model = quietly(
      () => new Model({ sheets: [{ id: 's', colNumber: 9, rowNumber: 9, cells }] }),
    );
    const shown = [0, 1, 2].map(
      (row) => model.getters.getEvaluatedCell({ sheetId: 's', col: 2, row }).value,
    );
    expect(shown).toEqual([2, 4, 6]);
  });
});
