import type { Card } from '../functions/card';
import { findCard, NAMESPACE } from '../functions/card-list';
import type { BookCells, CellPlace, SnapshotValue } from '../plan/book-snapshot';
import type { Area } from '../plan/workbook-model';
import { placeText } from '../plan/book-snapshot';
import { areaAddress } from '../plan/addresses';
import { cellWords, shownValue } from './cell-words';
import { functionWords } from './function-words';
import {
  areaOf,
  firstOf,
  isErrorValue,
  isSingle,
  namedColumn,
  type Node,
  type SheetArea,
} from './traced-cells';

/** Computes a formula as if it stood in a cell; undefined where that cannot be done. */
export type Evaluate = (formula: string, at: CellPlace) => SnapshotValue | undefined;

/** An argument of a call, in words. */
export interface ArgumentWords {
  readonly parameter: string;
  readonly meaning: string;
  /** In words: "[Feed given]", "32". */
  readonly words: string;
  /** What it is, with its unit; undefined where that cannot be computed. */
  readonly shown?: string;
}

export interface CallWords {
  readonly card: Card;
  readonly args: readonly ArgumentWords[];
  /** Parameters that were left out, with what counts in their place. */
  readonly leftOut: readonly string[];
}

/** What a formula says, once it is known which way it went. */
export interface FormulaWords {
  readonly words: string;
  /** Why it went this way and no other. */
  readonly because: readonly string[];
  readonly calls: readonly CallWords[];
  /** Cells that it took its figures from, as they were written. */
  readonly reads: readonly SheetArea[];
  /** References that lead out of the workbook or nowhere. */
  readonly lost: readonly string[];
}

/** Binding of what was written, so that brackets stand only where they are needed. */
const LOOSE = 0;
const SUM = 2;
const PRODUCT = 3;
const TIGHT = 5;

interface Worded {
  readonly words: string;
  readonly binds: number;
}

const tight = (words: string): Worded => ({ words, binds: TIGHT });
const inside = ({ words, binds }: Worded, least: number): string =>
  binds < least ? `(${words})` : words;

const comparisons: Readonly<Record<string, string>> = {
  '=': 'is',
  '<>': 'is not',
  '<': 'is below',
  '<=': 'is at most',
  '>': 'is above',
  '>=': 'is at least',
};

const isBlankText = (node: Node | null | undefined): boolean =>
  node?.type === 'Literal' && node.value === '';

/** A formula text for a part of a formula. */
export function formulaOf(node: Node | null | undefined): string {
  if (!node) return '';
  switch (node.type) {
    case 'Literal':
      return typeof node.value === 'string' && !node.raw.startsWith('"')
        ? `"${node.value}"`
        : node.raw;
    case 'ErrorLiteral':
    case 'ReferenceIdentifier':
      return node.value;
    case 'UnaryExpression': {
      const text = formulaOf(node.arguments[0]);
      return node.operator === '%' || node.operator === '#'
        ? `${text}${node.operator}`
        : `${node.operator}(${text})`;
    }
    case 'BinaryExpression':
      return `(${formulaOf(node.arguments[0])})${node.operator}(${formulaOf(node.arguments[1])})`;
    case 'CallExpression':
      return `${calleeOf(node)}(${node.arguments.map((argument) => formulaOf(argument as Node)).join(',')})`;
    case 'ArrayExpression':
      return `{${node.elements.map((row) => row.map((element) => formulaOf(element as Node)).join(',')).join(';')}}`;
    default:
      return '';
  }
}

type CallNode = Extract<Node, { type: 'CallExpression' }>;
const calleeOf = (node: CallNode): string =>
  'name' in node.callee ? node.callee.name.replace(/^_xlfn\.(?:_xlws\.)?/i, '').toUpperCase() : '';

class Wording {
  readonly because: string[] = [];
  readonly calls: CallWords[] = [];
  readonly reads = new Map<string, SheetArea>();
  readonly lost: string[] = [];

  constructor(
    private readonly cells: BookCells,
    private readonly at: CellPlace,
    private readonly evaluate: Evaluate,
    /** How far the cell stands from the first of the block that the formula fills. */
    private readonly offset: { row: number; column: number },
  ) {}

  private value(node: Node | null | undefined): SnapshotValue | undefined {
    if (!node) return undefined;
    if (node.type === 'Literal') return node.value;
    return this.evaluate(formulaOf(node), this.at);
  }

  private read(area: SheetArea): Worded {
    const key = `${area.sheet.toLowerCase()}!${areaAddress(area.area)}`;
    if (!this.reads.has(key)) this.reads.set(key, area);
    return tight(`[${areaLabel(area, this.cells)}]`);
  }

  private reference(text: string): Worded {
    const area = areaOf(text, this.at.sheet, this.cells);
    if (area) return this.read(area);
    this.lost.push(text);
    return tight(text);
  }

