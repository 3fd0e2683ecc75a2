import type { CellPosition } from '@odoo/o-spreadsheet';
import { knownGraph } from './dependencies';
import {
  blocksOf,
  type Dependent,
  DependencyGraph,
  type Getters,
  type Range,
  type Shared,
} from './dependency-graph';
import { mendEvaluator, needParts, type Patch } from './patch';
import {
  type Change,
  isReached,
  type Matrix,
  noteRange,
  watchSingleReads,
  whileReading,
} from './range-reads';

interface Evaluated {
  readonly value: unknown;
  readonly format?: string;
  readonly message?: unknown;
  readonly errorOriginPosition?: CellPosition;
}

type Zone = Range['zone'];

interface Evaluator {
  readonly getters: Getters;
  readonly evaluatedCells: {
    get(position: CellPosition): Evaluated | undefined;
    set(position: CellPosition, cell: Evaluated): void;
    delete(position: CellPosition): void;
  };
  readonly spreadingRelations: {
    getArrayResultZone(position: CellPosition): Zone | undefined;
    searchFormulaPositionsSpreadingOn(sheetId: string, zone: Zone): readonly CellPosition[];
  };
  readonly blockedArrayFormulas: { has(position: CellPosition): boolean };
  readonly nextRangesToUpdate: { clear(): void };
  readonly compilationParams: { ensureRange: (range: Range) => Matrix };
  formulaDependencies(): unknown;
  addDependencies(position: CellPosition, ranges: readonly Range[]): void;
  updateCompilationParameters(): void;
  evaluate(ranges: Iterable<object>): void;
  evaluateCells(positions: Iterable<CellPosition>): void;
  evaluateAllCells(): void;
  computeCell(position: CellPosition): Evaluated;
  computeFormulaCell(position: CellPosition, cell: object): Evaluated;
  invalidatePositionsDependingOnSpread(sheetId: string, zone: Zone): void;
}

const NAME = 'unchanged-cells';

const CIRCLE = '#CYCLE';

/** Of so many changed cells of a range it is looked whether a formula reads them; beyond, all that call it are computed. */
const CELLS_ASKED = 64;

/** So many cells may be computed twice, beside as many as were computed once, before it is left to the library. */
const REPEATS = 1000;

const zoneOf = ({ col, row }: CellPosition): Zone => ({
  left: col,
  right: col,
  top: row,
  bottom: row,
});

function cellsOf(sheetId: string, { left, right, top, bottom }: Zone): CellPosition[] {
  const cells: CellPosition[] = [];
  for (let col = left; col <= right; col++) {
    for (let row = top; row <= bottom; row++) cells.push({ sheetId, col, row });
  }
  return cells;
}

const sameZone = (a: Zone | undefined, b: Zone | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    a.left === b.left &&
    a.right === b.right &&
    a.top === b.top &&
    a.bottom === b.bottom);

const samePlace = (a: CellPosition | undefined, b: CellPosition | undefined): boolean =>
  a === b || (a?.sheetId === b?.sheetId && a?.col === b?.col && a?.row === b?.row);

/** Whether whoever reads a cell finds in it what was there before. */
const isSame = (a: Evaluated | undefined, b: Evaluated | undefined): boolean =>
  Object.is(a?.value, b?.value) &&
  a?.format === b?.format &&
  String(a?.message) === String(b?.message) &&
  samePlace(a?.errorOriginPosition, b?.errorOriginPosition);

/** The values of ranges while cells are computed one after another: a range is read anew once a cell in it changed. */
class RangesRead {
  private readonly values = new Map<Range, Matrix>();
  private readonly blocks = new Map<string, Set<Range>>();
  private isOutdated = false;

  constructor(private readonly evaluator: Evaluator) {
    this.readAnew();
  }

  changed(position: CellPosition): void {
    const { sheetId, col, row } = position;
    for (const block of blocksOf({ sheetId, zone: zoneOf(position) })) {
      for (const range of this.blocks.get(block) ?? []) {
        const { left, right, top, bottom } = range.zone;
        if (col < left || col > right || row < top || row > bottom) continue;
        // The library keeps what it read for as long as its parameters.
        if (this.values.delete(range)) this.isOutdated = true;
      }
    }
  }

