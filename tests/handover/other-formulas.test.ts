import { describe, expect, it } from 'vitest';
import { handOver } from '../../src/handover/hand-over';
import { repair } from '../../src/handover/repair';
import { Package } from '../../src/ooxml/package';
import { editedParts } from '../tools/edited-parts';
import { framedWorkbook } from '../tools/framed-workbook';

const SHEET = 'xl/worksheets/sheet1.xml';
const LOAD = 'GILL.LOAD.TAN(B2)';
const STORED = '_xldudf_GILL_LOAD_TAN(B2)';
const part = (bytes: Uint8Array, name: string): string => Package.open(bytes).text(name);

const x14 = (formula: string): string =>
  `<ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:dataValidations xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main" count="1"><x14:dataValidation type="decimal" operator="lessThan"><x14:formula1><xm:f>${formula}</xm:f></x14:formula1><xm:sqref>A2</xm:sqref></x14:dataValidation></x14:dataValidations></ext>`;

/** A formula of every kind outside of cells. */
const withCalls = (formula: string): Uint8Array =>
  editedParts(framedWorkbook(), {
    [SHEET]: (xml) =>
      xml
        .replace('C2&gt;Sums!$A$1', `C2&gt;${formula}`)
        .replace('<extLst>', `<extLst>${x14(formula)}`)
        .replace(
          '<dataValidations',
          `<conditionalFormatting sqref="C2:C4"><cfRule type="colorScale" priority="9"><colorScale><cfvo type="min"/><cfvo type="formula" val="${formula}"/><color rgb="FFFF0000"/><color rgb="FF00FF00"/></colorScale></cfRule></conditionalFormatting><dataValidations`,
        ),
  });

describe('GILL calls outside of cells', () => {
  it('of every kind become plain formulas', () => {
    const { bytes, turned } = handOver(withCalls(STORED));
    expect(turned.map(({ where, became }) => `${where}: ${became}`).sort()).toEqual([
      'a conditional format: formula',
      'a threshold of a conditional format: formula',
      'a validation rule: formula',
    ]);
    expect(part(bytes, SHEET)).not.toContain('GILL');
  });

  it('of every kind are bound again', () => {
    const { bytes, repaired } = repair(withCalls(LOAD));
    expect(repaired).toHaveLength(3);
    expect(part(bytes, SHEET).split(STORED)).toHaveLength(4);
    expect(repair(bytes).repaired).toEqual([]);
  });

  it('to a function that Gillbed does not have are said, in cells and outside of them', () => {
    const bytes = editedParts(withCalls('_xldudf_GILL_LOAD_NOTHING(B2)'), {
      [SHEET]: (xml) => xml.replace('SUM(B2:B4)', 'GILL.FISH.UNKNOWN(B2)'),
    });
    const { turned, bytes: copy } = handOver(bytes);
    const cell = turned.find(({ where }) => where === 'B6');
    expect(cell).toMatchObject({ became: 'value' });
    expect(cell?.why).toContain('Gillbed has no function GILL.FISH.UNKNOWN');
    expect(part(copy, SHEET)).toContain('<c r="B6"><v>295</v></c>');
    const others = turned.filter(({ where }) => where !== 'B6');
    expect(others).toHaveLength(3);
    for (const { became, why } of others) {
      expect(became).toBe('left');
      expect(why).toContain('_xldudf_GILL_LOAD_NOTHING');
    }
    const { unknown, repaired } = repair(bytes);
    expect(unknown.map(({ where }) => where)).toContain('B6');
    expect(unknown).toHaveLength(4);
    expect(repaired).toEqual([]);
  });
});
