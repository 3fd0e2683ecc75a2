import type { Model } from '@odoo/o-spreadsheet';
import { registerFunctions } from '../../src/engine/engine-functions';
import { atOnce } from '../../src/plan/in-steps';
import { quietly } from '../../src/engine/quietly';
import { checkOpened, readForGrid } from '../../src/hosts/workbench/open-xlsx';
import {
  type AddedToFile,
  type OpenedWorkbook,
  saveIntoFile,
} from '../../src/hosts/workbench/save-into-file';
import { wholeModel } from '../../src/hosts/workbench/laying-out';
import { guardFiles, type OnRefused } from '../../src/hosts/workbench/file-guard';

/** A workbook on the workbench's grid, without a page. */
export interface OnGrid {
  readonly model: Model;
  readonly opened: OpenedWorkbook;
  /** What is said when it is opened. */
  readonly notes: readonly string[];
  readonly unseen: readonly string[];
  /** Types into a cell of a sheet by its place in the file. */
  type(sheet: number, address: string, content: string): void;
  shown(sheet: number, address: string): unknown;
  save(added?: AddedToFile): { readonly bytes: Uint8Array; readonly losses: readonly string[] };
}

const cellOf = (address: string): { row: number; col: number } => {
  const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const col = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(digits) - 1, col };
};

/** Opens a file as the page does. */
export async function openOnGrid(bytes: Uint8Array, onRefused?: OnRefused): Promise<OnGrid> {
  registerFunctions();
  guardFiles();
  const { data, stored, notes, unseen } = atOnce(readForGrid(bytes));
  const kept = {};
  const options = { storedValues: stored, keptFormulas: kept, file: { bytes }, onRefused };
  const { model } = atOnce(wholeModel(data, options));
  const checked = await checkOpened(model, { bytes, stored }, kept, () => undefined);
  const at = (sheet: number, address: string) => ({
    sheetId: `file-${sheet + 1}`,
    ...cellOf(address),
  });
  return {
    model,
    opened: checked.opened,
    notes: [...notes, ...checked.notes],
    unseen,
    type: (sheet, address, content) => {
      const done = quietly(() => model.dispatch('UPDATE_CELL', { ...at(sheet, address), content }));
      if (!done.isSuccessful) throw new Error(`${address}: ${[...done.reasons].join(', ')}`);
    },
    shown: (sheet, address) => model.getters.getEvaluatedCell(at(sheet, address)).value,
    save: (added) => {
      const { bytes: saved, losses } = quietly(() => saveIntoFile(checked.opened, model, added));
      return { bytes: saved, losses: losses.sentences() };
    },
  };
}