  private readAnew(): void {
    this.evaluator.updateCompilationParameters();
    this.isOutdated = false;
    const { compilationParams } = this.evaluator;
    const ensureRange = compilationParams.ensureRange.bind(compilationParams);
    compilationParams.ensureRange = (range) => {
      const known = this.values.get(range);
      if (known !== undefined) {
        noteRange(range, known);
        return known;
      }
      const values = ensureRange(range);
      this.values.set(range, values);
      if (range.invalidSheetName !== undefined || range.invalidXc !== undefined) return values;
      for (const block of blocksOf(range)) {
        let among = this.blocks.get(block);
        if (!among) this.blocks.set(block, (among = new Set()));
        among.add(range);
      }
      return values;
    };
  }

  /** Before a cell is computed. */
  settle(): void {
    if (this.isOutdated) this.readAnew();
  }
}

/** Formulas that wait to be computed, those of the lowest rank first. */
class Queue {
  private readonly ranks: Dependent[][] = [];
  private readonly waiting = new Set<Dependent>();
  /** Of how many changed cells of a range was asked who reads them. */
  private readonly asked = new Map<Shared, number>();
  /** Ranges of which every caller waits. */
  private readonly called = new Set<Shared>();
  private lowest = 0;

  add(dependent: Dependent): void {
    if (this.waiting.has(dependent)) return;
    this.waiting.add(dependent);
    (this.ranks[dependent.rank] ??= []).push(dependent);
    this.lowest = Math.min(this.lowest, dependent.rank);
  }

  /** Adds the formulas that may read a cell. */
  addReaders(graph: DependencyGraph, change: Change): void {
    for (const shared of graph.rangesOver(change.position)) {
      if (this.called.has(shared)) continue;
      const asked = (this.asked.get(shared) ?? 0) + 1;
      this.asked.set(shared, asked);
      for (const dependent of shared.dependents) {
        if (asked > CELLS_ASKED || isReached(dependent, shared, change)) this.add(dependent);
      }
      if (asked > CELLS_ASKED) this.called.add(shared);
    }
  }

  next(): Dependent | undefined {
    for (; this.lowest < this.ranks.length; this.lowest++) {
      const dependent = this.ranks[this.lowest]?.pop();
      if (dependent === undefined) continue;
      this.waiting.delete(dependent);
      for (const shared of dependent.ranges) this.called.delete(shared);
      return dependent;
    }
    return undefined;
  }
}

/**
 * Computes a cell anew; what of it and its block is not as it was, or undefined where the library has to see to it.
 * The cells of its block are added to `blocks`.
 */
function changedBy(
  evaluator: Evaluator,
  position: CellPosition,
  blocks: CellPosition[],
): Change[] | undefined {
  const { evaluatedCells, spreadingRelations, blockedArrayFormulas } = evaluator;
  if (blockedArrayFormulas.has(position)) return undefined;
  const zone = spreadingRelations.getArrayResultZone(position);
  const cells = zone ? cellsOf(position.sheetId, zone) : [position];
  const before = cells.map((cell) => evaluatedCells.get(cell));
  if (before[0]?.value === CIRCLE) return undefined;
  if (zone) blocks.push(...cells);
  evaluatedCells.delete(position);
  const now = evaluator.computeCell(position);
  if (now.value !== null || now.format !== undefined) evaluatedCells.set(position, now);
  const isSettled =
    now.value !== CIRCLE &&
    !blockedArrayFormulas.has(position) &&
    sameZone(zone, spreadingRelations.getArrayResultZone(position));
  if (!isSettled) return undefined;
  return cells.flatMap((cell, i) => {
    const after = evaluatedCells.get(cell);
    return isSame(before[i], after)
      ? []
      : [{ position: cell, was: before[i]?.value, is: after?.value }];
  });
}

/** Computes what follows from changed values; false where it has to be left to the library. */
function follow(
  evaluator: Evaluator,
  positions: readonly CellPosition[],
  blocks: CellPosition[],
): boolean {
  const { getters, spreadingRelations } = evaluator;
  const graph = evaluator.formulaDependencies();
  if (!(graph instanceof DependencyGraph)) return false;
  if (positions.some((position) => getters.getCell(position)?.isFormula)) return false;
  const isInBlock = ({ sheetId, ...place }: CellPosition): boolean =>
    spreadingRelations.searchFormulaPositionsSpreadingOn(sheetId, zoneOf({ sheetId, ...place }))
      .length > 0;
  if (positions.some(isInBlock) || getters.getPivotIds().length > 0) return false;
  graph.putInOrder();
  evaluator.evaluate([]);
  const ranges = new RangesRead(evaluator);
  const queue = new Queue();
  const computed = new Set<Dependent>();
  let repeats = 0;
  const compute = (position: CellPosition): boolean => {
    ranges.settle();
    const changed = changedBy(evaluator, position, blocks);
    for (const change of changed ?? []) {
      ranges.changed(change.position);
      queue.addReaders(graph, change);
    }
    return changed !== undefined;
  };
  for (const position of positions) if (!compute(position)) return false;
  for (let next = queue.next(); next; next = queue.next()) {
    if (computed.has(next) && ++repeats > REPEATS + computed.size) return false;
    computed.add(next);
    if (!compute(next.position)) return false;
  }
  return true;
}

