import { helpers } from '@odoo/o-spreadsheet';
import { addressesOf } from '../../listed-cells';
import type { SheetContents } from '../../sheet-contents';
import type { SheetData } from './plugin-in-turn';

/** Columns with rows, where there are any. */
type Columns = ((Said | undefined)[] | undefined)[];

/** What a file's data says of a cell. */
export interface Said {
  content?: string;
  style?: number;
  format?: number;
}

/** So many cells of a file's data are looked at in one step. */
const SAID_AT_A_TIME = 512;

export const isCell = (said: Said | undefined): said is Said =>
  Boolean(said?.content) || Boolean(said?.style) || Boolean(said?.format);

/** The cells of a merge hold nothing, and look like its first one. */
function lookLikeTheFirst(columns: Columns, merge: string): void {
  const { top, left, bottom, right } = helpers.toZone(merge);
  const first = columns[left]?.[top];
  for (let col = left; col <= right; col++) {
    const column = (columns[col] ??= []);
    for (let row = top; row <= bottom; row++) {
      if (row === top && col === left) continue;
      const said = (column[row] ??= {});
      delete said.content;
      if (!isCell(first)) delete said.style;
      else if (first.style) said.style = first.style;
    }
  }
}

/** What a sheet's data says of each of its cells. */
export function* cellsSaid(
  { merges }: SheetData,
  { cells, styles, formats }: SheetContents,
): Generator<void, Columns> {
  const columns: Columns = [];
  let looked = 0;
  const each = function* (zone: string, say: (said: Said) => void): Generator<void> {
    const { top, left, bottom, right } = helpers.toZone(zone);
    for (let col = left; col <= right; col++) {
      const column = (columns[col] ??= []);
      for (let row = top; row <= bottom; row++) {
        say((column[row] ??= {}));
        if (++looked % SAID_AT_A_TIME === 0) yield;
      }
    }
  };
  const texts = cells as Record<string, string>;
  for (const address of addressesOf(texts)) {
    const content = texts[address];
    if (content !== undefined && content !== '')
      yield* each(address, (said) => (said.content = content));
  }
  for (const [zone, style] of Object.entries(styles)) {
    yield* each(zone, (said) => (said.style = style));
  }
  for (const [zone, format] of Object.entries(formats)) {
    yield* each(zone, (said) => (said.format = format));
  }
  for (const merge of merges) lookLikeTheFirst(columns, merge);
  return columns;
}
