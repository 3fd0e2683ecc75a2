import type { DispatchResult, Model } from '@odoo/o-spreadsheet';
import type { Opening } from '../../engine/patches/opening';
import { inSteps, type Pause, type Steps } from '../../plan/in-steps';
import { atRest, drawn, drawnOr } from '../../sidebar/drawn';
import { unaskedFile } from './file-guard';
import { type GridCommand, hasMoreCells, longWords, wordsOfWhole } from './long-commands';

/** How the page says that something goes on. */
export interface Saying {
  /** What goes on; with nothing, that it is over. */
  say(doing?: string): void;
  /** Has a work in steps done, while nothing else is taken; somebody may stop it. */
  inSteps(doing: string, work: (pause: Pause) => Promise<void>): Promise<void>;
}

type Dispatch = (type: string, payload?: object) => DispatchResult;

interface OpenModel {
  dispatch: Dispatch;
  readonly canDispatch: Dispatch;
  readonly status: number;
  readonly getters: {
    /** What has to be followed through the file first; undefined where that is nothing. */
    readonly followingFile?: (command: GridCommand) => Steps<void> | undefined;
  };
}

/** What the library calls its being ready for a command. */
const READY = 0;

/** What can make somebody's next command: it comes after the one that waits. */
const INPUTS = ['keydown', 'pointerdown', 'beforeinput'] as const;

const gates = new WeakMap<Model, SaidFirst>();

/** Does something once nothing waits any more that was asked of a grid before. */
export function afterWaiting(model: Model, work: () => void): void {
  const gate = gates.get(model);
  if (gate) gate.after(work);
  else work();
}

/**
 * Has the grid do what takes long only once the page shows that it goes on. Whoever asked is told at once that it
 * will be done; what is asked for after it is done after it.
 */
export class SaidFirst {
  private readonly queue: (() => void)[] = [];
  private ending: Promise<void> | undefined;
  /** How often something was said: only what was said last is taken back. */
  private said = 0;
  private readonly dispatch: Dispatch;
  private readonly open: OpenModel;

  constructor(
    private readonly model: Model,
    private readonly opening: Opening | undefined,
    private readonly page: Saying,
  ) {
    this.open = model as unknown as OpenModel;
    this.dispatch = this.open.dispatch;
    this.open.dispatch = (type, payload = {}) => this.take(type, payload);
    gates.set(model, this);
  }

  after(work: () => void): void {
    if (this.queue.length > 0) this.queue.push(work);
    else work();
  }

  /** Resolves once nothing waits. */
  async settled(): Promise<void> {
    while (this.ending) await this.ending;
  }

  /** Makes changes at once, after the page shows that they go on where that may take a while. */
  async changing<Result>(work: () => Result): Promise<Result> {
    const { page, open } = this;
    await this.settled();
    const isLarge = hasMoreCells(this.model);
    if (isLarge) page.say('Changing the cells …');
    const gate = open.dispatch;
    try {
      if (isLarge) await drawn();
      await this.settled();
      open.dispatch = this.dispatch;
      return work();
    } finally {
      open.dispatch = gate;
      if (isLarge) page.say();
    }
  }

  private take(type: string, payload: object): DispatchResult {
    const { open, dispatch } = this;
    if (open.status !== READY) return dispatch(type, payload);
    const isBehind = this.queue.length > 0;
    const command = { ...payload, type };
    const words = isBehind ? '' : this.wordsOf(command);
    if (words === undefined) return dispatch(type, payload);
    // What the grid itself refuses is refused at once; the file is asked in steps.
    const allowed = isBehind ? undefined : unaskedFile(() => open.canDispatch(type, payload));
    if (allowed?.isSuccessful === false) return dispatch(type, payload);
    this.queue.push(() => dispatch(type, payload));
    if (!isBehind) {
      const following = open.getters.followingFile?.(command);
      const all = following ? this.follow(words, following) : this.afterFrame(words);
      const ending = all.finally(() => {
        if (this.ending === ending) this.ending = undefined;
      });
      this.ending = ending;
    }
    return { isSuccessful: true, reasons: [], isCancelledBecause: () => false } as never;
  }

  private wordsOf(command: GridCommand): string | undefined {
    // Before all is in, edits wait for what is computed of them, and to count the cells would take all in.
    if (this.opening?.isReady === false) return wordsOfWhole(command);
    return longWords(this.model, command);
  }

  private async afterFrame(words: string): Promise<void> {
    const { page } = this;
    const mine = ++this.said;
    page.say(`${words} …`);
    const frame = drawnOr();
    let isDone = false;
    const doNow = (): void => {
      if (isDone) return;
      isDone = true;
      this.doAll();
      frame.now();
    };
    for (const input of INPUTS) addEventListener(input, doNow, { capture: true });
    try {
      await frame.drawn;
      doNow();
    } finally {
      for (const input of INPUTS) removeEventListener(input, doNow, { capture: true });
      // To draw what has changed may take long as well, and so may what the page does after that.
      await atRest();
      if (this.said === mine) page.say();
    }
  }

  private async follow(words: string, following: Steps<void>): Promise<void> {
    const { page } = this;
    this.said += 1;
    try {
      await page.inSteps(words, async (pause) => {
        await inSteps(following, pause);
        page.say(`${words} on the grid …`);
        await drawn();
        this.doAll();
      });
    } finally {
      // What was stopped is not done later.
      this.queue.length = 0;
    }
  }

  private doAll(): void {
    for (const work of this.queue.splice(0)) work();
  }
}
