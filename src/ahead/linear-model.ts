/** A column of a linear model, by its number. */
export type Variable = number & { readonly __variable: unique symbol };

export type Term = readonly [variable: Variable, factor: number];

interface Bounds {
  /** Left out: no bound on that side. */
  readonly lower?: number;
  readonly upper?: number;
}

/** A variable's bounds (from 0 where left out), its share in the objective, and whether it counts whole things. */
export interface VariableSpec extends Bounds {
  readonly cost?: number;
  readonly integer?: boolean;
}

/** A linear model with whole numbers, as it is built; `solve` takes it. */
export class LinearModel {
  readonly costs: number[] = [];
  readonly lower: number[] = [];
  readonly upper: number[] = [];
  readonly integer: boolean[] = [];
  readonly rowLower: number[] = [];
  readonly rowUpper: number[] = [];
  /** Rows packed one behind the other: row i holds the entries from starts[i] to starts[i + 1]. */
  readonly starts: number[] = [0];
  readonly columns: number[] = [];
  readonly factors: number[] = [];

  constructor(readonly sense: 'min' | 'max') {}

  variable({
    lower = 0,
    upper = Infinity,
    cost = 0,
    integer = false,
  }: VariableSpec = {}): Variable {
    if (Number.isNaN(cost) || Number.isNaN(lower) || Number.isNaN(upper) || lower > upper) {
      throw new Error(`a variable from ${lower} to ${upper} at ${cost} cannot be`);
    }
    this.costs.push(cost);
    this.lower.push(lower);
    this.upper.push(upper);
    this.integer.push(integer);
    return (this.costs.length - 1) as Variable;
  }

  /** Bounds the sum of the terms; a variable that stands in several terms counts with their sum. */
  row({ lower = -Infinity, upper = Infinity }: Bounds, terms: readonly Term[]): void {
    const sums = new Map<number, number>();
    for (const [variable, factor] of terms) {
      sums.set(variable, (sums.get(variable) ?? 0) + factor);
    }
    for (const [variable, factor] of sums) {
      if (factor === 0) continue;
      if (!Number.isFinite(factor)) throw new Error('a row has a factor that is no number');
      this.columns.push(variable);
      this.factors.push(factor);
    }
    this.starts.push(this.columns.length);
    this.rowLower.push(lower);
    this.rowUpper.push(upper);
  }
}
