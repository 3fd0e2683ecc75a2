import { CellErrorType, type CellPosition } from '@odoo/o-spreadsheet';
import { type Area, type Areas, DependencyGraph } from './dependency-graph';
import { mendEvaluator, needParts, type Patch } from './patch';

interface EvaluatedCells {
  set(position: CellPosition, cell: object): void;
}

interface Evaluator {
  readonly evaluatedCells: EvaluatedCells;
  readonly nextRangesToUpdate: Areas;
  readonly cellsBeingComputed: ReadonlySet<unknown>;
  formulaDependencies(): unknown;
  updateCompilationParameters(): void;
  clearEvaluatedRanges(ranges: readonly Area[]): void;
  evaluate(ranges: Iterable<Area>): void;
  computeAndSave(position: CellPosition): object;
  computeFormulaCell(position: CellPosition, cell: object): object;
}

const NAME = 'deep-chains';

/**
 * So many formulas may wait for each other. The stack of a page holds about 800 short ones, and some 60 with 60
 * conditions within each other; the demo plan comes to 23.
 */
const MAX_WAITING = 40;

/** What the library takes for a cell that it leaves alone. */
const TOO_DEEP = new Error('This formula waits for too many others.');

/** And for one of a circle. */
const CIRCLE = Object.assign(new Error('Circular reference'), {
  value: CellErrorType.CircularDependency,
});

/** Formulas that find out what they read as they compute are put in order so many times. */
const MAX_ROUNDS = 64;

/** Where formulas may not wait for more than so many others, and what is computed beyond that is not kept. */
class Watch {
  private isWatching = false;
  private isTooDeep = false;
  private computed = 0;
  private letKeep = (): void => undefined;
  /** Formulas that wait for too many others are a circle, as nothing could be computed before them. */
  isCircle = false;
  /** How many formulas were computed before it went too deep. */
  done = 0;

  constructor(private readonly evaluator: Evaluator) {
    const computeFormulaCell = evaluator.computeFormulaCell.bind(evaluator);
    evaluator.computeFormulaCell = (position, cell) => {
      if (this.isWatching && evaluator.cellsBeingComputed.size > MAX_WAITING) this.giveUp();
      if (this.isTooDeep) throw TOO_DEEP;
      const result = computeFormulaCell(position, cell);
      this.computed += 1;
      return result;
    };
  }

  /** From here on nothing counts: it may hang on a cell that was left alone, and a condition may hide that. */
  private giveUp(): void {
    if (this.isTooDeep) return;
    if (this.isCircle) throw CIRCLE;
    this.isTooDeep = true;
    this.done = this.computed;
    const { evaluatedCells } = this.evaluator;
    const own = Object.getOwnPropertyDescriptor(evaluatedCells, 'set');
    evaluatedCells.set = () => undefined;
    this.letKeep = () => {
      if (own) Object.defineProperty(evaluatedCells, 'set', own);
      else delete (evaluatedCells as Partial<EvaluatedCells>).set;
    };
  }

  /** Whether no formula had to wait for too many others; else what was computed until then stands, and not the rest. */
  holds(work: () => void): boolean {
    this.isWatching = true;
    this.computed = 0;
    try {
      work();
      return !this.isTooDeep;
    } finally {
      this.letKeep();
      this.letKeep = () => undefined;
      this.isWatching = false;
      this.isTooDeep = false;
    }
  }
}

const watches = new WeakMap<object, Watch>();

/**
 * Does work that computes cells. Where a formula would wait for too many others, what is computed by then stands,
 * `reorder` hears of all formulas, those that others read before them, and the work is done again.
 */
export function computeShallow(
  evaluator: Pick<Evaluator, 'formulaDependencies' | 'updateCompilationParameters'>,
  work: () => void,
  reorder: (formulas: readonly CellPosition[]) => void,
): void {
  const watch = watches.get(evaluator);
  if (!watch) {
    work();
    return;
  }
  let learned = -1;
  watch.isCircle = false;
  for (let round = 1; !watch.holds(work); round++) {
    const graph = evaluator.formulaDependencies();
    if (!(graph instanceof DependencyGraph)) return;
    watch.isCircle = round >= MAX_ROUNDS || (watch.done === 0 && graph.learned === learned);
    ({ learned } = graph);
    // What formulas found out as they were computed counts as well.
    graph.putInOrder();
    // The library keeps what it read of ranges, cells among them that were left alone.
    evaluator.updateCompilationParameters();
    reorder(graph.inOrder());
  }
}

function computeInOrder(evaluator: Evaluator): void {
  const evaluate = evaluator.evaluate.bind(evaluator);
  const clear = evaluator.clearEvaluatedRanges.bind(evaluator);
  watches.set(evaluator, new Watch(evaluator));
  evaluator.evaluate = (ranges) => {
    const asked = [...ranges];
    let formulas: readonly CellPosition[] | undefined;
    let rounds = 0;
    const clearAndCompute = (areas: readonly Area[]): void => {
      const isFirst = rounds++ === 0;
      if (!isFirst) asked.push(...areas);
      // What was computed before it went too deep stands.
      if (!isFirst || !formulas) clear(areas);
      if (!formulas) return;
      const waiting = evaluator.nextRangesToUpdate;
      const AreasOf = waiting.constructor as new (of: readonly Area[]) => Areas;
      const among = new AreasOf(areas);
      for (const position of formulas) {
        if (among.hasPosition(position) && !waiting.hasPosition(position))
          evaluator.computeAndSave(position);
      }
    };
    try {
      evaluator.clearEvaluatedRanges = clearAndCompute;
      computeShallow(
        evaluator,
        () => evaluate(asked),
        (inOrder) => {
          formulas = inOrder;
          rounds = 0;
        },
      );
    } finally {
      evaluator.clearEvaluatedRanges = clear;
    }
  };
}

/** Computes formulas that would wait for too many others after those that they read. */
export const deepChains: Patch = {
  name: NAME,
  upstream:
    'A formula has every formula computed that it reads, each within the last: where some hundreds wait for each other, the stack is full. The cell where that happens holds an error, and where conditions ask for errors the others hold a wrong number.',
  until: 'the library computes a column in which each of 5,000 cells reads the one below it',
  apply: () =>
    mendEvaluator<Evaluator>(NAME, (evaluator) => {
      needParts(NAME, evaluator, [
        ...['evaluatedCells', 'nextRangesToUpdate', 'cellsBeingComputed', 'formulaDependencies'],
        ...['updateCompilationParameters', 'clearEvaluatedRanges', 'evaluate', 'computeAndSave'],
        'computeFormulaCell',
      ]);
      needParts(NAME, evaluator.evaluatedCells, ['set']);
      needParts(NAME, evaluator.nextRangesToUpdate, ['hasPosition']);
      computeInOrder(evaluator);
    }),
};
