import { tokenize } from '@borgar/fx';
import { columnLetters, columnNumber, sheetInFormula } from '../../plan/addresses';
import { RefusedChange } from '../cell-changes';
import { type FileStep, isSame, type LinesStep, movedSpan } from './file-step';

const PREFIX = /^(?:'((?:[^']|'')+)'|([^'!]+))!/;
const PLAIN_NAME = /^[\p{L}_][\p{L}\p{N}_.]*$/u;
const CELL_LIKE = /^(?:[A-Z]{1,3}\d+|R\d*C\d*|TRUE|FALSE)$/i;

/** A sheet's name in front of a reference, in quotes where it needs some. */
const prefixOf = (name: string): string =>
  PLAIN_NAME.test(name) && !CELL_LIKE.test(name) ? `${name}!` : `${sheetInFormula(name)}!`;

interface Written {
  /** As it stands, "!" included; empty where there is none. */
  readonly prefix: string;
  readonly sheet?: string;
  /** The first and the last sheet of a reference through several. */
  readonly through?: readonly [string, string];
  readonly isOtherFile: boolean;
  readonly rest: string;
}

function splitPrefix(value: string): Written {
  const match = PREFIX.exec(value);
  if (!match) return { prefix: '', isOtherFile: false, rest: value };
  const [prefix] = match;
  const name = match[1]?.replaceAll("''", "'") ?? match[2] ?? '';
  const rest = value.slice(prefix.length);
  if (name.includes('[')) return { prefix, isOtherFile: true, rest };
  const [first = '', last] = name.split(':');
  return last === undefined
    ? { prefix, sheet: name, isOtherFile: false, rest }
    : { prefix, through: [first, last], isOtherFile: false, rest };
}

const CELLS = /^(\$?)([A-Z]{1,3})(\$?)(\d{1,7})(?:(\.?:\.?)(\$?)([A-Z]{1,3})(\$?)(\d{1,7}))?$/i;
const ROWS = /^(\$?)(\d{1,7})(:)(\$?)(\d{1,7})$/;
const COLUMNS = /^(\$?)([A-Z]{1,3})(:)(\$?)([A-Z]{1,3})$/i;

/** An address of the step's sheet after the step; undefined where its cells are gone. */
function movedAddress(address: string, step: LinesStep): string | undefined {
  const isRow = step.dimension === 'row';
  const cells = CELLS.exec(address);
  if (cells) {
    const [, d1 = '', c1 = '', d2 = '', r1 = '', between = '', d3 = '', c2, d4 = '', r2] = cells;
    const ends = isRow
      ? [Number(r1) - 1, Number(r2 ?? r1) - 1]
      : [columnNumber(c1), columnNumber(c2 ?? c1)];
    const span = movedSpan({ first: Math.min(...ends), last: Math.max(...ends) }, step);
    if (!span) return undefined;
    const isTurned = (ends[0] ?? 0) > (ends[1] ?? 0);
    const [from, to] = isTurned ? [span.last, span.first] : [span.first, span.last];
    const addressOf = (column: string, row: string, line: number, first: string, second: string) =>
      isRow
        ? `${first}${column}${second}${line + 1}`
        : `${first}${columnLetters(line)}${second}${row}`;
    const start = addressOf(c1, r1, from, d1, d2);
    return c2 === undefined || r2 === undefined
      ? start
      : `${start}${between}${addressOf(c2, r2, to, d3, d4)}`;
  }
  const lines = isRow ? ROWS.exec(address) : COLUMNS.exec(address);
  if (!lines) return address;
  const [, d1 = '', a = '', between = '', d2 = '', b = ''] = lines;
  const number = (text: string): number => (isRow ? Number(text) - 1 : columnNumber(text));
  const text = (line: number): string => (isRow ? String(line + 1) : columnLetters(line));
  const ends = [number(a), number(b)];
  const span = movedSpan({ first: Math.min(...ends), last: Math.max(...ends) }, step);
  return span && `${d1}${text(span.first)}${between}${d2}${text(span.last)}`;
}

/** Where a formula stands, and the sheets of its file in their order. */
export interface FormulaPlace {
  readonly sheet: string;
  /** In words, for a sentence: "Tanks!B4". */
  readonly where: string;
  readonly order: readonly string[];
}

