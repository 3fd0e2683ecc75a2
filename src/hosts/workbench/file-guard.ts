import { CorePlugin, registries, UIPlugin } from '@odoo/o-spreadsheet';
import type { KeptFormula } from '../../engine/patches/kept-formulas';
import { areaOf } from './grid-cells';
import type { CutCells } from './left-behind';
import { FollowedFile } from './followed-file';
import { followKept, type KeptBySheet } from './follow-kept';
import {
  type CellGetters,
  followUnread,
  type UnreadFormula,
  unreadFormulas,
} from './follow-unread';
import type { GridStep } from './grid-steps';
import { atOnce, type Steps } from '../../plan/in-steps';

interface Command {
  readonly type: string;
  readonly sheetId?: string;
  readonly dimension?: 'ROW' | 'COL';
  readonly base?: number;
  readonly position?: 'before' | 'after';
  readonly target?: readonly Parameters<typeof areaOf>[0][];
}

/** Told in words why a command was refused. */
export type OnRefused = (sentence: string) => void;

/** What the guard has to know of the file that is on the grid. */
export interface GuardedFile {
  /** The file as it was opened. */
  readonly bytes: Uint8Array;
}

interface Config {
  readonly custom?: {
    readonly onRefused?: OnRefused;
    readonly file?: GuardedFile;
    readonly keptFormulas?: Record<string, Record<string, KeptFormula>>;
  };
}

interface SheetGetters {
  getNumberRows(sheetId: string): number;
  getNumberCols(sheetId: string): number;
  getSheetName(sheetId: string): string;
}

type Getters = SheetGetters & CellGetters;

const isOfFile = (sheetId: string | undefined): boolean => /^file-\d+$/.test(sheetId ?? '');

const FRAME = new Set(['ADD_COLUMNS_ROWS', 'REMOVE_COLUMNS_ROWS', 'RENAME_SHEET', 'DELETE_SHEET']);

/** A command as a step that the file has to follow; undefined where it concerns no sheet of the file. */
export function stepOf(command: Command, getters: SheetGetters): GridStep | undefined {
  const { type, sheetId = '', dimension, base, position } = command;
  if (!FRAME.has(type) || !isOfFile(sheetId)) return undefined;
  const step = { ...command, sheetName: getters.getSheetName(sheetId) } as unknown as GridStep;
  if (step.type === 'RENAME_SHEET') return { ...step, oldName: getters.getSheetName(sheetId) };
  if (step.type !== 'ADD_COLUMNS_ROWS') return step;
  const count =
    dimension === 'ROW' ? getters.getNumberRows(sheetId) : getters.getNumberCols(sheetId);
  return { ...step, isGrowth: position === 'after' && base === count - 1 };
}

/** Cells of a file's sheets that were cut and pasted elsewhere. */
export const cutOnGrid = (model: { readonly getters: object }): readonly CutCells[] =>
  (model.getters as { getCutCells(): readonly CutCells[] }).getCutCells();

/** What was done on a grid to the frame of its file, the first first. */
export const stepsOnGrid = (model: { readonly getters: object }): readonly GridStep[] =>
  (model.getters as { getFileSteps(): readonly GridStep[] }).getFileSteps();

const keyOf = (step: GridStep): string => JSON.stringify(step, Object.keys(step).sort());

/** Whether what is done to the frame may be asked for without asking the file. */
let isUnasked = false;

/** What the grid by itself answers, with the files of the guard not asked. */
export function unaskedFile<T>(work: () => T): T {
  isUnasked = true;
  try {
    return work();
  } finally {
    isUnasked = false;
  }
}

/** What the file answered about a step that was asked for. */
interface Answer {
  readonly key: string;
  readonly from: readonly GridStep[];
  readonly more: readonly GridStep[];
  /** Why it cannot follow. */
  readonly refusal: string | undefined;
}

interface Plugin {
  readonly getters: Getters;
  dispatch(type: 'UPDATE_CELL', cell: object): void;
  readonly history: { update(name: string, value: unknown): void };
}

let registered = false;

const NOT_AS_A_WHOLE =
  'Rows and columns of a file that was opened are not moved as a whole, since notes, links and the like would stay behind. Let empty ones come in, cut and paste the cells, and take the old ones out.';

/** The grid moves lines by steps of which each could be refused by itself, with half of the work done. */
function guardMoves(): void {
  const Base = UIPlugin as unknown as new (config: Config) => object;
  registries.featurePluginRegistry.add(
    'file-move-guard',
    class extends Base {
      private readonly onRefused: OnRefused | undefined;
      private readonly isFile: boolean;

      constructor(config: Config) {
        super(config);
        this.onRefused = config.custom?.onRefused;
        this.isFile = config.custom?.file !== undefined;
      }

      allowDispatch({ type, sheetId }: Command): string {
        if (!this.isFile || type !== 'MOVE_COLUMNS_ROWS' || !isOfFile(sheetId)) return 'Success';
        this.onRefused?.(NOT_AS_A_WHOLE);
        return 'FileGuard';
      }
    } as never,
  );
}