  /** The one cell that INDEX picks. */
  private picked(node: CallNode): SheetArea | undefined {
    const [from, row, column] = node.arguments as (Node | null)[];
    const area =
      from?.type === 'ReferenceIdentifier'
        ? areaOf(from.value, this.at.sheet, this.cells)
        : undefined;
    if (!area) return undefined;
    const [r, c] = [this.value(row), this.value(column)];
    const { rows, columns } = area.area;
    const down = rows === 1 && column === undefined ? 1 : r;
    const right = rows === 1 && column === undefined ? r : (c ?? 1);
    if (typeof down !== 'number' || typeof right !== 'number') return undefined;
    if (down < 1 || down > rows || right < 1 || right > columns) return undefined;
    const cell: Area = {
      row: area.area.row + Math.floor(down) - 1,
      column: area.area.column + Math.floor(right) - 1,
      rows: 1,
      columns: 1,
    };
    return { sheet: area.sheet, area: cell };
  }

  private branch(node: CallNode): Worded {
    const [condition, then, otherwise] = node.arguments as (Node | null)[];
    const holds = this.value(condition);
    if (
      !condition ||
      isErrorValue(holds) ||
      (typeof holds !== 'boolean' && typeof holds !== 'number')
    )
      return this.call(node, 'IF');
    const [taken, other] = holds ? [then, otherwise] : [otherwise, then];
    const reason = (): void => {
      this.because.push(holds ? this.words(condition).words : this.unmet(condition));
    };
    // "Nothing as long as a cell is blank" goes without saying where the cell is filled.
    if (!isBlankText(other) || isBlankText(taken)) reason();
    const before = this.reads.size + this.calls.length;
    const answer = this.taken(taken, holds);
    // What is said outright hangs on nothing but the condition.
    if (this.reads.size + this.calls.length === before && this.reads.size === 0) reason();
    return answer;
  }

  /** A condition that does not hold. */
  private unmet(condition: Node): string {
    if (condition.type === 'BinaryExpression' && comparisons[condition.operator]) {
      const { operator } = condition;
      if (operator === '=' || operator === '<>')
        return this.words({ ...condition, operator: operator === '=' ? '<>' : '=' }).words;
      const [left, right] = condition.arguments as [Node, Node];
      const sign = (comparisons[operator] as string).replace('is ', 'is not ');
      return `${inside(this.words(left), SUM)} ${sign} ${inside(this.words(right), SUM)}`;
    }
    return `it is not so that ${this.words(condition).words}`;
  }

  private taken(taken: Node | null | undefined, holds: number | boolean): Worded {
    if (!taken) return tight(holds ? 'TRUE' : 'FALSE');
    return isBlankText(taken) ? tight('nothing') : this.words(taken);
  }

  private call(node: CallNode, name: string): Worded {
    const args = node.arguments as (Node | null)[];
    if (name === 'ANCHORARRAY') {
      const area =
        args[0]?.type === 'ReferenceIdentifier'
          ? areaOf(args[0].value, this.at.sheet, this.cells)
          : undefined;
      const block = area && this.cells.blockAt(firstOf(area));
      return block
        ? this.read({ sheet: area.sheet, area: block })
        : this.reference(formulaOf(args[0]));
    }
    const worded = args.map((argument) => (argument ? this.words(argument) : tight('nothing')));
    return functionWords(
      name,
      worded.map(({ words }) => words),
    );
  }

  /** A call for one cell of a block takes the cell of its row from each range. */
  private ownCell(node: Node, card: Card): Node {
    if (card.columns || node.type !== 'ReferenceIdentifier') return node;
    const found = areaOf(node.value, this.at.sheet, this.cells);
    if (!found || isSingle(found)) return node;
    const { area, sheet } = found;
    const row = area.row + (area.rows === 1 ? 0 : Math.min(this.offset.row, area.rows - 1));
    const column =
      area.column + (area.columns === 1 ? 0 : Math.min(this.offset.column, area.columns - 1));
    const value = `'${sheet.replaceAll("'", "''")}'!${areaAddress({ row, column, rows: 1, columns: 1 })}`;
    return { ...node, value, kind: 'range' };
  }

  private gill(node: CallNode, card: Card): Worded {
    const given = node.arguments as (Node | null)[];
    const args: ArgumentWords[] = [];
    const leftOut: string[] = [];
    card.parameters.forEach((parameter, i) => {
      const whole = given[i];
      const arg = whole && this.ownCell(whole, card);
      const value = arg ? this.value(arg) : undefined;
      if (!arg || (value === '' && parameter.optional)) {
        if (parameter.optional)
          leftOut.push(`${parameter.name} left out: ${parameter.defaultText ?? 'not needed'}`);
        if (!arg) return;
      }
      const { words } = this.words(arg);
      const shown =
        value === undefined
          ? undefined
          : shownValue(value, undefined, parameter.kind === 'name' ? '' : parameter.unit);
      args.push({
        parameter: parameter.name,
        meaning: parameter.meaning,
        words,
        ...(shown !== undefined && { shown }),
      });
    });
    this.calls.push({ card, args, leftOut });
    return tight(`${NAMESPACE}.${card.id}`);
  }

