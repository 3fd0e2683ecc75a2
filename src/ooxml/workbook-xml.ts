import { columnLetters } from '../functions/cell-address';
import { fullAddress, sheetInFormula } from '../plan/addresses';
import { repeatedColumns, type SheetModel, type WorkbookModel } from '../plan/workbook-model';
import { element, textElement, xmlPart } from './write-xml';
import { OFFICE_RELATIONSHIPS, SPREADSHEET } from './namespaces';

/**
 * Whether a spreadsheet computes everything anew on opening.
 *
 * A plain workbook: yes. Every host can compute all of it, so that what stands in the file can never be
 * staler than what is shown.
 *
 * A live one: no. On a computer without Gillbed every GILL cell would turn into #NAME? and the values that
 * came with the file would be lost; with Gillbed the values are already what it would compute. Excel also
 * computes everything when a file was last computed by an older engine than its own, so the file names the
 * engine of current Excel.
 */
const CURRENT_ENGINE = 191029;
const calculation = (formulas: WorkbookModel['formulas']): string =>
  element('calcPr', {
    calcId: CURRENT_ENGINE,
    fullCalcOnLoad: formulas === 'plain' ? 1 : undefined,
  });

interface DefinedName {
  readonly name: string;
  /** Place of the sheet that the name is for; without it the name is for all. */
  readonly sheet?: number;
  readonly text: string;
}

/** The names by which a file says what of a sheet is printed and what is repeated. */
export function printNames(model: SheetModel, sheet: number): DefinedName[] {
  const { name, print } = model;
  const at = sheetInFormula(name);
  const columns = repeatedColumns(model);
  const repeated = [
    columns > 0 ? `${at}!$A:$${columnLetters(columns - 1)}` : '',
    print.headRows > 0
      ? `${at}!$${(print.headFrom ?? 0) + 1}:$${(print.headFrom ?? 0) + print.headRows}`
      : '',
  ].filter(Boolean);
  return [
    ...(print.areas
      ? [
          {
            name: '_xlnm.Print_Area',
            sheet,
            text: print.areas.map((area) => fullAddress(name, area)).join(','),
          },
        ]
      : []),
    ...(repeated.length > 0
      ? [{ name: '_xlnm.Print_Titles', sheet, text: repeated.join(',') }]
      : []),
  ];
}

function definedNames(model: WorkbookModel): string {
  const entries: DefinedName[] = [
    ...model.sheets.flatMap(printNames),
    ...model.names.map(({ name, sheet, area }) => ({
      name,
      text: fullAddress(sheet, area),
    })),
  ];
  // Files keep names in alphabetical order.
  const order = (a: { name: string }, b: { name: string }): number => {
    const [left, right] = [a.name.toLowerCase(), b.name.toLowerCase()];
    return left < right ? -1 : left > right ? 1 : 0;
  };
  return entries.length === 0
    ? ''
    : element(
        'definedNames',
        {},
        [...entries]
          .sort(order)
          .map(({ name, sheet, text }) =>
            textElement('definedName', text, { name, localSheetId: sheet }),
          ),
      );
}

/** `ids` are the relations of the sheets. */
export const workbookXml = (model: WorkbookModel, ids: readonly string[]): string =>
  xmlPart(
    element(
      'workbook',
      {
        xmlns: SPREADSHEET,
        'xmlns:r': OFFICE_RELATIONSHIPS,
      },
      [
        element('workbookPr', { defaultThemeVersion: 164011 }),
        element(
          'bookViews',
          {},
          element('workbookView', {
            xWindow: 0,
            yWindow: 0,
            windowWidth: 28800,
            windowHeight: 16000,
            tabRatio: 850,
          }),
        ),
        element(
          'sheets',
          {},
          model.sheets.map(({ name }, i) =>
            element('sheet', { name, sheetId: i + 1, 'r:id': ids[i] }),
          ),
        ),
        definedNames(model),
        calculation(model.formulas),
      ],
    ),
  );
