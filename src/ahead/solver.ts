/**
 * Linear programs with whole numbers, solved by HiGHS (npm `highs`, MIT) in WebAssembly: exact, with a bound
 * on what any other plan could reach. The package is loaded when a plan is asked for, never before.
 *
 *     const model = new LinearModel();
 *     const tanks = model.variable({ max: 5, whole: true, cost: 3 });
 *     model.row([[tanks, 2]], { min: 7 });
 *     const solve = await loadSolver();
 *     const { values, objective, bound, gap } = solve(model, { seconds: 20 });
 *
 * A solve holds its thread until it ends. Where a page must stay alive it runs in a worker, which is ended
 * to cancel; `stop` and `progress` are asked and told from inside the solve.
 *
 * A page that loads it must allow 'wasm-unsafe-eval' in the script-src of its content security policy, and
 * nothing more: the package has no eval of its own. In Excel's pane that is the policy in src/app/pane.html; the
 * workbench's, in src/app/workbench.html, allows it already. A bundler gives the address of the package's highs.wasm
 * as `wasm`; Node finds it beside the package.
 */
import type { Highs, Model } from 'highs';

/** A variable of a model: its place. */
export type Variable = number & { readonly variable: unique symbol };
export type Term = readonly [variable: Variable, factor: number];

export interface VariableOptions {
  /** 0 where it is left out. */
  readonly min?: number;
  readonly max?: number;
  readonly whole?: boolean;
  /** What one of it adds to the objective. */
  readonly cost?: number;
}

/** A program to be minimised. */
export class LinearModel {
  readonly #costs: number[] = [];
  readonly #lows: number[] = [];
  readonly #highs: number[] = [];
  readonly #whole: boolean[] = [];
  readonly #rowLows: number[] = [];
  readonly #rowHighs: number[] = [];
  readonly #starts: number[] = [0];
  readonly #indices: number[] = [];
  readonly #factors: number[] = [];
  #offset = 0;

  get variables(): number {
    return this.#costs.length;
  }

  get rows(): number {
    return this.#rowLows.length;
  }

