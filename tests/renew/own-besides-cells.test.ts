import { expect, it } from 'vitest';
import { Package } from '../../src/ooxml/package';
import { descendants } from '../../src/ooxml/read-xml';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { cellAddress, readArea } from '../../src/plan/addresses';
import { BookCells, type CellPlace } from '../../src/plan/book-snapshot';
import { openTraced } from '../../src/ooxml/open-book';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { ownDrawings, placeDrawings } from '../../src/renew/own-drawings';
import { ownNotes, withNotes } from '../../src/renew/own-notes';
import { ownThreads } from '../../src/renew/own-threads';
import { renew } from '../../src/renew/renew';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { lintXlsx } from '../tools/lint-xlsx';
import { schemaFaults } from '../tools/schema';

const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' });
const plain = writeXlsx(plan, () => 0);
const sheets = new Map(plan.sheets.map(({ name }) => [name, name]));
const openParts = (bytes: Uint8Array) => {
  const file = Package.open(bytes);
  return { file, book: readWorkbookParts(file) };
};
const cellOf = (bytes: Uint8Array, path: string): CellPlace => {
  const place = readBook(new BookCells(openTraced(bytes))).places.get(path);
  if (!place) throw new Error(`no cell for ${path}`);
  const { sheet, row, column } = place;
  return { sheet, row, column };
};

const IMAGE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/image';
const LINK = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink';
const PLACE = 'https://farm.example/tunnel?at=1&north=2';
const corner = (name: string, column: number, row: number): string =>
  `<xdr:${name}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${name}>`;
/** A picture over three rows. */
const picture = ({ row, column }: CellPlace): string =>
  `<xdr:twoCellAnchor xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">${corner('from', column, row)}${corner('to', column + 1, row + 3)}<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="2" name="Tunnel"><a:hlinkClick r:id="rId4"/></xdr:cNvPr><xdr:cNvPicPr/></xdr:nvPicPr><xdr:blipFill><a:blip r:embed="rId9"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill><xdr:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="9525" cy="9525"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:twoCellAnchor>`;

const THREADS = 'http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments';
const PERSON = '{2F9C3A10-5B1E-4D0A-9A57-0C1D2E3F4A5B}';
const FIRST = '{7A1B2C3D-0001-4E5F-8A9B-0C1D2E3F4A5B}';
const ANSWER = '{7A1B2C3D-0002-4E5F-8A9B-0C1D2E3F4A5B}';

/** What somebody asks on a cell and somebody answers, as files hold it beside the note that stands for it. */
function withConversation(file: Package, sheet: string, ref: string): void {
  const said = (id: string, text: string, more = ''): string =>
    `<threadedComment ref="${ref}" dT="2026-04-01T08:00:00.00" personId="${PERSON}" id="${id}"${more}><text>${text}</text></threadedComment>`;
  const part = 'xl/threadedComments/threadedComment4.xml';
  file.add(
    part,
    'application/vnd.ms-excel.threadedcomments+xml',
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<ThreadedComments xmlns="${THREADS}">${said(FIRST, 'Who mended it?')}${said(ANSWER, 'I did &amp; it holds', ` parentId="${FIRST}"`)}</ThreadedComments>`,
  );
  file.relate(
    sheet,
    'http://schemas.microsoft.com/office/2017/10/relationships/threadedComment',
    part,
  );
  file.add(
    'xl/persons/person.xml',
    'application/vnd.ms-excel.person+xml',
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<personList xmlns="${THREADS}"><person displayName="The grower" id="${PERSON}" userId="grower" providerId="None"/></personList>`,
  );
  file.relate(
    readWorkbookParts(file).part,
    'http://schemas.microsoft.com/office/2017/10/relationships/person',
    'xl/persons/person.xml',
  );
  // The note carries the mark of its conversation.
  const comments = file.related(sheet, 'comments')?.target ?? '';
  const author = descendants(file.root(comments), 'author').findIndex(
    ({ text }) => text === `tc=${FIRST}`,
  );
  file.replace(
    comments,
    file
      .text(comments)
      .replace(
        '<comments ',
        '<comments xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" mc:Ignorable="xr" xmlns:xr="http://schemas.microsoft.com/office/spreadsheetml/2014/revision" ',
      )
      .replace(` authorId="${author}"`, ` authorId="${author}" xr:uid="${FIRST}"`),
  );
}

