import type { Model } from '@odoo/o-spreadsheet';
import { graphInSteps, knownGraph } from './patches/dependencies';
import { type Area, DependencyGraph } from './patches/dependency-graph';
import { needParts } from './patches/patch';

interface Evaluator {
  formulaDependencies(): unknown;
  evaluateAllCells(): void;
  evaluateCells(positions: unknown): void;
}

function evaluatorOf(model: Model): Evaluator | undefined {
  const { handlers } = model as unknown as { readonly handlers: readonly object[] };
  const plugin = handlers.find(
    (one): one is { readonly evaluator: Evaluator } => 'evaluator' in one,
  );
  return plugin?.evaluator;
}

/** Whether more than so many formulas may have to be computed because these cells change. */
export function reachesMore(model: Model, areas: Iterable<Area>, formulas: number): boolean {
  const evaluator = evaluatorOf(model);
  const graph = evaluator && knownGraph(evaluator);
  if (graph) return !graph.isInOrder || graph.reachesMore(areas, formulas);
  return true;
}

/**
 * Writes down what depends on what, and puts the formulas in the order that the next edit goes by, a little at a
 * time; true once that is done. All sheets must be in.
 */
export function orderAhead(model: Model, enough: () => boolean): boolean {
  const evaluator = evaluatorOf(model);
  const making = evaluator && graphInSteps(evaluator);
  if (!making) return true;
  if (!making.advance(enough)) return false;
  const graph = evaluator.formulaDependencies();
  return graph instanceof DependencyGraph ? graph.orderAhead(enough) : true;
}

/** Has a workbook of which nobody looks at values compute none any more. */
export function computeNothing(model: Model): void {
  const evaluator = evaluatorOf(model);
  needParts('what-takes-long', evaluator, ['evaluateAllCells', 'evaluateCells']);
  const nothing = (): void => undefined;
  Object.assign(evaluator ?? {}, { evaluateAllCells: nothing, evaluateCells: nothing });
}
