import { beforeAll, describe, expect, it } from 'vitest';
import { leftOutOf } from '../../../src/hosts/workbench/left-out';
import { changedElsewhere } from '../../tools/changed-elsewhere';
import { editedParts } from '../../tools/edited-parts';
import { framedWorkbook } from '../../tools/framed-workbook';
import { openOnGrid } from '../../tools/workbench-file';

const SHEET = 'xl/worksheets/sheet1.xml';
const BOOK = 'xl/workbook.xml';

/** A workbook with one of every thing that a save has been seen to lose. */
const rich = editedParts(framedWorkbook(), {
  [SHEET]: (xml) =>
    xml
      .replace(
        '<row r="6">',
        [
          '<row r="5" ht="31" customHeight="1"><c r="A5" t="inlineStr"><is><t>00000105438</t></is></c>',
          '<c r="B5" t="inlineStr"><is><t>=1+2</t></is></c><c r="C5" t="inlineStr"><is><t>TRUE</t></is></c>',
          '<c r="D5" t="inlineStr"><is><r><t>a</t></r><r><rPr><b/></rPr><t>b</t></r></is></c>',
          '<c r="E5" t="d"><v>2026-03-01</v></c><c r="F5" t="b"><v>1</v></c><c r="G5" t="e"><v>#N/A</v></c>',
          '<c r="H5"><f>SUBTOTAL(9,B2:B4)</f><v>295</v></c><c r="I5"><f>FOO.BAR(B2)</f><v>9</v></c>',
          '<c r="J5" t="str"><f>""</f><v></v></c><c r="K5"><v>5.0000000000000001E-3</v></c></row><row r="6">',
        ].join(''),
      )
      .replace(
        '</sheetData>',
        '</sheetData><sheetProtection sheet="1"/><protectedRanges><protectedRange sqref="A2:A4" name="days"/></protectedRanges><autoFilter ref="A1:C4"/>',
      )
      .replace(
        '<rowBreaks',
        '<printOptions gridLines="1"/><pageMargins left="1" right="1" top="1" bottom="1" header="0" footer="0"/><pageSetup orientation="landscape"/><headerFooter><oddFooter>&amp;P</oddFooter></headerFooter><rowBreaks',
      )
      .replace(
        '</extLst>',
        '<ext uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Log!B2:B4</xm:f><xm:sqref>M2</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
      ),
  [BOOK]: (xml) => xml.replace('<bookViews>', '<workbookPr date1904="1"/><bookViews>'),
});

/** Each loss as it would stand in a saved file: in which part, what stood there, what would stand there. */
const losses: readonly (readonly [what: string, part: string, was: string | RegExp, is: string])[] =
  [
    ['a subtotal becomes a sum', SHEET, 'SUBTOTAL(9,B2:B4)', 'SUM(B2:B4)'],
    ['a text becomes a number', SHEET, /<c r="A5".*?<\/c>/, '<c r="A5"><v>105438</v></c>'],
    ['a text becomes a formula', SHEET, /<c r="B5".*?<\/c>/, '<c r="B5"><f>1+2</f><v>3</v></c>'],
    ['a text becomes a truth', SHEET, /<c r="C5".*?<\/c>/, '<c r="C5" t="b"><v>1</v></c>'],
    ['a text loses its fonts', SHEET, '<r><t>a</t></r><r><rPr><b/></rPr><t>b</t></r>', '<t>ab</t>'],
    [
      'a day becomes a number',
      SHEET,
      '<c r="E5" t="d"><v>2026-03-01</v>',
      '<c r="E5"><v>44620</v>',
    ],
    ['a truth becomes a number', SHEET, '<c r="F5" t="b">', '<c r="F5">'],
    ['an error becomes a text', SHEET, '<c r="G5" t="e">', '<c r="G5" t="str">'],
    ['an unknown function becomes its value', SHEET, '<f>FOO.BAR(B2)</f>', ''],
    ['an empty text goes', SHEET, '<f>""</f><v></v>', '<f>""</f>'],
    ['a number gets other figures', SHEET, '5.0000000000000001E-3', '0.005'],
    ['an array formula becomes an ordinary one', SHEET, ' t="array" ref="E6:E6"', ''],
    ['a shared formula loses its first cell', SHEET, ' t="shared" ref="C2:C4" si="0"', ''],
    ['a height goes', SHEET, ' ht="31" customHeight="1"', ''],
    ['a width goes', SHEET, /<cols>.*?<\/cols>/, ''],
    ['a merge goes', SHEET, /<mergeCells.*?<\/mergeCells>/, ''],
    ['frozen lines go', SHEET, /<pane [^>]*>/, ''],
    ['protection goes', SHEET, '<sheetProtection sheet="1"/>', ''],
    ['a filter goes', SHEET, '<autoFilter ref="A1:C4"/>', ''],
    ['a conditional format goes', SHEET, /<conditionalFormatting .*?<\/conditionalFormatting>/, ''],
    ['a rule for typing goes', SHEET, /<dataValidations.*?<\/dataValidations>/, ''],
    ['a link goes', SHEET, /<hyperlinks>.*?<\/hyperlinks>/, ''],
    ['a footer goes', SHEET, /<headerFooter>.*?<\/headerFooter>/, ''],
    ['a small chart in a cell goes', SHEET, /<x14:sparklineGroups>.*?<\/x14:sparklineGroups>/, ''],
    ['a page break goes', SHEET, /<rowBreaks.*?<\/rowBreaks>/, ''],
    ['days move by four years', BOOK, ' date1904="1"', ''],
    ['a print area goes', BOOK, /<definedName name="_xlnm.Print_Area".*?<\/definedName>/, ''],
    ['a name goes', BOOK, /<definedName name="Days".*?<\/definedName>/, ''],
    ['a note goes', 'xl/comments1.xml', /<comment ref.*?<\/comment>/, ''],
    ['a chart reads other cells', 'xl/charts/chart1.xml', 'Log!$B$2:$B$4', 'Log!$B$2:$B$3'],
  ];

describe('a save that lost something', () => {
  let saved: Uint8Array;
  beforeAll(async () => {
    const grid = await openOnGrid(rich);
    grid.type(0, 'L9', "'0042");
    saved = grid.save().bytes;
  });

  it('is not reported for a sound save: nothing but the typed cell differs', () => {
    expect(changedElsewhere(rich, saved, SHEET, 'L9')).toEqual([]);
  });

  it.each(losses)('would be noticed: %s', (_, part, was, is) => {
    const lossy = editedParts(saved, { [part]: (xml) => xml.replace(was, is) });
    expect(changedElsewhere(rich, lossy, SHEET, 'L9')).toHaveLength(1);
  });

  it('into a new file is announced beforehand', () => {
    expect(leftOutOf(rich).sort()).toEqual(
      [
        ...['Notes and comments', 'Protection of sheets', 'Filters', 'Links'],
        ...['How sheets are printed', 'Small charts in cells'],
        ...['Conditional formats of younger kinds', 'Texts in several fonts within a cell'],
        'Names for one sheet alone, or for more than a block of cells',
      ].sort(),
    );
  });
});
