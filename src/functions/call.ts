import { GillError, noAnswer, wrongValue } from '../core/errors';
import type { Card, Outcome, SpillCard, ValueCard } from './card';
import type { Argument, Cell, Parameter } from './parameter';
import { UnitsNotLoaded } from './units';

type Block = readonly (readonly Cell[])[];
const isBlock = (argument: Argument): argument is Block => Array.isArray(argument);

/** A range of one cell is that cell. */
const unwrapped = (argument: Argument): Argument =>
  isBlock(argument) && argument.length === 1 && argument[0]?.length === 1
    ? argument[0][0]
    : argument;

const isBlank = (cell: Cell): boolean => cell === null || cell === undefined || cell === '';

/** Blank, or a 0 where the parameter can never be 0 (some platforms hand over a blank cell as 0). */
const isMissing = (parameter: Parameter, cell: Cell): boolean =>
  isBlank(cell) || (cell === 0 && parameter.zeroIsMissing);

/** Anything thrown becomes an error value; a fault of ours is never shown as a number. */
function asOutcome(thrown: unknown): GillError {
  if (thrown instanceof UnitsNotLoaded) throw thrown;
  if (thrown instanceof GillError) return thrown;
  throw thrown;
}

function readArgument(parameter: Parameter, cell: Cell): unknown {
  if (isMissing(parameter, cell)) {
    if (!parameter.optional) {
      throw wrongValue(`${parameter.name} is missing; it takes ${parameter.takes}`);
    }
    return parameter.fallback === undefined ? undefined : parameter.read(parameter.fallback);
  }
  return parameter.read(cell as Exclude<Cell, null | undefined>);
}

/** True where nothing that the row must have is there yet: its result is an empty text. */
function isEmptyRow(parameters: readonly Parameter[], cells: readonly Cell[]): boolean {
  let real = false;
  for (let i = 0; i < parameters.length; i++) {
    const parameter = parameters[i] as Parameter;
    if (parameter.optional) continue;
    const cell = cells[i];
    if (isBlank(cell)) {
      real = true;
      continue;
    }
    if (cell !== 0) return false;
    // A 0 that may be a value leaves the row empty only beside an argument that is surely missing.
    if (parameter.zeroIsMissing) real = true;
  }
  return real;
}

const checkedAnswer = (id: string, answer: number | string): Outcome =>
  typeof answer === 'number' && !Number.isFinite(answer)
    ? noAnswer(`GILL.${id} has no finite answer for these arguments`)
    : answer;

function slowRow(card: ValueCard, cells: readonly Cell[], values: unknown[]): Outcome {
  try {
    if (isEmptyRow(card.parameters, cells)) return '';
    for (let i = 0; i < card.parameters.length; i++) {
      values[i] = readArgument(card.parameters[i] as Parameter, cells[i]);
    }
    return checkedAnswer(card.id, card.compute(...(values as never[])));
  } catch (thrown) {
    return asOutcome(thrown);
  }
}

interface Shape {
  readonly rows: number;
  readonly columns: number;
}

/** The shape to which the ranges stretch; a GillError where they do not fit. */
function commonShape(card: ValueCard, args: readonly Argument[]): Shape | GillError {
  let rows = 1;
  let columns = 1;
  let rowsOf = '';
  let columnsOf = '';
  for (let i = 0; i < args.length; i++) {
    const argument = args[i];
    if (!isBlock(argument)) continue;
    const name = card.parameters[i]?.name ?? '';
    const height = argument.length;
    const width = argument[0]?.length ?? 0;
    if (height > 1 && rows > 1 && height !== rows) {
      return wrongValue(
        `${rowsOf} has ${rows} rows and ${name} has ${height}; ranges must be of equal shape`,
      );
    }
    if (width > 1 && columns > 1 && width !== columns) {
      return wrongValue(
        `${columnsOf} has ${columns} columns and ${name} has ${width}; ranges must be of equal shape`,
      );
    }
    if (height > rows) [rows, rowsOf] = [height, name];
    if (width > columns) [columns, columnsOf] = [width, name];
  }
  return { rows, columns };
}

