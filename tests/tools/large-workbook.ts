import { strToU8, zipSync } from 'fflate';
import { randomNumbers } from '../soak/random';

/**
 * "numbers" is ten columns of measured numbers and nothing else; "records" is a register as people keep them: a day,
 * words that repeat, a remark, numbers, and three formulas in every line, one of them shared by all lines.
 */
export type LargeKind = 'numbers' | 'records';

/** Lines in a megabyte of the packed file, about. */
const LINES: Readonly<Record<LargeKind, number>> = { numbers: 8_670, records: 12_900 };

const NAMESPACE = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const CONTENT = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const WORDS = ['fed', 'counted', 'weighed', 'moved', 'cleaned', 'sampled', 'harvested', 'sown'];

function numberLine(row: number, random: () => number): string {
  const cells = [...'ABCDEFGHIJ'].map(
    (column) => `<c r="${column}${row}"><v>${Number((random() * 1e4).toPrecision(12))}</v></c>`,
  );
  return `<row r="${row}">${cells.join('')}</row>`;
}

function recordLine(row: number, last: number, random: () => number): string {
  const [a, b] = [Math.round(random() * 1e5) / 100, Math.round(random() * 1e4) / 1000];
  const shared =
    row === 2 ? `<f t="shared" ref="H2:H${last}" si="0">F2*G2</f>` : '<f t="shared" si="0"/>';
  const level = a > 500 ? 'high' : 'low';
  return [
    `<row r="${row}"><c r="A${row}" s="1"><v>${45000 + Math.floor(row / 20)}</v></c>`,
    `<c r="B${row}" t="s"><v>${Math.floor(random() * WORDS.length)}</v></c>`,
    `<c r="C${row}" t="s"><v>${WORDS.length + Math.floor(random() * 2000)}</v></c>`,
    `<c r="D${row}" s="2"><v>${Math.round(random() * 50)}</v></c>`,
    `<c r="E${row}"><v>${Math.round(random() * 1e6) / 1000}</v></c>`,
    `<c r="F${row}"><v>${a}</v></c><c r="G${row}"><v>${b}</v></c>`,
    `<c r="H${row}">${shared}<v>${a * b}</v></c>`,
    `<c r="I${row}"><f>ROUND(F${row}+G${row},2)</f><v>${Math.round((a + b) * 100) / 100}</v></c>`,
    `<c r="J${row}" t="str"><f>IF(F${row}&gt;500,"high","low")</f><v>${level}</v></c></row>`,
  ].join('');
}

const heads = [...'ABCDEFGHIJ'].map(
  (c) => `<c r="${c}1" t="inlineStr"><is><t>${c} head</t></is></c>`,
);

const texts = (): string => {
  const all = [
    ...WORDS,
    ...Array.from({ length: 2000 }, (_, i) => `Remark ${i} of tank &amp; bed`),
  ];
  const items = all.map((text) => `<si><t>${text}</t></si>`).join('');
  return `${head}<sst xmlns="${NAMESPACE}" count="${all.length}" uniqueCount="${all.length}">${items}</sst>`;
};

const styles = `${head}<styleSheet xmlns="${NAMESPACE}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf/><xf numFmtId="14" applyNumberFormat="1"/><xf fontId="1" applyFont="1"/></cellXfs></styleSheet>`;

/** A workbook of one sheet whose file is about so many megabytes large; the same for the same size. */
export function largeWorkbook(kind: LargeKind, megabytes: number): Uint8Array {
  const random = randomNumbers(24);
  const last = 1 + Math.round(megabytes * LINES[kind]);
  const lines: Uint8Array[] = [];
  for (let row = 2; row <= last; row++) {
    lines.push(
      strToU8(kind === 'numbers' ? numberLine(row, random) : recordLine(row, last, random)),
    );
  }
  const opening = strToU8(
    `${head}<worksheet xmlns="${NAMESPACE}"><dimension ref="A1:J${last}"/><sheetData><row r="1">${heads.join('')}</row>`,
  );
  const sheet = Buffer.concat([opening, ...lines, strToU8('</sheetData></worksheet>')]);
  const relation = (id: number, kind: string, target: string): string =>
    `<Relationship Id="rId${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`;
  const relations = (...all: string[]): Uint8Array =>
    strToU8(
      `${head}<Relationships xmlns="${PACKAGE}/relationships">${all.join('')}</Relationships>`,
    );
  const override = (part: string, type: string): string =>
    `<Override PartName="/xl/${part}.xml" ContentType="${CONTENT}.${type}+xml"/>`;
  return zipSync(
    {
      '[Content_Types].xml': strToU8(
        `${head}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>${override('workbook', 'sheet.main')}${override('worksheets/sheet1', 'worksheet')}${override('sharedStrings', 'sharedStrings')}${override('styles', 'styles')}</Types>`,
      ),
      '_rels/.rels': relations(relation(1, 'officeDocument', 'xl/workbook.xml')),
      'xl/workbook.xml': strToU8(
        `${head}<workbook xmlns="${NAMESPACE}" xmlns:r="${OFFICE}"><sheets><sheet name="Records" sheetId="1" r:id="rId1"/></sheets></workbook>`,
      ),
      'xl/_rels/workbook.xml.rels': relations(
        relation(1, 'worksheet', 'worksheets/sheet1.xml'),
        relation(2, 'sharedStrings', 'sharedStrings.xml'),
        relation(3, 'styles', 'styles.xml'),
      ),
      'xl/worksheets/sheet1.xml': sheet,
      'xl/sharedStrings.xml': strToU8(texts()),
      'xl/styles.xml': strToU8(styles),
    },
    { level: 6, mtime: new Date(1980, 0, 1) },
  );
}
