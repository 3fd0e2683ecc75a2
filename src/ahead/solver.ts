import type { LinearModel, Variable } from './linear-model';

export interface Progress {
  /** Seconds since the solver began. */
  readonly seconds: number;
  /** Objective of the best plan so far; undefined where there is none yet. */
  readonly best: number | undefined;
  /** No plan can be better than this. */
  readonly bound: number | undefined;
}

export interface SolverOptions {
  /** The search ends where the plan is proven to be within this share of the best possible. */
  readonly gap?: number;
  /** Seconds after which the best plan so far is taken. */
  readonly seconds?: number;
  /** Told of the search as it goes on; `false` ends it with the best plan so far. */
  readonly onProgress?: (progress: Progress) => boolean | void;
}

export interface Solved {
  /**
   * `best`: proven within the gap; `stopped`: ended by time or by the caller, `bound` says how far from the
   * best possible it may be; `impossible`: no plan fits the rows.
   */
  readonly state: 'best' | 'stopped' | 'impossible';
  /** Undefined where no plan was found. */
  readonly objective: number | undefined;
  readonly bound: number | undefined;
  /** Value of a variable; whole numbers come whole. */
  readonly value: (variable: Variable) => number;
}

/** Largest number that the solver takes for a bound; beyond it there is none. */
const NO_BOUND = 1e29;
const bounded = (figure: number): number | undefined =>
  Math.abs(figure) < NO_BOUND ? figure : undefined;

type Highs = Awaited<ReturnType<(typeof import('highs'))['default']>>;
let loaded: Promise<Highs> | undefined;

/** The solver is large, so that it comes only when a plan is asked for; it is HiGHS, compiled to WebAssembly. */
async function solver(locateFile?: (file: string) => string): Promise<Highs> {
  loaded ??= import('highs').then(({ default: load }) => load(locateFile ? { locateFile } : {}));
  return loaded;
}

/**
 * Solves a linear model with whole numbers. The search blocks its thread: a page runs it in a worker, and
 * cancels by ending the worker. Throws where the solver itself fails.
 */
export async function solve(
  model: LinearModel,
  { gap = 0.01, seconds = 60, onProgress }: SolverOptions = {},
  locateFile?: (file: string) => string,
): Promise<Solved> {
  const highs = await solver(locateFile);
  const { callbackType, modelStatus, objectiveSense, variableType } = highs.constants;
  const infinite = (figure: number): number =>
    Number.isFinite(figure) ? figure : Math.sign(figure) * highs.infinity;
  const native = highs.createModel({
    numCols: model.costs.length,
    numRows: model.rowLower.length,
    sense: model.sense === 'max' ? objectiveSense.maximize : objectiveSense.minimize,
    colCost: model.costs,
    colLower: model.lower.map(infinite),
    colUpper: model.upper.map(infinite),
    rowLower: model.rowLower.map(infinite),
    rowUpper: model.rowUpper.map(infinite),
    integrality: model.integer.map((whole) =>
      whole ? variableType.integer : variableType.continuous,
    ),
    matrix: {
      format: 'csr',
      numCols: model.costs.length,
      numRows: model.rowLower.length,
      starts: model.starts,
      indices: model.columns,
      values: model.factors,
    },
  });
  try {
    native.options.set({
      output_flag: false,
      mip_rel_gap: gap,
      time_limit: seconds,
      random_seed: 1,
    });
    let stopped = false;
    native.run({
      [callbackType.mipInterrupt](event) {
        const { running_time, mip_primal_bound, mip_dual_bound } = event.data;
        const goOn = onProgress?.({
          seconds: running_time ?? 0,
          best: bounded(mip_primal_bound ?? Infinity),
          bound: bounded(mip_dual_bound ?? Infinity),
        });
        if (goOn === false) {
          stopped = true;
          event.interrupt();
        }
        return undefined;
      },
    });
    const status = native.getModelStatus();
    if (status === modelStatus.infeasible) {
      return {
        state: 'impossible',
        objective: undefined,
        bound: undefined,
        value: () => {
          throw new Error('there is no plan to read from');
        },
      };
    }
    const whole = model.integer.includes(true);
    const found = Number(native.info.get('primal_solution_status')) === 2;
    const objective = found ? native.getObjectiveValue() : undefined;
    const bound = whole ? bounded(Number(native.info.get('mip_dual_bound'))) : objective;
    const values = found ? native.getSolution().colValue : undefined;
    return {
      state: status === modelStatus.optimal && !stopped ? 'best' : 'stopped',
      objective,
      bound,
      value: (variable) => {
        const value = values?.[variable];
        if (value === undefined) throw new Error('there is no plan to read from');
        return model.integer[variable] ? Math.round(value) : value;
      },
    };
  } finally {
    native.dispose();
  }
}
