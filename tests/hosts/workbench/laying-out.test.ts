import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';
import { wholeModel } from '../../../src/hosts/workbench/laying-out';
import { readForGrid } from '../../../src/hosts/workbench/open-xlsx';
import { atOnce } from '../../../src/plan/in-steps';
import { largeWorkbook } from '../../tools/large-workbook';

const sheet = (id: string, cells: Record<string, string>) => ({
  ...{ id, name: id, colNumber: 12, rowNumber: 40, cells, styles: {}, formats: {}, borders: {} },
  ...{ merges: [], cols: {}, rows: {}, figures: [], tables: [], conditionalFormats: [] },
});

const data = (): Partial<WorkbookData> =>
  ({
    sheets: [
      sheet('a', {
        ...{ A1: '=b!A1+1', A2: '=b!A2&"!"', A3: '7', A4: '=SUM(b!C1:C9)', A5: '=b!A5' },
        ...{ C1: '=SEQUENCE(3)', D1: '=b!D1#', E1: '=E2', E2: '=b!E1' },
      }),
      sheet('b', {
        ...{ A1: '=a!A3*2', A2: '=a!A1', A5: '=SUM(a!C1:C9)', C1: '=SEQUENCE(4)*2', E1: '=a!E1' },
        ...{ B1: '=a!A4+A5', B2: '=B1+a!A2', F1: 'word', F2: '=a!A9' },
      }),
    ],
  }) as never;

const shown = ({ getters }: Model): Record<string, unknown> =>
  Object.fromEntries(
    getters.getSheetIds().flatMap((sheetId) =>
      Array.from({ length: 12 * 40 }, (_, n): [string, unknown] => {
        const position = { sheetId, col: n % 12, row: Math.floor(n / 12) };
        return [
          `${sheetId} ${position.col} ${position.row}`,
          getters.getEvaluatedCell(position).value,
        ];
      }),
    ),
  );

describe('a workbook that is laid out in steps', () => {
  beforeAll(registerFunctions);

  it('computes what its file has no value for, across sheets and blocks, as if all were computed at once', () => {
    const computed = shown(quietly(() => new Model(data())));
    expect([computed['a 0 3'], computed['b 1 0'], computed['a 4 0']]).toEqual([20, 26, '#CYCLE']);
    // Nothing stored, and some of it: what is stored must not stand in the way.
    const some = { a: { A1: { value: 15 } }, b: { A1: { value: 14 }, A5: { value: 6 } } };
    for (const storedValues of [{}, some]) {
      const { model, opening } = atOnce(wholeModel(data(), { storedValues }));
      expect(opening?.isReady).toBe(true);
      expect(shown(model)).toEqual(computed);
    }
  });

  it('says how far it is in many short steps, and can be exported once it is there', () => {
    const { data: large, stored } = atOnce(readForGrid(largeWorkbook('records', 0.1)));
    const steps = wholeModel(large, { storedValues: stored });
    const shares: number[] = [];
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done === true) {
        const { model } = step.value;
        expect(quietly(() => model.exportData()).sheets[0]?.rowNumber).toBeGreaterThan(1200);
        break;
      }
      shares.push(step.value);
    }
    expect(shares.length).toBeGreaterThan(50);
    expect(shares.every((share, n) => share <= 1 && share >= (shares[n - 1] ?? 0))).toBe(true);
    // It knows about how long it takes.
    expect(shares.filter((share) => share > 0.5).length / shares.length).toBeGreaterThan(0.3);
  });
});
