import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import type { ValueCard } from '../../src/functions/card';
import { cards } from '../../src/functions/card-list';
import { quoted } from '../../src/functions/plain';
import { handOver } from '../../src/handover/hand-over';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import type { CellModel, SheetModel, WorkbookModel } from '../../src/plan/workbook-model';
import { recalculated } from '../tools/libreoffice';

const FORMULAS = 400;
const SEED = 20260101;

const valueCards = cards.filter((card): card is ValueCard => card.columns === undefined);
type Literal = number | string | null;

/** Where an argument's value stands: typed into the call, in a cell, or in an expression around a cell. */
type Way = 'typed' | 'cell' | 'fixed cell' | 'sum' | 'times one' | 'left blank';

/** What is put around a call; § stands for it. */
const wrappings = [
  '§',
  'ROUND(§,9)',
  'IF(ISNUMBER(§),§+1,"text")',
  'MAX(0,§)*2',
  '100-§',
  'IFERROR(§,"wrong")',
  'SUM(1,N(§),2)',
  'IF(TRUE,§,0)',
];

const oneFormula = fc.record({
  card: fc.constantFrom(...valueCards),
  example: fc.nat(),
  ways: fc.array(
    fc.constantFrom<Way>('typed', 'cell', 'fixed cell', 'sum', 'times one', 'left blank'),
    {
      minLength: 12,
      maxLength: 12,
    },
  ),
  wrapping: fc.constantFrom(...wrappings),
});

const literalText = (value: Literal): string =>
  value === null ? '' : typeof value === 'string' ? quoted(value) : String(value);

interface Made {
  readonly formula: string;
  readonly inputs: readonly Literal[];
}

/** A formula whose inputs stand in the same row of the sheet "In". */
function made(choice: Choice, row: number): Made {
  const { card } = choice;
  const example = card.examples[choice.example % card.examples.length] ?? card.examples[0];
  const inputs: Literal[] = [];
  const args = card.parameters.map((parameter, i) => {
    const value = example.args[i] ?? null;
    const way = choice.ways[i % choice.ways.length] as Way;
    inputs.push(way === 'left blank' && parameter.optional ? null : value);
    const cell = `In!${String.fromCharCode(65 + i)}${row + 1}`;
    if (value === null) return '';
    // Text with a unit in a cell has no plain form; another test holds what is said then.
    const needsTyping = typeof value === 'string' && ['number', 'date'].includes(parameter.kind);
    if (way === 'typed' || needsTyping) return literalText(value);
    if (way === 'fixed cell') return cell.replace(/([A-Z])(\d+)$/, '$$$1$$$2');
    if (typeof value === 'number' && way === 'sum') return `SUM(${cell},0)`;
    if (typeof value === 'number' && way === 'times one') return `${cell}*1`;
    return cell;
  });
  while (args.at(-1) === '') args.pop();
  const call = `GILL.${card.id}(${args.join(',')})`;
  // MAX passes over a text that a look-up by a cell finds in a cell, and stops at one that a function gives.
  const wrapping =
    typeof example.result === 'string' && choice.wrapping.startsWith('MAX') ? '§' : choice.wrapping;
  return { formula: wrapping.replaceAll('§', call), inputs };
}

interface Choice {
  readonly card: ValueCard;
  readonly example: number;
  readonly ways: readonly Way[];
  readonly wrapping: string;
}

const sheet = (name: string, rows: SheetModel['rows']): SheetModel => ({
  name,
  question: name,
  columnWidths: [12],
  rows,
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
  print: { landscape: false, headRows: 0 },
});

const cellOf = (value: Literal): CellModel | undefined =>
  value === null ? undefined : { value, look: 'input' };

describe('formulas built at random around random GILL calls', () => {
  it(`gives ${FORMULAS} times the live value once handed over and computed by LibreOffice`, async () => {
    const choices = fc.sample(oneFormula, { numRuns: FORMULAS, seed: SEED }) as Choice[];
    const all = choices.map(made);
    const model: WorkbookModel = {
      title: 'Random formulas',
      formulas: 'live',
      made: '2026-01-01',
      farm: '{}',
      names: [],
      sheets: [
        sheet(
          'Out',
          all.map(({ formula }) => [{ formula, look: 'computed' as const }]),
        ),
        sheet(
          'In',
          all.map(({ inputs }) => inputs.map(cellOf)),
        ),
      ],
    };
    const live = computedValues(model);
    const { bytes, turned } = handOver(writeXlsx(model, live));
    expect(turned.filter((turned) => turned.became !== 'formula')).toEqual([]);
    const found = (await recalculated(new Map([['random.xlsx', bytes]]))).get('random.xlsx');
    const differences = all.flatMap(({ formula }, row) => {
      const expected = live('Out', row, 0);
      const value = found?.('Out', row, 0);
      const same =
        expected instanceof GillError
          ? value instanceof GillError
          : typeof expected === 'number' && typeof value === 'number'
            ? Math.abs(value - expected) <= 1e-9 * Math.max(1e-3, Math.abs(expected))
            : (value ?? '') === (expected ?? '');
      return same ? [] : [{ formula, expected: String(expected), value: String(value) }];
    });
    expect(differences).toEqual([]);
  });
});
