import { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import type { Card, Outcome } from '../../src/functions/card';
import { lookupTables } from '../../src/functions/lookup-tables';
import type { Cell } from '../../src/functions/parameter';
import { plainFormula, plainSpillFormula, quoted } from '../../src/functions/plain';
import { areaAddress, cellAddress } from '../../src/plan/addresses';
import { lookupSheet } from '../../src/plan/lookup-sheet';
import type {
  CellModel,
  NameModel,
  SheetModel,
  WorkbookModel,
} from '../../src/plan/workbook-model';
import { type Arguments, argumentGrid, shownArguments, withOtherUnit } from './argument-grid';

/** A cell of the workbook whose value the card gives as well. */
export interface Expectation {
  readonly card: Card;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** Size of the block in which any cell may carry the error of the whole call; otherwise 1. */
  readonly rows: number;
  readonly columns: number;
  /** What the live card answers there. */
  readonly live: Outcome;
  /** The call in words, for a report. */
  readonly call: string;
  readonly formula: string;
}

export interface Proof {
  readonly model: WorkbookModel;
  readonly expectations: readonly Expectation[];
  /** Calls with literal arguments that are refused when their plain form is made, as the live card does. */
  readonly refused: readonly { readonly call: string; readonly live: Outcome }[];
}

/** Spilling cards give this many rows to the comparison at most. */
const MAX_ROWS = 40;
/** Within so many rows the error of a spilling call must show. */
const MAX_ERROR_ROWS = 12;
const MAX_FORMULA_LENGTH = 8192;

type Block = readonly (readonly Outcome[])[];
const asBlock = (outcome: Outcome | Outcome[][]): Block =>
  Array.isArray(outcome) ? outcome : [[outcome]];

type Range = readonly (readonly number[])[];
const isRange = (cell: Arguments[number]): cell is Range => Array.isArray(cell);

/** Ranges stand well to the right of everything else. */
const RANGE_COLUMN = 60;

const literal = (cell: Arguments[number]): string | undefined => {
  if (cell === null || cell === undefined) return undefined;
  if (typeof cell === 'string') return quoted(cell);
  return String(cell);
};

class ProofSheet {
  readonly rows: (CellModel | undefined)[][] = [];
  constructor(readonly name: string) {}

  put(row: number, column: number, cell: CellModel): void {
    const line = (this.rows[row] ??= []);
    line[column] = cell;
  }

  get model(): SheetModel {
    return {
      name: this.name,
      question: 'Does the plain form give what the card gives?',
      columnWidths: [],
      rows: Array.from({ length: this.rows.length }, (_, r) => [...(this.rows[r] ?? [])]),
      merges: [],
      tables: [],
      validations: [],
      conditions: [],
      charts: [],
      frozen: { rows: 0, columns: 0 },
      print: { landscape: false, headRows: 0 },
    };
  }
}

/**
 * One workbook with the plain form of every card for a grid of arguments, once with references to cells and
 * once with the arguments written into the formula. Of each card its examples and
 * about `most` argument lists from all parts of its grid.
 */
export function proofWorkbook(cards: readonly Card[], most = Infinity): Proof {
  const expectations: Expectation[] = [];
  const refused: { call: string; live: Outcome }[] = [];
  const sheets = cards.map((card) => {
    const sheet = new ProofSheet(card.id);
    const width = card.parameters.length;
    const example = asBlock(callCard(card, card.examples[0].args)).length;
    const errorRows = Math.min(example, MAX_ERROR_ROWS);
    let top = 0;
    const formulaAt = (
      texts: readonly (string | undefined)[],
      left: number,
      row: number,
      column: number,
    ): string =>
      card.columns
        ? plainSpillFormula(card, texts, row, column, (r, c) => cellAddress(top + r, left + c))
        : plainFormula(card, texts);
    const expect = (
      block: Block,
      texts: readonly (string | undefined)[],
      left: number,
      call: string,
    ): void => {
      const [[only] = []] = block;
      // A spilling card answers with one error; of its plain cells those carry it that need the bad argument.
      if (card.columns && only instanceof GillError) {
        const size = { rows: errorRows, columns: card.columns.length };
        for (let r = 0; r < size.rows; r++) {
          for (let c = 0; c < size.columns; c++) {
            sheet.put(top + r, left + c, {
              formula: formulaAt(texts, left, r, c),
              look: 'computed',
            });
          }
        }
        const formula = formulaAt(texts, left, 0, 0);
        const place = { sheet: card.id, row: top, column: left };
        expectations.push({ card, ...place, ...size, live: only, call, formula });
        return;
      }
      block.slice(0, MAX_ROWS).forEach((line, r) =>
        line.forEach((live, c) => {
          const formula = formulaAt(texts, left, r, c);
          if (formula.length > MAX_FORMULA_LENGTH) {
            throw new Error(`${call}: its plain form has ${formula.length} characters`);
          }
          sheet.put(top + r, left + c, { formula, look: 'computed' });
          const place = { sheet: card.id, row: top + r, column: left + c };
          const single = { rows: 1, columns: 1 };
          expectations.push({ card, ...place, ...single, live, call, formula });
        }),
      );
    };
    const every = argumentGrid(card);
    const step = Math.max(1, Math.ceil(every.length / most));
    const grid: Arguments[] = every.filter((_, i) => i < card.examples.length || i % step === 0);
    const [usual] = grid;
    // Units in text are for literals only; their rows hold no cells.
    const withUnits = card.parameters.flatMap((parameter, i) => {
      const text = withOtherUnit(parameter);
      return text === undefined || !usual
        ? []
        : [usual.map((cell, at) => (at === i ? text : cell))];
    });
    for (const args of [...grid, ...withUnits]) {
      const inCells = !withUnits.includes(args as (typeof withUnits)[number]);
      const call = `GILL.${card.id}(${shownArguments(card, args)})`;
      const block = asBlock(callCard(card, args as Cell[]));
      const columns = card.columns?.length ?? 1;
      if (inCells) {
        let free = RANGE_COLUMN;
        const begins = args.map((cell) => {
          const begin = free;
          if (isRange(cell)) free += cell[0]?.length ?? 0;
          return begin;
        });
        args.forEach((cell, i) => {
          if (isRange(cell)) {
            cell.forEach((line, r) =>
              line.forEach((value, c) =>
                sheet.put(top + r, (begins[i] as number) + c, { value, look: 'input' }),
              ),
            );
          } else if (cell !== null && cell !== undefined) {
            sheet.put(top, i, { value: cell as number | string | boolean, look: 'input' });
          }
        });
        const texts = args.map((cell, i) =>
          isRange(cell)
            ? areaAddress({
                row: top,
                column: begins[i] as number,
                rows: cell.length,
                columns: cell[0]?.length ?? 0,
              })
            : cellAddress(top, i),
        );
        expect(block, texts, width, `${call} from cells`);
      }
      const left = width + columns;
      try {
        if (!args.some(isRange)) expect(block, args.map(literal), left, `${call} as literals`);
      } catch (problem) {
        if (!(problem instanceof GillError)) throw problem;
        refused.push({ call, live: block[0]?.[0] ?? '' });
      }
      const tallest = Math.max(0, ...args.map((cell) => (isRange(cell) ? cell.length : 0)));
      top += Math.max(
        tallest,
        Math.min(Math.max(block.length, card.columns ? errorRows : 1), MAX_ROWS),
      );
    }
    return sheet.model;
  });
  const lookups = lookupTables.map((table) =>
    lookupSheet(table, { title: table.sheet, question: '' }),
  );
  const names: NameModel[] = lookups.flatMap((lookup) => lookup.names);
  return {
    expectations,
    refused,
    model: {
      title: 'Plain equals live',
      formulas: 'plain',
      made: '2026-03-01',
      sheets: [...sheets, ...lookups.map(({ sheet }) => sheet)],
      names,
      farm: '{}',
    },
  };
}
