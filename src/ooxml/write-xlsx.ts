import { storedCalls } from '../functions/stored-name';
import type { SheetModel, WorkbookModel } from '../plan/workbook-model';
import type { ComputedValues } from '../plan/computed-values';
import { addAddIn, type AddInReference } from './add-in-part';
import { sheetCells, SharedTexts } from './cells-xml';
import { chartXml, drawingXml } from './chart-xml';
import { checkModel } from './check-model';
import { type Contents, contentsOf } from './cell-contents';
import { dynamicArraysXml } from './dynamic-arrays';
import { addFarm } from './farm-part';
import { noteShapesXml, notesOf, notesXml } from './notes-xml';
import { Package } from './package';
import { appXml, coreXml } from './properties-xml';
import { type Paper, type SheetLinks, type SheetSetting, sheetXml } from './sheet-xml';
import { StyleBook } from './styles-xml';
import { tableXml } from './table-xml';
import { workbookXml } from './workbook-xml';
import { element, runText, xmlPart } from './write-xml';
import { SPREADSHEET, spreadsheetType } from './namespaces';

export interface XlsxOptions {
  /** The paper that the sheets ask for; they fit both. Default A4. */
  readonly paper?: Paper;
  /** For live workbooks only: the add-in that computes them. Default none. */
  readonly addIn?: AddInReference;
}

const DRAWING = 'application/vnd.openxmlformats-officedocument';
const WORKBOOK = 'xl/workbook.xml';

/** Parts of a kind are numbered through the whole file. */
class Numbers {
  private readonly last = new Map<string, number>();
  next(kind: string): number {
    const number = (this.last.get(kind) ?? 0) + 1;
    this.last.set(kind, number);
    return number;
  }
}

interface Writing {
  readonly file: Package;
  readonly model: WorkbookModel;
  readonly contents: Contents;
  readonly styles: StyleBook;
  readonly texts: SharedTexts;
  readonly numbers: Numbers;
}

function addCharts(writing: Writing, sheet: SheetModel, part: string): string | undefined {
  if (sheet.charts.length === 0) return undefined;
  const { file, model, contents, numbers } = writing;
  const drawing = `xl/drawings/drawing${numbers.next('drawing')}.xml`;
  const ids = sheet.charts.map((chart) => {
    const path = `xl/charts/chart${numbers.next('chart')}.xml`;
    file.add(path, `${DRAWING}.drawingml.chart+xml`, chartXml(model, chart, contents));
    return file.relate(drawing, 'chart', path);
  });
  file.add(drawing, `${DRAWING}.drawing+xml`, drawingXml(sheet.charts, ids));
  return file.relate(part, 'drawing', drawing);
}

function addNotes(writing: Writing, sheet: SheetModel, part: string): string | undefined {
  const notes = notesOf(sheet);
  if (notes.length === 0) return undefined;
  const { file, numbers } = writing;
  const number = numbers.next('notes');
  const shapes = `xl/drawings/vmlDrawing${number}.vml`;
  const comments = `xl/comments${number}.xml`;
  file.add(shapes, undefined, noteShapesXml(notes, number));
  file.add(comments, spreadsheetType('comments'), notesXml(notes));
  const id = file.relate(part, 'vmlDrawing', shapes);
  file.relate(part, 'comments', comments);
  return id;
}

function addTables({ file, numbers }: Writing, sheet: SheetModel, part: string): string[] {
  return sheet.tables.map((table) => {
    const number = numbers.next('table');
    const path = `xl/tables/table${number}.xml`;
    file.add(path, spreadsheetType('table'), tableXml(sheet, table, number));
    return file.relate(part, 'table', path);
  });
}

function addSheet(writing: Writing, sheet: SheetModel, setting: SheetSetting): string {
  const { file, contents, styles, texts, numbers } = writing;
  const part = `xl/worksheets/sheet${numbers.next('sheet')}.xml`;
  const cells = sheetCells(sheet, contents, styles, texts);
  const drawing = addCharts(writing, sheet, part);
  const noteShapes = addNotes(writing, sheet, part);
  const links: SheetLinks = {
    ...(drawing !== undefined && { drawing }),
    ...(noteShapes !== undefined && { noteShapes }),
    tables: addTables(writing, sheet, part),
  };
  file.add(part, spreadsheetType('worksheet'), sheetXml(sheet, cells, styles, links, setting));
  return file.relate(WORKBOOK, 'worksheet', part);
}

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
export function writeXlsx(
  model: WorkbookModel,
  values: ComputedValues,
  { paper = 'A4', addIn }: XlsxOptions = {},
): Uint8Array {
  checkModel(model);
  const file = new Package();
  file.relate('', 'officeDocument', WORKBOOK);
  const writing: Writing = {
    file,
    model,
    contents: contentsOf(model, values),
    styles: new StyleBook(),
    texts: new SharedTexts(),
    numbers: new Numbers(),
  };
  const ids = model.sheets.map((sheet, i) =>
    addSheet(writing, sheet, { isFirst: i === 0, title: model.title, paper }),
  );
  file.add(WORKBOOK, spreadsheetType('sheet.main'), workbookXml(model, ids));
  const addKnown = (kind: string, name: string, xml: string, relation = kind): void => {
    file.add(`xl/${name}.xml`, spreadsheetType(kind), xml);
    file.relate(WORKBOOK, relation, `xl/${name}.xml`);
  };
  addKnown('styles', 'styles', writing.styles.xml());
  if (writing.texts.uses > 0) {
    addKnown('sharedStrings', 'sharedStrings', sharedTextsXml(writing.texts));
  }
  const functions = functionsOf(model);
  if (functions.length > 0) addKnown('sheetMetadata', 'metadata', dynamicArraysXml());
  addFarm(file, WORKBOOK, model.farm);
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
  return file.bytes();
}
