import { storedCalls } from '../functions/stored-name';
import type { Paper, WorkbookModel } from '../plan/workbook-model';
import type { ComputedValues } from '../plan/computed-values';
import { addAddIn, type AddInReference } from './add-in-part';
import { SharedTexts } from './cells-xml';
import { checkingModel } from './check-model';
import { contentsOf } from './cell-contents';
import { dynamicArraysXml } from './dynamic-arrays';
import { addFarm } from './farm-part';
import { atOnce, partly, type Steps } from '../plan/in-steps';
import { Package } from './package';
import { appXml, coreXml } from './properties-xml';
import { addingSheetPart, type SheetWriting } from './sheet-parts';
import { StyleBook } from './styles-xml';
import { workbookXml } from './workbook-xml';
import { element, runText, xmlPart } from './write-xml';
import { SPREADSHEET, spreadsheetType } from './namespaces';

export interface XlsxOptions {
  /** In place of what the sheets ask for. */
  readonly paper?: Paper;
  /** For live workbooks only: the add-in that computes them. Default none. */
  readonly addIn?: AddInReference;
}

const DRAWING = 'application/vnd.openxmlformats-officedocument';
const WORKBOOK = 'xl/workbook.xml';

const sharedTextsXml = (texts: SharedTexts): string =>
  xmlPart(
    element(
      'sst',
      {
        xmlns: SPREADSHEET,
        count: texts.uses,
        uniqueCount: texts.all.length,
      },
      texts.all.map((text) => element('si', {}, runText(text))),
    ),
  );

/** The custom functions that a workbook calls, by stored name. */
const functionsOf = (model: WorkbookModel): string[] => {
  const formulas = model.sheets.flatMap(({ rows }) =>
    rows.flatMap((row) => row.flatMap((cell) => cell?.formula ?? [])),
  );
  return [...new Set(formulas.flatMap(storedCalls))].sort();
};

/**
 * The bytes of an .xlsx file for a plan and what its cells hold once computed. Equal plans give equal bytes,
 * whatever the day, the machine or its time zone. Throws, with a sentence that names the place, where the
 * plan holds what a file cannot.
 */
export const writeXlsx = (
  model: WorkbookModel,
  values: ComputedValues,
  options: XlsxOptions = {},
): Uint8Array => atOnce(writingXlsx(model, values, options));

/** As `writeXlsx`, in steps. */
export function* writingXlsx(
  model: WorkbookModel,
  values: ComputedValues,
  { paper, addIn }: XlsxOptions = {},
): Steps<Uint8Array> {
  yield* partly(checkingModel(model), 0, 0);
  const file = new Package();
  file.relate('', 'officeDocument', WORKBOOK);
  const texts = new SharedTexts();
  const writing: SheetWriting = {
    file,
    workbook: WORKBOOK,
    folder: 'xl/',
    model,
    contents: contentsOf(model, values),
    styles: new StyleBook(),
    keeping: { texts, mark: '1' },
    tableIds: new Set(),
  };
  const ids: string[] = [];
  for (const [i, sheet] of model.sheets.entries()) {
    const setting = { isFirst: i === 0, title: model.title, ...(paper && { paper }) };
    const share = (n: number): number => (0.6 * n) / model.sheets.length;
    const adding = addingSheetPart(writing, sheet, setting);
    ids.push(yield* partly(adding, share(i), share(i + 1)));
  }
  file.add(WORKBOOK, spreadsheetType('sheet.main'), workbookXml(model, ids));
  const addKnown = (kind: string, name: string, xml: string, relation = kind): void => {
    file.add(`xl/${name}.xml`, spreadsheetType(kind), xml);
    file.relate(WORKBOOK, relation, `xl/${name}.xml`);
  };
  addKnown('styles', 'styles', writing.styles.xml());
  if (texts.uses > 0) {
    addKnown('sharedStrings', 'sharedStrings', sharedTextsXml(texts));
  }
  const functions = functionsOf(model);
  if (functions.length > 0) addKnown('sheetMetadata', 'metadata', dynamicArraysXml());
  if (model.farm !== undefined) addFarm(file, WORKBOOK, model.farm);
  file.add(
    'docProps/core.xml',
    'application/vnd.openxmlformats-package.core-properties+xml',
    coreXml(model),
  );
  file.relate(
    '',
    'http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties',
    'docProps/core.xml',
  );
  file.add('docProps/app.xml', `${DRAWING}.extended-properties+xml`, appXml());
  file.relate('', 'extended-properties', 'docProps/app.xml');
  if (addIn && model.formulas === 'live') addAddIn(file, addIn, functions);
  return yield* partly(file.packing(), 0.6, 1);
}
