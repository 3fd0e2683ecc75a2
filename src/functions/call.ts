import { GillError, noAnswer, wrongValue } from '../core/errors';
import type { CalledCard, CalledSpillCard, CalledValueCard, Outcome } from './card';
import type { Argument, Cell, Parameter } from './parameter';
import { type Compute, loopFor, type Work } from './place-loops';

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

/** An error with a sentence becomes a value; a fault of ours is thrown on. */
function asOutcome(thrown: unknown): GillError {
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

const checkedAnswer = (id: string, answer: Outcome): Outcome =>
  typeof answer === 'number' && !Number.isFinite(answer)
    ? noAnswer(`GILL.${id} has no finite answer for these arguments`)
    : answer;

function slowRow(card: CalledValueCard, cells: readonly Cell[]): Outcome {
  try {
    if (isEmptyRow(card.parameters, cells)) return '';
    const values = card.parameters.map((parameter, i) => readArgument(parameter, cells[i]));
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
function commonShape(card: CalledValueCard, args: readonly Argument[]): Shape | GillError {
  let rows = 1;
  let columns = 1;
  let rowsOf = '';
  let columnsOf = '';
  for (let i = 0; i < args.length; i++) {
    const argument = args[i];
    if (!isBlock(argument)) continue;
    const { name } = card.parameters[i] as Parameter;
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

/** A block's cell at a place of the shape that it is stretched to. */
function cellAt(argument: Argument, r: number, c: number): Cell {
  if (!isBlock(argument)) return argument;
  const row = argument.length === 1 ? argument[0] : argument[r];
  return row?.length === 1 ? row[0] : row?.[c];
}

/**
 * The block's numbers at every place of the shape, row by row. Where a cell needs more than a look at the
 * parameter's bounds, `quick` becomes 0. Numbers in an array of their own are what makes long ranges fast.
 */
function plainNumbers(
  parameter: Parameter,
  block: Block,
  { rows, columns }: Shape,
  quick: Uint8Array,
): Float64Array {
  const numbers = new Float64Array(rows * columns);
  const { low, high } = parameter;
  let place = 0;
  for (let r = 0; r < rows; r++) {
    const row = (block.length === 1 ? block[0] : block[r]) ?? [];
    const single = row.length === 1;
    for (let c = 0; c < columns; c++) {
      const cell = row[single ? 0 : c];
      if (typeof cell === 'number' && cell > low && cell < high) numbers[place] = cell;
      else quick[place] = 0;
      place++;
    }
  }
  return numbers;
}

/** A parameter's values: those at every place (mask -1), or the one for all places (mask 0). */
interface Column {
  readonly values: ArrayLike<unknown>;
  readonly mask: -1 | 0;
}
type Columns = readonly Column[];

/** A place whose arithmetic throws has the error for its answer, and the loop goes on behind it. */
function fillAnswers(work: Work): void {
  const loop = loopFor(work);
  const at = { place: 0 };
  for (; at.place < work.quick.length; at.place++) {
    try {
      loop(work, at);
    } catch (thrown) {
      work.answers[at.place] = [asOutcome(thrown)];
    }
  }
}

/**
 * What the arithmetic receives for each parameter at every place of the shape. An argument that stays the
 * same is read once; where it is wrong, every place is left to the slow way, which finds the sentence.
 */
function valuesOf(
  parameters: readonly Parameter[],
  args: readonly Argument[],
  shape: Shape,
  quick: Uint8Array,
): Columns {
  return parameters.map((parameter, i) => {
    const argument = args[i];
    if (isBlock(argument))
      return { values: plainNumbers(parameter, argument, shape, quick), mask: -1 };
    try {
      return { values: [readArgument(parameter, argument)], mask: 0 };
    } catch (thrown) {
      asOutcome(thrown);
      quick.fill(0);
      return { values: [], mask: 0 };
    }
  });
}

function callValueCard(card: CalledValueCard, given: readonly Argument[]): Outcome | Outcome[][] {
  const { parameters } = card;
  const args = parameters.map((_, i) => unwrapped(given[i]));
  if (!args.some(isBlock)) return slowRow(card, args as Cell[]);
  const shape = commonShape(card, args);
  if (shape instanceof GillError) return shape;

  const places = shape.rows * shape.columns;
  const quick = new Uint8Array(places).fill(1);
  const columns = valuesOf(parameters, args, shape, quick);
  const work: Work = {
    compute: card.compute as Compute,
    values: columns.map(({ values }) => values) as unknown as Work['values'],
    masks: columns.map(({ mask }) => mask) as unknown as Work['masks'],
    quick,
    answers: new Array<Outcome[]>(places),
  };
  fillAnswers(work);
  const { answers } = work;
  for (let at = 0; at < places; at++) {
    if (quick[at] === 0) {
      const [r, c] = [Math.floor(at / shape.columns), at % shape.columns];
      answers[at] = [
        slowRow(
          card,
          args.map((argument) => cellAt(argument, r, c)),
        ),
      ];
    } else {
      // Taking a row of one cell apart by its pattern would make as much garbage as the answers themselves.
      const answer = (answers[at] as [Outcome])[0];
      const checked = checkedAnswer(card.id, answer);
      if (checked !== answer) answers[at] = [checked];
    }
  }
  if (shape.columns === 1) return answers;
  return Array.from({ length: shape.rows }, (_, r) =>
    answers.slice(r * shape.columns, (r + 1) * shape.columns).flat(),
  );
}

function callSpillCard(card: CalledSpillCard, given: readonly Argument[]): Outcome | Outcome[][] {
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
 * outcomes, in which only the bad rows carry an error. Never throws for bad arguments.
 */
export function callCard(card: CalledCard, args: readonly Argument[]): Outcome | Outcome[][] {
  if (args.length > card.parameters.length) {
    return wrongValue(
      `GILL.${card.id} takes ${card.parameters.length} arguments; got ${args.length}`,
    );
  }
  return card.columns ? callSpillCard(card, args) : callValueCard(card, args);
}
