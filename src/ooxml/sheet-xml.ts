import { areaAddress, cellAddress } from '../plan/addresses';
import type { Paper, SheetModel } from '../plan/workbook-model';
import type { WrittenCells } from './cells-xml';
import { DEFAULT_WIDTH } from '../plan/row-height';
import { conditionsXml, validationsXml } from './rules-xml';
import type { StyleBook } from './styles-xml';
import { tableRemarksXml } from './table-xml';
import { element, textElement, xmlPart } from './write-xml';
import { OFFICE_RELATIONSHIPS, SPREADSHEET } from './namespaces';

const paperSizes: Readonly<Record<Paper, number>> = { Letter: 1, A4: 9 };

function viewXml({ frozen: { rows, columns } }: SheetModel, isFirst: boolean): string {
  const pane = rows > 0 && columns > 0 ? 'bottomRight' : rows > 0 ? 'bottomLeft' : 'topRight';
  const isFrozen = rows > 0 || columns > 0;
  return element('sheetViews', {}, [
    element(
      'sheetView',
      { showGridLines: 0, tabSelected: isFirst ? 1 : undefined, workbookViewId: 0 },
      isFrozen
        ? [
            element('pane', {
              xSplit: columns || undefined,
              ySplit: rows || undefined,
              topLeftCell: cellAddress(rows, columns),
              activePane: pane,
              state: 'frozen',
            }),
            element('selection', {
              pane,
              activeCell: cellAddress(rows, columns),
              sqref: cellAddress(rows, columns),
            }),
          ]
        : '',
    ),
  ]);
}

function columnsXml({ columnWidths, folded }: SheetModel): string {
  const end = folded ? folded.column + folded.columns : 0;
  // The column after folded ones bears their plus sign.
  const count = Math.max(columnWidths.length, end && end + 1);
  const columns = Array.from({ length: count }, (_, i) =>
    element('col', {
      min: i + 1,
      max: i + 1,
      width: columnWidths[i] ?? DEFAULT_WIDTH,
      customWidth: columnWidths[i] === undefined ? undefined : 1,
      ...(folded && i >= folded.column && i < end && { hidden: 1, outlineLevel: 1 }),
      ...(folded && i === end && { collapsed: 1 }),
    }),
  );
  return count === 0 ? '' : element('cols', {}, columns);
}

const mergesXml = ({ merges }: SheetModel): string =>
  merges.length === 0
    ? ''
    : element(
        'mergeCells',
        { count: merges.length },
        merges.map((area) => element('mergeCell', { ref: areaAddress(area) })),
      );

/** Text of a footer, in which "&" begins a code. */
const inFooter = (text: string): string => text.replaceAll('&', '&&');

/** One page wide, or as many as the sheet asks for, on A4 and Letter alike: the margins leave both the same width of paper and more. */
const pageXml = (sheet: SheetModel, title: string, paper: Paper = 'A4'): string =>
  [
    element('printOptions', { horizontalCentered: 1 }),
    element('pageMargins', {
      left: 0.5,
      right: 0.5,
      top: 0.6,
      bottom: 0.75,
      header: 0.3,
      footer: 0.35,
    }),
    element('pageSetup', {
      paperSize: paperSizes[paper],
      orientation: sheet.print.landscape ? 'landscape' : 'portrait',
      fitToWidth: sheet.print.pagesWide ?? 1,
      fitToHeight: sheet.print.pagesTall ?? 0,
    }),
    element(
      'headerFooter',
      {},
      textElement('oddFooter', `&L&9${inFooter(title).slice(0, 120)}&C&9&A&R&9&P / &N`),
    ),
  ].join('');

/** Relations of a sheet to its other parts. */
export interface SheetLinks {
  readonly drawing?: string;
  readonly noteShapes?: string;
  readonly tables: readonly string[];
}

export interface SheetSetting {
  readonly isFirst: boolean;
  readonly title: string;
  /** In place of what the sheet asks for. */
  readonly paper?: Paper;
}

export function sheetXml(
  sheet: SheetModel,
  { xml: cells, used }: WrittenCells,
  styles: StyleBook,
  links: SheetLinks,
  { isFirst, title, paper }: SheetSetting,
): string {
  const link = (name: string, id: string | undefined): string =>
    id === undefined ? '' : element(name, { 'r:id': id });
  return xmlPart(
    element(
      'worksheet',
      {
        xmlns: SPREADSHEET,
        'xmlns:r': OFFICE_RELATIONSHIPS,
      },
      [
        element('sheetPr', {}, [
          sheet.tabColour === undefined
            ? ''
            : element('tabColor', { rgb: sheet.tabColour.replace('#', 'FF') }),
          element('pageSetUpPr', { fitToPage: 1 }),
        ]),
        element('dimension', { ref: areaAddress(used) }),
        viewXml(sheet, isFirst),
        element('sheetFormatPr', {
          defaultRowHeight: 15,
          outlineLevelCol: sheet.folded ? 1 : undefined,
        }),
        columnsXml(sheet),
        cells,
        mergesXml(sheet),
        conditionsXml(sheet, styles),
        validationsXml(sheet),
        pageXml(sheet, title, paper ?? sheet.print.paper),
        tableRemarksXml(sheet),
        link('drawing', links.drawing),
        link('legacyDrawing', links.noteShapes),
        links.tables.length === 0
          ? ''
          : element(
              'tableParts',
              { count: links.tables.length },
              links.tables.map((id) => link('tablePart', id)),
            ),
      ],
    ),
  );
}
