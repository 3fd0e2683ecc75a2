import { CellErrorType, Model, registries } from '@odoo/o-spreadsheet';
import { beforeEach, describe, expect, it } from 'vitest';
import { quietly } from '../../../src/engine/quietly';
import { conditionCells, conditions } from './conditions';

/**
 * What the spreadsheet library does without the patches. A test that fails here tells that the library was
 * mended: the patch of that name can go.
 */

interface Evaluator {
  formulaDependencies(): {
    getCellsDependingOn(areas: readonly object[], known: object): Iterable<object>;
  };
  readonly nextRangesToUpdate: object;
  computeFormulaCell(...cell: unknown[]): unknown;
}

interface Inside {
  readonly handlers: readonly { readonly evaluator?: Evaluator }[];
  readonly session: {
    readonly revisions: {
      readonly tree: { readonly branches: readonly { readonly operations: unknown[] }[] };
    };
  };
}

const sheetId = 's';
let model: Model;
let computed: string[];

const evaluatorOf = (of: Model): Evaluator =>
  (of as unknown as Inside).handlers.find((handler) => handler.evaluator)?.evaluator as Evaluator;

function open(cells: Record<string, string>, more: object = {}): void {
  const data = { sheets: [{ id: sheetId, colNumber: 9, rowNumber: 40, cells }], ...more };
  model = quietly(() => new Model(data));
  const evaluator = evaluatorOf(model);
  const compute = evaluator.computeFormulaCell.bind(evaluator);
  evaluator.computeFormulaCell = (...cell) => {
    const { col, row } = cell[0] as { col: number; row: number };
    computed.push(`${'ABCDEFGHI'[col]}${row + 1}`);
    return compute(...cell);
  };
}

function type(row: number, col: number, content: string): void {
  computed = [];
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
}

const cell = (row: number, col: number) => model.getters.getEvaluatedCell({ sheetId, row, col });

beforeEach(() => {
  computed = [];
});

