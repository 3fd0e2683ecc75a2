import type { CellPosition } from '@odoo/o-spreadsheet';
import type { Command } from './plugin-in-turn';

/** What a cell shows. */
export interface Evaluated {
  readonly value: unknown;
  readonly format?: string;
}

export interface PositionMap {
  readonly map: Record<string, unknown>;
  get(position: CellPosition): Evaluated | undefined;
  set(position: CellPosition, cell: Evaluated): void;
  delete(position: CellPosition): void;
}

/** The library's evaluator, as far as sheets that come in by turns lean on it. */
export interface Evaluator {
  evaluatedCells: PositionMap;
  readonly nextRangesToUpdate: Iterable<object> & { clear(): void };
  readonly spreadingRelations: {
    searchFormulaPositionsSpreadingOn(sheetId: string, zone: object): readonly CellPosition[];
  };
  evaluate(ranges: Iterable<object>): void;
  evaluateAllCells(): void;
  evaluateCells(positions: Iterable<CellPosition>): void;
  updateDependencies(position: CellPosition): void;
  formulaDependencies(): unknown;
  updateCompilationParameters(): void;
  computeCell(position: CellPosition): Evaluated;
  computeFormulaCell(position: CellPosition, cell: object): Evaluated;
  invalidatePositionsDependingOnSpread(sheetId: string, zone: object): void;
}

export interface EvaluationPlugin {
  readonly evaluator: Evaluator;
  readonly positionsToUpdate: CellPosition[];
  beforeHandle(command: Command): void;
}

export const EVALUATOR_PARTS = [
  ...['evaluatedCells', 'spreadingRelations', 'nextRangesToUpdate'],
  ...['evaluate', 'evaluateAllCells', 'evaluateCells'],
  ...['updateDependencies', 'formulaDependencies', 'computeCell', 'computeFormulaCell'],
  ...['updateCompilationParameters', 'invalidatePositionsDependingOnSpread'],
] as const;
