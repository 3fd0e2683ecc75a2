import { type CellPosition } from '@odoo/o-spreadsheet';
import { DependencyGraph, type Getters, type Graph, type Range } from './dependency-graph';
import { mendEvaluator, needParts, type Patch } from './patch';

interface Evaluator {
  readonly getters: Getters;
  formulaDependencies: () => Graph;
  buildDependencyGraph(): void;
  getDirectDependencies(position: CellPosition): readonly Range[];
}

const NAME = 'dependencies';

/** The ranges of the names that a cell's formula mentions. */
function namedIn(getters: Getters, position: CellPosition): Range[] {
  const cell = getters.getCell(position);
  if (!cell?.isFormula) return [];
  const { symbols } = cell.compiledFormula as unknown as { symbols: readonly string[] };
  return symbols.flatMap((symbol) => getters.getNamedRange(symbol)?.range ?? []);
}

/** So many formulas between two looks at whether it is enough. */
const AT_A_TIME = 32;

/** What the formulas of a workbook depend on, written down at once or a few formulas at a time. */
export class GraphInSteps {
  private readonly graph = new DependencyGraph();
  private steps: Iterator<void> | undefined;
  private isDone = false;

  constructor(private readonly evaluator: Evaluator) {}

  /** True once all formulas are written down. */
  advance(enough: () => boolean): boolean {
    this.steps ??= this.write();
    while (!this.isDone && !enough()) this.isDone = this.steps.next().done === true;
    return this.isDone;
  }

  finish(): DependencyGraph {
    this.advance(() => false);
    return this.graph;
  }

  private *write(): Generator<void> {
    const { getters } = this.evaluator;
    let written = 0;
    for (const sheetId of getters.getSheetIds()) {
      for (const { id, isFormula } of getters.getCells(sheetId)) {
        // A cell may have gone since the last step.
        const position = isFormula ? getters.tryGetCellPosition(id) : undefined;
        if (!position) continue;
        this.graph.addDependencies(position, this.evaluator.getDirectDependencies(position));
        if (++written % AT_A_TIME === 0) yield;
      }
    }
  }
}

const graphs = new WeakMap<object, DependencyGraph>();
const inSteps = new WeakMap<object, GraphInSteps>();

/** What an evaluator's formulas depend on, where it has had to know yet. */
export const knownGraph = (evaluator: object): DependencyGraph | undefined => graphs.get(evaluator);

/** The same in the making. */
export const graphInSteps = (evaluator: object): GraphInSteps | undefined => inSteps.get(evaluator);

function recordDependencies(evaluator: Evaluator): void {
  const { getters } = evaluator;
  const direct = evaluator.getDirectDependencies.bind(evaluator);
  evaluator.getDirectDependencies = (position) => [
    ...direct(position),
    ...namedIn(getters, position),
  ];
  const build = evaluator.buildDependencyGraph.bind(evaluator);
  evaluator.buildDependencyGraph = () => {
    build();
    graphs.delete(evaluator);
    const making = new GraphInSteps(evaluator);
    inSteps.set(evaluator, making);
    let graph: DependencyGraph | undefined;
    evaluator.formulaDependencies = () => {
      if (!graph) graphs.set(evaluator, (graph = making.finish()));
      return graph;
    };
  };
}

/** Keeps the library's record of what depends on what complete, and without what no longer holds. */
export const dependencies: Patch = {
  name: NAME,
  upstream:
    'A dependency through a name is known only once the cell is computed, too late for blocks that feed blocks. Each dependency is written down again by every computation, and never forgotten when a formula is typed over. Neighbours that depend on one cell are joined in place and taken for joined wherever else one of them depends. So wrong cells are computed, and more of them from edit to edit.',
  until: 'tests/engine/patches/upstream.test.ts finds all four put right',
  apply: () =>
    mendEvaluator<Evaluator>(NAME, (evaluator) => {
      needParts(NAME, evaluator, [
        ...['getters', 'formulaDependencies', 'buildDependencyGraph'],
        'getDirectDependencies',
      ]);
      recordDependencies(evaluator);
    }),
};
