import type { DependencyGraph } from './dependency-graph';

/** Graphs whose formulas have their rank. */
const ordered = new WeakSet<DependencyGraph>();

/** Ranks the formulas of a graph, unless that was done since a formula was last typed. */
export function putInOrderOnce(graph: DependencyGraph): void {
  if (ordered.has(graph)) return;
  graph.putInOrder();
  ordered.add(graph);
}

/** A formula was typed: the ranks have to be found again before they are used. */
export const forgetOrder = (graph: DependencyGraph): void => {
  ordered.delete(graph);
};
