/**
 * Excel around a pane in a browser: Microsoft's own client library in the page, and as its host a workbook in
 * memory. The page gets this file as a script, the library as it lies in its package, and then `openPaneExcel`.
 */
import { Wire } from './excel-wire';
import { Witness, type WitnessOptions } from './excel-witness';
import type { Value } from './excel-workbook';

/** A workbook as it stands before the pane opens: its sheets' cells from A1 on. */
export type Sheets = Readonly<Record<string, readonly (readonly Value[])[]>>;

export interface PaneExcelOptions {
  readonly sheets: Sheets;
  /** Office's theme; none where it names none. */
  readonly dark?: boolean | undefined;
  readonly platform?: WitnessOptions['platform'] | undefined;
}

declare global {
  interface Window {
    excel: Witness;
    openPaneExcel: (options: PaneExcelOptions) => void;
  }
}

const wire = new Wire();

// While it loads, the library would fetch scripts to look for a host around the page; its host is here.
const { setTimeout } = window;
Object.assign(window, { setTimeout: () => 0 });
Object.assign(document, { addEventListener: () => undefined });
Object.assign(document.head, { appendChild: (part: unknown) => part });

window.openPaneExcel = ({ sheets, dark, platform }) => {
  Object.assign(window, { setTimeout });
  Reflect.deleteProperty(document, 'addEventListener');
  Reflect.deleteProperty(document.head, 'appendChild');
  window.excel = new Witness(wire.library(), {
    sheets: Object.keys(sheets),
    ...(platform && { platform }),
  });
  const { workbook } = window.excel;
  for (const [name, cells] of Object.entries(sheets)) {
    const box = { row: 0, column: 0, rows: cells.length, columns: cells[0]?.length ?? 0 };
    if (cells.length > 0) workbook.write(workbook.sheet(name), box, cells);
  }
  if (dark !== undefined) Object.assign(Office.context, { officeTheme: { isDarkTheme: dark } });
};
