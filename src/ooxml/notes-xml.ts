import { cellAddress } from '../plan/addresses';
import type { SheetModel } from '../plan/workbook-model';
import { element, runText, textElement, xmlPart } from './write-xml';
import { SPREADSHEET } from './namespaces';

interface Note {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  readonly author: string;
}

const PLANS_AUTHOR = 'Gillbed';

export const notesOf = (sheet: SheetModel): Note[] =>
  sheet.rows.flatMap((row, r) =>
    row.flatMap((cell, c) =>
      cell?.note
        ? [{ row: r, column: c, text: cell.note, author: cell.noteBy ?? PLANS_AUTHOR }]
        : [],
    ),
  );

/** The texts of a sheet's notes. */
export function notesXml(notes: readonly Note[]): string {
  const authors = [...new Set(notes.map(({ author }) => author))];
  return xmlPart(
    element('comments', { xmlns: SPREADSHEET }, [
      element(
        'authors',
        {},
        authors.map((author) => textElement('author', author)),
      ),
      element(
        'commentList',
        {},
        notes.map(({ row, column, text, author }) =>
          element(
            'comment',
            { ref: cellAddress(row, column), authorId: authors.indexOf(author) },
            element('text', {}, element('r', {}, runText(text))),
          ),
        ),
      ),
    ]),
  );
}

const WIDTH = 210;
const LINE = 14;
const LETTERS_A_LINE = 38;

/** High enough for its text: a note that is cut off is no note. */
function heightOf(text: string): number {
  const lines = text
    .split('\n')
    .map((part) => Math.max(1, Math.ceil(part.length / LETTERS_A_LINE)))
    .reduce((sum, count) => sum + count, 0);
  return (lines + 1) * LINE;
}

const POINTS_A_ROW = 15;
const POINTS_A_COLUMN = 60;

function shape({ row, column, text }: Note, id: number): string {
  const height = heightOf(text);
  const anchor = [
    column + 1,
    12,
    Math.max(0, row - 1),
    4,
    column + 1 + Math.ceil(WIDTH / POINTS_A_COLUMN),
    12,
    Math.max(0, row - 1) + Math.ceil(height / POINTS_A_ROW),
    4,
  ];
  const place = `position:absolute;margin-left:80pt;margin-top:5pt;width:${WIDTH}pt;height:${height}pt;z-index:1;visibility:hidden`;
  return [
    `<v:shape id="_x0000_s${id}" type="#_x0000_t202" style="${place}" fillcolor="#fffbe8" strokecolor="#8a6a10" o:insetmode="auto">`,
    '<v:fill color2="#fffbe8"/><v:shadow on="t" color="#9fb0b8" obscured="t"/><v:path o:connecttype="none"/>',
    '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>',
    `<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>${anchor.join(', ')}</x:Anchor>`,
    `<x:AutoFill>False</x:AutoFill><x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`,
  ].join('');
}

/** Where the notes of a sheet (counted from 1) stand and how large they are. */
export const noteShapesXml = (notes: readonly Note[], sheetNumber: number): string =>
  [
    '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">',
    `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="${sheetNumber}"/></o:shapelayout>`,
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">',
    '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>',
    ...notes.map((note, i) => shape(note, sheetNumber * 1024 + i + 1)),
    '</xml>',
  ].join('');