function callValueCard(card: ValueCard, given: readonly Argument[]): Outcome | Outcome[][] {
  const { parameters } = card;
  const count = parameters.length;
  const args = parameters.map((_, i) => unwrapped(given[i]));
  const cells: Cell[] = new Array<Cell>(count);
  const values: unknown[] = new Array<unknown>(count);
  if (!args.some(isBlock)) return slowRow(card, args as Cell[], values);

  const shape = commonShape(card, args);
  if (shape instanceof GillError) return shape;
  // Arguments that stay the same over the block are read once.
  const fixed: boolean[] = [];
  const ready: boolean[] = [];
  for (let i = 0; i < count; i++) {
    const argument = args[i];
    fixed[i] = !isBlock(argument);
    ready[i] = false;
    if (isBlock(argument)) continue;
    cells[i] = argument;
    try {
      values[i] = readArgument(parameters[i] as Parameter, argument);
      ready[i] = true;
    } catch (thrown) {
      asOutcome(thrown);
    }
  }
  const moving = parameters.flatMap((_, i) => (fixed[i] ? [] : [i]));
  const canHurry = parameters.every((_, i) => !fixed[i] || ready[i]);
  const compute = card.compute as (...v: unknown[]) => number | string;
  const out: Outcome[][] = [];
  for (let r = 0; r < shape.rows; r++) {
    const line: Outcome[] = new Array<Outcome>(shape.columns);
    for (let c = 0; c < shape.columns; c++) {
      let hurry = canHurry;
      for (const i of moving) {
        const block = args[i] as Block;
        const row = block.length === 1 ? block[0] : block[r];
        const cell = row?.length === 1 ? row[0] : row?.[c];
        cells[i] = cell;
        const parameter = parameters[i] as Parameter;
        if (typeof cell === 'number' && cell > parameter.low && cell < parameter.high)
          values[i] = cell;
        else hurry = false;
      }
      if (!hurry) {
        line[c] = slowRow(card, cells, [...values]);
        continue;
      }
      try {
        line[c] = checkedAnswer(card.id, compute(...values));
      } catch (thrown) {
        line[c] = asOutcome(thrown);
      }
    }
    out.push(line);
  }
  return out;
}

function callSpillCard(card: SpillCard, given: readonly Argument[]): Outcome | Outcome[][] {
  const args = card.parameters.map((_, i) => unwrapped(given[i]));
  try {
    const singles = args.map((a) => (isBlock(a) ? 1 : a));
    if (card.parameters.some((p) => !p.optional) && isEmptyRow(card.parameters, singles)) return '';
    const values = card.parameters.map((parameter, i) => {
      const argument = args[i];
      if (!isBlock(argument)) return readArgument(parameter, argument);
      if (parameter.readSeries) return parameter.readSeries(argument);
      throw wrongValue(
        `${parameter.name} takes one cell; got a range of ${argument.length} rows and ${argument[0]?.length ?? 0} columns`,
      );
    });
    const rows = card.spill(...(values as never[]));
    return rows.map((row) => row.map((value) => checkedAnswer(card.id, value)));
  } catch (thrown) {
    return asOutcome(thrown);
  }
}

/**
 * Calls a card with what a spreadsheet hands over. Single cells give one outcome; ranges give rows of
 * outcomes, in which only the bad rows carry an error. Never throws for bad arguments
 * (only UnitsNotLoaded, where a text with a unit arrives before the converter).
 */
export function callCard(card: Card, args: readonly Argument[]): Outcome | Outcome[][] {
  if (args.length > card.parameters.length) {
    return wrongValue(
      `GILL.${card.id} takes ${card.parameters.length} arguments; got ${args.length}`,
    );
  }
  return card.columns ? callSpillCard(card, args) : callValueCard(card, args);
}
