import { tokenize } from '@borgar/fx';
import { readArea, columnLetters, sheetInFormula } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import type { WorkbookParts } from '../ooxml/workbook-parts';

/** A formula that has no plain form, with the reason in words. */
export class NoPlainForm extends Error {}

/** A range as it stands in a formula: what is in front of it (sheet), and its block. */
interface WrittenRange {
  readonly sheet: string;
  readonly block: Area;
  readonly fixedColumns: boolean;
  readonly fixedRows: boolean;
}

function writtenRange(text: string): WrittenRange | undefined {
  const cut = text.lastIndexOf('!') + 1;
  const reference = text.slice(cut);
  const block = readArea(reference);
  if (!block) return undefined;
  return {
    sheet: text.slice(0, cut),
    block,
    fixedColumns: /^\$[A-Za-z]/.test(reference),
    fixedRows: /^\$?[A-Za-z]+\$\d/.test(reference),
  };
}

/** The cell of a block that stands for row and column of a result, one row or column being stretched. */
function cellOf(range: WrittenRange, row: number, column: number): string {
  const { block } = range;
  const r = block.rows === 1 ? 0 : row;
  const c = block.columns === 1 ? 0 : column;
  if (r >= block.rows || c >= block.columns) {
    throw new NoPlainForm('its ranges are smaller than what it fills');
  }
  return (
    range.sheet +
    (range.fixedColumns ? '$' : '') +
    columnLetters(block.column + c) +
    (range.fixedRows ? '$' : '') +
    String(block.row + r + 1)
  );
}

/** The block of a table reference such as Log[pH]; undefined where it means the row it stands in. */
function tableRange(text: string, book: WorkbookParts): WrittenRange | 'this row' {
  if (/#this row|@/i.test(text)) return 'this row';
  const match = /^([^[]+)\[(?:\[([^\]#]+)\]|([^\]#[]+))?\]$/.exec(text);
  const table = book.tables.find((table) => table.name.toLowerCase() === match?.[1]?.toLowerCase());
  if (!match || !table) throw new NoPlainForm(`the table reference ${text} could not be followed`);
  const wanted = match[2] ?? match[3];
  const at = wanted ? table.columns.findIndex((c) => c.toLowerCase() === wanted.toLowerCase()) : 0;
  if (at < 0) throw new NoPlainForm(`the table ${table.name} has no column ${wanted}`);
  return {
    sheet: `${sheetInFormula(table.sheet)}!`,
    block: {
      row: table.area.row + 1,
      column: table.area.column + at,
      rows: table.area.rows - 1,
      columns: wanted ? 1 : table.area.columns,
    },
    fixedColumns: true,
    fixedRows: true,
  };
}

const isMany = ({ rows, columns }: Area): boolean => rows > 1 || columns > 1;

function nameBlock(name: string, book: WorkbookParts): Area | undefined {
  const found = book.names.find((known) => known.name.toLowerCase() === name.toLowerCase());
  return found && writtenRange(found.text)?.block;
}

/** One element of an array constant such as {1,2;3,4}. */
function arrayElement(text: string, row: number, column: number): string {
  const rows = text
    .slice(1, -1)
    .split(/;(?=(?:[^"]*"[^"]*")*[^"]*$)/)
    .map((line) => line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/));
  const line = rows[rows.length === 1 ? 0 : row];
  const element = line?.[line.length === 1 ? 0 : column];
  if (element === undefined) throw new NoPlainForm('its ranges are smaller than what it fills');
  return element.trim();
}

/** True where the text uses more than one cell outside of any function's brackets. */
function hasBareRange(text: string, book: WorkbookParts): 'bare' | 'inside' | 'none' {
  let depth = 0;
  let found: 'bare' | 'inside' | 'none' = 'none';
  const brackets: boolean[] = [];
  const tokens = tokenize(text, { mergeRefs: true });
  tokens.forEach((token, i) => {
    if (token.value === '(') {
      const call = tokens[i - 1]?.type === 'func';
      brackets.push(call);
      if (call) depth += 1;
    } else if (token.value === ')') {
      if (brackets.pop()) depth -= 1;
    }
    const block =
      token.type === 'range'
        ? writtenRange(token.value)?.block
        : token.type === 'range_named'
          ? nameBlock(token.value, book)
          : undefined;
    const many = token.type === 'range_beam' || (block !== undefined && isMany(block));
    if (many) found = depth > 0 && found !== 'bare' ? 'inside' : 'bare';
  });
  return found;
}

/**
 * The formula text of an argument for one cell of the result. A range gives its cell in that row and
 * column; whatever is one value anyhow stays as it is.
 * @param spreads whether the call may work row by row (it is the whole formula)
 */
export function argumentFor(
  text: string,
  row: number,
  column: number,
  spreads: boolean,
  book: WorkbookParts,
): string {
  if (text === '') return text;
  const tokens = tokenize(text, { mergeRefs: true }).filter((t) => t.type !== 'whitespace');
  const only = tokens.length === 1 ? tokens[0] : undefined;
  const insist = (): void => {
    if (!spreads) {
      throw new NoPlainForm('it works row by row inside another formula');
    }
  };
  if (only?.type === 'range') {
    const range = writtenRange(text);
    if (!range || !isMany(range.block)) return text;
    insist();
    return cellOf(range, row, column);
  }
  if (only?.type === 'structured') {
    const range = tableRange(text, book);
    if (range === 'this row' || !isMany(range.block)) return text;
    insist();
    return cellOf(range, row, column);
  }
  if (only?.type === 'range_named') {
    const block = nameBlock(text, book);
    if (!block || !isMany(block)) return text;
    insist();
    const r = block.rows === 1 ? 1 : row + 1;
    const c = block.columns === 1 ? 1 : column + 1;
    return `INDEX(${text},${r},${c})`;
  }
  if (only?.type === 'range_beam') {
    insist();
    return `INDEX(${text},${/[A-Za-z]/.test(text.slice(text.lastIndexOf('!') + 1)) ? row + 1 : column + 1})`;
  }
  if (tokens[0]?.value === '{' && tokens.at(-1)?.value === '}') {
    insist();
    return arrayElement(text, row, column);
  }
  const ranges = hasBareRange(text, book);
  if (ranges === 'bare' || (ranges === 'inside' && (row > 0 || column > 0))) {
    throw new NoPlainForm('one of its arguments computes with a whole range');
  }
  return text;
}
