import type { SheetModel, WorkbookModel } from '../plan/workbook-model';
import { type CellKeeping, writingCells } from './cells-xml';
import { chartXml, drawingXml } from './chart-xml';
import type { Contents } from './cell-contents';
import type { Steps } from '../plan/in-steps';
import { noteShapesXml, notesOf, notesXml } from './notes-xml';
import type { Package } from './package';
import { type SheetLinks, type SheetSetting, sheetXml } from './sheet-xml';
import type { StyleBook } from './styles-xml';
import { tableXml } from './table-xml';
import { spreadsheetType } from './namespaces';

const DRAWING = 'application/vnd.openxmlformats-officedocument';

/** What the sheets of a file have in common while they are written. */
export interface SheetWriting {
  readonly file: Package;
  /** The workbook part, and the folder that its sheets and their parts stand in. */
  readonly workbook: string;
  readonly folder: string;
  readonly model: Pick<WorkbookModel, 'sheets'>;
  readonly contents: Contents;
  readonly styles: StyleBook;
  readonly keeping: CellKeeping;
  /** Numbers that the tables of the file have. */
  readonly tableIds: Set<number>;
}

/** The first name of a kind that no part has: "xl/charts/chart" and ".xml" give "xl/charts/chart4.xml". */
function freePart({ file }: SheetWriting, start: string, end: string): [part: string, n: number] {
  for (let n = 1; ; n++) {
    const part = `${start}${n}${end}`;
    if (!file.has(part)) return [part, n];
  }
}

function addCharts(writing: SheetWriting, sheet: SheetModel, part: string): string | undefined {
  if (sheet.charts.length === 0) return undefined;
  const { file, model, contents, folder } = writing;
  const [drawing] = freePart(writing, `${folder}drawings/drawing`, '.xml');
  const ids = sheet.charts.map((chart) => {
    const [path] = freePart(writing, `${folder}charts/chart`, '.xml');
    file.add(path, `${DRAWING}.drawingml.chart+xml`, chartXml(model, chart, contents));
    return file.relate(drawing, 'chart', path);
  });
  file.add(drawing, `${DRAWING}.drawing+xml`, drawingXml(sheet.charts, ids));
  return file.relate(part, 'drawing', drawing);
}

function addNotes(writing: SheetWriting, sheet: SheetModel, part: string): string | undefined {
  const notes = notesOf(sheet);
  if (notes.length === 0) return undefined;
  const { file, folder } = writing;
  const [comments, number] = freePart(writing, `${folder}comments`, '.xml');
  const [shapes] = freePart(writing, `${folder}drawings/vmlDrawing`, '.vml');
  file.knowEnding('vml', `${DRAWING}.vmlDrawing`);
  file.add(shapes, undefined, noteShapesXml(notes, number));
  file.add(comments, spreadsheetType('comments'), notesXml(notes));
  const id = file.relate(part, 'vmlDrawing', shapes);
  file.relate(part, 'comments', comments);
  return id;
}

function addTables(writing: SheetWriting, sheet: SheetModel, part: string): string[] {
  const { file, tableIds, folder } = writing;
  return sheet.tables.map((table) => {
    const [path, number] = freePart(writing, `${folder}tables/table`, '.xml');
    let id = number;
    while (tableIds.has(id)) id += 1;
    tableIds.add(id);
    file.add(path, spreadsheetType('table'), tableXml(sheet, table, id));
    return file.relate(part, 'table', path);
  });
}

/** Adds the part of a sheet with all that belongs to it; gives its relation to the workbook. */
export function* addingSheetPart(
  writing: SheetWriting,
  sheet: SheetModel,
  setting: SheetSetting,
): Steps<string> {
  const { file, contents, styles, keeping, workbook, folder } = writing;
  const [part] = freePart(writing, `${folder}worksheets/sheet`, '.xml');
  const cells = yield* writingCells(sheet, contents, styles, keeping);
  const drawing = addCharts(writing, sheet, part);
  const noteShapes = addNotes(writing, sheet, part);
  const links: SheetLinks = {
    ...(drawing !== undefined && { drawing }),
    ...(noteShapes !== undefined && { noteShapes }),
    tables: addTables(writing, sheet, part),
  };
  file.add(part, spreadsheetType('worksheet'), sheetXml(sheet, cells, styles, links, setting));
  return file.relate(workbook, 'worksheet', part);
}
