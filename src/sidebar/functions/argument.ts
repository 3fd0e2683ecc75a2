import { isoText, serialFromIsoText } from '../../core/serial-date';
import type { Argument, Parameter } from '../../functions/parameter';
import { quoted } from '../../functions/plain';
import type { Selection } from '../host';
import { sheetInFormula } from '../../plan/addresses';

/** One argument of the form: typed, picked from the grid, or an address of cells that are yet to be read. */
export type Given =
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'picked'; readonly from: Selection }
  | {
      readonly kind: 'address';
      readonly text: string;
      /** The sheet that the text names; without one, the sheet where the formula stands. */
      readonly sheet: string | undefined;
      readonly address: string;
    };

const SHEET = /^(?:(?:'((?:[^']|'')+)'|([\p{L}_][\p{L}\d_.]*))!)?(.+)$/u;
const CELLS =
  /^\$?[a-z]{1,3}\$?[1-9]\d{0,6}(?::\$?[a-z]{1,3}\$?[1-9]\d{0,6})?$|^\$?[a-z]{1,3}:\$?[a-z]{1,3}$/i;

/** What was typed into a field: an address where it can be nothing else. */
export function givenText(text: string): Given {
  const trimmed = text.trim();
  const [, inQuotes, bare, address = ''] = SHEET.exec(trimmed) ?? [];
  if (!CELLS.test(address)) return { kind: 'typed', text };
  const sheet = inQuotes?.replaceAll("''", "'") ?? bare;
  return { kind: 'address', text: trimmed, sheet, address: address.replaceAll('$', '') };
}

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const PERCENT = /^([+-]?(?:\d+\.?\d*|\.\d+))\s*%$/;

/** What the function gets: the cells where any were read; a date field gives "yyyy-mm-dd". */
export function argumentOf(
  parameter: Parameter,
  given: Given,
  cells: Selection | undefined,
): Argument | undefined {
  if (given.kind !== 'typed') return cells?.values;
  const text = given.text.trim();
  if (text === '') return null;
  if (parameter.kind === 'date') return serialFromIsoText(text) ?? text;
  if (NUMBER.test(text)) return Number(text);
  return text;
}

const simpleSheet = /^[A-Za-z_][A-Za-z_.]*$/;
const sheetPart = (sheet: string): string =>
  simpleSheet.test(sheet) ? sheet : sheetInFormula(sheet);

/** What stands in the formula; references on `sheet` itself go without its name. */
export function formulaText(parameter: Parameter, given: Given, sheet: string): string {
  if (given.kind === 'address') return given.text;
  if (given.kind === 'picked') {
    const { from } = given;
    return from.sheet === sheet ? from.address : `${sheetPart(from.sheet)}!${from.address}`;
  }
  const text = given.text.trim();
  if (text === '' || NUMBER.test(text)) return text;
  if (parameter.kind === 'date') {
    const serial = serialFromIsoText(text);
    if (serial !== undefined) {
      const [year, month, day] = isoText(serial).split('-').map(Number);
      return `DATE(${year},${month},${day})`;
    }
  }
  const percent = PERCENT.exec(text);
  if (percent && parameter.unit === 'share') return `${percent[1]}%`;
  return quoted(text);
}

/** Arguments joined; those left out at the end need no commas. */
export function formulaOf(id: string, texts: readonly string[]): string {
  let last = texts.length;
  while (last > 0 && texts[last - 1] === '') last--;
  return `=${id}(${texts.slice(0, last).join(',')})`;
}
