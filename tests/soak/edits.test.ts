import { Model } from '@odoo/o-spreadsheet';
import { expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { cards } from '../../src/functions/card-list';
import { demoPlan } from '../../src/hosts/workbench/demo-plan';
import { planWorkbook } from '../../src/plan/plan';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { gridFrom } from '../../src/engine/engine';
import { registerFunctions } from '../../src/engine/engine-functions';
import { valueOf } from '../../src/engine/evaluate-formula';
import { exportedData } from '../../src/engine/patches/exported-data';
import { quietly } from '../../src/engine/quietly';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { shownValues } from '../tools/shown-values';
import { circles, touchedBy } from './circles';
import { heldBytes } from './heap';
import { oneOf, randomNumbers } from './random';
import { EDITS, LONG, LOOKS } from './soak-size';

registerFunctions();

const SEED = 20260413;
/** Megabytes: formulas that were not in the plan, and the last steps for undo. */
const GROWTH_LIMIT = 15;
/** Megabytes: what the engine has compiled, for whichever workbook comes next. */
const REST_LIMIT = 20;
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

function edit(model: Model, sheets: readonly string[]): void {
  const kind = random();
  const sheetId = oneOf(random, sheets);
  const [col, row] = [whole(COLUMNS), whole(ROWS)];
  if (kind < 0.7) model.dispatch('UPDATE_CELL', { sheetId, col, row, content: content() });
  else if (kind < 0.88) {
    const target = [{ left: col, right: col + whole(3), top: row, bottom: row + whole(4) }];
    model.dispatch('DELETE_CONTENT', { sheetId, target });
  } else if (kind < 0.95) model.dispatch('REQUEST_UNDO');
  else model.dispatch('REQUEST_REDO');
}

/** What is no value that a grower may see: a number that is none, or an error without a sentence. */
function bareValues(model: Model): string[] {
  const bare: string[] = [];
  for (const sheetId of model.getters.getSheetIds()) {
    for (const cell of model.getters.getEvaluatedCells(sheetId)) {
      const value = valueOf(cell);
      if (typeof value === 'number' && !Number.isFinite(value)) bare.push(String(value));
      if (!(value instanceof GillError)) continue;
      const isWhole =
        value.code.startsWith('#') &&
        /\w+ \w+/.test(value.message) &&
        !/undefined|\bNaN\b|\[object|TypeError|is not a function/.test(value.message);
      if (!isWhole) bare.push(`${value.code} ${value.message}`);
    }
  }
  return bare;
}

/** What stays in memory once the engine's timers have run; until then they hold every workbook. */
async function heldMegabytes(): Promise<number> {
  await new Promise((resolve) => setTimeout(resolve, 50));
  return heldBytes() / 1e6;
}

/**
 * Looks for cells that show something else when the same workbook is opened and computed anew. What follows
 * from a circle, or from two blocks in each other's way, hangs on the order of the edits, in every spreadsheet;
 * it is left out. Gives how many cells were compared.
 */
function compareWithAnew(model: Model): number {
  const anew = new Model(exportedData(model) as object);
  const circular = [...circles(model), ...circles(anew)];
  const leftOut = new Set([...touchedBy(model, circular), ...touchedBy(anew, circular)]);
  const [now, then] = [shownValues(model), shownValues(anew)];
  const compared = Object.keys({ ...now, ...then }).filter((cell) => !leftOut.has(cell));
  expect(compared.filter((cell) => now[cell] !== then[cell])).toEqual([]);
  return compared.length;
}

/** The small school's plan, in the long form the demo plan. */
const [editedPlan] = few(1, [
  () => planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' }),
  demoPlan,
]).slice(-1) as [() => WorkbookModel];

/** Opens a plan, edits it and looks it over now and then: megabytes held at these times. */
async function session(): Promise<number[]> {
  const model = quietly(() => new Model(gridFrom(editedPlan())));
  const sheets = model.getters.getSheetIds();
  const held: number[] = [];
  for (let i = 1; i <= EDITS; i++) {
    quietly(() => edit(model, sheets));
    if (i % (EDITS / LOOKS) !== 0) continue;
    expect(bareValues(model)).toEqual([]);
    const compared = quietly(() => compareWithAnew(model));
    expect(compared).toBeGreaterThan(2000);
    held.push(await heldMegabytes());
    if (LONG) console.info(`${i} edits, ${compared} cells compared, ${held.at(-1)?.toFixed()} MB`);
  }
  return held;
}

it(`stands ${EDITS} random edits of a plan without a bare error or a wrong value${LONG ? ', and gives its memory back' : ''}`, async () => {
  const before = await heldMegabytes();
  const held = await session();
  const after = await heldMegabytes();
  // What a few edits leave in memory tells nothing: `npm run soak` looks at many.
  if (!LONG) return;
  console.info(`MB held: ${[before, ...held, after].map(Math.round).join(', ')}`);
  expect(Number(held.at(-1)) - Number(held[Math.ceil(LOOKS / 5) - 1])).toBeLessThan(GROWTH_LIMIT);
  expect(after - before).toBeLessThan(REST_LIMIT);
}, 3_600_000);
