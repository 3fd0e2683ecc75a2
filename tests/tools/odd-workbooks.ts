import { strToU8, zipSync } from 'fflate';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const STRICT = 'http://purl.oclc.org/ooxml';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const MC = 'http://schemas.openxmlformats.org/markup-compatibility/2006';

type Parts = Readonly<Record<string, string>>;
/** A relationship: its id, the kind of part (or a whole type), its target. */
type Link = readonly [id: string, kind: string, target: string, mode?: 'External'];

const relations = (links: readonly Link[]): string =>
  `<Relationships xmlns="${RELATIONS}">${links
    .map(([id, kind, target, mode]) => {
      const type = kind.includes(':') ? kind : `${OFFICE}/${kind}`;
      return `<Relationship Id="${id}" Type="${type}" Target="${target}"${mode ? ` TargetMode="${mode}"` : ''}/>`;
    })
    .join('')}</Relationships>`;

interface Made {
  /** What stands in `sheetData` of the first sheet, "Data". */
  readonly rows?: string;
  readonly beforeRows?: string;
  readonly behindRows?: string;
  readonly sheetLinks?: readonly Link[];
  readonly bookStart?: string;
  readonly bookEnd?: string;
  /** The entries of all sheets; the first two lead to parts that are there. */
  readonly sheets?: string;
  readonly bookLinks?: readonly Link[];
  readonly texts?: string;
  readonly styles?: string;
  /** Content types by part. */
  readonly types?: Parts;
  readonly parts?: Parts;
}

const ROWS =
  '<row r="1"><c r="A1" t="inlineStr"><is><t>Week</t></is></c><c r="B1" t="inlineStr"><is><t>Fish</t></is></c></row><row r="2"><c r="A2"><v>1</v></c><c r="B2"><v>120</v></c></row><row r="3"><c r="A3"><v>2</v></c><c r="B3"><v>118</v></c><c r="C3"><f>B2-B3</f><v>2</v></c></row><row r="5"><c r="B5"><f>SUM(B2:B3)</f><v>238</v></c></row>';

const STYLES = `<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="14" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>`;

/** The parts of a workbook of two sheets, "Data" and "Sums", which reads the first. */
function partsOf(made: Made = {}): Record<string, string> {
  const { rows = ROWS, beforeRows = '', behindRows = '', styles = STYLES } = made;
  const texts: Parts = made.texts === undefined ? {} : { 'xl/sharedStrings.xml': made.texts };
  const types: Parts = {
    'xl/workbook.xml': `${TYPE}.sheet.main+xml`,
    'xl/worksheets/sheet1.xml': `${TYPE}.worksheet+xml`,
    'xl/worksheets/sheet2.xml': `${TYPE}.worksheet+xml`,
    'xl/styles.xml': `${TYPE}.styles+xml`,
    ...(made.texts !== undefined && { 'xl/sharedStrings.xml': `${TYPE}.sharedStrings+xml` }),
    ...made.types,
  };
  const sheets =
    made.sheets ??
    '<sheet name="Data" sheetId="1" r:id="rId1"/><sheet name="Sums" sheetId="2" r:id="rId2"/>';
  return {
    '[Content_Types].xml': `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="bin" ContentType="application/octet-stream"/>${Object.entries(
      types,
    )
      .map(([part, type]) => `<Override PartName="/${part}" ContentType="${type}"/>`)
      .join('')}</Types>`,
    '_rels/.rels': relations([['rId1', 'officeDocument', 'xl/workbook.xml']]),
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}">${made.bookStart ?? ''}<sheets>${sheets}</sheets>${made.bookEnd ?? ''}</workbook>`,
    'xl/_rels/workbook.xml.rels': relations([
      ['rId1', 'worksheet', 'worksheets/sheet1.xml'],
      ['rId2', 'worksheet', 'worksheets/sheet2.xml'],
      ['rId3', 'styles', 'styles.xml'],
      ...(made.texts === undefined ? [] : [['rId4', 'sharedStrings', 'sharedStrings.xml'] as Link]),
      ...(made.bookLinks ?? []),
    ]),
    'xl/styles.xml': styles,
    ...texts,
    'xl/worksheets/sheet1.xml': `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${beforeRows}<sheetData>${rows}</sheetData>${behindRows}</worksheet>`,
    'xl/worksheets/sheet2.xml': `<worksheet xmlns="${MAIN}"><sheetData><row r="1"><c r="A1"><f>SUM(Data!B2:B3)</f><v>238</v></c><c r="B1"><v>7</v></c></row></sheetData></worksheet>`,
    ...(made.sheetLinks && { 'xl/worksheets/_rels/sheet1.xml.rels': relations(made.sheetLinks) }),
    ...made.parts,
  };
}

const zipped = (parts: Parts, level: 0 | 6 = 6): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strToU8(xml)])), {
    level,
  });

const book = (made?: Made): Uint8Array => zipped(partsOf(made));
const cells = (row: string, made: Made = {}): Uint8Array =>
  book({ ...made, rows: `<row r="1">${row}</row>` });

/** All parts with other names and texts. */
function changed(
  made: Made,
  change: (name: string, xml: string) => readonly [name: string, xml: string],
): Uint8Array {
  return zipped(
    Object.fromEntries(Object.entries(partsOf(made)).map(([name, xml]) => change(name, xml))),
  );
}

const inPart = (part: string, change: (xml: string) => string, made: Made = {}): Uint8Array =>
  changed(made, (name, xml) => [name, name === part ? change(xml) : xml]);

const SHEET = 'xl/worksheets/sheet1.xml';
const BOOK = 'xl/workbook.xml';
const STYLE_PART = 'xl/styles.xml';

function inBytes(parts: Parts, part: string, encode: (xml: string) => Uint8Array): Uint8Array {
  return zipSync(
    Object.fromEntries(
      Object.entries(parts).map(([name, xml]) => [
        name,
        name === part ? encode(xml) : strToU8(xml),
      ]),
    ),
  );
}

const utf16 =
  (bigEndian: boolean) =>
  (xml: string): Uint8Array => {
    const text = `\uFEFF${xml}`;
    const bytes = new Uint8Array(text.length * 2);
    const view = new DataView(bytes.buffer);
    for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !bigEndian);
    return bytes;
  };

function crcOf(bytes: Uint8Array): number {
  let crc = -1;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc >>> 0;
}

interface ZipForm {
  /** Sizes follow each part instead of standing in front of it. */
  readonly descriptors?: boolean;
  /** Sizes and places in fields of eight bytes. */
  readonly large?: boolean;
  readonly front?: Uint8Array;
  readonly comment?: string;
  /** Folders as entries of their own. */
  readonly folders?: boolean;
}