/** Has the order ready once all was computed, and not only when the first edit waits for it. */
function orderOnce(evaluator: Evaluator): void {
  const evaluateAllCells = evaluator.evaluateAllCells.bind(evaluator);
  evaluator.evaluateAllCells = () => {
    evaluateAllCells();
    knownGraph(evaluator)?.putInOrder();
  };
}

/** Keeps of each formula which cells of its ranges it read. */
function recordReads(evaluator: Evaluator): void {
  const computeFormulaCell = evaluator.computeFormulaCell.bind(evaluator);
  const addDependencies = evaluator.addDependencies.bind(evaluator);
  const updateCompilationParameters = evaluator.updateCompilationParameters.bind(evaluator);
  let current: Dependent | undefined;
  evaluator.computeFormulaCell = (position, cell) => {
    const graph = knownGraph(evaluator);
    if (graph === undefined) return computeFormulaCell(position, cell);
    const outer = current;
    current = graph.dependentAt(position);
    try {
      return whileReading(current, graph, () => computeFormulaCell(position, cell));
    } finally {
      current = outer;
    }
  };
  evaluator.addDependencies = (position, ranges) => {
    const graph = knownGraph(evaluator);
    const dependent = current && samePlace(current.position, position) ? current : undefined;
    // Most are known since the graph was made, and the formula asks for the range itself.
    const unknown = ranges.filter((range) => {
      const shared = dependent && graph?.known(range);
      return !shared || !dependent.ranges.has(shared);
    });
    if (unknown.length > 0) addDependencies(position, unknown);
  };
  evaluator.updateCompilationParameters = () => {
    updateCompilationParameters();
    const { compilationParams } = evaluator;
    const ensureRange = compilationParams.ensureRange.bind(compilationParams);
    // The library looks for what it read before by a text that it writes each time.
    const known = new Map<Range, Matrix>();
    compilationParams.ensureRange = (range) => {
      let values = known.get(range);
      if (values === undefined) known.set(range, (values = ensureRange(range)));
      noteRange(range, values);
      return values;
    };
  };
}

function stopWhereNothingChanged(evaluator: Evaluator): void {
  const evaluateCells = evaluator.evaluateCells.bind(evaluator);
  const { invalidatePositionsDependingOnSpread } = evaluator;
  evaluator.evaluateCells = (changed) => {
    const positions = [...changed];
    const blocks: CellPosition[] = [];
    let isDone = false;
    try {
      // What reads a block is computed when the block has come out otherwise.
      evaluator.invalidatePositionsDependingOnSpread = () => undefined;
      isDone = follow(evaluator, positions, blocks);
    } finally {
      Object.assign(evaluator, { invalidatePositionsDependingOnSpread });
    }
    evaluator.nextRangesToUpdate.clear();
    // Blocks that were computed here may have left cells that they filled before.
    if (!isDone) evaluateCells([...positions, ...blocks]);
  };
}

/** Computes after an edit what the changed cell reaches by cells that come out otherwise than before. */
export const unchangedCells: Patch = {
  name: NAME,
  upstream:
    'Everything that hangs on a changed cell is computed, however far away, whether or not what it reads has changed: ten years of the Fish log take more than ten seconds for each edit.',
  until: 'the library stops where a cell comes out as it was',
  apply() {
    watchSingleReads(NAME);
    mendEvaluator<Evaluator>(NAME, (evaluator) => {
      needParts(NAME, evaluator, [
        ...['getters', 'evaluatedCells', 'spreadingRelations', 'blockedArrayFormulas'],
        ...['nextRangesToUpdate', 'compilationParams', 'formulaDependencies', 'evaluate'],
        ...['updateCompilationParameters', 'evaluateCells', 'evaluateAllCells', 'computeCell'],
        ...['computeFormulaCell', 'addDependencies'],
        'invalidatePositionsDependingOnSpread',
      ]);
      needParts(NAME, evaluator.spreadingRelations, [
        ...['getArrayResultZone', 'searchFormulaPositionsSpreadingOn'],
      ]);
      needParts(NAME, evaluator.compilationParams, ['ensureRange']);
      recordReads(evaluator);
      orderOnce(evaluator);
      stopWhereNothingChanged(evaluator);
    });
  },
};
