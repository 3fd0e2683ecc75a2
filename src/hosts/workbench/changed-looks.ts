import { helpers, type Border, type Style, type WorkbookData } from '@odoo/o-spreadsheet';
import { GillError } from '../../core/errors';
import type { FileValue } from '../../ooxml/cell-changes';
import type { FileEdge } from '../../ooxml/read-styles';
import type { StyleChange } from '../../ooxml/style-additions';
import { spread } from './grid-cells';

type SheetData = WorkbookData['sheets'][number];

/** The grid's own value of a literal, whatever it looks like. */
function literal(content: string | undefined): FileValue {
  if (content === undefined || content === '') return undefined;
  if (content.startsWith("'")) return content.slice(1);
  if (/^true$/i.test(content)) return true;
  if (/^false$/i.test(content)) return false;
  if (helpers.isEvaluationError(content)) return new GillError(content as never, '');
  const number = Number(content);
  return content.trim() !== '' && Number.isFinite(number) ? number : content;
}

const plainStyle: Readonly<Record<string, unknown>> = {
  ...{ align: '', verticalAlign: 'bottom', wrapping: 'overflow', bold: false, italic: false },
  ...{ strikethrough: false, underline: false, fontSize: 10, fillColor: '', textColor: '' },
};

const fileAlignments: Readonly<Record<string, string>> = {
  top: 'top',
  middle: 'center',
  bottom: 'bottom',
};

/** What of a look differs, as a change of the file's style. */
function styleChange(was: Style, is: Style, naturalSide: 'left' | 'right'): StyleChange {
  const of = (style: Style, key: string): unknown => {
    const value = (style as Record<string, unknown>)[key] ?? plainStyle[key];
    if (key === 'align') return value === '' ? naturalSide : value;
    return typeof value === 'string' && value.startsWith('#') ? value.toUpperCase() : value;
  };
  const differs = (key: string): boolean => of(was, key) !== of(is, key);
  return {
    ...(differs('bold') && { bold: is.bold === true }),
    ...(differs('italic') && { italic: is.italic === true }),
    ...(differs('underline') && { underline: is.underline === true }),
    ...(differs('strikethrough') && { strike: is.strikethrough === true }),
    ...(differs('fontSize') && { size: is.fontSize ?? 10 }),
    ...(differs('textColor') && { colour: is.textColor || undefined }),
    ...(differs('fillColor') && { fill: is.fillColor || undefined }),
    ...(differs('align') && { horizontal: is.align }),
    ...(differs('verticalAlign') && { vertical: fileAlignments[is.verticalAlign ?? 'bottom'] }),
    ...(differs('wrapping') && { wrap: is.wrapping === 'wrap' }),
  };
}

const edgesOf = (border: Border | undefined): Record<string, FileEdge> =>
  Object.fromEntries(
    Object.entries(border ?? {}).flatMap(([side, edge]) => {
      const borderLine = edge as { style: string; color?: string } | undefined;
      return borderLine
        ? [[side, { style: borderLine.style, colour: borderLine.color ?? '#000000' }]]
        : [];
    }),
  );

const sameEdges = (a: Record<string, FileEdge>, b: Record<string, FileEdge>): boolean =>
  ['left', 'right', 'top', 'bottom'].every(
    (side) =>
      a[side]?.style === b[side]?.style &&
      a[side]?.colour.toUpperCase() === b[side]?.colour.toUpperCase(),
  );

/** What of a cell is a look and no content. */
export interface CellLooks {
  readonly style?: Style | undefined;
  readonly format?: string | undefined;
}

/** What somebody changed of a cell's style and format; undefined where it is as it was. */
export function changedLook(
  was: CellLooks,
  is: CellLooks,
  content: string | undefined,
): StyleChange | undefined {
  if (was.style === is.style && was.format === is.format) return undefined;
  const isNumber = content !== undefined && typeof literal(content) === 'number';
  const change = {
    ...styleChange(was.style ?? {}, is.style ?? {}, isNumber ? 'right' : 'left'),
    ...(was.format !== is.format && { format: is.format }),
  };
  return Object.keys(change).length > 0 ? change : undefined;
}

interface State {
  readonly data: WorkbookData;
  readonly sheet: SheetData;
}

/** Zones of a state whose border the other state does not have just so. */
function otherBorders(one: State, other: State): Map<string, Border> {
  const of = ({ data, sheet }: State, zone: string): string =>
    JSON.stringify((data.borders as Record<number, Border>)[sheet.borders[zone] ?? -1] ?? null);
  const zones = Object.entries(one.sheet.borders).filter(
    ([zone]) => of(one, zone) !== of(other, zone),
  );
  return spread(Object.fromEntries(zones), one.data.borders as Record<number, Border>);
}

/** Borders that were changed, by the address of their cell. */
export function changedBorders(before: State, now: State): Map<string, StyleChange> {
  // Zones of one state lie apart: what both have just so covers no cell of the others.
  const [old, current] = [otherBorders(before, now), otherBorders(now, before)];
  const changes = new Map<string, StyleChange>();
  for (const address of new Set([...old.keys(), ...current.keys()])) {
    const [was, is] = [edgesOf(old.get(address)), edgesOf(current.get(address))];
    if (!sameEdges(was, is)) changes.set(address, { edges: is });
  }
  return changes;
}
