/** What a function gives when one of its arguments is otherwise and the others stay. */
import { callCard } from './call';
import type { Card } from './card';
import type { Argument } from './parameter';

export interface CurvePoint {
  readonly x: number;
  /** Undefined where the function gives an error or nothing. */
  readonly y: number | undefined;
}

export interface Neighbourhood {
  /** From the lowest to the highest value of the argument. */
  readonly points: readonly CurvePoint[];
  readonly present: CurvePoint;
}

/** The one number that an argument holds: itself, or the only cell of a range. */
export function numberOf(argument: Argument | undefined): number | undefined {
  const single = Array.isArray(argument)
    ? argument.length === 1 && (argument as readonly (readonly unknown[])[])[0]?.length === 1
      ? (argument as readonly (readonly unknown[])[])[0]?.[0]
      : undefined
    : argument;
  return typeof single === 'number' && Number.isFinite(single) ? single : undefined;
}

/** Places of the arguments that can be varied: numbers, where the function gives one number. */
export function variedArguments(card: Card, args: readonly Argument[]): number[] {
  if (card.columns !== undefined || card.result.kind !== 'number') return [];
  return card.parameters.flatMap(({ kind }, i) =>
    kind === 'number' && numberOf(args[i]) !== undefined ? [i] : [],
  );
}

const WHOLE = /^a whole number/;
/** Digits of a step, so that a reader sees round figures. */
const round = (value: number): number => Number(value.toPrecision(3));

/** Values around one, from half of it to half as much again, held within what the parameter takes. */
export function valuesAround(
  { low, high, takes }: Card['parameters'][number],
  value: number,
  count: number,
): number[] {
  const span = value === 0 ? 1 : Math.abs(value) / 2;
  const isWhole = WHOLE.test(takes);
  const lowest = Math.max(Number.isFinite(low) ? low : -Infinity, value - span);
  const highest = Math.min(Number.isFinite(high) ? high : Infinity, value + span);
  const [from, to] = isWhole ? [Math.ceil(lowest), Math.floor(highest)] : [lowest, highest];
  const steps = Array.from({ length: count }, (_, i) => from + (i / (count - 1)) * (to - from));
  const shown = steps.map((step) =>
    // Rounding must not leave what the parameter takes.
    Math.min(to, Math.max(from, isWhole ? Math.round(step) : round(step))),
  );
  return [...new Set(shown)];
}

/** The curve of a function over its argument number `which`. */
export function neighbourhood(
  card: Card,
  args: readonly Argument[],
  which: number,
  count = 25,
): Neighbourhood {
  const value = numberOf(args[which]) as number;
  const at = (x: number): CurvePoint => {
    const answer = callCard(
      card,
      args.map((argument, i) => (i === which ? x : argument)),
    );
    const single = Array.isArray(answer) ? answer[0]?.[0] : answer;
    return { x, y: typeof single === 'number' ? single : undefined };
  };
  const parameter = card.parameters[which] as Card['parameters'][number];
  return { points: valuesAround(parameter, value, count).map(at), present: at(value) };
}