function refuseThrough(
  [first, last]: readonly [string, string],
  step: FileStep,
  place: FormulaPlace,
): void {
  const at = (name: string): number =>
    place.order.findIndex((sheetName) => isSame(sheetName, name));
  const [from, to, own] = [at(first), at(last), at(step.sheet)];
  if (own < Math.min(from, to) || own > Math.max(from, to)) return;
  throw new RefusedChange(
    `${place.where} reckons through the sheets from "${first}" to "${last}", one of which is "${step.sheet}"; it cannot follow. Change that formula first.`,
  );
}

/** What a reference becomes, prefix and all. */
function followedReference(value: string, step: FileStep, place: FormulaPlace): string {
  const { prefix, sheet, through, isOtherFile, rest } = splitPrefix(value);
  if (isOtherFile) return value;
  if (through) {
    if (step.kind !== 'rename') {
      refuseThrough(through, step, place);
      return value;
    }
    const [first, last] = through.map((name) => (isSame(name, step.sheet) ? step.to : name));
    if (first === through[0] && last === through[1]) return value;
    return `${sheetInFormula(`${first}:${last}`)}!${rest}`;
  }
  const isOf = isSame(sheet ?? place.sheet, step.sheet);
  if (!isOf) return value;
  if (step.kind === 'rename') return sheet === undefined ? value : prefixOf(step.to) + rest;
  if (step.kind === 'remove') return sheet === undefined ? value : '#REF!';
  const moved = movedAddress(rest, step);
  if (moved === undefined && step.count > 0) {
    throw new RefusedChange(
      `${place.where} reads ${rest} of "${step.sheet}", which would fall off the end of the sheet. Change that formula first.`,
    );
  }
  return moved === undefined ? '#REF!' : prefix + moved;
}

const REFERENCES = new Set(['range', 'range_beam', 'range_named', 'structured']);

/**
 * A formula (without "=") as it reads after a step, so that it means the same cells as before; what is gone becomes
 * #REF!. Throws RefusedChange where it cannot follow.
 */
export function followedFormula(formula: string, step: FileStep, place: FormulaPlace): string {
  const isOwn = isSame(place.sheet, step.sheet);
  const mayName = formula.includes('!');
  if (!mayName && (!isOwn || step.kind !== 'lines')) return formula;
  const tokens = tokenize(formula, { mergeRefs: true });
  return tokens
    .map(({ type, value }, i) => {
      if (REFERENCES.has(type)) return followedReference(value, step, place);
      // A lost reference keeps the name of its sheet: Tanks!#REF!.
      if (type !== 'context' || tokens[i + 1]?.value !== '!') return value;
      if (step.kind === 'rename' && isSame(value.replace(/^'|'$/g, ''), step.sheet))
        return prefixOf(step.to).slice(0, -1);
      return value;
    })
    .join('');
}

/** Whether a formula means cells of a sheet. */
export function readsSheet(formula: string, sheet: string, here: string): boolean {
  return tokenize(formula, { mergeRefs: true }).some(({ type, value }) => {
    if (!REFERENCES.has(type)) return false;
    const written = splitPrefix(value);
    if (written.isOtherFile) return false;
    if (written.through) return written.through.some((name) => isSame(name, sheet));
    return isSame(written.sheet ?? here, sheet) && type !== 'range_named';
  });
}

/** Whether a formula means cells of a sheet that hang on where it stands: rows, or columns, without "$". */
export function isRelative(formula: string, sheet: string, dimension: 'row' | 'column'): boolean {
  return tokenize(formula, { mergeRefs: true }).some(({ type, value }) => {
    if (type !== 'range') return false;
    const written = splitPrefix(value);
    if (written.sheet === undefined || !isSame(written.sheet, sheet)) return false;
    const [, d1, , d2, , , d3, c2, d4] = CELLS.exec(written.rest) ?? [];
    const dollars = dimension === 'row' ? [d2, d4] : [d1, d3];
    return dollars[0] === '' || (c2 !== undefined && dollars[1] === '');
  });
}

/** Texts inside a formula that spell a reference to a sheet, as INDIRECT reads them: none can follow. */
export const spellsSheet = (formula: string, sheet: string): boolean =>
  tokenize(formula, { mergeRefs: true }).some(({ type, value }) => {
    if (type !== 'string') return false;
    const text = value.toLowerCase();
    const name = sheet.toLowerCase();
    return [`${name}!`, `'${name.replaceAll("'", "''")}'!`].some((spelt) => {
      const at = text.indexOf(spelt);
      return at >= 0 && !/[\p{L}\p{N}_.]/u.test(text[at - 1] ?? '');
    });
  });
