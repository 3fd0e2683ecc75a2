import type { Model } from '@odoo/o-spreadsheet';
import { exportingData } from '../../engine/patches/exported-data';
import { waitingFormulas } from '../../engine/patches/formulas-on-demand';
import { settle } from '../../engine/patches/opening';
import { storingValues } from '../../engine/patches/open-with-stored-values';
import { takenApart } from '../../engine/sheet-contents';
import { atOnce, type Pause, type Steps } from '../../plan/in-steps';
import { Package } from '../../ooxml/package';
import { readWorkbookParts } from '../../ooxml/workbook-parts';
import { afterAllElse, sliceFromNow } from '../../sidebar/in-background';
import type { OnRefused } from './file-guard';
import { openGrid, type Grid } from './grid-view';
import { wholeData, type Work } from './kept-work';
import { writingTexts, unpackedSheets } from './packed-sheets';
import { pausing } from '../../sidebar/pausing';
import type { OpenedWorkbook } from './save-into-file';
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

/** The work on the page. Opening another one replaces the grid; everyone who asks gets the current one. */
export class Workbench {
  private grid: Grid | undefined;
  private work: Work | undefined;
  private openedRevision = '';
  private hasIdleTime = false;
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

  /** Resolves once all sheets are in and all that was typed is computed; the page goes on meanwhile. */
  async whole(): Promise<void> {
    const { opening } = this.onPage;
    if (opening?.isReady !== false) return;
    await this.idle.begins;
    await this.takeRest();
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
    let shown = work;
    let notes: readonly string[] = [];
    try {
      const { data, stored, fresh, opened } = work;
      const isOurs = this.program !== undefined && stored?.program === this.program;
      const kept = {};
      const options = {
        storedValues: fresh?.stored,
        contentsOf: isOurs ? unpackedSheets(stored.sheets) : undefined,
        keptFormulas: fresh ? kept : opened && { ...opened.kept },
        file: fresh ?? opened,
        onRefused: this.onRefused,
      };
      const shownData = isOurs ? data : wholeData(work);
      grid = await openGrid(room, shownData, options, fresh && step('Laying out'));
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
        const { gridThen } = await import('./earlier-work');
        shown = { ...work, opened: { ...opened, before: gridThen(opened.before) } };
      }
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
        return this.grid !== grid || compile(enough);
      });
    });
    this.rests.set(grid, rest);
    return rest;
  }

  /** Everything as it stands now. */
  current(): Work {
    return atOnce(this.keeping());
  }

  /** As `current`, in steps; nothing may change between them. */
  *keeping(): Steps<Work> {
    const { farm, plans, program, opened, unseen } = this;
    const values = program === undefined ? undefined : yield* storingValues(this.model);
    const data = yield* exportingData(this.model);
    const apart = values && takenApart(data, values);
    const sheets = apart && (yield* writingTexts(apart.contents));
    return {
      data: apart?.frame ?? data,
      plans,
      ...(program !== undefined && sheets && { stored: { program, sheets } }),
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
    for (const listener of this.listeners) listener();
  }
}