describe('without its patch the library', () => {
  it('error-values: has errors of its own', () => {
    expect([CellErrorType.GenericError, CellErrorType.InvalidReference]).toEqual([
      '#ERROR',
      '#REF',
    ]);
    expect(registries.errorTypes.has('#VALUE!')).toBe(false);
  });

  it('days-between-dates: shows the days between two dates as a date', () => {
    open({ A1: '=DATE(2026,3,9)-DATE(2026,3,2)' });
    expect(cell(0, 0).value).toBe(7);
    expect(cell(0, 0).formattedValue).toMatch(/1900/);
  });

  it('unchanged-cells: recomputes what depends on an unchanged cell', () => {
    open({ A1: '6', B1: '=MIN(A1,5)', C1: '=B1*2' });
    type(0, 0, '7');
    expect(computed.sort()).toEqual(['B1', 'C1']);
  });

  it('named-range-index: reads the names one by one', () => {
    const names = Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`Name_${i}`, 'A1']));
    open({ A1: '1' }, { namedRanges: names });
    let read = 0;
    for (const named of model.getters.getNamedRanges()) {
      const { name } = named;
      Object.defineProperty(named, 'name', { get: () => (read++, name) });
    }
    model.getters.getNamedRange('Name_49');
    expect(read).toBeGreaterThanOrEqual(50);
  });

  it('formulas-on-demand: compiles every formula while it reads a workbook', () => {
    open({ A1: '=1+2' });
    const read = model.getters.getCell({ sheetId, row: 0, col: 0 });
    if (!read?.isFormula) throw new Error('A1 holds a formula');
    expect(Object.getOwnPropertyDescriptor(read.compiledFormula, 'execute')?.value).toBeTypeOf(
      'function',
    );
  });

  it('lazy-conditions: computes both branches, and gives what the patch has to give', () => {
    const formulas = conditions.map(([formula], i) => [`H${i + 1}`, formula] as const);
    open({ ...conditionCells, ...Object.fromEntries(formulas), G1: '=IF(A1>0,1,G2)', G2: '=A1' });
    const given = conditions.map((_, i) => cell(i, 7).value);
    // A wrong argument has a name of the library's own.
    expect(given).toEqual(conditions.map(([, value]) => (value === '#VALUE!' ? '#ERROR' : value)));
    const { compiledFormula } = model.getters.getCell({ sheetId, row: 0, col: 6 }) as never;
    expect(String((compiledFormula as { execute: unknown }).execute)).toMatch(
      /const _\d+ = range\(deps\[1\]\);[^]*return ctx\['IF'\]\(_\d+,_\d+,_\d+\);/,
    );
  });

  it('row-heights: measures each text on one line', () => {
    const plugin = registries.coreViewsPluginRegistry.get('row_size') as unknown as {
      prototype: { getCellHeight(position: object): number };
    };
    expect(plugin.prototype.getCellHeight.toString()).toMatch(/getDefaultCellHeight/);
  });

  it('sorted-once: searches its range anew for each cell', () => {
    let looks = 0;
    const counted = {
      get value() {
        looks += 1;
        return 7;
      },
    };
    const { compute } = registries.functionRegistry.get('SMALL');
    const ask = (): unknown => compute.call({} as never, [[counted]], { value: 1 });
    ask();
    const first = looks;
    ask();
    expect(looks).toBeGreaterThan(first);
  });

  it('dependencies: learns of a name only while it computes', () => {
    open({ A1: '5', B1: '=Price*2' }, { namedRanges: { Price: 'A1' } });
    const anew = quietly(() => new Model({ ...model.exportData(), revisionId: undefined }));
    const evaluator = evaluatorOf(anew) as Evaluator & {
      getDirectDependencies(position: object): readonly unknown[];
    };
    expect(evaluator.getDirectDependencies({ sheetId, row: 0, col: 1 })).toEqual([]);
  });

  it('dependencies: keeps what a formula depended on before it was typed over', () => {
    open({ A1: '1', B1: '2', C1: '=A1' });
    for (const content of ['=A1+B1', '=SUM(A1:A3)', '=B1']) type(0, 2, content);
    type(0, 0, '7');
    expect(computed).toContain('C1');
  });

  it('dependencies: computes neighbours that only share another cell', () => {
    open({ A1: '1', A2: '2', A3: '3', B1: '10', C1: '=A1*B$1', C2: '=A2*B$1', C3: '=A3*B$1' });
    type(0, 1, '20');
    type(0, 0, '5');
    expect(computed.length).toBeGreaterThan(1);
  });

  it('unsettled-spills: leaves no error where blocks move each other', () => {
    open({ A1: '=SEQUENCE(1,3)*(1+B3)', A3: '=SEQUENCE(1,3)*2', E1: '=B1+1' });
    const { warn } = console;
    console.warn = () => undefined;
    try {
      type(2, 0, '=SEQUENCE(1,3)*(1+B1)');
    } finally {
      console.warn = warn;
    }
    expect([cell(0, 0), cell(2, 0)].map(({ type: kind }) => kind)).not.toContain('error');
  });

  it('errors-in-ranges: leaves errors out', () => {
    open({ A1: '1', A2: '=NA()', B1: '=SUMPRODUCT(A1:A2)', B2: '=SUMIF(A1:A2,"<>5")' });
    expect([cell(0, 1).value, cell(1, 1).value]).toEqual([1, 1]);
  });

  it('deep-chains: runs out of its stack, and shows a number that is not right', () => {
    const rows = 5000;
    const chain: Record<string, string> = { [`A${rows}`]: '1' };
    for (let at = 1; at < rows; at++) chain[`A${at}`] = `=IF(ISNUMBER(A${at + 1}),A${at + 1}+1,0)`;
    open({}, { sheets: [{ id: sheetId, colNumber: 2, rowNumber: rows, cells: chain }] });
    expect(cell(0, 0).value).not.toBe(rows);
  });

  it('undo-evaluation: computes the whole workbook for an undo', () => {
    open({ A1: '1', B1: '=A1', D5: '=1+1' });
    type(0, 0, '2');
    expect(computed).toEqual(['B1']);
    computed = [];
    quietly(() => model.dispatch('REQUEST_UNDO'));
    expect(computed).toContain('D5');
  });

  it('bounded-history: keeps every step', () => {
    open({ A1: '0' });
    for (let i = 1; i <= 400; i++) type(0, 0, String(i));
    const { branches } = (model as unknown as Inside).session.revisions.tree;
    expect(branches.reduce((sum, { operations }) => sum + operations.length, 0)).toBeGreaterThan(
      400,
    );
  });

  it('open-with-stored-values: computes every formula of a workbook that it opens', () => {
    const counted: number[] = [];
    const { content } = registries.functionRegistry;
    const { compute } = content['SEQUENCE'] as { compute: (...args: never[]) => unknown };
    const sequence = registries.functionRegistry.get('SEQUENCE');
    registries.functionRegistry.replace('SEQUENCE', {
      ...sequence,
      compute(...args) {
        counted.push(1);
        return compute.apply(this, args as never[]) as ReturnType<typeof sequence.compute>;
      },
    });
    try {
      open({ A1: '=SEQUENCE(2)' });
      expect(counted.length).toBeGreaterThan(0);
    } finally {
      registries.functionRegistry.replace('SEQUENCE', sequence);
    }
  });

  it('values-on-demand: holds of a typed number how it is written and where it stands', () => {
    open({ A1: '12.5' });
    const { evaluatedCells } = evaluatorOf(model) as unknown as {
      evaluatedCells: { map: Record<string, Record<number, Record<number, object>>> };
    };
    expect(evaluatedCells.map[sheetId]?.[0]?.[0]).toMatchObject({
      formattedValue: '12.5',
      position: { sheetId, row: 0, col: 0 },
      origin: { sheetId, row: 0, col: 0 },
    });
  });

  it('plain-numbers: keeps the text of every number that it reads', () => {
    const { set } = Map.prototype;
    const kept: unknown[] = [];
    Map.prototype.set = function (key, value) {
      kept.push(key);
      return set.call(this, key, value);
    };
    try {
      open({ A1: '987.654321' });
    } finally {
      Map.prototype.set = set;
    }
    expect(kept).toContain('987.654321');
  });

  it('quotes-in-texts: cannot read a doubled quote, nor a backslash at the end of a text', () => {
    open({ A1: '="a""b"', A2: '="C:\\"&"x"' });
    expect([cell(0, 0), cell(1, 0)].map(({ type: kind }) => kind)).toEqual(['error', 'error']);
  });

  it('ranges-beyond-sheets: counts the lines of a range to the end of the sheet', () => {
    open({ A1: '=ROWS(B1:B500)', A2: '=IFERROR(Z99,"none")' });
    expect(cell(0, 0).value).toBe(40);
    expect(cell(1, 0).type).toBe('error');
  });

  it('exported-data: cannot export a range of one cell before one of several', () => {
    open({ A1: '5', B1: '=SUM(A1:A1)', B2: '=SUM(A1:A2)' });
    expect(() => quietly(() => model.exportData())).toThrow(/colFixed/);
  });
});
