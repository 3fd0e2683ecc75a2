import { tokenize } from '@borgar/fx';
import { describe, expect, it } from 'vitest';
import { cellAddress } from '../../src/plan/addresses';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';

const live = planWorkbook(readFarm(demoFarm), { formulas: 'live' });
const plain = planWorkbook(readFarm(demoFarm), { formulas: 'plain' });

const formulasOf = (model: WorkbookModel): string[] =>
  model.sheets.flatMap(({ rows }) =>
    rows.flatMap((row) => row.flatMap((cell) => cell?.formula ?? [])),
  );

interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}
interface Box extends Place {
  readonly rows: number;
  readonly columns: number;
}

const columnOf = (letters: string): number =>
  [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

/** The cells that a token of a formula means. */
function boxOf(text: string, own: string): Box | undefined {
  const match = /^(?:'?((?:[^'!]|'')+)'?!)?\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?$/.exec(
    text,
  );
  if (!match) {
    const name = live.names.find((name) => name.name === text);
    return name && { sheet: name.sheet, ...name.area };
  }
  const row = Number(match[3]) - 1;
  const column = columnOf(match[2] ?? '');
  return {
    sheet: match[1]?.replaceAll("''", "'") ?? own,
    row,
    column,
    rows: Number(match[5] ?? match[3]) - row,
    columns: columnOf(match[4] ?? match[2] ?? '') - column + 1,
  };
}

/** Every cell that holds something, with the block that a spill fills. */
const keyOf = (sheet: string, row: number, column: number): string =>
  `${sheet}!${cellAddress(row, column)}`;

function callChain(): { longest: number; at: string } {
  const formulas = new Map<string, { formula: string; sheet: string }>();
  const owner = new Map<string, string>();
  for (const sheet of live.sheets) {
    sheet.rows.forEach((row, r) =>
      row.forEach((cell, c) => {
        if (cell?.formula === undefined) return;
        const key = keyOf(sheet.name, r, c);
        formulas.set(key, { formula: cell.formula, sheet: sheet.name });
        for (let i = 0; i < (cell.spill?.rows ?? 1); i++) {
          for (let k = 0; k < (cell.spill?.columns ?? 1); k++) {
            owner.set(keyOf(sheet.name, r + i, c + k), key);
          }
        }
      }),
    );
  }
  // Names of registers reach far below their last line; no block does.
  const ends = new Map(live.sheets.map(({ name, rows }) => [name, rows.length + 100]));
  const depth = new Map<string, number>();
  const visit = (key: string): number => {
    const known = depth.get(key);
    if (known !== undefined) return known;
    depth.set(key, 0);
    const cell = formulas.get(key);
    if (!cell) return 0;
    let before = 0;
    for (const token of tokenize(cell.formula, { mergeRefs: true })) {
      if (token.type !== 'range' && token.type !== 'range_named') continue;
      const box = boxOf(token.value, cell.sheet);
      if (!box) continue;
      const end = Math.min(box.row + box.rows, ends.get(box.sheet) ?? 0);
      for (let r = box.row; r < end; r++) {
        for (let c = box.column; c < box.column + box.columns; c++) {
          const from = owner.get(keyOf(box.sheet, r, c));
          if (from !== undefined && from !== key) before = Math.max(before, visit(from));
        }
      }
    }
    const found = before + (cell.formula.includes('GILL.') ? 1 : 0);
    depth.set(key, found);
    return found;
  };
  let longest = 0;
  let at = '';
  for (const key of formulas.keys()) {
    const length = visit(key);
    if (length > longest) [longest, at] = [length, key];
  }
  return { longest, at };
}

describe('the rules of the planning workbook', () => {
  it('has GILL functions live, and none plain', () => {
    expect(formulasOf(live).filter((text) => text.includes('GILL.')).length).toBeGreaterThan(100);
    expect(formulasOf(plain).filter((text) => text.includes('GILL.'))).toEqual([]);
  });

  it('has no chain of GILL cells longer than 2', () => {
    const { longest, at } = callChain();
    expect(longest, at).toBe(2);
  });

  it('reads no clock: the as-of date is a cell', () => {
    for (const text of [...formulasOf(live), ...formulasOf(plain)]) {
      expect(text).not.toMatch(/\b(TODAY|NOW|RAND|OFFSET|INDIRECT)\(/);
    }
  });

  it('uses no function that only some spreadsheets have', () => {
    for (const text of formulasOf(plain)) {
      expect(text).not.toMatch(
        /\b(LET|LAMBDA|XLOOKUP|XMATCH|FILTER|SORT|SORTBY|UNIQUE|SEQUENCE|IFS|SWITCH|TEXTJOIN|CONCAT|MAXIFS|MINIFS)\(/,
      );
    }
  });

  it('calls no GILL function from conditional formats, lists and charts', () => {
    for (const sheet of live.sheets) {
      for (const { formula } of sheet.conditions) expect(formula).not.toContain('GILL.');
    }
    expect(
      JSON.stringify([live.names, live.sheets.map((s) => [s.validations, s.charts])]),
    ).not.toContain('GILL.');
  });

  it('holds every sheet of the whole job', () => {
    const names = live.sheets.map(({ name }) => name);
    for (const name of [
      'Start',
      'Site',
      'Tanks',
      'Stock plan',
      'Balance',
      'Beds',
      'Sowing',
      'Week',
      'Water log',
      'Harvest log',
      'Money',
      'Crops',
      'Species',
      'Sources',
    ]) {
      expect(names).toContain(name);
    }
  });

  it('names nothing that could be a cell', () => {
    for (const { name } of live.names) expect(name).toMatch(/^[A-Za-z]{4,}/);
  });
});
