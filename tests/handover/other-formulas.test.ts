import { describe, expect, it } from 'vitest';
import { handOver } from '../../src/handover/hand-over';
import { repair } from '../../src/handover/repair';
import { Package } from '../../src/ooxml/package';
import { editedParts } from '../tools/edited-parts';
import { framedWorkbook } from '../tools/framed-workbook';

const SHEET = 'xl/worksheets/sheet1.xml';
const TABLE = 'xl/tables/table1.xml';
const LOAD = 'GILL.LOAD.TAN(B2)';
const STORED = '_xldudf_GILL_LOAD_TAN(B2)';
const part = (bytes: Uint8Array, name: string): string => Package.open(bytes).text(name);

const x14 = (formula: string): string =>
  `<ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:dataValidations xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main" count="1"><x14:dataValidation type="decimal" operator="lessThan"><x14:formula1><xm:f>${formula}</xm:f></x14:formula1><xm:sqref>A2</xm:sqref></x14:dataValidation></x14:dataValidations></ext>`;

/** A formula of every kind outside of cells. */
const withCalls = (formula: string): Uint8Array =>
  editedParts(framedWorkbook({ table: true }), {
    [TABLE]: (xml) => xml.replaceAll(/Log![^<]*2(?=<)|SUM\([^<]*(?=<)/g, formula),
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
    expect(turned.map(({ where, became }) => `${where}: ${became}`).sort()).toEqual(
      [
        'a conditional format: formula',
        'the column formula of the table Doubles: formula',
        'the totals row of the table Doubles: formula',
        'a threshold of a conditional format: formula',
        'a validation rule: formula',
      ].sort(),
    );
    for (const name of [SHEET, TABLE]) expect(part(bytes, name)).not.toContain('GILL');
  });

  it('of every kind are bound again', () => {
    const { bytes, repaired } = repair(withCalls(LOAD));
    expect(repaired).toHaveLength(5);
    expect(part(bytes, TABLE).split(STORED)).toHaveLength(3);
    expect(part(bytes, SHEET).split(STORED)).toHaveLength(4);
    expect(repair(bytes).repaired).toEqual([]);
  });

  it('inside each other leave a cell in between with its value, or say that it has none yet', () => {
    const nested = (argument: string) =>
      handOver(
        editedParts(framedWorkbook(), {
          [SHEET]: (xml) =>
            xml.replace('SUM(B2:B4)', `GILL.FILTER.SURFACE(GILL.OXYGEN.FULL(${argument}/4,,500))`),
        }),
      );
    const steps = ({ bytes }: { readonly bytes: Uint8Array }): string =>
      part(bytes, 'xl/worksheets/added1.xml');
    const plain = nested('B2');
    expect(steps(plain)).toMatch(/<c r="B2"><f>[^<]+<\/f><v>[\d.]+<\/v>/);
    expect(plain.notes.join(' ')).not.toContain('shows nothing');
    const open = nested('VLOOKUP(B2,A2:C4,2,FALSE)');
    expect(steps(open)).toMatch(/<c r="B2"><f>[^<]+<\/f><\/c>/);
    expect(open.notes.join(' ')).toContain('1 of the results in between shows nothing');
  });

  it('to a function that Gillbed lacks are reported, in cells and elsewhere', () => {
    const bytes = editedParts(withCalls('_xldudf_GILL_LOAD_NOTHING(B2)'), {
      [SHEET]: (xml) => xml.replace('SUM(B2:B4)', 'GILL.FISH.UNKNOWN(B2)'),
    });
    const { turned, bytes: copy } = handOver(bytes);
    const cell = turned.find(({ where }) => where === 'B6');
    expect(cell).toMatchObject({ became: 'value' });
    expect(cell?.why).toContain('Gillbed has no function GILL.FISH.UNKNOWN');
    expect(part(copy, SHEET)).toContain('<c r="B6"><v>295</v></c>');
    const others = turned.filter(({ where }) => where !== 'B6');
    expect(others).toHaveLength(5);
    for (const { became, why } of others) {
      expect(became).toBe('left');
      expect(why).toContain('_xldudf_GILL_LOAD_NOTHING');
    }
    const { unknown, repaired } = repair(bytes);
    expect(unknown.map(({ where }) => where)).toContain('B6');
    expect(unknown).toHaveLength(6);
    expect(repaired).toEqual([]);
  });
});
