import type { SheetModel, WorkbookModel } from '../../plan/workbook-model';
import { FARM_NAMESPACE, farmXml } from '../../ooxml/farm-xml';
import { withFreeNames } from '../../plan/free-names';
import type { BuildReport } from '../../sidebar/host';
import { excelSentence } from './excel-errors';
import { type Pieces, Requests, weight } from './requests';
import { type Abilities, cellPieces, columnCount, sheetPieces } from './sheet-writer';

/** Raised when the grower stopped the build; nothing that it had made is left. */
export class BuildCancelled extends Error {
  override name = 'AbortError';
}

const stopIfCancelled = (cancel: AbortSignal): void => {
  if (cancel.aborted) throw new BuildCancelled('The build was stopped; nothing was left behind.');
};

/** What stood in the workbook before, and what this build called its own things. */
interface PreparedBuild {
  readonly plan: WorkbookModel;
  readonly farmParts: readonly string[];
}

/** First round trip: which names are taken, and whether sheets can be added at all. */
async function prepare(context: Excel.RequestContext, plan: WorkbookModel): Promise<PreparedBuild> {
  const { workbook } = context;
  const sheets = workbook.worksheets.load('items/name');
  const names = workbook.names.load('items/name');
  const tables = workbook.tables.load('items/name');
  const parts = workbook.customXmlParts.getByNamespace(FARM_NAMESPACE).load('items/id');
  const protection = workbook.protection.load('protected');
  await context.sync();
  if (protection.protected) {
    throw new Error(
      "This workbook's structure is protected, so that no sheet can be added. Lift the protection (Review, Protect Workbook), or build in a new workbook.",
    );
  }
  return {
    plan: withFreeNames(plan, {
      sheets: sheets.items.map((item) => item.name),
      names: [...names.items, ...tables.items].map((item) => item.name),
    }),
    farmParts: parts.items.map((item) => item.id),
  };
}

/** A cell with a GILL formula, by which it shows whether Excel knows the functions. */
function probeCell(
  plan: WorkbookModel,
): { sheet: string; row: number; column: number } | undefined {
  if (plan.formulas !== 'live') return undefined;
  for (const sheet of plan.sheets) {
    for (const [row, cells] of sheet.rows.entries()) {
      const column = cells.findIndex((cell) => cell?.formula?.includes('GILL.'));
      if (column >= 0) return { sheet: sheet.name, row, column };
    }
  }
  return undefined;
}

type Progress = (share: number, doing?: string) => void;

/** Shares of the whole at which a step begins: looking round, cells, everything else of the sheets, the end. */
const STARTS_AT = { look: 0, cells: 0.05, sheets: 0.4, finish: 0.95 } as const;

/** Lets the page draw, and take a click on Cancel. */
const yieldToPage = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

type SheetNamed = (name: string) => Excel.Worksheet;

function* namePieces(
  { workbook }: Excel.RequestContext,
  plan: WorkbookModel,
  sheetNamed: SheetNamed,
): Pieces {
  for (const { name, sheet, area } of plan.names) {
    const range = sheetNamed(sheet)
      .getRangeByIndexes(area.row, area.column, area.rows, area.columns)
      .untrack();
    workbook.names.add(name, range);
    yield weight(4, name);
  }
}

/** Makes the sheets and all that they hold; answers the cell that shows whether Excel knows the functions. */
async function write(
  context: Excel.RequestContext,
  plan: WorkbookModel,
  abilities: Abilities,
  progress: Progress,
  cancel: AbortSignal,
): Promise<Excel.Range | undefined> {
  const { workbook } = context;
  const made = new Map(
    plan.sheets.map((model) => [model.name, workbook.worksheets.add(model.name)]),
  );
  const sheetNamed: SheetNamed = (name) => made.get(name) ?? workbook.worksheets.getItem(name);
  const requests = new Requests(context, async () => {
    await yieldToPage();
    stopIfCancelled(cancel);
  });
  const rows = plan.sheets.reduce((sum, model) => sum + model.rows.length, 0);
  /** Goes through the sheets once, with progress from one share to the other. */
  const eachSheet = async (
    from: number,
    to: number,
    doing: string,
    piecesOf: (model: SheetModel) => Pieces,
  ): Promise<void> => {
    let done = 0;
    for (const [i, model] of plan.sheets.entries()) {
      progress(
        from + (done / rows) * (to - from),
        `${doing} ${model.name}, sheet ${i + 1} of ${plan.sheets.length}`,
      );
      await yieldToPage();
      stopIfCancelled(cancel);
      await requests.carryOut(piecesOf(model));
      done += model.rows.length;
    }
  };
  // Names and cells of all sheets first: rules and charts refer to them, and formulas to the names.
  await requests.carryOut(namePieces(context, plan, sheetNamed));
  await eachSheet(STARTS_AT.cells, STARTS_AT.sheets, 'Writing the cells of', (model) =>
    cellPieces(sheetNamed(model.name), model),
  );
  await eachSheet(STARTS_AT.sheets, STARTS_AT.finish, 'Setting out', (model) =>
    sheetPieces(sheetNamed(model.name), model, sheetNamed, abilities, plan.title),
  );
  progress(STARTS_AT.finish, 'Excel is making the sheets and computing them');
  const probe = probeCell(plan);
  const range = probe && sheetNamed(probe.sheet).getCell(probe.row, probe.column).load('values');
  await requests.send();
  return range;
}

