import { describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { everythingModel } from './everything-model';
import { lintXlsx } from './lint-xlsx';
import { planted } from './planted';
import { schemaFaults } from './schema';

const written = (formulas: 'live' | 'plain'): Uint8Array => {
  const model = everythingModel(formulas);
  return writeXlsx(model, computedValues(model));
};
const files = { live: written('live'), plain: written('plain') };

const SHEET = 'xl/worksheets/sheet1.xml';
const WORKBOOK = 'xl/workbook.xml';
const TABLE = 'xl/tables/table1.xml';
const swap = (from: string | RegExp, to: string) => (xml: string) => xml.replace(from, to);
const name = (text: string) => swap('<definedNames>', `<definedNames>${text}`);

type Fault = readonly [
  what: string,
  part: string,
  change: (xml: string) => string,
  file?: 'live' | 'plain',
];

const forLint: readonly Fault[] = [
  ['a head that is not the cell above its column', TABLE, swap('name="Remark"', 'name="Note"')],
  [
    'a table name with a space',
    TABLE,
    swap('displayName="Water_tests"', 'displayName="Water tests"'),
  ],
  [
    'a table called like a name',
    TABLE,
    swap('displayName="Water_tests"', 'displayName="Limit_unionised"'),
  ],
  ['two columns of one name', TABLE, swap('name="pH"', 'name="Date"')],
  [
    'a column formula that reckons with another table',
    TABLE,
    swap(/(<calculatedColumnFormula>.*?)Water_tests\[/, '$1Other_table['),
  ],
  ['a name like a cell', WORKBOOK, swap('name="Salts"', 'name="SAL10"')],
  ['a name that is there twice', WORKBOOK, swap('name="Salts"', 'name="limit_unionised"')],
  [
    'a name for a sheet that is not there',
    WORKBOOK,
    swap(/'Water log'!\$E\$3/, "'Water book'!$E$3"),
  ],
  ['a name for nothing', WORKBOOK, name('<definedName name="Lost_cells">#REF!</definedName>')],
  ['a sheet name that is there twice', WORKBOOK, swap("All 'looks' &amp; marks", 'water LOG')],
  ['an open bracket', SHEET, swap('<f>1&lt;2</f>', '<f>(1&lt;2</f>')],
  ['a text that never ends', SHEET, swap('<f>1&lt;2</f>', '<f>"1&lt;2</f>')],
  ['a young function without prefix', SHEET, swap('_xlfn.ISOWEEKNUM', 'ISOWEEKNUM')],
  ['a name that is not defined', SHEET, swap('/Limit_unionised</f>', '/Limit_missing</f>')],
  ['a formula that begins with "="', SHEET, swap('<f>1&lt;2</f>', '<f>=1&lt;2</f>')],
  ['a formula without its value', SHEET, swap('<f>1&lt;2</f><v>1</v>', '<f>1&lt;2</f>')],
  ['a value that is no number', SHEET, swap(/<v>24<\/v>/, '<v>NaN</v>')],
  ['a number beyond all cells', SHEET, swap(/<v>24<\/v>/, '<v>1e309</v>')],
  ['a text that is not among the shared ones', SHEET, swap(/t="s"><v>0<\/v>/, 't="s"><v>9999</v>')],
  ['a cell that is there twice', SHEET, swap('r="B6"', 'r="A6"')],
  ['a cell in a row of another number', SHEET, swap('r="B6"', 'r="B7"')],
  ['a style that is not there', SHEET, swap(/ s="\d+"/, 's="500"')],
  ['a mark with a style that is not there', SHEET, swap(/dxfId="\d"/, 'dxfId="50"')],
  ['a rule that says too much', SHEET, swap('Choose yes or no.', 'x'.repeat(256))],
  ['a list that is too long', SHEET, swap('"yes,no"', `"${'yes,'.repeat(70)}no"`)],
  ['rules over each other', SHEET, swap('sqref="F3"', 'sqref="E3:F3"')],
  ['merges over a table', SHEET, swap(/<mergeCell ref="[^"]+"/, '<mergeCell ref="A6:B6"')],
  [
    'a part that nothing leads to',
    'xl/_rels/workbook.xml.rels',
    swap(/<Relationship [^>]*customXml[^>]*\/>/, ''),
  ],
  ['a relation to nowhere', 'xl/_rels/workbook.xml.rels', swap('styles.xml', 'style.xml')],
  [
    'a text that is too long',
    'xl/sharedStrings.xml',
    swap('<t>Limit</t>', `<t>${'x'.repeat(32768)}</t>`),
  ],
  [
    'a chart that draws from a name',
    'xl/charts/chart1.xml',
    swap(/<c:f>[^<]*<\/c:f>/, '<c:f>Salts</c:f>'),
  ],
  [
    'a function by the name that is shown',
    SHEET,
    swap('_xldudf_GILL_AMMONIA_', 'GILL.AMMONIA.'),
    'live',
  ],
  [
    'a custom function that does not exist',
    SHEET,
    swap('GILL_AMMONIA_UNIONISED', 'GILL_AMMONIA_ALL'),
    'live',
  ],
  ['a custom function that is no dynamic array', SHEET, swap(' cm="1"', ''), 'live'],
  ['a spill that begins elsewhere', SHEET, swap('ref="I6:I10"', 'ref="I7:I10"'), 'live'],
  ['a spill into a table', SHEET, swap(/ref="E6"/, 'ref="E6:F6"'), 'live'],
  [
    'a mark that calls a custom function',
    SHEET,
    swap(
      '<formula>F6&gt;=1</formula>',
      '<formula>_xldudf_GILL_AMMONIA_UNIONISED(1,2,3)&gt;1</formula>',
    ),
    'live',
  ],
];

const forSchema: readonly Fault[] = [
  [
    'elements in another order',
    SHEET,
    swap(/(<mergeCells.*<\/mergeCells>)(<conditional.*?<\/conditionalFormatting>)/, '$2$1'),
  ],
  ['an attribute that does not exist', SHEET, swap('<sheetFormatPr ', '<sheetFormatPr odd="1" ')],
  ['a relation that is missing', SHEET, swap(/<drawing r:id="[^"]+"/, '<drawing r:id="rId99"')],
  [
    'a chart element in the wrong place',
    'xl/charts/chart1.xml',
    swap(/(<c:idx val="0"\/>)(<c:order val="0"\/>)/, '$2$1'),
  ],
];

describe('lint of workbooks', () => {
  it('finds nothing in a file that uses everything', () => {
    expect(lintXlsx(files.live)).toEqual([]);
    expect(lintXlsx(files.plain)).toEqual([]);
  });

  for (const [what, part, change, file = 'plain'] of forLint) {
    it(`finds ${what}`, () => {
      expect(lintXlsx(planted(files[file], part, change))).not.toEqual([]);
    });
  }

  for (const [what, part, change] of forSchema) {
    it(`leaves ${what} to the schema check, which finds it`, () => {
      expect(schemaFaults(planted(files.plain, part, change))).not.toBe('');
    });
  }
});