/** The plan with notes, a conversation, a picture that leads out of the file, and a chart that somebody put onto its sheets. */
function livedInBook(): Uint8Array {
  const noteAt = (path: string, text: string, author = 'The grower') => ({
    at: cellOf(plain, path),
    to: cellOf(plain, path),
    text,
    author,
  });
  const noted = withNotes(plan, [
    noteAt('beds[1].name', 'Leaks at the north end'),
    noteAt('site.altitude', 'From the map'),
    noteAt('tanks[1].volume', '[Threaded comment] Who mended it?', `tc=${FIRST}`),
  ]);
  const tanks = plan.names.find(({ name }) => name === 'Tanks_volume');
  if (!tanks) throw new Error('no volumes');
  const own = {
    kind: 'column' as const,
    title: 'Volumes as I see them',
    place: { row: 2, column: 1, rows: 8, columns: 4 },
    categories: { sheet: tanks.sheet, area: { ...tanks.area, column: 0, columns: 1, rows: 2 } },
    series: [{ name: 'Volume', sheet: tanks.sheet, area: { ...tanks.area, rows: 2 } }],
  };
  const bytes = writeXlsx(
    {
      ...noted,
      sheets: noted.sheets.map((sheet) =>
        sheet.name === 'Money' ? { ...sheet, charts: [...sheet.charts, own] } : sheet,
      ),
    },
    () => 0,
  );
  const { file, book } = openParts(bytes);
  file.add('xl/media/image7.png', undefined, 'a picture');
  file.knowEnding('png', 'image/png');
  const tank = cellOf(plain, 'tanks[1].volume');
  const tanksPart = book.sheets.find(({ name }) => name === tank.sheet)?.part ?? '';
  withConversation(file, tanksPart, cellAddress(tank.row, tank.column));
  const at = cellOf(plain, 'beds[1].name');
  placeDrawings(file, book.sheets, [
    {
      drawing: {
        what: 'A picture',
        at,
        xml: picture(at),
        links: [
          { id: 'rId9', type: IMAGE, target: 'xl/media/image7.png', external: false },
          { id: 'rId4', type: LINK, target: PLACE, external: true },
        ],
        charts: [],
      },
      to: at,
    },
  ]);
  return file.bytes();
}

it('notes, conversations, pictures and charts of one’s own come along to where their cells stand', () => {
  const lived = livedInBook();
  let bytes = lived;
  for (const changes of few(1, [{ beds: 6, tanks: 4 }, {}])) {
    const renewed = renew(bytes, { changes });
    expect(renewed.losses).toEqual([]);
    bytes = renewed.bytes;
  }
  expect(schemaFaults(bytes)).toBe('');
  // Its formulas are computed when the file is opened, and a chart that was re-pointed names sheets without quotes.
  const known = /without the value it gave$|draws from Tanks!\$[AT]\$6:\$[AT]\$7, which/;
  expect(lintXlsx(bytes).filter((one) => !known.test(one))).toEqual([]);
  const parts = openParts(bytes);

  const notes = ownNotes(parts, sheets, plan);
  expect(notes.map(({ text, author }) => `${text.split('\n')[0]}: ${author}`).sort()).toEqual([
    'From the map: The grower',
    'Leaks at the north end: The grower',
    `[Threaded comment] Who mended it?: tc=${FIRST}`,
  ]);
  for (const { at, text } of notes) {
    const path = text.startsWith('Leaks')
      ? 'beds[1].name'
      : text.startsWith('From')
        ? 'site.altitude'
        : 'tanks[1].volume';
    expect(at).toEqual(cellOf(bytes, path));
  }

  // The conversation has both voices, on the cell and under the marks that the note has; who spoke is still known.
  const threads = ownThreads(parts, sheets);
  const tank = cellOf(bytes, 'tanks[1].volume');
  expect(threads.map(({ at }) => at)).toEqual([tank]);
  const ref = ` ref="${cellAddress(tank.row, tank.column)}"`;
  const [question, answer, ...others] = threads[0]?.said ?? [];
  expect(others).toEqual([]);
  expect(question).toMatch(new RegExp(`${ref} .*id="${FIRST}".*Who mended it\\?`));
  expect(answer).toMatch(new RegExp(`${ref} .*parentId="${FIRST}".*I did &amp; it holds`));
  expect(threads[0]?.marks).toEqual(new Map([[`tc=${FIRST}`, FIRST]]));
  const persons = parts.file.related(parts.book.part, 'person')?.target ?? '';
  expect(parts.file.text(persons)).toContain(`displayName="The grower" id="${PERSON}"`);

  const drawings = ownDrawings(parts, sheets, plan);
  expect(drawings.map(({ what, at }) => [what, at.sheet])).toEqual(
    expect.arrayContaining([
      ['A picture or shape', 'Beds'],
      ['The chart "Volumes as I see them" of your own', 'Money'],
    ]),
  );
  expect(drawings).toHaveLength(2);
  const [image] = drawings.flatMap(({ links }) => links.filter(({ type }) => type === IMAGE));
  expect(parts.file.text(image?.target ?? '')).toBe('a picture');
  const out = drawings.flatMap(({ links }) => links.filter(({ external }) => external));
  expect(out.map(({ type, target }) => [type, target])).toEqual([[LINK, PLACE]]);
  const [chart = ''] = drawings.flatMap(({ charts }) => charts);
  const [categories = ''] = descendants(parts.file.root(chart), 'f').map(({ text }) => text);
  const { row } = cellOf(bytes, 'tanks[0].name');
  expect(readArea(categories.replace(/^.*!/, '').replaceAll('$', ''))?.row).toBe(row);
  // The plan's own pictures are there once.
  const money = parts.book.sheets.find(({ name }) => name === 'Money')?.part ?? '';
  const drawing = parts.file.related(money, 'drawing')?.target ?? '';
  expect(
    parts.file.relationships(drawing).filter(({ type }) => type.endsWith('/chart')),
  ).toHaveLength(2);
});

it('a note on a cell that the newer plan does not have is named before anything is done', () => {
  const at = cellOf(plain, 'beds[1].name');
  const far = { ...at, row: at.row + 2000 };
  const noted = withNotes(plan, [{ at: far, to: far, text: 'Far away', author: 'The grower' }]);
  const { losses } = renew(
    writeXlsx(noted, () => 0),
    { changes: { beds: 5 } },
  );
  expect(losses.map(({ where, says }) => `${where}: ${says}`)).toEqual([
    expect.stringMatching(/^Beds!A\d+: The note "Far away" stays behind/),
  ]);
});
