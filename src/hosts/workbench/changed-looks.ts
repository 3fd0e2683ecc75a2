import { helpers, type Border, type Style, type WorkbookData } from '@odoo/o-spreadsheet';
import { GillError } from '../../core/errors';
import type { FileValue } from '../../ooxml/cell-changes';
import type { FileEdge } from '../../ooxml/read-styles';
import type { StyleChange } from '../../ooxml/style-additions';
import { placeAddress, readArea } from '../../plan/addresses';
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
      const one = edge as { style: string; color?: string } | undefined;
      return one ? [[side, { style: one.style, colour: one.color ?? '#000000' }]] : [];
    }),
  );

const sameEdges = (a: Record<string, FileEdge>, b: Record<string, FileEdge>): boolean =>
  ['left', 'right', 'top', 'bottom'].every(
    (side) =>
      a[side]?.style === b[side]?.style &&
      a[side]?.colour.toUpperCase() === b[side]?.colour.toUpperCase(),
  );

/** Looks, formats and borders that the grower gave cells. */
export function changedLooks(
  before: { readonly data: WorkbookData; readonly sheet: SheetData },
  now: { readonly data: WorkbookData; readonly sheet: SheetData },
): Map<string, StyleChange> {
  const looks = ({ data, sheet }: { data: WorkbookData; sheet: SheetData }) => ({
    styles: spread(sheet.styles, data.styles as Record<number, Style>),
    formats: spread(sheet.formats, data.formats as Record<number, string>),
    borders: spread(sheet.borders, data.borders as Record<number, Border>),
  });
  const [old, current] = [looks(before), looks(now)];
  const changes = new Map<string, StyleChange>();
  const addresses = new Set(
    [old, current].flatMap(({ styles, formats, borders }) => [
      ...styles.keys(),
      ...formats.keys(),
      ...borders.keys(),
    ]),
  );
  for (const address of addresses) {
    const { row, column } = readArea(address) as { row: number; column: number };
    const content = (now.sheet.cells as Record<string, string | undefined>)[address];
    const isNumber = content !== undefined && typeof literal(content) === 'number';
    const style = styleChange(
      old.styles.get(address) ?? {},
      current.styles.get(address) ?? {},
      isNumber ? 'right' : 'left',
    );
    const [wasFormat, isFormat] = [old.formats.get(address), current.formats.get(address)];
    const [wasEdges, isEdges] = [
      edgesOf(old.borders.get(address)),
      edgesOf(current.borders.get(address)),
    ];
    const change = {
      ...style,
      ...(wasFormat !== isFormat && { format: isFormat }),
      ...(!sameEdges(wasEdges, isEdges) && { edges: isEdges }),
    };
    if (Object.keys(change).length > 0) changes.set(placeAddress({ row, column }), change);
  }
  return changes;
}
