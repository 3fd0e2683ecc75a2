import { App } from '@odoo/owl';
import {
  type Model,
  Spreadsheet,
  setTranslationMethod,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import templates from '@odoo/o-spreadsheet/dist/o_spreadsheet.xml';
import * as charts from 'chart.js';
import type { Opening } from '../../engine/patches/opening';
import { inSteps, type Pause } from '../../plan/in-steps';
import { acceptEntries } from './enter-cells';
import { guardFiles } from './file-guard';
import { type GridOptions, modelInTurn, wholeModel } from './laying-out';
import { followPlaceLinks } from './place-links';
import { addRowsInTurn } from './rows-at-the-end';

/** The grid on the page with the workbook that it shows. */
export interface Grid {
  readonly model: Model;
  /** What of it is not in yet, where it was opened with stored values. */
  readonly opening?: Opening | undefined;
  close(): void;
}

/** Sentences of the grid that would send a grower to somebody else. */
const ownSentences: Readonly<Record<string, string>> = {
  'An unexpected error occurred. Submit a support ticket at odoo.com/help.':
    'This function met a fault of its own.',
};

let prepared = false;

function prepare(): void {
  if (prepared) return;
  prepared = true;
  guardFiles();
  acceptEntries();
  addRowsInTurn();
  followPlaceLinks();
  charts.Chart.register(...charts.registerables);
  // The grid looks for the drawing library, all parts in one, among the page's globals.
  Object.assign(globalThis, { Chart: Object.assign(charts.Chart, charts) });
  setTranslationMethod((...[text]) => ownSentences[text] ?? text);
  console.debug = () => undefined;
}

/**
 * Puts a workbook on the page, with stored values where there are some. With `pause` all of it comes in first, in
 * steps; otherwise sheets come in when they are looked at. Throws where the data cannot be read; then nothing has
 * changed.
 */
export async function openGrid(
  element: HTMLElement,
  data: Partial<WorkbookData>,
  options: GridOptions,
  pause?: Pause,
): Promise<Grid> {
  prepare();
  const { model, opening } = pause
    ? await inSteps(wholeModel(data, options), pause)
    : modelInTurn(data, options);
  const app = new App(Spreadsheet, { props: { model }, templates, name: 'workbench' });
  await app.mount(element);
  return { model, opening, close: () => app.destroy() };
}
