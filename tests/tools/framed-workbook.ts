import { strToU8, zipSync } from 'fflate';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const TYPE = 'application/vnd.openxmlformats-officedocument';

const relations = (
  links: readonly (readonly [id: string, kind: string, target: string])[],
): string =>
  `<Relationships xmlns="${RELATIONS}">${links
    .map(([id, kind, target]) => {
      const isLink = kind === 'hyperlink';
      return `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"${isLink ? ' TargetMode="External"' : ''}/>`;
    })
    .join('')}</Relationships>`;

const row = (r: number, cells: string): string => `<row r="${r}">${cells}</row>`;

/** A table on "Sums" whose formulas read "Log", with a row of totals. */
const withTable = (parts: Record<string, string>): Record<string, string> => ({
  ...parts,
  '[Content_Types].xml': (parts['[Content_Types].xml'] ?? '').replace(
    '</Types>',
    `<Override PartName="/xl/tables/table1.xml" ContentType="${TYPE}.spreadsheetml.table+xml"/></Types>`,
  ),
  'xl/worksheets/sheet2.xml': (parts['xl/worksheets/sheet2.xml'] ?? '').replace(
    '</sheetData>',
    `${row(4, '<c r="E4" t="inlineStr"><is><t>Twice</t></is></c>')}${row(5, '<c r="E5"><f>Log!$B$6*2</f><v>590</v></c>')}${row(6, '<c r="E6"><f>SUM(Log!B2:B4)</f><v>295</v></c>')}</sheetData><tableParts count="1"><tablePart xmlns:r="${OFFICE}" r:id="rId1"/></tableParts>`,
  ),
  'xl/worksheets/_rels/sheet2.xml.rels': relations([['rId1', 'table', '../tables/table1.xml']]),
  'xl/tables/table1.xml': `<table xmlns="${MAIN}" id="1" name="Doubles" displayName="Doubles" ref="E4:E6" totalsRowCount="1"><tableColumns count="1"><tableColumn id="1" name="Twice" totalsRowFunction="custom"><calculatedColumnFormula>Log!$B$6*2</calculatedColumnFormula><totalsRowFormula>SUM(Log!B2:B4)</totalsRowFormula></tableColumn></tableColumns></table>`,
});

/** Two sheets, and one of every thing in a file that counts on where the cells of "Log" stand and on its name. */
export function framedWorkbook({ table = false }: { readonly table?: boolean } = {}): Uint8Array {
  const log = [
    row(
      1,
      '<c r="A1" t="inlineStr"><is><t>Day</t></is></c><c r="B1" t="inlineStr"><is><t>Fish</t></is></c><c r="C1" t="inlineStr"><is><t>Feed</t></is></c>',
    ),
    row(
      2,
      '<c r="A2"><v>1</v></c><c r="B2" s="1"><v>100</v></c><c r="C2"><f t="shared" ref="C2:C4" si="0">B2*0.02</f><v>2</v></c>',
    ),
    row(
      3,
      '<c r="A3"><v>2</v></c><c r="B3"><v>98</v></c><c r="C3"><f t="shared" si="0"/><v>1.96</v></c>',
    ),
    row(
      4,
      '<c r="A4"><v>3</v></c><c r="B4"><v>97</v></c><c r="C4"><f t="shared" si="0"/><v>1.94</v></c>',
    ),
    row(
      6,
      '<c r="B6"><f>SUM(B2:B4)</f><v>295</v></c><c r="C6"><f>SUM($C$2:$C$4)</f><v>5.9</v></c><c r="E6"><f t="array" ref="E6:E6">SUM(B2:B4*2)</f><v>590</v></c>',
    ),
  ].join('');
  const other = [
    row(
      1,
      '<c r="A1"><f>SUM(Log!B2:B4)</f><v>295</v></c><c r="B1"><f>Log!$C$6/All_fish</f><v>0.02</v></c><c r="C1"><f>COUNT(Log!A:A)</f><v>3</v></c>',
    ),
    row(
      2,
      '<c r="A2"><f>COUNT(Log!2:3)</f><v>6</v></c><c r="B2"><f>"in the Log"</f><v>in the Log</v></c>',
    ),
  ].join('');
  const parts: Record<string, string> = {
    '[Content_Types].xml': `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="vml" ContentType="${TYPE}.vmlDrawing"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${TYPE}.spreadsheetml.worksheet+xml"/><Override PartName="/xl/worksheets/sheet2.xml" ContentType="${TYPE}.spreadsheetml.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPE}.spreadsheetml.styles+xml"/><Override PartName="/xl/drawings/drawing1.xml" ContentType="${TYPE}.drawing+xml"/><Override PartName="/xl/charts/chart1.xml" ContentType="${TYPE}.drawingml.chart+xml"/><Override PartName="/xl/comments1.xml" ContentType="${TYPE}.spreadsheetml.comments+xml"/></Types>`,
    '_rels/.rels': relations([['rId1', 'officeDocument', 'xl/workbook.xml']]),
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><bookViews><workbookView activeTab="1"/></bookViews><sheets><sheet name="Log" sheetId="3" r:id="rId1"/><sheet name="Sums" sheetId="7" r:id="rId2"/></sheets><definedNames><definedName name="_xlnm.Print_Area" localSheetId="0">Log!$A$1:$C$6</definedName><definedName name="_xlnm.Print_Titles" localSheetId="0">Log!$1:$1</definedName><definedName name="All_fish">Log!$B$6</definedName><definedName name="Days">OFFSET(Log!$A$2,0,0,COUNT(Log!$A:$A),1)</definedName></definedNames></workbook>`,
    'xl/_rels/workbook.xml.rels': relations([
      ['rId1', 'worksheet', 'worksheets/sheet1.xml'],
      ['rId2', 'worksheet', 'worksheets/sheet2.xml'],
      ['rId3', 'styles', 'styles.xml'],
    ]),
    'xl/styles.xml': `<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf xfId="0"/><xf numFmtId="3" xfId="0" applyNumberFormat="1"/></cellXfs><dxfs count="1"><dxf><font><color rgb="FFFF0000"/></font></dxf></dxfs></styleSheet>`,
    'xl/worksheets/sheet1.xml': `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"><dimension ref="A1:E6"/><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="B3" sqref="B3"/></sheetView></sheetViews><cols><col min="2" max="3" width="14" customWidth="1"/></cols><sheetData>${log}</sheetData><mergeCells count="1"><mergeCell ref="A8:C8"/></mergeCells><conditionalFormatting sqref="B2:B4"><cfRule type="expression" dxfId="0" priority="1"><formula>B2&lt;$B$6/3</formula></cfRule></conditionalFormatting><dataValidations count="1"><dataValidation type="list" allowBlank="1" sqref="A2:A4"><formula1>Log!$A$2:$A$4</formula1></dataValidation></dataValidations><hyperlinks><hyperlink ref="A6" location="Log!B6" display="Log!B6"/></hyperlinks><rowBreaks count="1" manualBreakCount="1"><brk id="5" max="16383" man="1"/></rowBreaks><drawing r:id="rId1"/><legacyDrawing r:id="rId3"/><extLst><ext uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="expression" priority="2" id="{00000000-0000-0000-0000-000000000001}"><xm:f>C2&gt;Sums!$A$1</xm:f></x14:cfRule><xm:sqref>C2:C4</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst></worksheet>`,
    'xl/worksheets/_rels/sheet1.xml.rels': relations([
      ['rId1', 'drawing', '../drawings/drawing1.xml'],
      ['rId2', 'comments', '../comments1.xml'],
      ['rId3', 'vmlDrawing', '../drawings/vmlDrawing1.vml'],
    ]),
    'xl/worksheets/sheet2.xml': `<worksheet xmlns="${MAIN}"><sheetData>${other}</sheetData></worksheet>`,
    'xl/comments1.xml': `<comments xmlns="${MAIN}"><authors><author>A</author></authors><commentList><comment ref="B4" authorId="0"><text><t>counted</t></text></comment></commentList></comments>`,
    'xl/drawings/vmlDrawing1.vml': `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="_x0000_s1025" type="#_x0000_t202"><x:ClientData ObjectType="Note"><x:Anchor>3, 12, 2, 4, 5, 12, 6, 4</x:Anchor><x:Row>3</x:Row><x:Column>1</x:Column></x:ClientData></v:shape></xml>`,
    'xl/drawings/drawing1.xml': `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><xdr:twoCellAnchor><xdr:from><xdr:col>5</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>1</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>9</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>12</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to><xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="Chart"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr><xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm><a:graphic><a:graphicData uri="http://schemas.openxmlformats.org/drawingml/2006/chart"><c:chart xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" xmlns:r="${OFFICE}" r:id="rId1"/></a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`,
    'xl/drawings/_rels/drawing1.xml.rels': relations([['rId1', 'chart', '../charts/chart1.xml']]),
    'xl/charts/chart1.xml': `<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart"><c:chart><c:plotArea><c:layout/><c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/><c:ser><c:idx val="0"/><c:order val="0"/><c:tx><c:strRef><c:f>Log!$B$1</c:f></c:strRef></c:tx><c:cat><c:numRef><c:f>Log!$A$2:$A$4</c:f></c:numRef></c:cat><c:val><c:numRef><c:f>Log!$B$2:$B$4</c:f></c:numRef></c:val></c:ser><c:axId val="1"/><c:axId val="2"/></c:lineChart><c:catAx><c:axId val="1"/><c:scaling/><c:delete val="0"/><c:axPos val="b"/><c:crossAx val="2"/></c:catAx><c:valAx><c:axId val="2"/><c:scaling/><c:delete val="0"/><c:axPos val="l"/><c:crossAx val="1"/></c:valAx></c:plotArea></c:chart></c:chartSpace>`,
  };
  return zipSync(
    Object.fromEntries(
      Object.entries(table ? withTable(parts) : parts).map(([name, xml]) => [name, strToU8(xml)]),
    ),
  );
}