const bytesOf = (
  ...numbers: readonly (readonly [value: number, width: 2 | 4 | 8])[]
): Uint8Array => {
  const bytes = new Uint8Array(numbers.reduce((sum, [, width]) => sum + width, 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  for (const [value, width] of numbers) {
    if (width === 2) view.setUint16(at, value, true);
    else if (width === 4) view.setUint32(at, value, true);
    else view.setBigUint64(at, BigInt(value), true);
    at += width;
  }
  return bytes;
};

const joined = (pieces: readonly Uint8Array[]): Uint8Array => {
  const out = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
};

/** A zip file byte by byte (APPNOTE 6.3.10), not packed, in a form that the library does not write. */
function zipInForm(
  entries: readonly (readonly [name: string, text: string])[],
  {
    descriptors = false,
    large = false,
    front = new Uint8Array(),
    comment = '',
    folders = false,
  }: ZipForm,
): Uint8Array {
  const all: (readonly [string, string])[] = folders
    ? [['xl/', ''], ['xl/worksheets/', ''], ...entries]
    : [...entries];
  const pieces: Uint8Array[] = [front];
  let length = front.length;
  const put = (piece: Uint8Array): void => {
    pieces.push(piece);
    length += piece.length;
  };
  const flags = 0x800 | (descriptors ? 8 : 0);
  const directory = all.map(([name, text]) => {
    const [title, data] = [strToU8(name), strToU8(text)];
    const crc = crcOf(data);
    const place = length;
    const size = large ? 0xffffffff : data.length;
    const extra = large
      ? bytesOf([1, 2], [16, 2], [data.length, 8], [data.length, 8])
      : new Uint8Array();
    const [c, s] = descriptors ? [0, 0] : [crc, size];
    put(
      bytesOf(
        ...([
          [0x04034b50, 4],
          [large ? 45 : 20, 2],
          [flags, 2],
          [0, 2],
          [0, 4],
        ] as const),
        ...([
          [c, 4],
          [s, 4],
          [s, 4],
          [title.length, 2],
          [extra.length, 2],
        ] as const),
      ),
    );
    [title, extra, data].forEach(put);
    if (descriptors) put(bytesOf([0x08074b50, 4], [crc, 4], [data.length, 4], [data.length, 4]));
    const wide = large
      ? bytesOf([1, 2], [24, 2], [data.length, 8], [data.length, 8], [place, 8])
      : new Uint8Array();
    return joined([
      bytesOf(
        ...([
          [0x02014b50, 4],
          [45, 2],
          [large ? 45 : 20, 2],
          [flags, 2],
          [0, 2],
          [0, 4],
        ] as const),
        ...([
          [crc, 4],
          [size, 4],
          [size, 4],
          [title.length, 2],
          [wide.length, 2],
        ] as const),
        ...([
          [0, 2],
          [0, 2],
          [0, 2],
          [0, 4],
          [large ? 0xffffffff : place, 4],
        ] as const),
      ),
      title,
      wide,
    ]);
  });
  const start = length;
  directory.forEach(put);
  const size = length - start;
  const count = all.length;
  if (large) {
    const end = length;
    put(
      bytesOf(
        ...([
          [0x06064b50, 4],
          [44, 8],
          [45, 2],
          [45, 2],
          [0, 4],
          [0, 4],
        ] as const),
        ...([
          [count, 8],
          [count, 8],
          [size, 8],
          [start, 8],
        ] as const),
      ),
    );
    put(bytesOf([0x07064b50, 4], [0, 4], [end, 8], [1, 4]));
  }
  const note = strToU8(comment);
  const [n, s, at] = large ? [0xffff, 0xffffffff, 0xffffffff] : [count, size, start];
  put(bytesOf([0x06054b50, 4], [0, 4], [n, 2], [n, 2], [s, 4], [at, 4], [note.length, 2]));
  put(note);
  return joined(pieces);
}

const entries = (made?: Made): (readonly [string, string])[] => Object.entries(partsOf(made));

export interface OddWorkbook {
  readonly what: string;
  readonly bytes: Uint8Array;
}

const packings: Readonly<Record<string, () => Uint8Array>> = {
  'parts that are not packed': () => zipped(partsOf(), 0),
  'sizes that follow their parts': () => zipInForm(entries(), { descriptors: true }),
  'sizes of eight bytes': () => zipInForm(entries(), { large: true }),
  'sizes of eight bytes that follow their parts': () =>
    zipInForm(entries(), { large: true, descriptors: true }),
  'folders as entries': () => zipInForm(entries(), { folders: true }),
  'a comment of the packing': () => zipInForm(entries(), { comment: 'from the harbour PK' }),
  'a part that is there twice': () =>
    zipInForm(
      [...entries(), [SHEET, partsOf({ rows: ROWS.replace('120', '121') })[SHEET] ?? '']],
      {},
    ),
  'a part without a name': () => zipInForm([...entries(), ['', '']], {}),
  'parts of other programs': () =>
    zipInForm(
      [
        ...entries(),
        ['__MACOSX/._workbook.xml', '\0\x05'],
        ['.DS_Store', '\0\0'],
        ['[trash]/0000.dat', ''],
      ],
      {},
    ),
  'a last part first': () => zipInForm([...entries()].reverse(), {}),
};

const names: Readonly<Record<string, () => Uint8Array>> = {
  'a name with a blank, written as percent': () =>
    changed({}, (name, xml) => [
      name.replace('sheet1.xml', 'sheet 1.xml'),
      xml.replaceAll('sheet1.xml', 'sheet%201.xml'),
    ]),
  'a name that is written as percent itself': () =>
    changed({}, (name, xml) => [
      name.replace('sheet1.xml', 'sheet%201.xml'),
      xml.replaceAll('sheet1.xml', 'sheet%201.xml'),
    ]),
  'a name in another script': () =>
    changed({}, (name, xml) => [
      name.replace('sheet1.xml', 'лист1.xml'),
      xml.replaceAll('sheet1.xml', 'лист1.xml'),
    ]),
  'all names in capitals': () => changed({}, (name, xml) => [name.toUpperCase(), xml]),
  'all names in small letters': () =>
    changed({ texts: `<sst xmlns="${MAIN}"/>` }, (name, xml) => [name.toLowerCase(), xml]),
  'targets from the root': () =>
    inPart('xl/_rels/workbook.xml.rels', (xml) => xml.replace(/Target="/g, 'Target="/xl/')),
  'targets with dots': () =>
    inPart('xl/_rels/workbook.xml.rels', (xml) => xml.replace(/Target="/g, 'Target="./../xl/./')),
  'parts in the root': () =>
    changed({}, (name, xml) => [
      name.replace(/^xl\//, ''),
      xml.replaceAll('"/xl/', '"/').replaceAll('Target="xl/', 'Target="'),
    ]),
  'a workbook of another name': () =>
    changed({}, (name, xml) => [
      name.replace('workbook.xml', 'book2.xml'),
      xml.replaceAll('workbook.xml', 'book2.xml'),
    ]),
  'a workbook type by ending': () =>
    inPart('[Content_Types].xml', (xml) =>
      xml
        .replace('ContentType="application/xml"', `ContentType="${TYPE}.sheet.main+xml"`)
        .replace(/<Override PartName="\/xl\/workbook.xml"[^>]*>/, ''),
    ),
  'a link to a part that is not there': () =>
    book({ bookLinks: [['rId9', 'theme', 'theme/theme1.xml']] }),
  'a link of the workbook to itself': () =>
    book({ bookLinks: [['rId9', 'officeDocument', 'workbook.xml']] }),
  'no styles and no link to them': () =>
    changed({}, (name, xml) =>
      name === STYLE_PART
        ? ['xl/other.bin', '']
        : [name, xml.replace(/<Relationship Id="rId3"[^>]*>/, '')],
    ),
};

const NAMESPACES: readonly (readonly [string, string])[] = [
  [MAIN, `${STRICT}/spreadsheetml/main`],
  [OFFICE, `${STRICT}/officeDocument/relationships`],
];

const writings: Readonly<Record<string, () => Uint8Array>> = {
  'strict names': () =>
    changed({}, (name, xml) => [
      name,
      NAMESPACES.reduce((text, [was, is]) => text.replaceAll(was, is), xml),
    ]),
  'UTF-16 with the high byte first': () => inBytes(partsOf(), SHEET, utf16(true)),
  'relationships in UTF-16': () => inBytes(partsOf(), 'xl/_rels/workbook.xml.rels', utf16(false)),
  'content types in UTF-16': () => inBytes(partsOf(), '[Content_Types].xml', utf16(false)),
  'styles in UTF-16': () => inBytes(partsOf(), STYLE_PART, utf16(false)),
  'one byte a letter': () =>
    inBytes(partsOf({ rows: ROWS.replace('Week', 'Wöche') }), SHEET, (xml) =>
      Uint8Array.from(`<?xml version="1.0" encoding="ISO-8859-1"?>${xml}`, (letter) =>
        letter.charCodeAt(0),
      ),
    ),
  'a mark of byte order and a first line': () =>
    inPart(
      SHEET,
      (xml) => `\uFEFF<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\r\n${xml}`,
    ),
  'lines between all elements': () =>
    changed({}, (name, xml) => [name, xml.replaceAll('><', '>\r\n  <')]),
  'values with blanks around': () =>
    cells('<c r="A1"><v>\n 12 \n</v></c><c r="B1"><f>\n A1*2\n</f><v> 24 </v></c>'),
  'comments and instructions inside': () =>
    inPart(SHEET, (xml) =>
      xml
        .replace('<sheetData>', '<!-- cells --><sheetData><?look here?>')
        .replace('<v>120</v>', '<v>12<!-- of -->0</v>')
        .replace('</worksheet>', '</worksheet><!-- the end -->'),
    ),
  'text as it stands': () =>
    cells(
      '<c r="A1" t="inlineStr"><is><t><![CDATA[a<b & "c"]]></t></is></c><c r="B1"><v><![CDATA[5]]></v></c>',
    ),
  'single quotes': () => inPart(SHEET, (xml) => xml.replaceAll('"', "'")),
  'blanks in tags': () =>
    inPart(SHEET, (xml) => xml.replace(/="([^"]*)"/g, ' = "$1" ').replace(/\/>/g, ' \n/>')),
  'prefixes on every name': () =>
    changed({}, (name, xml) =>
      name.endsWith('.rels') || name.startsWith('[')
        ? [name, xml.replace(/<(\/?)(?=\w)/g, '<$1p:').replace('xmlns="', 'xmlns:p="')]
        : [name, xml.replace(/<(\/?)(?=\w)/g, '<$1x:').replace('xmlns="', 'xmlns:x="')],
    ),
  'a name space on every element': () =>
    inPart(SHEET, (xml) => xml.replace(/<(row|c|v|f|is|t)(?=[ >])/g, `<$1 xmlns="${MAIN}"`)),
  'alternatives for younger programs': () =>
    inPart(BOOK, (xml) =>
      xml
        .replace(
          '<workbook ',
          `<workbook xmlns:mc="${MC}" mc:Ignorable="x15" xmlns:x15="urn:younger" `,
        )
        .replace(
          '<sheets>',
          '<mc:AlternateContent><mc:Choice Requires="x15"><x15:absPath url="c:\\x"/></mc:Choice></mc:AlternateContent><sheets>',
        ),
    ),
  'letters as numbers': () =>
    cells('<c r="A1" t="inlineStr"><is><t>&#x1F41F;&#10;&#65;</t></is></c>'),
};

const texts = (items: string): Made => ({ texts: `<sst xmlns="${MAIN}">${items}</sst>` });

const values: Readonly<Record<string, () => Uint8Array>> = {
  'cells without addresses': () =>
    book({
      rows: '<row><c><v>1</v></c><c><v>2</v></c></row><row><c/><c><f>A1+B1</f><v>3</v></c></row>',
    }),
  'rows out of order': () =>
    book({ rows: ROWS.replace(/(<row r="2">.*?<\/row>)(<row r="3">.*?<\/row>)/, '$2$1') }),
  'rows that come twice': () => book({ rows: `${ROWS}<row r="2"><c r="D2"><v>9</v></c></row>` }),
  'cells that come twice': () =>
    cells('<c r="A1"><v>1</v></c><c r="A1"><v>2</v></c><c r="B1"><f>A1</f><v>2</v></c>'),
  'cells out of order': () =>
    cells('<c r="C1"><v>3</v></c><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c>'),
  'addresses in small letters': () =>
    cells('<c r="a1"><v>1</v></c><c r="b1"><f>a1*2</f><v>2</v></c>'),
  'a cell in another row': () => cells('<c r="A1"><v>1</v></c><c r="B7"><v>2</v></c>'),
  'numbers of rows that are none': () =>
    book({ rows: '<row r="x"><c r="A1"><v>1</v></c></row><row r="0"><c><v>2</v></c></row>' }),
  'a last cell': () =>
    book({ rows: `${ROWS}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>` }),
  'errors of all kinds': () =>
    cells(
      [
        '#NULL!',
        '#DIV/0!',
        '#VALUE!',
        '#REF!',
        '#NAME?',
        '#NUM!',
        '#N/A',
        '#GETTING_DATA',
        '#SPILL!',
        '#CALC!',
        '#FIELD!',
        '#BLOCKED!',
        '#CONNECT!',
        'odd',
        '',
      ]
        .map((code, i) => `<c r="${String.fromCharCode(65 + i)}1" t="e"><v>${code}</v></c>`)
        .join(''),
    ),
  'errors of formulas': () =>
    cells(
      '<c r="A1" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="B1" t="e"><f>#REF!+1</f><v>#REF!</v></c><c r="C1" t="e"><f>SORT(A1:A9)</f><v>#SPILL!</v></c><c r="D1" t="e"><f>NOTHING()</f><v>#NAME?</v></c>',
    ),
  'truth in words': () =>
    cells(
      '<c r="A1" t="b"><v>true</v></c><c r="B1" t="b"><v>0</v></c><c r="C1" t="b"><v/></c><c r="D1" t="b"><f>A1=B1</f><v>0</v></c>',
    ),
  'types that are none': () =>
    cells(
      '<c r="A1" t="x"><v>1</v></c><c r="B1" t=""><v>2</v></c><c r="C1" t="n"><v>three</v></c><c r="D1" t="d"><v>today</v></c>',
    ),
  'numbers of all kinds': () =>
    cells(
      [
        '-0',
        '1E+3',
        '5e-324',
        '1.7976931348623157E308',
        '0.30000000000000004',
        '1e400',
        'NaN',
        'INF',
        '0x10',
        '1,5',
        '+7',
        '.5',
        '9007199254740993',
        ' ',
      ]
        .map((number, i) => `<c r="${String.fromCharCode(65 + i)}1"><v>${number}</v></c>`)
        .join(''),
    ),
  'days in words': () =>
    cells(
      '<c r="A1" t="d" s="1"><v>2026-02-28</v></c><c r="B1" t="d"><v>2026-02-28T10:30:00.5Z</v></c><c r="C1" t="d"><v>10:30</v></c><c r="D1"><f>A1+1</f><v>46082</v></c>',
    ),
  'days from 1904': () =>
    cells(
      '<c r="A1" s="1"><v>44619</v></c><c r="B1" s="1"><f>A1+1</f><v>44620</v></c><c r="C1"><f>A1*2</f><v>89238</v></c><c r="D1"><f>YEAR(A1)</f><v>2026</v></c><c r="E1" t="d" s="1"><v>2026-02-28</v></c>',
      { bookStart: '<workbookPr date1904="true"/>' },
    ),
  'days before the calendars': () =>
    cells(
      '<c r="A1" s="1"><v>-5</v></c><c r="B1" s="1"><v>0</v></c><c r="C1" s="1"><v>60</v></c><c r="D1" s="1"><v>99999999</v></c>',
    ),
  'texts that look like something else': () =>
    cells(
      [
        '=1+1',
        "'quoted",
        '+5',
        '-',
        '@x',
        '1e5',
        '2026-02-28',
        '1:30',
        '12 %',
        'TRUE',
        '#N/A',
        ' ',
        '$5',
        '007',
        '\t',
      ]
        .map(
          (text, i) =>
            `<c r="${String.fromCharCode(65 + i)}1" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`,
        )
        .join(''),
    ),
  'texts with signs that XML lacks': () =>
    cells(
      '<c r="A1" t="inlineStr"><is><t>a_x000D_b_x005F_x0041_ _xD83D__xDC1F_ _x0000_</t></is></c><c r="B1" t="str"><f>A1&amp;"_x000D_"</f><v>a_x000D_</v></c>',
    ),
  'a text of many runs with how it sounds': () =>
    cells(
      '<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>',
      texts(
        '<si><r><rPr><b/></rPr><t xml:space="preserve">水 </t></r><r><t>温</t></r><rPh sb="0" eb="1"><t>スイ</t></rPh><phoneticPr fontId="0"/></si><si><t/></si>',
      ),
    ),
  'texts that are not there': () =>
    cells(
      '<c r="A1" t="s"><v>7</v></c><c r="B1" t="s"><v/></c><c r="C1" t="s"/><c r="D1" t="s"><v>-1</v></c><c r="E1" t="s"><v>x</v></c>',
      texts('<si><t>a</t></si>'),
    ),
  'no list of texts': () => cells('<c r="A1" t="s"><v>0</v></c><c r="B1"><v>1</v></c>'),
  'a list of texts without texts': () =>
    cells('<c r="A1"><v>1</v></c>', { texts: `<sst xmlns="${MAIN}" count="0" uniqueCount="0"/>` }),
  'texts in cells with and without runs': () =>
    cells(
      '<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><rPr><i/></rPr><t xml:space="preserve"> b</t></r><rPh sb="0" eb="1"><t>x</t></rPh></is></c><c r="B1" t="inlineStr"/><c r="C1" t="inlineStr"><is/></c><c r="D1" t="inlineStr"><v>as a value</v></c><c r="E1" t="str"><v>as of a formula</v></c>',
    ),
  'a text as long as there may be, and longer': () =>
    cells(
      `<c r="A1" t="inlineStr"><is><t>${'a'.repeat(32_767)}</t></is></c><c r="B1" t="inlineStr"><is><t>${'b'.repeat(40_000)}</t></is></c>`,
    ),
  'looks that are not there': () =>
    cells('<c r="A1" s="99"><v>1</v></c><c r="B1" s="-1"><v>2</v></c><c r="C1" s="x"><v>3</v></c>'),
  'marks of values': () =>
    cells('<c r="A1" vm="1" cm="9" ph="1"><v>1</v></c><c r="B1" t="e" vm="2"><v>#VALUE!</v></c>'),
  'cells with extensions': () => cells(`<c r="A1"><v>1</v><extLst><ext uri="{1}"/></extLst></c>`),
  'an empty sheet': () => book({ rows: '' }),
  'no cells at all': () =>
    inPart(SHEET, (xml) => xml.replace(/<sheetData>.*<\/sheetData>/, '<sheetData/>')),
  'no place for cells': () => inPart(SHEET, (xml) => xml.replace(/<sheetData>.*<\/sheetData>/, '')),
};

const f = (address: string, formula: string, value: string, more = ''): string =>
  `<c r="${address}"${more}><f>${formula}</f><v>${value}</v></c>`;

const formulas: Readonly<Record<string, () => Uint8Array>> = {
  'a shared formula whose first cell comes last': () =>
    cells(
      '<c r="A1"><f t="shared" si="0"/><v>2</v></c><c r="B1"><f t="shared" si="0"/><v>2</v></c><c r="C1"><f t="shared" ref="A1:C1" si="0">D1*2</f><v>2</v></c><c r="D1"><v>1</v></c>',
    ),
  'a shared formula over odd cells': () =>
    book({
      rows: '<row r="1"><c r="A1"><f t="shared" ref="A1:B3" si="0">$C1+D$1</f><v>3</v></c><c r="B1"><v>8</v></c><c r="C1"><v>1</v></c><c r="D1"><v>2</v></c></row><row r="3"><c r="A3"><f t="shared" si="0"/><v>2</v></c><c r="B3"><f t="shared" si="0">1+1</f><v>2</v></c></row>',
    }),
  'two shared formulas of one number': () =>
    book({
      rows: '<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">B1</f><v>1</v></c><c r="B1"><v>1</v></c></row><row r="2"><c r="A2"><f t="shared" si="0"/><v>0</v></c></row><row r="3"><c r="A3"><f t="shared" ref="A3:A4" si="0">B1*2</f><v>2</v></c></row><row r="4"><c r="A4"><f t="shared" si="0"/><v>0</v></c></row>',
    }),
  'a shared formula without its first cell, number or area': () =>
    cells(
      '<c r="A1"><f t="shared" si="4"/><v>2</v></c><c r="B1"><f t="shared">A1</f><v>2</v></c><c r="C1"><f t="shared" si="5">A1</f><v>2</v></c>',
    ),
  'a shared formula of all sorts': () =>
    book({
      rows: `<row r="1">${f('A1', 'x', '1').replace('<f>x', '<f t="shared" ref="A1:A2" si="0">SUM(B:B)+SUM(1:1)*0+Sums!$A$1&amp;"B1"')}<c r="B1"><v>1</v></c></row><row r="2"><c r="A2" t="str"><f t="shared" si="0"/><v>239B1</v></c></row>`,
    }),
  'array formulas': () =>
    book({
      rows: '<row r="1"><c r="A1"><f t="array" ref="A1:A3">B1:B3*2</f><v>2</v></c><c r="B1"><v>1</v></c></row><row r="2"><c r="A2"><v>4</v></c><c r="B2"><v>2</v></c></row><row r="3"><c r="A3"><v>6</v></c><c r="B3"><v>3</v></c><c r="C3"><f t="array" ref="C3">SUM(B1:B3*2)</f><v>12</v></c><c r="D3"><f t="array" aca="1" ca="1" ref="">SUM(B1:B3)</f><v>6</v></c></row>',
    }),
  'array formulas over each other': () =>
    cells(
      '<c r="A1"><f t="array" ref="A1:C1">D1:F1</f><v>1</v></c><c r="B1"><f t="array" ref="B1:D1">1</f><v>1</v></c><c r="C1"><v>3</v></c><c r="D1"><v>1</v></c>',
    ),
  'formulas that fill as many cells as they need': () =>
    book({
      rows: '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A3">_xlfn.SEQUENCE(3)</f><v>1</v></c><c r="C1" cm="1"><f t="array" ref="C1">_xlfn._xlws.SORT(_xlfn.UNIQUE(A1:A3),,-1)</f><v>3</v></c><c r="D1"><f>SUM(_xlfn.ANCHORARRAY(A1))</f><v>6</v></c><c r="E1"><f>_xlfn.SINGLE(A1:A3)</f><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3"><v>3</v></c></row>',
      bookLinks: [['rId8', 'sheetMetadata', 'metadata.xml']],
      types: { 'xl/metadata.xml': `${TYPE}.sheetMetadata+xml` },
      parts: {
        'xl/metadata.xml': `<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`,
      },
    }),
  'functions with letters and steps of their own': () =>
    cells(
      `${f('A1', '_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2)(3)', '6')}${f('B1', '_xlfn.LET(_xlpm.a,2,_xlpm.a+1)', '3')}${f('C1', '_xlfn.XLOOKUP(1,A1:B1,A1:B1,"none")', 'none', ' t="str"')}`,
    ),
  'tables of what would be': () =>
    book({
      rows: '<row r="1"><c r="A1"><v>2</v></c><c r="B1"><f>A1*3</f><v>6</v></c></row><row r="2"><c r="A2"><v>5</v></c><c r="B2"><f t="dataTable" ref="B2:B3" dt2D="0" dtr="0" r1="A1"/><v>15</v></c></row><row r="3"><c r="A3"><v>6</v></c><c r="B3"><v>18</v></c></row><row r="5"><c r="C5"><f t="dataTable" ref="C5:D6" dt2D="1" dtr="1" r1="A1" r2="A2"/><v>1</v></c></row>',
    }),
  'a formula with an equals sign': () =>
    cells(
      `${f('A1', '=1+1', '2')}${f('B1', ' A1 ', '2')}<c r="C1"><f/><v>3</v></c><c r="D1"><f t="normal">A1</f><v>2</v></c><c r="E1"><f ca="1">1+2</f></c>`,
    ),
  'references of all sorts': () =>
    book({
      rows: `<row r="1">${f('A1', 'SUM(Data:Sums!B1)', '7')}${f('C1', "'Data'!B2", '4')}${f('D1', 'SUM((B1:B2,B3))', '4')}${f('E1', 'B1:B2 A2:C2', '4')}${f('F1', 'SUM(B:B)+SUM(2:2)', '8')}${f('G1', 'SUM($B1:B$2)', '4')}${f('H1', '[1]Sheet1!$A$1', '4')}${f('I1', "'[2]My sheet'!A1", '4')}${f('J1', 'SUM(B2:XFD1048576)', '4')}</row><row r="2"><c r="B2"><v>4</v></c></row>`,
      bookEnd: '<externalReferences><externalReference r:id="rId7"/></externalReferences>',
      bookLinks: [['rId7', 'externalLink', 'externalLinks/externalLink1.xml']],
      types: { 'xl/externalLinks/externalLink1.xml': `${TYPE}.externalLink+xml` },
      parts: {
        'xl/externalLinks/externalLink1.xml': `<externalLink xmlns="${MAIN}"><externalBook xmlns:r="${OFFICE}" r:id="rId1"><sheetNames><sheetName val="Sheet1"/></sheetNames><sheetDataSet><sheetData sheetId="0"><row r="1"><cell r="A1"><v>4</v></cell></row></sheetData></sheetDataSet></externalBook></externalLink>`,
        'xl/externalLinks/_rels/externalLink1.xml.rels': relations([
          ['rId1', 'externalLinkPath', 'file:///c:/other.xlsx', 'External'],
        ]),
      },
    }),
  'signs of all sorts in formulas': () =>
    cells(
      `${f('A1', '-2^2', '4')}${f('B1', '"a""b"&amp;{"x","y;z"}', 'a"bx', ' t="str"')}${f('C1', '50%%', '0.005')}${f('D1', '1&lt;&gt;2', '1', ' t="b"')}${f('E1', 'IF(TRUE,,1)', '0')}${f('F1', '{1,2;3,4}', '1')}`,
    ),
  'a very long formula': () =>
    cells(f('A1', Array.from({ length: 1500 }, () => 'B1').join('+'), '0')),
  'a formula with many brackets': () =>
    cells(f('A1', `${'('.repeat(400)}1${')'.repeat(400)}`, '1')),
  'a formula that cannot be read': () =>
    cells(
      `${f('A1', '1+*', '1')}${f('B1', 'SUM(', '1')}${f('C1', 'A1:', '1')}${f('D1', '"open', '1')}`,
    ),
  'a circle': () =>
    cells(`${f('A1', 'B1+1', '0')}${f('B1', 'A1+1', '0')}`, {
      bookEnd: '<calcPr iterate="1" iterateCount="5"/>',
    }),
  'tables and their columns': () =>
    book({
      rows: '<row r="1"><c r="A1" t="inlineStr"><is><t>Week</t></is></c><c r="B1" t="inlineStr"><is><t>Fish #1</t></is></c></row><row r="2"><c r="A2"><v>1</v></c><c r="B2"><f>Log[[#This Row],[Week]]*2</f><v>2</v></c><c r="D2"><f>SUM(Log[Fish \'#1])</f><v>2</v></c></row>',
      behindRows: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
      sheetLinks: [['rId1', 'table', '../tables/table1.xml']],
      types: { 'xl/tables/table1.xml': `${TYPE}.table+xml` },
      parts: {
        'xl/tables/table1.xml': `<table xmlns="${MAIN}" id="1" name="Log" displayName="Log" ref="A1:B2"><autoFilter ref="A1:B2"/><tableColumns count="2"><tableColumn id="1" name="Week"/><tableColumn id="2" name="Fish #1"><calculatedColumnFormula>Log[[#This Row],[Week]]*2</calculatedColumnFormula></tableColumn></tableColumns></table>`,
      },
    }),
};

const named = (list: string): Uint8Array =>
  book({ bookEnd: `<definedNames>${list}</definedNames>` });
const sheetsNamed = (first: string, second: string, more: Made = {}): Uint8Array =>
  changed(
    {
      ...more,
      sheets: `<sheet name="${first}" sheetId="1" r:id="rId1"/><sheet name="${second}" sheetId="2" r:id="rId2"/>`,
    },
    (name, xml) => [name, xml.replace('Data!B2:B3', `'${first.replaceAll("'", "''")}'!B2:B3`)],
  );
const oddSheet = (kind: string, root: string, type: string): Uint8Array =>
  book({
    sheets:
      '<sheet name="Data" sheetId="1" r:id="rId1"/><sheet name="Odd" sheetId="3" r:id="rId7"/><sheet name="Sums" sheetId="2" r:id="rId2"/>',
    bookEnd:
      '<definedNames><definedName name="Here" localSheetId="2">Sums!$A$1</definedName></definedNames>',
    bookLinks: [['rId7', kind, 'odd/sheet1.xml']],
    types: { 'xl/odd/sheet1.xml': type },
    parts: { 'xl/odd/sheet1.xml': root },
  });
const MACRO_TYPE = 'application/vnd.ms-excel.macrosheet+xml';
const MACRO_KIND = 'http://schemas.microsoft.com/office/2006/relationships/xlMacrosheet';

const books: Readonly<Record<string, () => Uint8Array>> = {
  'names in many scripts': () =>
    named(
      '<definedName name="水温">Data!$B$2</definedName><definedName name="température_é">Data!$B$3</definedName><definedName name="ปลา">Data!$A$2</definedName><definedName name="á">Data!$A$2</definedName><definedName name="\\b?">Data!$A$3</definedName><definedName name="x">Data!$A$3</definedName>',
    ),
  'names that stand for anything': () =>
    book({
      rows: ROWS.replace(
        '<row r="5">',
        `<row r="4">${f('A4', 'Rate*B2', '2.4')}${f('B4', 'SUM(OFFSET(Start,1,0,2,1))', '238')}${f('C4', 'Text', 'a,b', ' t="str"')}${f('D4', 'SUM(Whole)', '719.4')}${f('E4', 'SUM(Two)', '238')}${f('F4', 'Later', '360')}${f('G4', 'List', '1')}${f('H4', 'Away', '4')}${f('I4', 'Sums!Rate', '0.02')}</row><row r="5">`,
      ),
      bookEnd:
        '<definedNames><definedName name="Rate">0.02</definedName><definedName name="Start">Data!$B$1</definedName><definedName name="Later">Data!$B$2*Times</definedName><definedName name="Times">SUM(1,2)</definedName><definedName name="List">{1,2;3,4}</definedName><definedName name="Gone">#REF!</definedName><definedName name="Empty"/><definedName name="Text">"a,b"</definedName><definedName name="Whole">Data!$A:$B</definedName><definedName name="Two">Data!$A$1,Sums!$A$1</definedName><definedName name="Away">[1]Sheet1!$A$1</definedName><definedName name="Move">Data!B2</definedName><definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">Data!$A$1:$B$3</definedName><definedName name="Run" function="1" vbProcedure="1" hidden="1">NA()</definedName></definedNames>',
    }),
  'names that come twice': () =>
    named(
      '<definedName name="Here">Data!$A$1</definedName><definedName name="HERE">Data!$A$2</definedName><definedName name="Here" localSheetId="0">Data!$A$3</definedName><definedName name="Here" localSheetId="9">Data!$A$3</definedName><definedName name="Here" localSheetId="x">Data!$A$3</definedName>',
    ),
  'sheets with quotes': () => sheetsNamed("Anna's fish", "'Sums'"),
  'sheets with signs': () => sheetsNamed('🐟 &amp; “fish”', 'Sums, 2+2=4; #1 {x} (y) !'),
  'sheets that look like something else': () => sheetsNamed('A1', 'R1C1'),
  'sheets called by numbers': () => sheetsNamed('2026', 'TRUE'),
  'sheets with blanks around': () => sheetsNamed(' Data ', '\u00a0'),
  'sheets with forbidden signs': () => sheetsNamed('a/b[c]:d*e?', 'x\\y'),
  'sheets with long names': () => sheetsNamed('n'.repeat(60), '🐟'.repeat(31)),
  'sheets of one name': () => sheetsNamed('Data', 'Data'),
  'sheets of one name in other capitals': () => sheetsNamed('Data', 'DATA'),
  'a sheet without a name': () => sheetsNamed('Data', ''),
  'one part for two sheets': () =>
    book({
      sheets:
        '<sheet name="Data" sheetId="1" r:id="rId1"/><sheet name="Sums" sheetId="2" r:id="rId1"/>',
    }),
  'sheets that are all hidden': () =>
    book({
      sheets:
        '<sheet name="Data" sheetId="1" state="veryHidden" r:id="rId1"/><sheet name="Sums" sheetId="2" state="hidden" r:id="rId2"/>',
    }),
  'a chart sheet between': () =>
    oddSheet(
      'chartsheet',
      `<chartsheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0"/></sheetViews></chartsheet>`,
      `${TYPE}.chartsheet+xml`,
    ),
  'a dialog sheet between': () =>
    oddSheet('dialogsheet', `<dialogsheet xmlns="${MAIN}"/>`, `${TYPE}.dialogsheet+xml`),
  'a macro sheet between': () =>
    oddSheet(
      MACRO_KIND,
      `<xm:macrosheet xmlns="${MAIN}" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"><sheetData><row r="1"><c r="A1"><f>RETURN(1)</f><v>1</v></c></row></sheetData></xm:macrosheet>`,
      MACRO_TYPE,
    ),
  'chart sheets alone': () =>
    book({
      sheets: '<sheet name="Odd" sheetId="3" r:id="rId7"/>',
      bookLinks: [['rId7', 'chartsheet', 'odd/sheet1.xml']],
      types: { 'xl/odd/sheet1.xml': `${TYPE}.chartsheet+xml` },
      parts: { 'xl/odd/sheet1.xml': `<chartsheet xmlns="${MAIN}"/>` },
    }),
  'dialog sheets alone': () =>
    book({
      sheets: '<sheet name="Odd" sheetId="3" r:id="rId7"/>',
      bookLinks: [['rId7', 'dialogsheet', 'odd/sheet1.xml']],
      types: { 'xl/odd/sheet1.xml': `${TYPE}.dialogsheet+xml` },
      parts: { 'xl/odd/sheet1.xml': `<dialogsheet xmlns="${MAIN}"/>` },
    }),
  'values that are to be computed anew': () =>
    book({ bookEnd: '<calcPr calcId="191029" fullCalcOnLoad="1"/>' }),
  'a protected workbook': () =>
    book({
      bookStart: '<fileSharing readOnlyRecommended="1"/><workbookProtection lockStructure="1"/>',
      behindRows: '<sheetProtection sheet="1" objects="1"/>',
    }),
};

const frame = (beforeRows: string, behindRows = '', more: Made = {}): Uint8Array =>
  book({ beforeRows, behindRows, ...more });
const styled = (cellXfs: string, rest = ''): string =>
  STYLES.replace(/<cellXfs.*<\/cellXfs>/, `<cellXfs>${cellXfs}</cellXfs>${rest}`);

const layouts: Readonly<Record<string, () => Uint8Array>> = {
  'merges of all sorts': () =>
    frame(
      '',
      '<mergeCells count="6"><mergeCell ref="D8:B7"/><mergeCell ref="C8:E9"/><mergeCell ref="F6"/><mergeCell ref=""/><mergeCell/><mergeCell ref="A1048576:XFD1048576"/></mergeCells>',
    ),
  'columns of all sorts': () =>
    frame(
      '<cols><col min="3" max="1" width="9"/><col min="1" max="16384" width="-4"/><col min="2" max="2" width="x" hidden="1"/><col/></cols>',
    ),
  'heights of all sorts': () =>
    book({
      rows: ROWS.replace(
        '<row r="2">',
        '<row r="2" ht="x" hidden="true" customHeight="1" spans="x">',
      ).replace(
        '<row r="3">',
        '<row r="3" ht="-3" s="1" customFormat="1" outlineLevel="9" collapsed="1">',
      ),
    }),
  'views of all sorts': () =>
    frame(
      '<sheetViews><sheetView workbookViewId="0"><pane xSplit="2" ySplit="500000" topLeftCell="C3" state="frozen"/></sheetView><sheetView workbookViewId="7"><pane xSplit="1200" state="split"/></sheetView></sheetViews>',
    ),
  'an extent that is none': () => frame('<dimension ref="x"/>'),
  'a very large extent': () => frame('<dimension ref="A1:XFD1048576"/>'),
  'rules over whole lines': () =>
    frame(
      '',
      '<conditionalFormatting sqref="A:A 1:3 A1:XFD1048576 "><cfRule type="cellIs" operator="greaterThan" priority="1" dxfId="7"><formula>1</formula></cfRule></conditionalFormatting><conditionalFormatting sqref=""><cfRule type="expression" priority="2"/></conditionalFormatting><conditionalFormatting><cfRule type="odd" priority="x"/></conditionalFormatting><dataValidations><dataValidation type="list" sqref="A:A"><formula1>"a,b"</formula1></dataValidation><dataValidation type="custom" sqref="XFD1:XFD1048576"><formula1>LEN(XFD1)&lt;3</formula1></dataValidation><dataValidation sqref=""/></dataValidations>',
    ),
  'colour scales, bars and icons': () =>
    frame(
      '',
      '<conditionalFormatting sqref="B2:B3"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="formula" val="$B$5/2"/><color theme="99"/><color rgb="x"/></colorScale></cfRule><cfRule type="dataBar" priority="2"><dataBar><cfvo type="num" val="B2"/><cfvo type="max"/><color indexed="999"/></dataBar></cfRule><cfRule type="iconSet" priority="3"><iconSet iconSet="3Arrows"><cfvo type="percent" val="0"/><cfvo type="percentile" val="x"/><cfvo type="percent" val="67"/></iconSet></cfRule></conditionalFormatting>',
    ),
  'links of all sorts': () =>
    frame(
      '',
      '<hyperlinks><hyperlink ref="A1" r:id="rId1"/><hyperlink ref="A2:B3" location="Sums!A1"/><hyperlink ref="B5" r:id="rId99"/><hyperlink/></hyperlinks>',
      { sheetLinks: [['rId1', 'hyperlink', 'mailto:a@example.org?subject=%20x', 'External']] },
    ),
  'a filter, a sort and scenarios': () =>
    frame(
      '',
      '<sheetCalcPr fullCalcOnLoad="1"/><protectedRanges><protectedRange sqref="A1:A2" name="P"/></protectedRanges><scenarios current="0"><scenario name="S" count="1"><inputCells r="B2" val="5"/></scenario></scenarios><autoFilter ref="A1:B3"><filterColumn colId="1"><customFilters><customFilter operator="greaterThan" val="1"/></customFilters></filterColumn><sortState ref="A2:B3"><sortCondition ref="B2:B3"/></sortState></autoFilter><dataConsolidate function="count"><dataRefs count="1"><dataRef ref="A1:B2" sheet="Sums"/></dataRefs></dataConsolidate><customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000001}"><selection sqref="A1"/></customSheetView></customSheetViews><phoneticPr fontId="0"/><ignoredErrors><ignoredError sqref="A2:B3" numberStoredAsText="1"/></ignoredErrors><cellWatches><cellWatch r="B2"/></cellWatches>',
    ),
  'very many looks': () =>
    book({
      styles: styled(
        Array.from(
          { length: 20_000 },
          (_, i) => `<xf numFmtId="${i % 50}" fontId="0" fillId="0" borderId="0" xfId="0"/>`,
        ).join(''),
      ),
      rows: ROWS.replace('<c r="B2">', '<c r="B2" s="19999">'),
    }),
  'formats that cannot be drawn': () =>
    book({
      styles: STYLES.replace(
        '<fonts',
        '<numFmts count="6"><numFmt numFmtId="164" formatCode="[DBNum1]0;@;[Red"/><numFmt numFmtId="165" formatCode="[$-x-sysdate]dddd, mmmm dd, yyyy"/><numFmt numFmtId="166" formatCode="&quot;open"/><numFmt numFmtId="167" formatCode=""/><numFmt numFmtId="168" formatCode=";;;"/><numFmt numFmtId="169" formatCode="[&gt;=1000]0.0,&quot;k&quot;;[h]:mm:ss.000;?/16"/></numFmts><fonts',
      ).replace(
        /<cellXfs.*<\/cellXfs>/,
        `<cellXfs>${[164, 165, 166, 167, 168, 169, 999, 'x'].map((id) => `<xf numFmtId="${id}"/>`).join('')}</cellXfs>`,
      ),
      rows: `<row r="1">${Array.from({ length: 8 }, (_, i) => `<c r="${String.fromCharCode(65 + i)}1" s="${i}"><v>${i + 0.5}</v></c>`).join('')}</row>`,
    }),
  'looks of things that are not there': () =>
    book({
      styles: styled(
        '<xf numFmtId="0" fontId="77" fillId="77" borderId="77" xfId="77"/><xf/>',
        '<cellStyles/><dxfs count="1"><dxf/></dxfs>',
      ),
    }),
  'no looks at all': () => book({ styles: `<styleSheet xmlns="${MAIN}"/>` }),
};

/** Parts of other kinds that hang on a sheet or on the workbook. */
const hanging: Readonly<Record<string, () => Uint8Array>> = {
  'conversations and the people in them': () =>
    book({
      sheetLinks: [
        [
          'rId1',
          'http://schemas.microsoft.com/office/2017/10/relationships/threadedComment',
          '../threadedComments/threadedComment1.xml',
        ],
        ['rId2', 'comments', '../comments1.xml'],
      ],
      bookLinks: [
        [
          'rId7',
          'http://schemas.microsoft.com/office/2017/10/relationships/person',
          'persons/person.xml',
        ],
      ],
      parts: {
        'xl/threadedComments/threadedComment1.xml':
          '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B2" dT="2026-01-01T00:00:00.00" personId="{00000000-0000-0000-0000-000000000001}" id="{00000000-0000-0000-0000-000000000002}"><text>How many?</text></threadedComment></ThreadedComments>',
        'xl/comments1.xml': `<comments xmlns="${MAIN}"><authors><author>tc={00000000-0000-0000-0000-000000000002}</author></authors><commentList><comment ref="B2" authorId="0"><text><t>How many?</t></text></comment></commentList></comments>`,
        'xl/persons/person.xml':
          '<personList xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><person displayName="A" id="{00000000-0000-0000-0000-000000000001}"/></personList>',
      },
      types: {
        'xl/threadedComments/threadedComment1.xml': 'application/vnd.ms-excel.threadedcomments+xml',
        'xl/comments1.xml': `${TYPE}.comments+xml`,
        'xl/persons/person.xml': 'application/vnd.ms-excel.person+xml',
      },
    }),
  'slicers and a table that they cut': () =>
    book({
      behindRows:
        '<tableParts count="1"><tablePart r:id="rId1"/></tableParts><extLst><ext uri="{3A4CF648-6AED-40f4-86FF-DC5316D8AED3}"><x14:slicerList xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:slicer r:id="rId2"/></x14:slicerList></ext></extLst>',
      sheetLinks: [
        ['rId1', 'table', '../tables/table1.xml'],
        [
          'rId2',
          'http://schemas.microsoft.com/office/2007/relationships/slicer',
          '../slicers/slicer1.xml',
        ],
      ],
      bookLinks: [
        [
          'rId7',
          'http://schemas.microsoft.com/office/2007/relationships/slicerCache',
          'slicerCaches/slicerCache1.xml',
        ],
      ],
      parts: {
        'xl/tables/table1.xml': `<table xmlns="${MAIN}" id="1" name="Log" displayName="Log" ref="A1:B3"><tableColumns count="2"><tableColumn id="1" name="Week"/><tableColumn id="2" name="Fish"/></tableColumns></table>`,
        'xl/slicers/slicer1.xml':
          '<slicers xmlns="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><slicer name="Week" cache="Slicer_Week" caption="Week" rowHeight="241300"/></slicers>',
        'xl/slicerCaches/slicerCache1.xml':
          '<slicerCacheDefinition xmlns="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" name="Slicer_Week" sourceName="Week"/>',
      },
      types: {
        'xl/tables/table1.xml': `${TYPE}.table+xml`,
        'xl/slicers/slicer1.xml': 'application/vnd.ms-excel.slicer+xml',
        'xl/slicerCaches/slicerCache1.xml': 'application/vnd.ms-excel.slicerCache+xml',
      },
    }),
  'a pivot table with its source': () =>
    book({
      sheetLinks: [['rId1', 'pivotTable', '../pivotTables/pivotTable1.xml']],
      bookEnd: '<pivotCaches><pivotCache cacheId="1" r:id="rId7"/></pivotCaches>',
      bookLinks: [['rId7', 'pivotCacheDefinition', 'pivotCache/pivotCacheDefinition1.xml']],
      parts: {
        'xl/pivotTables/pivotTable1.xml': `<pivotTableDefinition xmlns="${MAIN}" name="P" cacheId="1" dataCaption="V"><location ref="F1:G4" firstHeaderRow="1" firstDataRow="1" firstDataCol="1"/></pivotTableDefinition>`,
        'xl/pivotTables/_rels/pivotTable1.xml.rels': relations([
          ['rId1', 'pivotCacheDefinition', '../pivotCache/pivotCacheDefinition1.xml'],
        ]),
        'xl/pivotCache/pivotCacheDefinition1.xml': `<pivotCacheDefinition xmlns="${MAIN}"><cacheSource type="worksheet"><worksheetSource ref="A1:B3" sheet="Data"/></cacheSource><cacheFields count="2"><cacheField name="Week"/><cacheField name="Fish"/></cacheFields></pivotCacheDefinition>`,
      },
      types: {
        'xl/pivotTables/pivotTable1.xml': `${TYPE}.pivotTable+xml`,
        'xl/pivotCache/pivotCacheDefinition1.xml': `${TYPE}.pivotCacheDefinition+xml`,
      },
    }),
  'custom XML, properties and a picture of the first page': () =>
    changed(
      {
        parts: {
          'customXml/item1.xml': '<root xmlns="urn:own"/>',
          'customXml/_rels/item1.xml.rels': relations([
            ['rId1', 'customXmlProps', 'itemProps1.xml'],
          ]),
          'customXml/itemProps1.xml':
            '<ds:datastoreItem xmlns:ds="http://schemas.openxmlformats.org/officeDocument/2006/customXml" ds:itemID="{00000000-0000-0000-0000-000000000003}"/>',
          'docProps/custom.xml':
            '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"/>',
          'docProps/thumbnail.wmf': '\0',
        },
      },
      (name, xml) => [
        name,
        name === '_rels/.rels'
          ? relations([
              ['rId3', 'custom-properties', 'docProps/custom.xml'],
              [
                'rId2',
                'http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail',
                'docProps/thumbnail.wmf',
              ],
              ['rId1', 'officeDocument', 'xl/workbook.xml'],
            ])
          : xml,
      ],
    ),
  'a signature': () =>
    changed(
      {
        parts: {
          '_xmlsignatures/origin.sigs': '',
          '_xmlsignatures/_rels/origin.sigs.rels': relations([
            [
              'rId1',
              'http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/signature',
              'sig1.xml',
            ],
          ]),
          '_xmlsignatures/sig1.xml': '<Signature xmlns="http://www.w3.org/2000/09/xmldsig#"/>',
        },
      },
      (name, xml) => [
        name,
        name === '_rels/.rels'
          ? relations([
              ['rId1', 'officeDocument', 'xl/workbook.xml'],
              [
                'rId2',
                'http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin',
                '_xmlsignatures/origin.sigs',
              ],
            ])
          : name === '[Content_Types].xml'
            ? xml.replace(
                '</Types>',
                '<Default Extension="sigs" ContentType="application/vnd.openxmlformats-package.digital-signature-origin"/></Types>',
              )
            : xml,
      ],
    ),
  'controls, queries, printers and macros': () =>
    book({
      behindRows: `<legacyDrawing r:id="rId3"/><controls><control shapeId="1025" r:id="rId2" name="Button"><controlPr><anchor><from><col>1</col><row>1</row></from><to><col>2</col><row>3</row></to></anchor></controlPr></control></controls><webPublishItems/>`,
      sheetLinks: [
        ['rId1', 'printerSettings', '../printerSettings/printerSettings1.bin'],
        ['rId2', 'ctrlProp', '../ctrlProps/ctrlProp1.xml'],
        ['rId3', 'vmlDrawing', '../drawings/vmlDrawing1.vml'],
        ['rId4', 'queryTable', '../queryTables/queryTable1.xml'],
      ],
      bookLinks: [
        [
          'rId7',
          'http://schemas.microsoft.com/office/2006/relationships/vbaProject',
          'vbaProject.bin',
        ],
        ['rId8', 'connections', 'connections.xml'],
      ],
      parts: {
        'xl/printerSettings/printerSettings1.bin': '\0\x01',
        'xl/ctrlProps/ctrlProp1.xml':
          '<formControlPr xmlns="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" objectType="CheckBox" fmlaLink="$B$2"/>',
        'xl/drawings/vmlDrawing1.vml': '<xml xmlns:v="urn:schemas-microsoft-com:vml"><br></xml>',
        'xl/queryTables/queryTable1.xml': `<queryTable xmlns="${MAIN}" name="Q" connectionId="1"/>`,
        'xl/connections.xml': `<connections xmlns="${MAIN}"/>`,
        'xl/vbaProject.bin': '\0',
      },
      types: {
        'xl/ctrlProps/ctrlProp1.xml': 'application/vnd.ms-excel.controlproperties+xml',
        'xl/queryTables/queryTable1.xml': `${TYPE}.queryTable+xml`,
        'xl/connections.xml': `${TYPE}.connections+xml`,
        'xl/vbaProject.bin': 'application/vnd.ms-office.vbaProject',
      },
    }),
  'an order of calculation that is wrong': () =>
    book({
      bookLinks: [['rId7', 'calcChain', 'calcChain.xml']],
      parts: {
        'xl/calcChain.xml': `<calcChain xmlns="${MAIN}"><c r="B5" i="1"/><c r="Z99" i="9"/><c r="C3"/></calcChain>`,
      },
      types: { 'xl/calcChain.xml': `${TYPE}.calcChain+xml` },
    }),
  'pictures and shapes': () =>
    book({
      behindRows: '<drawing r:id="rId1"/>',
      sheetLinks: [['rId1', 'drawing', '../drawings/drawing1.xml']],
      parts: {
        'xl/drawings/drawing1.xml':
          '<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><xdr:absoluteAnchor><xdr:pos x="0" y="0"/><xdr:ext cx="9" cy="9"/><xdr:sp macro="" textlink="$B$5"><xdr:nvSpPr><xdr:cNvPr id="2" name="S"/><xdr:cNvSpPr/></xdr:nvSpPr><xdr:spPr/></xdr:sp><xdr:clientData/></xdr:absoluteAnchor><xdr:oneCellAnchor><xdr:from><xdr:col>2</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>1</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="9" cy="9"/><xdr:pic/><xdr:clientData/></xdr:oneCellAnchor></xdr:wsDr>',
      },
      types: {
        'xl/drawings/drawing1.xml': 'application/vnd.openxmlformats-officedocument.drawing+xml',
      },
    }),
};

const groups: readonly (readonly [string, Readonly<Record<string, () => Uint8Array>>])[] = [
  ['packing', packings],
  ['part names', names],
  ['writing', writings],
  ['values', values],
  ['formulas', formulas],
  ['names and sheets', books],
  ['layout', layouts],
  ['other parts', hanging],
];

/** Small workbooks of all the odd kinds that the format allows, and some that it does not. */
export const oddWorkbooks = (): OddWorkbook[] =>
  groups.flatMap(([group, list]) =>
    Object.entries(list).map(([what, make]) => ({ what: `${group}: ${what}`, bytes: make() })),
  );
