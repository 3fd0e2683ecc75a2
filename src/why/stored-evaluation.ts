import { GillError } from '../core/errors';
import { calendarDate, serialOf } from '../core/serial-date';
import { callCard } from '../functions/call';
import type { Card } from '../functions/card';
import { findCard, NAMESPACE } from '../functions/card-list';
import { displayedCalls } from '../functions/gill-calls';
import type { BookCells, CellPlace, SnapshotValue } from '../plan/book-snapshot';
import type { Area } from '../plan/workbook-model';
import type { Evaluate } from './formula-words';
import {
  areaOf,
  filledCells,
  firstOf,
  isErrorValue,
  isSingle,
  type Node,
  tracedCell,
  treeOf,
} from './traced-cells';

/**
 * Works out conditions and picks from what cells show, where no engine is at hand: only what such formulas use.
 * What goes beyond it is left open, never guessed.
 */

class Open extends Error {}

/** What is known to be an error. */
class Failed extends Open {}

/** null is a blank cell, which is told from a formula that shows nothing. */
type Value = SnapshotValue | null;

const truth = (value: Value): boolean => {
  if (typeof value === 'boolean') return value;
  if (typeof value === 'number') return value !== 0;
  throw new Open();
};

const number = (value: Value): number => {
  if (typeof value === 'number') return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (value === null) return 0;
  throw new Open();
};

/** Numbers come before words, words before TRUE and FALSE; case does not count. */
function compared(a: Value, b: Value): number {
  const rank = (value: SnapshotValue): number =>
    typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : 2;
  // A blank cell is 0 beside a number, and an empty text beside words.
  const beside = (value: Value, other: Value): SnapshotValue =>
    value ?? (typeof other === 'number' ? 0 : typeof other === 'boolean' ? false : '');
  const [x, y] = [beside(a, b), beside(b, a)];
  if (rank(x) !== rank(y)) return rank(x) - rank(y);
  if (typeof x === 'number' && typeof y === 'number') return x - y;
  const [s, t] = [String(x).toLowerCase(), String(y).toLowerCase()];
  return s < t ? -1 : s > t ? 1 : 0;
}

class Evaluation {
  constructor(
    private readonly cells: BookCells,
    private readonly at: CellPlace,
  ) {}

  private area(node: Node | null | undefined) {
    const area =
      node?.type === 'ReferenceIdentifier'
        ? areaOf(node.value, this.at.sheet, this.cells)
        : undefined;
    if (!area) throw new Open();
    return area;
  }

  private cell(place: CellPlace): Value {
    const { value, formula } = tracedCell(place, this.cells);
    if (isErrorValue(value)) throw new Failed();
    return value === '' && formula === undefined ? null : value;
  }

  private numbers(nodes: readonly (Node | null)[]): number[] {
    return nodes.flatMap((node) => {
      if (node?.type !== 'ReferenceIdentifier') return [number(this.value(node))];
      return filledCells(this.area(node), this.cells).flatMap(({ value }) => {
        if (isErrorValue(value)) throw new Open();
        return typeof value === 'number' ? [value] : [];
      });
    });
  }

  /** Whether a cell meets a criterion such as ">0" or "raft". */
  private criterion(node: Node | null | undefined): (value: Value) => boolean {
    const wanted = this.value(node);
    const [, sign = '=', rest = ''] = /^(<=|>=|<>|<|>|=)?(.*)$/s.exec(String(wanted ?? '')) ?? [];
    if (rest === '' || /[*?~]/.test(rest)) throw new Open();
    const bound = Number.isFinite(Number(rest)) ? Number(rest) : rest;
    return (value) => {
      const isKind = value !== null && typeof value === typeof bound;
      if (sign === '<>') return !isKind || compared(value, bound) !== 0;
      if (!isKind) return false;
      const by = compared(value, bound);
      return sign === '='
        ? by === 0
        : sign === '<'
          ? by < 0
          : sign === '<='
            ? by <= 0
            : sign === '>'
              ? by > 0
              : by >= 0;
    };
  }