/**
 * Has the grid note what is done to the frame of a file that was opened, and refuse what the file cannot follow;
 * once, before the first workbook is made.
 */
export function guardFiles(): void {
  if (registered) return;
  registered = true;
  guardMoves();
  const Base = CorePlugin as unknown as new (config: Config) => Plugin;
  registries.corePluginRegistry.add(
    'file-guard',
    class extends Base {
      static getters = ['getFileSteps', 'getCutCells', 'followingFile'];
      private cut: readonly CutCells[] = [];
      private steps: readonly GridStep[] = [];
      private readonly onRefused: OnRefused | undefined;
      private readonly file: FollowedFile | undefined;
      private readonly kept: KeptBySheet | undefined;
      private keptAtFirst: KeptBySheet | undefined;
      private keptAfter: readonly GridStep[] = this.steps;
      private unread: readonly UnreadFormula[] | undefined;
      /** The grid asks several times whether it may. */
      private last: Answer | undefined;

      constructor(config: Config) {
        super(config);
        const { onRefused, file, keptFormulas } = config.custom ?? {};
        this.onRefused = onRefused;
        this.file = file && new FollowedFile(file.bytes);
        this.kept = keptFormulas;
      }

      getFileSteps(): readonly GridStep[] {
        return this.steps;
      }

      getCutCells(): readonly CutCells[] {
        return this.cut;
      }

      import(data: { readonly fileSteps?: readonly GridStep[] }): void {
        if (data.fileSteps) this.steps = data.fileSteps;
        this.moveKept();
      }

      export(data: { fileSteps?: readonly GridStep[] }): void {
        if (this.steps.length > 0) data.fileSteps = this.steps;
      }

      allowDispatch(command: Command): string {
        if (!this.file || isUnasked) return 'Success';
        const isMove = command.type === 'MOVE_SHEET' && isOfFile(command.sheetId);
        const step = stepOf(command, this.getters);
        const sentence = isMove
          ? this.file.refusalToMove(this.steps)
          : step && atOnce(this.asking(this.file, step)).refusal;
        if (sentence === undefined) return 'Success';
        this.onRefused?.(sentence);
        return 'FileGuard';
      }

      /** Follows a step through the file, so that its answer is there when the step is done. */
      followingFile(command: Command): Steps<void> | undefined {
        const step = this.file && stepOf(command, this.getters);
        if (!this.file || !step) return undefined;
        return (function* (asking: Steps<Answer>): Steps<void> {
          yield* asking;
        })(this.asking(this.file, step));
      }

      private known(step: GridStep): Answer | undefined {
        const isKnown = this.last?.from === this.steps && this.last.key === keyOf(step);
        return isKnown ? this.last : undefined;
      }

      private *asking(file: FollowedFile, step: GridStep): Steps<Answer> {
        const known = this.known(step);
        if (known) return known;
        const from = this.steps;
        const more = [...from, step];
        const refusal = yield* file.asking(from, step, more);
        return (this.last = { key: keyOf(step), from, more, refusal });
      }

      beforeHandle(command: Command): void {
        if (!this.file) return;
        this.noteCut(command);
        const step = stepOf(command, this.getters);
        if (!step) return;
        this.history.update('steps', this.known(step)?.more ?? [...this.steps, step]);
        this.unread = unreadFormulas(this.getters);
      }

      private noteCut({ type, sheetId = '', target = [] }: Command): void {
        if (type !== 'MOVE_RANGES' || !isOfFile(sheetId)) return;
        const cells = target.map((zone) => ({ sheetId, area: areaOf(zone) }));
        this.history.update('cut', [...this.cut, ...cells]);
      }

      handle(): void {
        const [unread, step] = [this.unread, this.steps.at(-1)];
        this.unread = undefined;
        if (unread && step) {
          followUnread(this.getters, unread, step, (cell) => this.dispatch('UPDATE_CELL', cell));
        }
        this.moveKept();
      }

      finalize(): void {
        this.moveKept();
      }

      /** Formulas that keep what the file says are found where they stand now, in the words of now; undo as well. */
      private moveKept(): void {
        if (!this.kept || this.keptAfter === this.steps) return;
        this.keptAtFirst ??= { ...this.kept };
        this.keptAfter = this.steps;
        for (const sheetId of Object.keys(this.kept)) delete this.kept[sheetId];
        Object.assign(this.kept, followKept(this.keptAtFirst, this.steps));
      }
    } as never,
  );
}
