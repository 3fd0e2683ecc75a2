import { registries, type CellPosition } from '@odoo/o-spreadsheet';
import { cellAddress, readArea } from '../../plan/addresses';
import { needParts, replacePlugin, type Patch } from './patch';
import type { StoredValues } from './open-with-stored-values';

/** Formulas that the engine cannot compute, by the id of their sheet and their address: what the file says they give. */
export type KeptFormulas = Readonly<Record<string, Readonly<Record<string, KeptFormula>>>>;

interface Zone {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface ReadArea {
  readonly sheetId: string;
  readonly zone: Zone;
}

export interface KeptFormula {
  readonly formula: string;
  /** A block column by column. */
  readonly result: StoredValues[string][string];
  /** Where it reads, for a formula whose references the engine does not see; 'all' where that is not known. */
  readonly reads?: readonly ReadArea[] | 'all';
  /** A cell that it reads has changed since: the value of the file no longer holds. */
  outdated?: true;
}

interface FormulaCell {
  readonly compiledFormula: { toFormulaString(getters: object): string };
}

interface Evaluator {
  readonly getters: object;
  evaluateCells(positions: Iterable<CellPosition>): void;
  getCellsDependingOn(areas: Iterable<ReadArea>): Iterable<ReadArea>;
  computeFormulaCell(position: CellPosition, cell: FormulaCell): object;
}

const NAME = 'kept-formulas';

/** Said by a formula that cannot be computed once what it reads has changed. */
export const OUT_OF_DATE =
  'This formula cannot be computed here, and a cell that it reads has changed since the file was opened; the program that made the file computes it when it opens the saved one';

const overlap = (a: Zone, b: Zone): boolean =>
  a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom;

/** Formulas whose references the engine does not see, and that read what changes. */
function outdatedBy(
  evaluator: Evaluator,
  kept: KeptFormulas,
  positions: readonly CellPosition[],
): CellPosition[] {
  const unseen = Object.entries(kept).flatMap(([sheetId, formulas]) =>
    Object.entries(formulas).flatMap(([address, formula]) =>
      formula.reads === undefined || formula.outdated
        ? []
        : [{ sheetId, address, reads: formula.reads }],
    ),
  );
  if (unseen.length === 0) return [];
  const cells = positions.map(({ sheetId, row, col }): ReadArea => ({
    sheetId,
    zone: { top: row, bottom: row, left: col, right: col },
  }));
  const changed = [...cells, ...evaluator.getCellsDependingOn(cells)];
  return unseen.flatMap(({ sheetId, address, reads }) => {
    const isRead =
      reads === 'all' ||
      reads.some((area) =>
        changed.some((read) => read.sheetId === area.sheetId && overlap(read.zone, area.zone)),
      );
    const place = readArea(address);
    return isRead && place ? [{ sheetId, row: place.row, col: place.column }] : [];
  });
}

function keep(evaluator: Evaluator, kept: KeptFormulas): void {
  const { computeFormulaCell, evaluateCells } = evaluator;
  let afterChange = false;
  evaluator.evaluateCells = (changed) => {
    const positions = [...changed];
    positions.push(...outdatedBy(evaluator, kept, positions));
    afterChange = true;
    try {
      evaluateCells.call(evaluator, positions);
    } finally {
      afterChange = false;
    }
  };
  evaluator.computeFormulaCell = (position, cell) => {
    const formula = kept[position.sheetId]?.[cellAddress(position.row, position.col)];
    const isKept =
      formula && cell.compiledFormula.toFormulaString(evaluator.getters) === formula.formula;
    if (!isKept) return computeFormulaCell.call(evaluator, position, cell);
    if (afterChange) formula.outdated = true;
    const result = formula.outdated ? { value: '#VALUE!', message: OUT_OF_DATE } : formula.result;
    const compiledFormula = { execute: () => result };
    return computeFormulaCell.call(evaluator, position, { ...cell, compiledFormula } as never);
  };
}

/** Shows what a file says where the engine cannot compute a formula of it. */
export const keptFormulas: Patch = {
  name: NAME,
  upstream: 'A formula that the library cannot compute shows an error, whatever its file says.',
  until: 'the library keeps what a file says of formulas that it cannot compute',
  apply: () =>
    replacePlugin(
      NAME,
      registries.coreViewsPluginRegistry,
      'evaluation',
      [],
      (Original: new (config: unknown) => { readonly evaluator: Evaluator }) =>
        class extends Original {
          constructor(config: { readonly custom: { readonly keptFormulas?: KeptFormulas } }) {
            super(config);
            needParts(NAME, this, ['evaluator']);
            const { evaluator } = this;
            needParts(NAME, evaluator, ['evaluateCells', 'computeFormulaCell', 'getters']);
            needParts(NAME, evaluator, ['getCellsDependingOn']);
            const kept = config.custom.keptFormulas;
            if (kept) keep(evaluator, kept);
          }
        },
    ),
};
