/** 10,000 rows of one function, recalculated as plain formulas and as live calls. */
import { Model } from '@odoo/o-spreadsheet';
import { HyperFormula } from 'hyperformula';
import { findCard } from '../../src/functions/card-list';
import { plainFormula } from '../../src/functions/plain';
import { engineFormula } from '../../src/engine/engine-formula';
import { registerFunctions } from '../../src/engine/engine-functions';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import type { CellModel } from '../../src/plan/workbook-model';
import { type Line, ratioLine } from './line';
import { medians } from './timing';

const ROWS = 10_000;
/** HyperFormula rounds to fourteen places after the point. */
const ROUNDING = 1e-9;
/** One cell on which every row depends. */
const WATER = { row: 0, column: 4 };
const RESULT_COLUMN = 2;

const tan = (row: number): number => 0.2 + (row % 40) / 10;
const ph = (row: number): number => 6.5 + (row % 25) / 10;

function plainRow(row: number): string {
  const card = findCard('AMMONIA.UNIONISED');
  if (!card || card.columns) throw new Error('The function of the bench is not in the catalogue');
  return plainFormula(card, [`A${row + 1}`, `B${row + 1}`, '$E$1', undefined]);
}

const liveRow = (row: number): string => `GILL.AMMONIA.UNIONISED(A${row + 1},B${row + 1},$E$1)`;

interface Engine {
  setWater(degrees: number): void;
  result(row: number): unknown;
}

function hyperFormula(formula: (row: number) => string): Engine {
  const rows = Array.from({ length: ROWS }, (_, row) => [
    tan(row),
    ph(row),
    `=${formula(row)}`,
    null,
    ...(row === 0 ? [20] : []),
  ]);
  const engine = HyperFormula.buildFromArray(rows, { licenseKey: 'gpl-v3' });
  return {
    setWater: (degrees) => {
      engine.setCellContents({ sheet: 0, row: WATER.row, col: WATER.column }, degrees);
    },
    result: (row) => engine.getCellValue({ sheet: 0, row, col: RESULT_COLUMN }),
  };
}

function workbench(formulas: readonly string[]): Engine {
  const rows = Array.from({ length: ROWS }, (_, row): (CellModel | undefined)[] => {
    const formula = formulas[row];
    return [
      { value: tan(row), look: 'input' },
      { value: ph(row), look: 'input' },
      formula === undefined ? undefined : { formula, look: 'computed' },
      undefined,
      ...(row === 0 ? [{ value: 20, look: 'input' } as const] : []),
    ];
  });
  const model = quietly(
    () =>
      new Model(
        gridFrom({
          title: 'Bench',
          formulas: 'live',
          made: '2026-03-01',
          farm: '{}',
          names: [],
          sheets: [
            {
              name: 'Rows',
              question: '',
              columnWidths: [10, 10, 10, 10, 10],
              rows,
              merges: [],
              tables: [],
              validations: [],
              conditions: [],
              charts: [],
              frozen: { rows: 0, columns: 0 },
              print: { landscape: false, headRows: 0 },
            },
          ],
        }),
      ),
  );
  const sheetId = model.getters.getActiveSheetId();
  return {
    setWater: (degrees) => {
      model.dispatch('UPDATE_CELL', {
        sheetId,
        row: WATER.row,
        col: WATER.column,
        content: String(degrees),
      });
    },
    result: (row) => model.getters.getEvaluatedCell({ sheetId, row, col: RESULT_COLUMN }).value,
  };
}

/** Changes the water, asks for the last row, and so knows that all was computed. */
function recalculation(engine: Engine): () => unknown {
  let degrees = 20;
  return () => {
    degrees = degrees === 20 ? 24 : 20;
    engine.setWater(degrees);
    return engine.result(ROWS - 1);
  };
}

export function engines(): Line[] {
  // The engine logs how long it takes.
  return quietly(recalculations);
}

function recalculations(): Line[] {
  registerFunctions();
  const all = (formula: (row: number) => string): string[] =>
    Array.from({ length: ROWS }, (_, row) => formula(row));
  const ways: readonly Engine[] = [
    workbench(all(liveRow)),
    workbench(all(plainRow)),
    hyperFormula((row) => engineFormula(plainRow(row))),
    workbench([`GILL.AMMONIA.UNIONISED(A1:A${ROWS},B1:B${ROWS},E1)`]),
  ];
  for (const degrees of [26, 20]) {
    for (const way of ways) way.setWater(degrees);
    for (const row of [0, 17, ROWS - 1]) {
      const values = ways.map((way) => way.result(row));
      const [first] = values;
      if (
        typeof first !== 'number' ||
        values.some((value) => !(Math.abs((value as number) - first) <= ROUNDING * first))
      ) {
        throw new Error(`Row ${row} has different results: ${values.map(String).join(', ')}`);
      }
    }
  }
  const [live = NaN, plain = NaN, hyper = NaN, block = NaN] = medians(ways.map(recalculation), {
    rounds: 5,
    warmUp: 2,
  });
  return [
    ratioLine(
      "10,000 rows recalculated: plain in the workbench's engine, against live calls there",
      plain / live,
      'above 1',
    ),
    ratioLine(
      "10,000 rows recalculated: plain in HyperFormula, against live calls in the workbench's engine",
      hyper / live,
      'above 1',
    ),
    ratioLine(
      "10,000 rows recalculated: one ranged live call, against live calls, both in the workbench's engine",
      block / live,
      'below 1',
    ),
    { what: '10,000 live calls recalculated, time', measured: `${live.toFixed(0)} ms`, goal: '' },
  ];
}