  /** Places, counted from the first of the ranges, at which every range meets its criterion. */
  private matching(pairs: readonly (Node | null)[]): { row: number; column: number }[] {
    const tests: { sheet: string; area: Area; meets: (value: Value) => boolean }[] = [];
    for (let i = 0; i + 1 < pairs.length; i += 2)
      tests.push({ ...this.area(pairs[i]), meets: this.criterion(pairs[i + 1]) });
    const [first] = tests;
    if (!first) throw new Open();
    const rows = Math.min(first.area.rows, this.cells.end(first.sheet) - first.area.row);
    const found: { row: number; column: number }[] = [];
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < first.area.columns; column++) {
        const all = tests.every(({ sheet, area, meets }) =>
          meets(this.cell({ sheet, row: area.row + row, column: area.column + column })),
        );
        if (all) found.push({ row, column });
      }
    }
    return found;
  }

  private total(
    places: readonly { row: number; column: number }[],
    node: Node | null | undefined,
  ): number {
    const { sheet, area } = this.area(node);
    return places.reduce((sum, { row, column }) => {
      const value = this.cell({ sheet, row: area.row + row, column: area.column + column });
      return typeof value === 'number' ? sum + value : sum;
    }, 0);
  }

  /** A GILL function of single cells. */
  private gill(card: Card, args: readonly (Node | null)[]): Value {
    const answer = callCard(
      card,
      args.map((arg) => (arg ? this.value(arg) : undefined)),
    );
    if (answer instanceof GillError) throw new Failed();
    if (Array.isArray(answer)) throw new Open();
    return answer as Value;
  }

  private call(name: string, args: readonly (Node | null)[]): Value {
    const card = name.startsWith(`${NAMESPACE}.`) ? findCard(name) : undefined;
    if (card) return this.gill(card, args);
    const argument = (i: number): Value => this.value(args[i]);
    switch (name) {
      case 'IF':
        return truth(argument(0)) ? argument(1) : args.length > 2 ? argument(2) : false;
      case 'IFERROR':
        try {
          return argument(0);
        } catch (problem) {
          if (problem instanceof Failed) return argument(1);
          throw problem;
        }
      case 'AND':
        return args.map((arg) => truth(this.value(arg))).every(Boolean);
      case 'OR':
        return args.map((arg) => truth(this.value(arg))).some(Boolean);
      case 'NOT':
        return !truth(argument(0));
      case 'ISNUMBER':
        return typeof argument(0) === 'number';
      case 'N':
        return typeof argument(0) === 'string' ? 0 : number(argument(0));
      case 'MIN':
        return Math.min(...this.numbers(args));
      case 'MAX':
        return Math.max(...this.numbers(args));
      case 'SUM':
        return this.numbers(args).reduce((sum, value) => sum + value, 0);
      case 'COUNT':
        return this.numbers(args).length;
      case 'COUNTIF':
      case 'COUNTIFS':
        return this.matching(args).length;
      case 'SUMIF':
        return this.total(this.matching(args.slice(0, 2)), args[2] ?? args[0]);
      case 'SUMIFS':
        return this.total(this.matching(args.slice(1)), args[0]);
      case 'ROUND': {
        const factor = 10 ** number(argument(1));
        return Math.round(number(argument(0)) * factor) / factor;
      }
      case 'ABS':
        return Math.abs(number(argument(0)));
      case 'SIN':
        return Math.sin(number(argument(0)));
      case 'DATE': {
        const [year, month, day] = args.map((arg) => number(this.value(arg))) as [
          number,
          number,
          number,
        ];
        // Month 13 is January of the year after.
        const after = Math.floor((month - 1) / 12);
        return serialOf({ year: year + after, month: month - 12 * after, day: 1 }) + day - 1;
      }
      case 'YEAR':
        return calendarDate(number(argument(0))).year;
      case 'MONTH':
        return calendarDate(number(argument(0))).month;
      case 'SUBSTITUTE':
        return String(argument(0) ?? '').replaceAll(String(argument(1)), String(argument(2)));
      case 'INDEX': {
        const { sheet, area } = this.area(args[0]);
        const [a, b] = [number(argument(1)), args[2] ? number(argument(2)) : undefined];
        const [row, column] = area.rows === 1 && b === undefined ? [1, a] : [a, b ?? 1];
        if (row < 1 || column < 1 || row > area.rows || column > area.columns) throw new Open();
        return this.cell({
          sheet,
          row: area.row + Math.floor(row) - 1,
          column: area.column + Math.floor(column) - 1,
        });
      }
      case 'MATCH': {
        if (args[2]?.type !== 'Literal' || args[2].value !== 0) throw new Open();
        const { sheet, area } = this.area(args[1]);
        const wanted = argument(0);
        for (let i = 0; i < Math.max(area.rows, area.columns); i++) {
          const place = {
            sheet,
            row: area.row + (area.rows > 1 ? i : 0),
            column: area.column + (area.rows > 1 ? 0 : i),
          };
          const { value } = this.cells.at(place);
          if (value !== '' && compared(value, wanted) === 0) return i + 1;
        }
        throw new Open();
      }
      default:
        throw new Open();
    }
  }

  value(node: Node | null | undefined): Value {
    switch (node?.type) {
      case 'Literal':
        return node.value;
      case 'ReferenceIdentifier': {
        const area = this.area(node);
        if (!isSingle(area)) throw new Open();
        return this.cell(firstOf(area));
      }
      case 'UnaryExpression': {
        const operand = number(this.value(node.arguments[0] as Node));
        return node.operator === '-' ? -operand : node.operator === '%' ? operand / 100 : operand;
      }
      case 'BinaryExpression': {
        const [a, b] = node.arguments.map((operand) => this.value(operand as Node)) as [
          Value,
          Value,
        ];
        switch (node.operator) {
          case '=':
            return compared(a, b) === 0;
          case '<>':
            return compared(a, b) !== 0;
          case '<':
            return compared(a, b) < 0;
          case '<=':
            return compared(a, b) <= 0;
          case '>':
            return compared(a, b) > 0;
          case '>=':
            return compared(a, b) >= 0;
          case '+':
            return number(a) + number(b);
          case '-':
            return number(a) - number(b);
          case '*':
            return number(a) * number(b);
          case '/':
            if (number(b) === 0) throw new Open();
            return number(a) / number(b);
          case '&':
            return `${String(a ?? '')}${String(b ?? '')}`;
          default:
            throw new Open();
        }
      }
      case 'CallExpression':
        return 'name' in node.callee
          ? this.call(node.callee.name.toUpperCase(), node.arguments as (Node | null)[])
          : this.call('', []);
      default:
        throw new Open();
    }
  }
}

/** Works formulas out from what the cells show. */
export const storedEvaluation =
  (cells: BookCells): Evaluate =>
  (formula, at) => {
    const tree = treeOf(displayedCalls(formula));
    try {
      return tree ? (new Evaluation(cells, at).value(tree) ?? '') : undefined;
    } catch (problem) {
      if (problem instanceof Open) return undefined;
      throw problem;
    }
  };
