import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import { findKeptFormulas } from '../../engine/check-formulas';
import { valueOf } from '../../engine/evaluate-formula';
import type { KeptFormula } from '../../engine/patches/kept-formulas';
import type { StoredResult, StoredValues } from '../../engine/patches/open-with-stored-values';
import { farmPartOf } from '../../ooxml/farm-part';
import { farmFromXml } from '../../ooxml/farm-xml';
import { inSteps, type Pause, type Steps } from '../../plan/in-steps';
import { Package } from '../../ooxml/package';
import { childNamed } from '../../ooxml/read-xml';
import { readWorkbookParts } from '../../ooxml/workbook-parts';
import { cellAddress } from '../../plan/addresses';
import { eachCell, gridNow } from './cells-then';
import { gridFromFile } from './grid-from-file';
import type { FreshFile, Work } from './kept-work';
import { Losses } from './losses';
import { fileValue, type OpenedWorkbook, sameValue } from './save-into-file';

export interface FileForGrid {
  readonly data: Partial<WorkbookData>;
  /** What formulas gave when the file was saved; those that give another value on another day are left out. */
  readonly stored: StoredValues;
  readonly farm?: string;
  /** Differences on the grid, in sentences. */
  readonly notes: readonly string[];
  /** Kinds of things of the file that the grid does not show. They stay in the file. */
  readonly unseen: readonly string[];
}

function farmOf(file: Package): string | undefined {
  const part = farmPartOf(file);
  return part === undefined ? undefined : farmFromXml(file.text(part));
}

const isTrue = (value: string | undefined): boolean => value === '1' || value === 'true';

/** Kinds of parts that the grid shows nothing of. */
const UNSEEN: readonly (readonly [kind: RegExp, sentence: string])[] = [
  [/\/(?:comments|threadedComment)$/, 'Notes and comments'],
  [/\/pivotTable$/, 'Pivot tables'],
  [/\/vbaProject$/, 'Macros'],
  [/\/externalLink$/, 'Links to other files'],
  [/\/ctrlProp$/, 'Buttons and other controls'],
];

function unseen(file: Package, owners: readonly string[]): string[] {
  const kinds = owners.flatMap((owner) => file.relationships(owner).map(({ type }) => type));
  return UNSEEN.flatMap(([kind, sentence]) =>
    kinds.some((type) => kind.test(type)) ? [sentence] : [],
  );
}

/** An .xlsx file of any writer for the grid. Throws UnreadableFile with a sentence. */
export function* readForGrid(bytes: Uint8Array): Steps<FileForGrid> {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const grid = yield* gridFromFile(file, book);
  const farm = farmOf(file);
  const recompute = isTrue(childNamed(book.root, 'calcPr')?.attributes['fullCalcOnLoad']);
  const stored = recompute ? {} : grid.stored;
  return {
    data: grid.data,
    stored,
    ...(farm !== undefined && { farm }),
    notes: grid.hidden.sentences(),
    unseen: [
      ...(grid.hasUndrawn ? ['Some charts or pictures'] : []),
      ...unseen(file, [book.part, ...book.sheets.map(({ part }) => part)]),
    ],
  };
}

/** What every formula of a workbook gives right after it was opened, where the file says otherwise. */
function* valuesAtOpening(model: Model, stored: StoredValues): Steps<OpenedWorkbook['atOpening']> {
  const out: Record<string, Record<string, StoredResult>> = {};
  const { getters } = model;
  for (const sheetId of getters.getSheetIds()) {
    const results = stored[sheetId] ?? {};
    const note = (row: number, col: number, result: StoredResult | undefined): void => {
      const cell = getters.getEvaluatedCell({ sheetId, row, col });
      const value = cell.value === null ? undefined : valueOf(cell as never);
      if (result && sameValue(value, fileValue(result))) return;
      (out[sheetId] ??= {})[cellAddress(row, col)] = { value: cell.value };
    };
    yield* eachCell(model, sheetId, (cell, { row, col }) => {
      if (!cell.isFormula) return;
      const result = results[cellAddress(row, col)];
      const zone = getters.getSpreadZone({ sheetId, row, col });
      if (!Array.isArray(result) && !zone) {
        note(row, col, result as StoredResult | undefined);
        return;
      }
      const block = (result ?? []) as readonly (readonly StoredResult[])[];
      const height = Math.max(block[0]?.length ?? 1, zone ? zone.bottom - zone.top + 1 : 1);
      const width = Math.max(block.length, zone ? zone.right - zone.left + 1 : 1, 1);
      for (let c = 0; c < width; c++) {
        for (let r = 0; r < height; r++) {
          const cellResult = Array.isArray(result)
            ? block[c]?.[r]
            : (result as StoredResult | undefined);
          note(row + r, col + c, cellResult);
        }
      }
    });
  }
  return out;
}

export interface OpenedFile {
  readonly work: Work;
  /** What is other on the grid than in the file, in sentences. */
  readonly notes: readonly string[];
}

/** An .xlsx file as work for the grid; its formulas are checked once it is on the grid. */
export async function xlsxWork(bytes: Uint8Array, pause: Pause): Promise<OpenedFile> {
  const { data, stored, farm, notes, unseen } = await inSteps(readForGrid(bytes), pause);
  return {
    work: { data, ...(farm !== undefined && { farm }), fresh: { bytes, stored, unseen } },
    notes: [...notes, ...unseen.map((what) => `${what}: not shown here, kept in the file`)],
  };
}

export interface OpenedOnGrid {
  readonly opened: OpenedWorkbook;
  readonly notes: readonly string[];
}

/**
 * Looks, once a file is on the grid, which of its formulas the grid computes as the file's own program did; the
 * others keep what the file says. `kept` is filled and must be the one that the grid was opened with.
 */
export async function checkOpened(
  model: Model,
  { bytes, stored }: Pick<FreshFile, 'bytes' | 'stored'>,
  kept: Record<string, Record<string, KeptFormula>>,
  pause: Pause,
): Promise<OpenedOnGrid> {
  await findKeptFormulas(model, stored, kept, (share) => pause(share * 0.7));
  const losses = new Losses();
  for (const [sheetId, formulas] of Object.entries(kept)) {
    for (const address of Object.keys(formulas)) {
      losses.add(
        'Formulas that the grid computes not at all, or otherwise than the file says, keep the value of the file until a cell that they read changes',
        `${model.getters.getSheetName(sheetId)}!${address}`,
      );
    }
  }
  const atOpening = await inSteps(valuesAtOpening(model, stored), (share) =>
    pause(0.7 + share * 0.15),
  );
  const before = await inSteps(gridNow(model), (share) => pause(0.85 + share * 0.15));
  // The grid goes on with its own list, in which formulas move along with their cells.
  const opened = { bytes, before, kept: { ...kept }, atOpening };
  // The file itself says it once more when it is saved.
  for (const sheetId of Object.keys(stored)) Reflect.deleteProperty(stored, sheetId);
  return { opened, notes: losses.sentences() };
}