  variable({ min = 0, max = Infinity, whole = false, cost = 0 }: VariableOptions = {}): Variable {
    this.#costs.push(cost);
    this.#lows.push(min);
    this.#highs.push(max);
    this.#whole.push(whole);
    return (this.#costs.length - 1) as Variable;
  }

  /** Adds to what one of a variable costs. */
  addCost(variable: Variable, cost: number): void {
    this.#costs[variable] = (this.#costs[variable] as number) + cost;
  }

  /** Adds to the objective whatever is chosen. */
  addConstant(cost: number): void {
    this.#offset += cost;
  }

  /** Narrows the range of a variable to `value` alone. */
  fix(variable: Variable, value: number): void {
    this.#lows[variable] = value;
    this.#highs[variable] = value;
  }

  /** min <= sum of terms <= max; its place among the rows. A variable may stand in several terms. */
  row(
    terms: readonly Term[],
    { min = -Infinity, max = Infinity }: { min?: number; max?: number },
  ): number {
    const factors = new Map<Variable, number>();
    for (const [variable, factor] of terms) {
      factors.set(variable, (factors.get(variable) ?? 0) + factor);
    }
    for (const [variable, factor] of factors) {
      if (factor === 0) continue;
      this.#indices.push(variable);
      this.#factors.push(factor);
    }
    this.#starts.push(this.#indices.length);
    this.#rowLows.push(min);
    this.#rowHighs.push(max);
    return this.rows - 1;
  }

  /** What a choice of all variables comes to. */
  objectiveOf(values: ArrayLike<number>): number {
    return this.#costs.reduce((sum, cost, at) => sum + cost * (values[at] as number), this.#offset);
  }

  /** How far a choice of all variables is outside the rows and ranges at the worst; 0 where it fits. */
  violationOf(values: ArrayLike<number>): number {
    const outside = (value: number, low: number, high: number): number =>
      Math.max(0, low - value, value - high);
    let worst = 0;
    for (let at = 0; at < this.variables; at++) {
      const value = values[at] as number;
      worst = Math.max(worst, outside(value, this.#lows[at] as number, this.#highs[at] as number));
      if (this.#whole[at]) worst = Math.max(worst, Math.abs(value - Math.round(value)));
    }
    for (let row = 0; row < this.rows; row++) {
      let sum = 0;
      for (let at = this.#starts[row] as number; at < (this.#starts[row + 1] as number); at++) {
        sum += (this.#factors[at] as number) * (values[this.#indices[at] as number] as number);
      }
      worst = Math.max(
        worst,
        outside(sum, this.#rowLows[row] as number, this.#rowHighs[row] as number),
      );
    }
    return worst;
  }

  /** The form that the package takes. */
  data() {
    return {
      numCols: this.variables,
      numRows: this.rows,
      offset: this.#offset,
      colCost: this.#costs,
      colLower: this.#lows,
      colUpper: this.#highs,
      rowLower: this.#rowLows,
      rowUpper: this.#rowHighs,
      matrix: {
        format: 'csr' as const,
        numCols: this.variables,
        numRows: this.rows,
        starts: this.#starts,
        indices: this.#indices,
        values: this.#factors,
      },
      integrality: this.#whole.map((whole) => (whole ? (1 as const) : (0 as const))),
    };
  }
}

export interface Progress {
  /** Since the solve began. */
  readonly seconds: number;
  /** Best plan found so far; undefined where there is none. */
  readonly objective: number | undefined;
  /** No plan can be below this; undefined where nothing is known. */
  readonly bound: number | undefined;
  /** (objective - bound) / |objective|; undefined without either. */
  readonly gap: number | undefined;
}

export interface SolveOptions {
  /** Most seconds; the best plan found by then is given with its gap. */
  readonly seconds?: number;
  /** Gap that is good enough, as a share of the objective; 0.0001 where it is left out. */
  readonly gap?: number;
  /** A choice to set out from, one value for each variable. */
  readonly start?: ArrayLike<number>;
  /** Told a few times a second at most. */
  readonly progress?: (now: Progress) => void;
  /** Asked now and then; true ends the solve with the best plan found so far. */
  readonly stop?: () => boolean;
}

/**
 * optimal: within the gap asked for. limit, stopped: ended early, with the best found, if any.
 * infeasible: no choice fits all rows. unbounded: the objective has no end.
 */
export type SolveStatus = 'optimal' | 'limit' | 'stopped' | 'infeasible' | 'unbounded';

export interface Solved {
  readonly status: SolveStatus;
  /** One for each variable, whole ones exactly so; undefined where no plan was found. */
  readonly values: Float64Array | undefined;
  readonly objective: number | undefined;
  readonly bound: number | undefined;
  readonly gap: number | undefined;
  /** What one more of each row's limit would add to the objective; only without whole numbers. */
  readonly duals: Float64Array | undefined;
  readonly seconds: number;
}

export type Solver = (model: LinearModel, options?: SolveOptions) => Solved;

const finite = (value: unknown): number | undefined =>
  typeof value === 'number' && Math.abs(value) < 1e29 ? value : undefined;

/** How far an objective can be from the best, as a share of it. */
export function gapOf(
  objective: number | undefined,
  bound: number | undefined,
): number | undefined {
  if (objective === undefined || bound === undefined) return undefined;
  const distance = Math.max(0, objective - bound);
  return distance === 0 ? 0 : objective === 0 ? Infinity : distance / Math.abs(objective);
}

function solveWith(highs: Highs, program: LinearModel, options: SolveOptions): Solved {
  const { seconds = Infinity, gap = 1e-4, start, progress, stop } = options;
  const { callbackType, modelStatus } = highs.constants;
  const began = Date.now();
  let told = began;
  const data = program.data();
  const whole = data.integrality.includes(1);
  return highs.withModel(data, (model: Model): Solved => {
    model.options.set({ output_flag: false, mip_rel_gap: gap });
    if (seconds < Infinity) model.options.set('time_limit', seconds);
    if (start !== undefined) model.setSolution({ colValue: Float64Array.from(start) });
    model.run({
      [callbackType.mipInterrupt](event): undefined {
        const now = Date.now();
        if (progress !== undefined && now - told >= 250) {
          told = now;
          const objective = finite(event.data.mip_primal_bound);
          const bound = finite(event.data.mip_dual_bound);
          progress({
            seconds: (now - began) / 1000,
            objective,
            bound,
            gap: gapOf(objective, bound),
          });
        }
        if (stop?.()) event.interrupt();
      },
      [callbackType.simplexInterrupt](event): undefined {
        if (stop?.()) event.interrupt();
      },
    });
    const took = (Date.now() - began) / 1000;
    const status = model.getModelStatus();
    const nothing = {
      values: undefined,
      objective: undefined,
      gap: undefined,
      duals: undefined,
      seconds: took,
    };
    if (status === modelStatus.infeasible)
      return { status: 'infeasible', bound: undefined, ...nothing };
    if (status === modelStatus.unbounded || status === modelStatus.unboundedOrInfeasible) {
      return { status: 'unbounded', bound: undefined, ...nothing };
    }
    const ended: SolveStatus =
      status === modelStatus.optimal || status === modelStatus.empty
        ? 'optimal'
        : status === modelStatus.interrupted
          ? 'stopped'
          : 'limit';
    const dual = whole ? finite(model.info.get('mip_dual_bound')) : undefined;
    if (model.info.get('primal_solution_status') !== highs.constants.solutionStatus.feasible) {
      return { status: ended, bound: dual, ...nothing };
    }
    const solution = model.getSolution();
    const values = Float64Array.from(solution.colValue, (value, at) =>
      data.integrality[at] === 1 ? Math.round(value) : value,
    );
    const objective = program.objectiveOf(values);
    const bound = whole ? dual : ended === 'optimal' ? objective : undefined;
    const duals = whole ? undefined : solution.rowDual;
    return {
      status: ended,
      values,
      objective,
      bound,
      gap: gapOf(objective, bound),
      duals,
      seconds: took,
    };
  });
}

/** Loads the package, once. `wasm`: the address of its highs.wasm, where a bundler has put it elsewhere. */
export async function loadSolver({ wasm }: { wasm?: string } = {}): Promise<Solver> {
  loading ??= import('highs').then(({ default: load }) =>
    load(wasm === undefined ? {} : { locateFile: () => wasm }),
  );
  const highs = await loading.catch((fault: unknown) => {
    // The next plan may find the connection back.
    loading = undefined;
    throw fault;
  });
  return (model, options = {}) => solveWith(highs, model, options);
}
let loading: Promise<Highs> | undefined;
