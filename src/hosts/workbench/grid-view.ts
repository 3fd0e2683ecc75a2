import { App } from '@odoo/owl';
import { Model, Spreadsheet, setTranslationMethod, type WorkbookData } from '@odoo/o-spreadsheet';
import templates from '@odoo/o-spreadsheet/dist/o_spreadsheet.xml';
import * as charts from 'chart.js';
import type { StoredValues } from '../../engine/patches/open-with-stored-values';
import type { ContentsOf } from '../../engine/sheet-contents';
import { Opening } from '../../engine/patches/opening';
import type { KeptFormulas } from '../../engine/patches/kept-formulas';
import { quietly } from '../../engine/quietly';
import { acceptEntries } from './enter-cells';
import { guardFiles, type GuardedFile, type OnRefused } from './file-guard';

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
  charts.Chart.register(...charts.registerables);
  // The grid looks for the drawing library, all parts in one, among the page's globals.
  Object.assign(globalThis, { Chart: Object.assign(charts.Chart, charts) });
  setTranslationMethod((...[text]) => ownSentences[text] ?? text);
  console.debug = () => undefined;
}

/**
 * Puts a workbook on the page, with stored values where there are some. Throws where the data cannot be read;
 * then nothing has changed.
 */
export async function openGrid(
  element: HTMLElement,
  data: Partial<WorkbookData>,
  {
    storedValues,
    contentsOf,
    keptFormulas,
    file,
    onRefused,
  }: {
    readonly storedValues?: StoredValues | undefined;
    /** What the sheets hold, where they come in one after another and the data is their frame. */
    readonly contentsOf?: ContentsOf | undefined;
    readonly keptFormulas?: KeptFormulas | undefined;
    /** The file that is on the grid, which has to follow what is done to its frame. */
    readonly file?: GuardedFile | undefined;
    /** Told why the grid does not do something to a file that was opened. */
    readonly onRefused?: OnRefused | undefined;
  } = {},
): Promise<Grid> {
  prepare();
  const opening = contentsOf && new Opening(contentsOf);
  const stored = opening ? { opening } : { storedValues };
  const custom = { ...stored, keptFormulas, file, onRefused };
  const model = quietly(() => new Model(data, { custom }));
  const app = new App(Spreadsheet, { props: { model }, templates, name: 'workbench' });
  await app.mount(element);
  return { model, opening, close: () => app.destroy() };
}
