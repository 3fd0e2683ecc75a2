import { helpers, Model } from '@odoo/o-spreadsheet';
import { expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { cards } from '../../src/functions/list';
import { mathjsConverter } from '../../src/functions/unit-converter';
import { useUnitConverter } from '../../src/functions/units';
import { demoPlan } from '../../src/hosts/workbench/demo-plan';
import { gridFrom } from '../../src/hosts/workbench/engine';
import { registerFunctions } from '../../src/hosts/workbench/engine-functions';
import { valueOf } from '../../src/hosts/workbench/evaluate';
import { quietly } from '../../src/hosts/workbench/quietly';
import { heldBytes } from './heap';
import { oneOf, randomNumbers } from './random';
import { EDITS } from './soak-size';

useUnitConverter(mathjsConverter);
registerFunctions();

const SEED = 20260413;
/** The engine keeps its last hundred steps for undo, and caches of what it has parsed. */
const MOST_GROWTH = 60e6;
const ROWS = 45;
const COLUMNS = 14;

const texts = [
  '',
  'lettuce',
  'no such crop',
  '78 degF',
  '12 parsecs',
  "'=1+1",
  'TRUE',
  '#N/A',
  '½',
  '2026-04-13',
  '1e400',
  '-0',
  '😀',
  '3,5',
];
const calls = cards.map(({ id, examples }) => {
  const args = examples[0].args.map((arg) =>
    arg === null ? '' : typeof arg === 'string' ? `"${arg}"` : String(arg),
  );
  return `=GILL.${id}(${args.join(',')})`;
});

const random = randomNumbers(SEED);
const whole = (below: number): number => Math.floor(random() * below);

function content(): string {
  const kind = random();
  if (kind < 0.35) return String(Math.round((random() - 0.2) * 10 ** whole(6)) / 10);
  if (kind < 0.6) return oneOf(random, texts);
  if (kind < 0.8) return oneOf(random, calls);
  if (kind < 0.9) return `=A${1 + whole(ROWS)}*${whole(9)}+SUM(B1:C${1 + whole(ROWS)})`;
  const row = 1 + whole(ROWS);
  if (kind < 0.98) return `=GILL.AMMONIA.UNIONISED(A${row},B${row},C${row})`;
  // Few formulas fill several cells: nobody lays hundreds of them over each other.
  return `=GILL.AMMONIA.UNIONISED(A${row},B${row},C${row}:D${1 + whole(ROWS)})`;
}

/** Few steps are undone: for each the engine goes through the whole workbook. */
function edit(model: Model, sheets: readonly string[]): void {
  const kind = random();
  const sheetId = oneOf(random, sheets);
  const [col, row] = [whole(COLUMNS), whole(ROWS)];
  if (kind < 0.75) model.dispatch('UPDATE_CELL', { sheetId, col, row, content: content() });
  else if (kind < 0.97) {
    const target = [{ left: col, right: col + whole(3), top: row, bottom: row + whole(4) }];
    model.dispatch('DELETE_CONTENT', { sheetId, target });
  } else if (kind < 0.99) model.dispatch('REQUEST_UNDO');
  else model.dispatch('REQUEST_REDO');
}

/** Every error of the sheet has a sentence, and every number is one. */
function lookOver(model: Model, sheetId: string): void {
  for (const cell of model.getters.getEvaluatedCells(sheetId)) {
    const value = valueOf(cell);
    if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
    if (!(value instanceof GillError)) continue;
    expect(helpers.isEvaluationError(value.code) || value.code.startsWith('#')).toBe(true);
    expect(value.message).not.toMatch(/undefined|\bNaN\b|\[object|TypeError|is not a function/);
  }
}

it(`stands ${EDITS} random edits of the demo plan without a bare error and gives its memory back`, () => {
  const model = quietly(() => new Model(gridFrom(demoPlan())));
  const sheets = model.getters.getSheetIds();
  let early = 0;
  quietly(() => {
    for (let i = 1; i <= EDITS; i++) {
      edit(model, sheets);
      if (i % 100 === 0) lookOver(model, oneOf(random, sheets));
      if (i === EDITS / 5) early = heldBytes();
    }
    for (const sheet of sheets) lookOver(model, sheet);
  });
  expect(heldBytes() - early).toBeLessThan(MOST_GROWTH);
}, 3_600_000);
