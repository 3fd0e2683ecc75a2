import { CompiledFormula, type Model } from '@odoo/o-spreadsheet';
import { needParts, type Patch } from './patch';
import { noteLazy } from './range-reads';

const NAME = 'lazy-conditions';

interface Result {
  readonly value?: unknown;
}
type Argument = Result | readonly (readonly Result[])[] | undefined;
type Functions = Readonly<Record<string, (...args: Argument[]) => Argument>>;
type Execute = CompiledFormula['execute'];

/** Read what no argument names, so that nobody knows which cells they looked at. */
const READS_BY_ITSELF = /ctx\['(?:INDIRECT|OFFSET|SUBTOTAL|PIVOT[^']*|ODOO[^']*|CELL)'\]/;

/** The library's own form of a compiled formula: one step a line, each used once. */
const STEP = /^const (_\d+) = (.*);$/;
const RESULT = /^return (.*);$/;
const CONDITION = /^ctx\['IF'\]\((_\d+),(_\d+)(?:,(_\d+))?\)$/;

/** The steps of a compiled formula, and what it gives; undefined where they are not written as they were. */
function stepsOf(code: string): { steps: Map<string, string>; result: string } | undefined {
  const lines = code
    .slice(code.indexOf('{') + 1, code.lastIndexOf('}'))
    .trim()
    .split('\n');
  const result = RESULT.exec(lines.pop() ?? '')?.[1];
  if (result === undefined) return undefined;
  const steps = new Map<string, string>();
  for (const line of lines) {
    const [, name, value] = STEP.exec(line) ?? [];
    if (name === undefined || value === undefined || steps.has(name)) return undefined;
    steps.set(name, value);
  }
  return { steps, result };
}

/** The same as one expression in which each branch waits until it is asked for. */
function lazily({ steps, result }: NonNullable<ReturnType<typeof stepsOf>>): string {
  const written = (expression: string): string => {
    const [, condition, then, otherwise] = CONDITION.exec(expression) ?? [];
    if (condition === undefined || then === undefined)
      return expression.replaceAll(/\b_\d+\b/g, (name) => written(steps.get(name) ?? name));
    const branch = (name: string | undefined): string =>
      name === undefined ? 'undefined' : `() => (${written(steps.get(name) ?? name)})`;
    return `choose(ctx, ${written(steps.get(condition) ?? condition)}, ${branch(then)}, ${branch(otherwise)})`;
  };
  return written(result);
}

/** IF by its condition: the branch that it names alone, as long as one value says so. */
function choose(
  ctx: Functions,
  condition: Argument,
  then: () => Argument,
  otherwise?: () => Argument,
): Argument {
  const single =
    Array.isArray(condition) && condition.length === 1 && condition[0]?.length === 1
      ? (condition[0][0] as Result | undefined)
      : (condition as Result | undefined);
  const says = Array.isArray(single) ? undefined : single?.value;
  const IF = ctx['IF'] as Functions[string];
  if (typeof says !== 'boolean' && typeof says !== 'number')
    return otherwise
      ? IF.call(ctx, condition, then(), otherwise())
      : IF.call(ctx, condition, then());
  const branch = says ? then : otherwise;
  // Left out, the library has its own word for it.
  if (branch === undefined) return IF.call(ctx, condition, undefined);
  const chosen = branch();
  return chosen === undefined || Array.isArray(chosen)
    ? IF.call(ctx, condition, chosen, chosen)
    : chosen;
}

const known = new WeakMap<Execute, Execute>();

/** A compiled formula that computes the branches of its conditions when they are asked for. */
function lazy(execute: Execute): Execute {
  const found = known.get(execute);
  if (found) return found;
  const code = execute.toString();
  const steps =
    code.includes("ctx['IF'](") && !READS_BY_ITSELF.test(code) ? stepsOf(code) : undefined;
  let made = execute;
  if (steps) {
    const make = new Function(
      'choose',
      'noteLazy',
      `return function (deps, ref, range, getSymbolValue, ctx) { noteLazy(); return ${lazily(steps)}; }`,
    ) as (...helpers: unknown[]) => Execute;
    made = make(choose, noteLazy);
  }
  known.set(execute, made);
  known.set(made, made);
  return made;
}

/** IF computes the branch that its condition names, and not the other one. */
export const lazyConditions: Patch = {
  name: NAME,
  upstream:
    'IF computes both branches: a row without a key still looks through a whole column for nothing, and every error that a formula could give is made.',
  until: 'the library computes a branch when the condition asks for it',
  apply() {
    needParts(NAME, CompiledFormula, ['Compile']);
    const { Compile } = CompiledFormula;
    Object.assign(CompiledFormula, {
      Compile(text: string, sheetId: string, getters: Model['getters']): CompiledFormula {
        const compiled = Compile.call(CompiledFormula, text, sheetId, getters);
        needParts(NAME, compiled, ['execute']);
        Object.assign(compiled, { execute: lazy(compiled.execute) });
        return compiled;
      },
    });
  },
};
