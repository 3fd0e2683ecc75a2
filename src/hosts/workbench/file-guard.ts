import { CorePlugin, registries } from '@odoo/o-spreadsheet';

interface Command {
  readonly type: string;
  readonly sheetId?: string;
  readonly dimension?: 'ROW' | 'COL';
  readonly base?: number;
  readonly position?: 'before' | 'after';
}

/** Told in words why a command was refused. */
export type OnRefused = (sentence: string) => void;

interface Config {
  readonly custom?: { readonly onRefused?: OnRefused };
}

interface SheetGetters {
  getNumberRows(sheetId: string): number;
  getNumberCols(sheetId: string): number;
}

const BECAUSE =
  'other things in the file that the grid does not show count on it. Save as new .xlsx, open that file, and do it there, or do it in the program that made the file.';

const sentences: Readonly<Record<string, string>> = {
  ADD_COLUMNS_ROWS: `Rows and columns cannot be inserted between those of a file that was opened: ${BECAUSE}`,
  REMOVE_COLUMNS_ROWS: `Rows and columns of a file that was opened cannot be removed: ${BECAUSE}`,
  RENAME_SHEET: `A sheet of a file that was opened keeps its name: ${BECAUSE}`,
  DELETE_SHEET: `A sheet of a file that was opened cannot be removed: ${BECAUSE}`,
  MOVE_SHEET: `The sheets of a file that was opened keep their order: ${BECAUSE}`,
};

const isOfFile = (sheetId: string | undefined): boolean => /^file-\d+$/.test(sheetId ?? '');

/** Why a command cannot be done on sheets of a file; undefined where it can. */
export function refusal(command: Command, getters: SheetGetters): string | undefined {
  const { type, sheetId = '', dimension, base, position } = command;
  const sentence = sentences[type];
  if (sentence === undefined || !isOfFile(sheetId)) return undefined;
  if (type === 'ADD_COLUMNS_ROWS' && position === 'after') {
    const count =
      dimension === 'ROW' ? getters.getNumberRows(sheetId) : getters.getNumberCols(sheetId);
    if (base === count - 1) return undefined;
  }
  return sentence;
}

let registered = false;

/** Has the grid refuse what a file that was opened cannot take; once, before the first workbook is made. */
export function guardFiles(): void {
  if (registered) return;
  registered = true;
  const Plugin = CorePlugin as unknown as new (config: Config) => { getters: SheetGetters };
  registries.corePluginRegistry.add(
    'file-guard',
    class extends Plugin {
      private readonly onRefused: OnRefused | undefined;

      constructor(config: Config) {
        super(config);
        this.onRefused = config.custom?.onRefused;
      }

      allowDispatch(command: Command): string {
        const sentence = refusal(command, this.getters);
        if (sentence === undefined) return 'Success';
        this.onRefused?.(sentence);
        return 'FileGuard';
      }
    } as never,
  );
}
