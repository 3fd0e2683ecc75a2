import type { CellPosition } from '@odoo/o-spreadsheet';
import { Dependencies, type Getters, type Graph, type Range } from './dependencies';

export interface Evaluator {
  readonly getters: Getters;
  formulaDependencies: () => Graph;
  buildDependencyGraph(): void;
  getDirectDependencies(position: CellPosition): readonly Range[];
  updateDependencies(position: CellPosition): void;
}

/** The ranges of the names that a cell's formula mentions. */
function namedIn(getters: Getters, position: CellPosition): Range[] {
  const cell = getters.getCell(position);
  if (!cell?.isFormula) return [];
  const { symbols } = cell.compiledFormula as unknown as { symbols: readonly string[] };
  return symbols.flatMap((symbol) => getters.getNamedRange(symbol)?.range ?? []);
}

/**
 * Has the engine know from the start that a cell depends on the names in its formula. By itself it learns
 * that only while it computes the cell, too late for blocks that feed blocks.
 */
export function followDependencies(evaluator: Evaluator): void {
  const { getters } = evaluator;
  const direct = evaluator.getDirectDependencies.bind(evaluator);
  evaluator.getDirectDependencies = (position) => [
    ...direct(position),
    ...namedIn(getters, position),
  ];
  const build = evaluator.buildDependencyGraph.bind(evaluator);
  evaluator.buildDependencyGraph = () => {
    build();
    let graph: Dependencies | undefined;
    evaluator.formulaDependencies = () => {
      if (graph) return graph;
      graph = new Dependencies();
      for (const sheetId of getters.getSheetIds()) {
        for (const { id } of getters.getCells(sheetId)) {
          const position = getters.getCellPosition(id);
          graph.addDependencies(position, evaluator.getDirectDependencies(position));
        }
      }
      return graph;
    };
  };
}
