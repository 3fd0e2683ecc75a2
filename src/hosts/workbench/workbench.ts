import type { Model } from '@odoo/o-spreadsheet';
import { exportedData } from '../../engine/patches/exported-data';
import { waitingFormulas } from '../../engine/patches/formulas-on-demand';
import { storedValuesOf } from '../../engine/patches/open-with-stored-values';
import { openGrid, type Grid } from './grid-view';
import type { Work } from './kept-work';
import type { Plans } from './workbook-from';

/** At most so long at a time, where the browser does not say when it has nothing else to do. */
const SLICE_MS = 8;

/** Compiles the formulas that wait, a few at a time while nobody waits for the page. */
function compileWhenIdle(model: Model, isOpen: () => boolean): void {
  const { compile } = waitingFormulas(model);
  const next = (): void => {
    if (typeof requestIdleCallback === 'function') {
      requestIdleCallback((idle) => step(() => idle.timeRemaining() < 1));
    } else {
      setTimeout(() => {
        const end = performance.now() + SLICE_MS;
        step(() => performance.now() > end);
      });
    }
  };
  const step = (enough: () => boolean): void => {
    if (isOpen() && !compile(enough)) next();
  };
  next();
}

/** The work on the page. Opening another one replaces the grid; everyone who asks gets the current one. */
export class Workbench {
  private grid: Grid | undefined;
  private work: Work | undefined;
  private openedRevision = '';
  private readonly listeners = new Set<() => void>();

  /** `program` is a mark of this build of the page, without which no values are stored. */
  constructor(
    private readonly room: HTMLElement,
    private readonly program?: string,
  ) {}

  /** The workbook in the engine. */
  get model(): Model {
    if (!this.grid) throw new Error('Nothing is open on the workbench');
    return this.grid.model;
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

  /** Shows other work. Where it cannot be read, what was open stays and the fault is thrown. */
  async open(work: Work): Promise<void> {
    const room = document.createElement('div');
    room.className = 'grid-room';
    this.room.append(room);
    let grid: Grid;
    try {
      const { data, stored } = work;
      const isOurs = this.program !== undefined && stored?.program === this.program;
      grid = await openGrid(room, data, isOurs ? stored.values : undefined);
    } catch (thrown) {
      room.remove();
      throw thrown;
    }
    this.grid?.close();
    for (const other of [...this.room.children]) if (other !== room) other.remove();
    this.grid = grid;
    this.work = work;
    this.openedRevision = this.revision();
    grid.model.on('update', this, () => this.tell());
    compileWhenIdle(grid.model, () => this.grid === grid);
    this.tell();
  }

  /** Everything as it stands now. */
  current(): Work {
    const { farm, plans, program } = this;
    const values = program === undefined ? undefined : storedValuesOf(this.model);
    return {
      data: exportedData(this.model),
      plans,
      ...(program !== undefined && values && { stored: { program, values } }),
      ...(farm !== undefined && { farm }),
      ...(this.untouchedDemo && { untouchedDemo: true }),
    };
  }

  /** Calls back after every change of cells or selection, and after another work was opened. */
  onUpdate(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** A mark that differs after every change of the workbook (not of the selection). */
  revision(): string {
    // The engine counts its changes for people who edit together; no getter tells the count.
    const { session } = this.model as unknown as { session: { getRevisionId(): string } };
    return session.getRevisionId();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}
