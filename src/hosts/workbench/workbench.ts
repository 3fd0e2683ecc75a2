import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import { exportingData } from '../../engine/patches/exported-data';
import { waitingFormulas } from '../../engine/patches/formulas-on-demand';
import { settle } from '../../engine/patches/opening';
import { putTogether } from '../../engine/sheet-contents';
import { orderAhead } from '../../engine/what-takes-long';
import { atOnce, inSteps, type Pause, type Steps } from '../../plan/in-steps';
import { Package } from '../../ooxml/package';
import { readWorkbookParts } from '../../ooxml/workbook-parts';
import { afterAllElse, sliceFromNow } from '../../sidebar/in-background';
import type { OnRefused } from './file-guard';
import { openGrid, type Grid } from './grid-view';
import type { ShownWork, Work, WorkToKeep } from './kept-work';
import { hasMoreCells } from './long-commands';
import { packingGrid } from './packed-grid';
import { hasLargeSheet, unpackedSheets, unpackingSheets } from './packed-sheets';
import { unpackedFrom } from './work-store';
import { drawn } from '../../sidebar/drawn';
import { pausing } from '../../sidebar/pausing';
import type { OpenedWorkbook } from './save-into-file';
import { SaidFirst, type Saying } from './said-first';
import type { Plans } from './workbook-from';

/** A moment that some wait for. */
function waitedFor(): { readonly begins: Promise<void>; readonly begin: () => void } {
  let begin = (): void => undefined;
  const begins = new Promise<void>((resolve) => (begin = resolve));
  return { begins, begin: () => begin() };
}

/** Goes on with a work in slices; `work` says when it is done. */
function goOn(work: (enough: () => boolean) => boolean): void {
  afterAllElse(() => {
    if (!work(sliceFromNow())) goOn(work);
  });
}

/** What is on the grid lives in its model from now on. */
function withoutSheets(work: Work): Work {
  const rest = { ...work, data: {} };
  Reflect.deleteProperty(rest, 'stored');
  return rest;
}

const SILENT: Saying = { say: () => undefined, inSteps: (_, work) => work(pausing()) };

/** Whether work takes so long to lay out that the page has to say so. */
export const isLargeWork = ({ stored }: Work): boolean =>
  stored !== undefined && hasLargeSheet(stored.sheets);

/** The work on the page. Opening another one replaces the grid; everyone who asks gets the current one. */
export class Workbench {
  private grid: Grid | undefined;
  private first: SaidFirst | undefined;
  private work: ShownWork | undefined;
  private openedRevision = '';
  private hasIdleTime = false;
  private isOrdering = false;
  private readonly idle = waitedFor();
  private readonly listeners = new Set<() => void>();
  /** Every workbook's changes are counted from the same start. */
  private openings = 0;
  private readonly rests = new WeakMap<Grid, Promise<void>>();

  /** `program` is a mark of this build of the page, without which no values are stored. */
  constructor(
    private readonly room: HTMLElement,
    private readonly program?: string,
    private readonly onRefused?: OnRefused,
    private readonly page: Saying = SILENT,
  ) {}

  /** The workbook in the engine, with all that was typed computed. */
  get model(): Model {
    const { model, opening } = this.onPage;
    if (opening?.hasPending) settle(model, opening);
    return model;
  }

  private get onPage(): Grid {
    if (!this.grid) throw new Error('Nothing is open on the workbench');
    return this.grid;
  }

  /** Whether something was typed of which the consequences are computed only once all sheets are in. */
  get isComputing(): boolean {
    return this.grid?.opening?.hasPending === true;
  }

  /** Whether what looks at all of its cells takes long. */
  get isLarge(): boolean {
    return hasMoreCells(this.model);
  }

  /** Resolves once all sheets are in and all that was typed is computed; the page goes on meanwhile. */
  async whole(): Promise<void> {
    await this.first?.settled();
    const { opening } = this.onPage;
    if (opening?.isReady !== false) return;
    await this.idle.begins;
    await this.takeRest();
  }

  /** Makes changes, of which the page says first that they go on where that may take a while. */
  async changing<Result>(work: () => Result): Promise<Result> {
    await this.whole();
    return this.first ? this.first.changing(work) : work();
  }

  /** Reads something of all sheets; the page says that it does where that takes a while. */
  async reading<Result>(read: (model: Model) => Steps<Result>): Promise<Result> {
    if (!this.isLarge) return atOnce(read(this.model));
    const { page } = this;
    page.say('Reading the sheets …');
    try {
      await drawn();
      const revision = this.revision();
      const say = (share: number): void =>
        page.say(`Reading the sheets: ${Math.round(share * 100)} %`);
      const found = await inSteps(read(this.model), pausing(say));
      // Where somebody typed meanwhile, some of it is of before that.
      return this.revision() === revision ? found : atOnce(read(this.model));
    } finally {
      page.say();
    }
  }

  get farm(): string | undefined {
    return this.work?.farm;
  }

  get plans(): Plans {
    return this.work?.plans ?? {};
  }

  /** True until the grower changes something on the demo plan. */
  get untouchedDemo(): boolean {
    return this.work?.untouchedDemo === true && this.revision() === this.openedRevision;
  }

  /** The file that is on the grid, and into which it is saved. */
  get opened(): OpenedWorkbook | undefined {
    return this.work?.opened;
  }

  /** Kinds of things of the file that the grid does not show. */
  get unseen(): readonly string[] {
    return this.work?.unseen ?? [];
  }

  /** Names and tables of the file that is on the grid, those that the grid does not show among them. */
  namesOfFile(): readonly string[] {
    if (!this.opened) return [];
    const { names, tables } = readWorkbookParts(Package.open(this.opened.bytes));
    return [...names, ...tables].map(({ name }) => name);
  }