const unknownFunction = (probe: Excel.Range | undefined): boolean =>
  probe?.values[0]?.[0] === '#NAME?';

/** Last of all: formulas once more where Excel did not know them yet, the farm, the first sheet. */
async function finish(
  context: Excel.RequestContext,
  { plan, farmParts }: PreparedBuild,
  probe: Excel.Range | undefined,
  cancel: AbortSignal,
): Promise<string[]> {
  const { workbook } = context;
  const again = unknownFunction(probe);
  if (again) {
    const requests = new Requests(context, async () => stopIfCancelled(cancel));
    for (const model of plan.sheets) {
      await requests.carryOut(cellPieces(workbook.worksheets.getItem(model.name), model));
    }
    probe?.load('values');
  }
  if (plan.farm !== undefined) workbook.customXmlParts.add(farmXml(plan.farm));
  const [first] = plan.sheets;
  if (first) {
    const sheet = workbook.worksheets.getItem(first.name);
    sheet.activate();
    sheet.getCell(0, 0).untrack().select();
  }
  // Last of all: an earlier farm goes only when everything else is in place.
  if (plan.farm !== undefined)
    for (const id of farmParts) workbook.customXmlParts.getItem(id).delete();
  await context.sync();
  return again && unknownFunction(probe)
    ? [
        'Excel does not know the GILL functions yet and shows #NAME?. Close this pane and open it again; then enter one of the formulas anew (F2, Enter).',
      ]
    : [];
}

/** Takes away what a build that did not get through has made. */
async function removeMade({ plan, farmParts }: PreparedBuild): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    const { workbook } = context;
    const sheets = workbook.worksheets.load('items/name');
    const names = workbook.names.load('items/name');
    const parts = workbook.customXmlParts.getByNamespace(FARM_NAMESPACE).load('items/id');
    await context.sync();
    // Every one of these names was free before the build.
    const ourNames = new Set(plan.names.map((name) => name.name));
    const ourSheets = new Set(plan.sheets.map((sheet) => sheet.name));
    for (const name of names.items) if (ourNames.has(name.name)) name.delete();
    for (const sheet of sheets.items) if (ourSheets.has(sheet.name)) sheet.delete();
    for (const part of parts.items) if (!farmParts.includes(part.id)) part.delete();
    await context.sync();
  });
}

/**
 * Writes a plan into new sheets of the open workbook, in as many requests as its size asks for. Sheets, names and tables
 * that are there stay as they are; a plan that does not get through leaves nothing behind.
 * Throws BuildCancelled, or an Error whose message is a sentence for the grower.
 */
export async function buildInExcel(
  plan: WorkbookModel,
  abilities: Abilities,
  progress: Progress,
  cancel: AbortSignal,
): Promise<BuildReport> {
  const begun: { prepared?: PreparedBuild } = {};
  try {
    stopIfCancelled(cancel);
    progress(STARTS_AT.look, 'Looking which names are taken');
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const prepared = await prepare(context, plan);
      stopIfCancelled(cancel);
      begun.prepared = prepared;
      const probe = await write(context, prepared.plan, abilities, progress, cancel);
      stopIfCancelled(cancel);
      progress(STARTS_AT.finish, 'Putting the farm into the workbook');
      const notes = await finish(context, prepared, probe, cancel);
      progress(1);
      return { sheets: prepared.plan.sheets.map((sheet) => sheet.name), notes };
    });
  } catch (thrown) {
    const reason = thrown instanceof BuildCancelled ? thrown : new Error(excelSentence(thrown));
    const { prepared } = begun;
    if (prepared) {
      const left = prepared.plan.sheets.map((sheet) => `"${sheet.name}"`).join(', ');
      await removeMade(prepared).catch(() => {
        throw new Error(
          `${reason.message} What had been made could not all be removed: look for the sheets ${left} and delete them by hand.`,
        );
      });
    }
    throw reason;
  }
}

/** Cells that a plan fills, for the sentence before a build. */
export const cellCount = (plan: WorkbookModel): number =>
  plan.sheets.reduce((sum, sheet) => sum + sheet.rows.length * columnCount(sheet), 0);
