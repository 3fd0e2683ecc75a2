import { registries, type CellPosition, type Model } from '@odoo/o-spreadsheet';

/**
 * How the engine follows defined names, put right in two ways. It learns that a cell depends on a name
 * only while it computes the cell, too late for blocks that feed blocks; and it writes the same dependency
 * down again on every computation, so that a workbook full of names eats the memory after a few hundred
 * changes. Here the names are known before anything is computed, and each dependency is written once.
 */
type Getters = Model['getters'];
type Range = NonNullable<ReturnType<Getters['getNamedRange']>>['range'];

interface Graph {
  addDependencies(position: CellPosition, ranges: readonly Range[]): void;
}

interface Evaluator {
  readonly getters: Getters;
  formulaDependencies: () => Graph;
  buildDependencyGraph(): void;
  updateDependencies(position: CellPosition): void;
}

interface EvaluationPlugin {
  readonly evaluator: Evaluator;
}

const placeOf = ({ sheetId, col, row }: CellPosition): string => `${sheetId}!${col},${row}`;
const keyOf = ({ sheetId, zone }: Range): string =>
  `${sheetId}!${zone.left},${zone.top},${zone.right},${zone.bottom}`;

/** Makes a graph forget nothing but write nothing twice. */
function withoutRepeats(graph: Graph): Graph {
  const known = new Map<string, Set<string>>();
  const add = graph.addDependencies.bind(graph);
  graph.addDependencies = (position, ranges) => {
    const place = placeOf(position);
    let keys = known.get(place);
    if (!keys) known.set(place, (keys = new Set()));
    const fresh = ranges.filter((range) => {
      const key = keyOf(range);
      if (keys.has(key)) return false;
      keys.add(key);
      return true;
    });
    if (fresh.length > 0) add(position, fresh);
  };
  return graph;
}

/** The ranges of the names that a cell's formula mentions. */
function namedIn(getters: Getters, position: CellPosition): Range[] {
  const cell = getters.getCell(position);
  if (!cell?.isFormula) return [];
  const { symbols } = cell.compiledFormula as unknown as { symbols: readonly string[] };
  return symbols.flatMap((symbol) => getters.getNamedRange(symbol)?.range ?? []);
}

function followNames(evaluator: Evaluator): void {
  const { getters } = evaluator;
  const build = evaluator.buildDependencyGraph.bind(evaluator);
  evaluator.buildDependencyGraph = () => {
    build();
    const original = evaluator.formulaDependencies;
    let graph: Graph | undefined;
    evaluator.formulaDependencies = () => {
      if (graph) return graph;
      graph = withoutRepeats(original());
      for (const sheetId of getters.getSheetIds()) {
        for (const { id } of getters.getCells(sheetId)) {
          const position = getters.getCellPosition(id);
          const ranges = namedIn(getters, position);
          if (ranges.length > 0) graph.addDependencies(position, ranges);
        }
      }
      return graph;
    };
  };
  const update = evaluator.updateDependencies.bind(evaluator);
  evaluator.updateDependencies = (position) => {
    update(position);
    evaluator.formulaDependencies().addDependencies(position, namedIn(getters, position));
  };
}

/** Once, before the first workbook is made. */
export function followNamesRightly(): void {
  const plugins = registries.coreViewsPluginRegistry;
  const Evaluation = plugins.get('evaluation') as unknown as new (
    config: unknown,
  ) => EvaluationPlugin;
  class WithNames extends Evaluation {
    constructor(config: unknown) {
      super(config);
      followNames(this.evaluator);
    }
  }
  plugins.replace('evaluation', WithNames as never);
}