  words(node: Node): Worded {
    switch (node.type) {
      case 'Literal':
        return tight(
          typeof node.value === 'string'
            ? `"${node.value}"`
            : typeof node.value === 'number'
              ? String(Number(node.value.toPrecision(6)))
              : String(node.value).toUpperCase(),
        );
      case 'ErrorLiteral':
        return tight(node.value);
      case 'ReferenceIdentifier':
        return this.reference(node.value);
      case 'UnaryExpression': {
        const operand = this.words(node.arguments[0] as Node);
        if (node.operator === '%') return tight(`${inside(operand, TIGHT)} %`);
        if (node.operator === '-') return { words: `-${inside(operand, PRODUCT)}`, binds: SUM };
        return operand;
      }
      case 'BinaryExpression':
        return this.binary(node);
      case 'CallExpression': {
        const name = calleeOf(node);
        const card = name.startsWith(`${NAMESPACE}.`) ? findCard(name) : undefined;
        if (card) return this.gill(node, card);
        if (name === 'IF') return this.branch(node);
        if (name === 'IFERROR' && node.arguments.length === 2) {
          const [first, second] = node.arguments as (Node | null)[];
          const value = this.value(first);
          const taken = isErrorValue(value) ? second : first;
          return taken ? this.words(taken) : tight('nothing');
        }
        const pickedCell = name === 'INDEX' ? this.picked(node) : undefined;
        if (pickedCell) {
          // What picks the cell is a part of the chain, too.
          for (const place of node.arguments.slice(1) as (Node | null)[])
            if (place) this.words(place);
          return this.read(pickedCell);
        }
        return this.call(node, name);
      }
      case 'ArrayExpression':
        return tight(formulaOf(node));
      default:
        return tight('a formula of a kind that is not put into words');
    }
  }

  private binary(node: Extract<Node, { type: 'BinaryExpression' }>): Worded {
    const [left, right] = node.arguments as [Node, Node];
    const { operator } = node;
    const a = this.words(left);
    if (comparisons[operator] && isBlankText(right))
      return {
        words: `${inside(a, SUM)} ${operator === '=' ? 'is blank' : operator === '<>' ? 'is filled' : comparisons[operator]}`,
        binds: LOOSE,
      };
    const b = this.words(right);
    switch (operator) {
      case '+':
        return { words: `${inside(a, SUM)} + ${inside(b, SUM)}`, binds: SUM };
      case '-':
        return { words: `${inside(a, SUM)} − ${inside(b, PRODUCT)}`, binds: SUM };
      case '*':
        return { words: `${inside(a, PRODUCT)} × ${inside(b, PRODUCT)}`, binds: PRODUCT };
      case '/':
        return { words: `${inside(a, PRODUCT)} ÷ ${inside(b, TIGHT)}`, binds: PRODUCT };
      case '^':
        return tight(`${inside(a, TIGHT)}^${inside(b, TIGHT)}`);
      case '&':
        return { words: `${inside(a, SUM)} ${inside(b, SUM)}`, binds: SUM };
      default:
        return {
          words: `${inside(a, SUM)} ${comparisons[operator] ?? operator} ${inside(b, SUM)}`,
          binds: LOOSE,
        };
    }
  }
}

const MAX_WORDS = 420;

/** Labels of blocks that were found before. */
const labels = new WeakMap<BookCells, Map<string, string>>();

/** The words of one cell, or of a column of them. */
export function areaLabel(area: SheetArea, cells: BookCells): string {
  const found = labels.get(cells) ?? new Map<string, string>();
  labels.set(cells, found);
  const key = `${area.name ?? ''} ${area.sheet}!${areaAddress(area.area)}`;
  const label = found.get(key) ?? freshLabel(area, cells);
  found.set(key, label);
  return label;
}

function freshLabel(area: SheetArea, cells: BookCells): string {
  if (isSingle(area)) {
    const place = firstOf(area);
    return cellWords(place, cells).label || (cells.nameOf(place) ?? placeText(place));
  }
  const { rows, columns } = area.area;
  const place = firstOf(area);
  const where = `${area.sheet}!${areaAddress(area.area)}`;
  if (columns > 1 && rows > 1) return area.name ?? where;
  if (columns === 1) {
    const block = namedColumn(place, cells);
    const head = cellWords({ ...place, row: block?.area.row ?? place.row }, cells).label;
    const own = head.includes(': ') ? head.slice(head.lastIndexOf(': ') + 2) : head;
    return own === '' ? (area.name ?? where) : `${own} (${area.sheet})`;
  }
  return cellWords(place, cells).label || where;
}

/** Puts a formula into words; `offset` is how far the cell stands from the first of a block that it fills. */
export function formulaWords(
  tree: Node,
  at: CellPlace,
  cells: BookCells,
  evaluate: Evaluate,
  offset = { row: 0, column: 0 },
): FormulaWords {
  const wording = new Wording(cells, at, evaluate, offset);
  const { words } = wording.words(tree);
  return {
    words: words.length > MAX_WORDS ? `${words.slice(0, MAX_WORDS)} …` : words,
    because: wording.because,
    calls: wording.calls,
    reads: [...wording.reads.values()],
    lost: wording.lost,
  };
}