  /**
   * Shows other work. Where it cannot be read, what was open stays and the fault is thrown. `step` gives the pause
   * of each part of what a file takes. Gives what is other on the grid than in a file, in sentences.
   */
  async open(
    work: Work,
    step: (doing: string) => Pause = () => pausing(),
  ): Promise<readonly string[]> {
    const room = document.createElement('div');
    room.className = 'grid-room';
    // The grid measures the first one on the page: in front, so that it is not the one that goes.
    this.room.prepend(room);
    const focused = document.activeElement;
    let grid: Grid | undefined;
    let shown: ShownWork;
    let notes: readonly string[] = [];
    try {
      const { data, stored, fresh, opened } = work;
      const isOurs = this.program !== undefined && stored?.program === this.program;
      const isLarge = isLargeWork(work);
      const contentsOf =
        stored &&
        (isLarge
          ? await inSteps(unpackingSheets(stored.sheets), step('Reading'))
          : unpackedSheets(stored.sheets));
      const kept = {};
      const options = {
        storedValues: fresh?.stored,
        contentsOf: isOurs ? contentsOf : undefined,
        keptFormulas: fresh ? kept : opened && { ...opened.kept },
        file: fresh ?? opened,
        onRefused: this.onRefused,
      };
      const shownData = isOurs || !contentsOf ? data : putTogether(data, contentsOf);
      const inTurn = fresh || isLarge ? step('Laying out') : undefined;
      grid = await openGrid(room, shownData, options, inTurn);
      if (fresh) {
        const { checkOpened } = await import('./open-xlsx');
        const checked = await checkOpened(grid.model, fresh, kept, step('Checking formulas of'));
        const { farm } = work;
        // What is on the grid lives in its model from now on.
        shown = {
          data: {},
          ...(farm !== undefined && { farm }),
          opened: checked.opened,
          unseen: fresh.unseen,
        };
        notes = checked.notes;
      } else if (opened) {
        const { readingThen } = await import('./earlier-work');
        const before = await inSteps(readingThen(opened.before), step('Reading'));
        unpackedFrom(opened.before, before);
        shown = { ...withoutSheets(work), opened: { ...opened, before } };
      } else shown = work as ShownWork;
    } catch (thrown) {
      grid?.close();
      room.remove();
      throw thrown;
    }
    // The grid takes the focus: from nothing, but not from where somebody went while there was no grid.
    if (!this.grid && focused instanceof HTMLElement && focused !== document.body) focused.focus();
    this.grid?.close();
    for (const other of [...this.room.children]) if (other !== room) other.remove();
    const opened = grid;
    this.grid = opened;
    this.work = shown;
    this.openings++;
    this.openedRevision = this.revision();
    this.first = new SaidFirst(opened.model, opened.opening, this.page);
    opened.model.on('update', this, () => this.tell());
    if (this.hasIdleTime) void this.takeRest();
    this.tell();
    return notes;
  }

  /** Takes in what is not seen yet, now and of other work; the page first shows all that is seen first. */
  beginIdleWork(): void {
    this.hasIdleTime = true;
    this.idle.begin();
    void this.takeRest();
  }

  /** Takes sheets and formulas in that wait; resolves when the sheets are in. */
  private takeRest(): Promise<void> {
    const { grid } = this;
    if (!grid) return Promise.resolve();
    const known = this.rests.get(grid);
    if (known) return known;
    const { model, opening } = grid;
    const { compile } = waitingFormulas(model);
    const rest = new Promise<void>((isWhole) => {
      goOn((enough) => {
        if (this.grid === grid) {
          if (opening?.advance(enough) === false) return false;
          if (opening?.hasPending) settle(model, opening);
        }
        isWhole();
        return this.grid !== grid || (compile(enough) && orderAhead(model, enough));
      });
    });
    this.rests.set(grid, rest);
    return rest;
  }

  /** Has the next edit find its formulas in order, where it can be done before. */
  private orderRest(): void {
    const { grid } = this;
    if (!grid || this.isOrdering || grid.opening?.isReady === false) return;
    if (orderAhead(grid.model, () => true)) return;
    this.isOrdering = true;
    goOn((enough) => {
      const isDone = this.grid !== grid || orderAhead(grid.model, enough);
      this.isOrdering = !isDone;
      return isDone;
    });
  }

  /** Everything as it stands now. */
  current(): WorkToKeep {
    return atOnce(this.keeping());
  }

  /** The workbook as it stands now, as the grid reads it. */
  exported(): WorkbookData {
    return atOnce(exportingData(this.model));
  }

  /** As `current`, in steps; nothing may change between them. */
  *keeping(): Steps<WorkToKeep> {
    const { farm, plans, program, opened, unseen } = this;
    const grid = yield* packingGrid(this.model, program !== undefined);
    const { frame: data, sheets, hasValues } = grid;
    return {
      data,
      plans,
      stored: { ...(program !== undefined && hasValues && { program }), sheets },
      ...(farm !== undefined && { farm }),
      ...(opened && { opened, unseen }),
      ...(this.untouchedDemo && { untouchedDemo: true }),
    };
  }

  /** Calls back after every change of cells or selection, and after another work was opened. */
  onUpdate(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** A mark that differs after every change of the workbook (not of the selection), and in each that is opened. */
  revision(): string {
    // The engine counts its changes for people who edit together; no getter tells the count.
    const { session } = this.onPage.model as unknown as { session: { getRevisionId(): string } };
    return `${this.openings} ${session.getRevisionId()}`;
  }

  private tell(): void {
    if (this.hasIdleTime) this.orderRest();
    for (const listener of this.listeners) listener();
  }
}
