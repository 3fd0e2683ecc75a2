import { aheadAsked } from '../../ahead/asked';
import type { AheadPlanned } from '../../ahead/plan-ahead';
import { ownRows } from '../../ahead/planner-rows';
import { perCent } from '../../ahead/report-lines';
import type { Progress } from '../../ahead/solver';
import type { Farm } from '../../plan/farm';
import { longerTables } from '../../ooxml/longer-tables';
import { button, setUsable } from '../button';
import { h } from '../dom';
import type { Host } from '../host';
import {
  changedFile,
  changeOfPlan,
  changeOfTakingBack,
  isSameFarm,
  onDay,
  openFarm,
  type OpenFarm,
  type PlanChange,
} from './farm-of-host';
import { Cancelled } from '../in-thread';
import { planInWorker } from './plan-in-worker';
import { changeSentences, planPreview } from './plan-preview';
import { wishesForm } from './wishes-form';
import { sentenceOf } from './words';

export const COPY_NAME = 'gillbed-planned.xlsx';

/** How far the search is, in words. */
function progressInWords(
  what: 'fish' | 'beds',
  { objective, gap }: Progress,
  both: boolean,
): string {
  const step = both ? (what === 'fish' ? 'Step 1 of 2, fish' : 'Step 2 of 2, beds') : what;
  const found =
    objective === undefined
      ? 'no plan yet'
      : gap === undefined || !Number.isFinite(gap)
        ? 'a plan is found'
        : `a plan is found, at most ${perCent(gap)} from the best possible`;
  return `${step.charAt(0).toUpperCase()}${step.slice(1)}: ${found}`;
}

/**
 * Asks for a plan, shows it before anything is written, writes it, and takes it back. `wrote` is called when cells of the
 * workbook have changed.
 */
export function planPart(
  host: Host,
  open: OpenFarm,
  today: number,
  wrote: (says: string) => void,
): HTMLElement {
  const { farm } = open;
  const own = ownRows(farm, 'all');
  const ownCount = own.fishLog.length + own.plantings.length;
  const form = wishesForm(farm, today);
  const stage = h('div', { class: 'stage' });
  const go = button(ownCount > 0 ? 'Plan again' : 'Plan', () => void plan(), { look: 'primary' });
  const rest = (...nodes: readonly Node[]): void => stage.replaceChildren(...nodes);

  function failed(fault: unknown): void {
    const said = h('p', { class: 'problem', role: 'alert', tabindex: '-1' }, sentenceOf(fault));
    rest(said);
    said.focus();
  }

  async function plan(): Promise<void> {
    const asked = form.asked();
    if (!asked) return;
    const { wishes, day } = asked;
    const bar = h('fluent-progress-bar', { max: 100, 'aria-label': 'Planning' });
    const status = h('p', { class: 'quiet', role: 'status' }, 'Loading the planner …');
    const elapsed = h('span', { class: 'quiet' });
    const both = wishes.part === 'both';
    const began = Date.now();
    let ofBeds = false;
    const most = wishes.seconds * (both ? 2 : 1);
    setUsable(go, false);
    let timer: ReturnType<typeof setInterval> | undefined;
    try {
      const planned = day === farm.asOf ? farm : onDay(open, day);
      const planning = planInWorker(aheadAsked(planned, wishes), (what, now) => {
        ofBeds = what === 'beds';
        status.textContent = `${progressInWords(what, now, both)}.`;
        const done = (both && ofBeds ? wishes.seconds : 0) + now.seconds;
        bar.setAttribute('value', String(Math.min(99, Math.round((100 * done) / most))));
      });
      const cancel = button('Cancel', () => planning.cancel());
      rest(bar, status, h('div', { class: 'actions' }, cancel, elapsed));
      cancel.focus();
      timer = setInterval(() => {
        elapsed.textContent = `${Math.round((Date.now() - began) / 1000)} s`;
      }, 1000);
      preview(planned, await planning.answer);
    } catch (fault) {
      if (fault instanceof Cancelled) {
        const said = h('p', { class: 'quiet', role: 'status', tabindex: '-1' }, fault.message);
        rest(said);
        go.focus();
      } else failed(fault);
    } finally {
      clearInterval(timer);
      setUsable(go, true);
    }
  }

  /** Tables that have to grow, with how many lines. */
  const longerOf = (from: OpenFarm, change: PlanChange) => longerTables(from.bytes, change.cells);

  function preview(planned: Farm, found: AheadPlanned): void {
    const change = changeOfPlan(open, planned, found);
    const longer = longerOf(open, change).map(({ sheet, area, lastRow }) => ({
      sheet,
      more: lastRow - (area.row + area.rows - 1),
    }));
    const inPlace = host.lengthensTables || longer.length === 0;
    const title = h('h4', { tabindex: '-1' }, 'What it changes');
    const nothing = change.cells.length === 0;
    rest(
      h(
        'div',
        { class: 'ask', role: 'group', 'aria-label': 'Before anything is written' },
        title,
        h(
          'ul',
          { class: 'plain-list' },
          ...changeSentences(change, longer).map((says) => h('li', {}, says)),
        ),
        inPlace &&
          !nothing &&
          host.kind === 'excel' &&
          h(
            'p',
            { class: 'hint' },
            'Excel cannot undo this step; “Take the planner’s rows back” on this page does.',
          ),
        !inPlace &&
          h(
            'p',
            { class: 'caution' },
            'This Excel is too old to make a table longer: a copy of the workbook is made, with the rows in it.',
          ),
        h(
          'div',
          { class: 'actions' },
          nothing
            ? undefined
            : inPlace
              ? button(
                  'Write it into the workbook',
                  () =>
                    void write(
                      (now) => changeOfPlan(now, planned, found),
                      'The plan stands in the registers.',
                    ),
                  { look: 'primary' },
                )
              : button('Make the copy', () => void copy(change), { look: 'primary' }),
          button('Not now', () => {
            rest();
            go.focus();
          }),
        ),
      ),
      planPreview(found),
    );
    title.focus({ preventScroll: true });
    title.scrollIntoView({ block: 'start' });
  }

  async function copy(change: PlanChange): Promise<void> {
    try {
      const how = await host.openCopy(COPY_NAME, changedFile(open, change));
      const says =
        how === 'opened'
          ? 'The copy is open as a new workbook; this one is as it was.'
          : `The copy is in your downloads, as ${COPY_NAME}; this workbook is as it was.`;
      rest(h('p', { class: 'done', role: 'status' }, says));
    } catch (fault) {
      failed(fault);
    }
  }

  /** Enters a change, worked out anew on the workbook as it is now. */
  async function write(changeOn: (now: OpenFarm) => PlanChange, says: string): Promise<void> {
    const status = h('p', { class: 'quiet', role: 'status', tabindex: '-1' }, 'Writing …');
    rest(status);
    status.focus();
    try {
      const now = await openFarm(host);
      if (!isSameFarm(now, open)) {
        throw new Error(
          'The workbook has changed since it was read here: nothing was written. Read it again, then plan.',
        );
      }
      const change = changeOn(now);
      await host.enter(change.cells, longerOf(now, change));
      wrote(says);
    } catch (fault) {
      failed(fault);
    }
  }

  function askToTakeBack(): void {
    const change = changeOfTakingBack(open);
    const title = h('p', { tabindex: '-1' }, changeSentences(change, []).join(' '));
    rest(
      h(
        'div',
        { class: 'ask', role: 'group', 'aria-label': 'Before the rows are taken back' },
        title,
        h(
          'div',
          { class: 'actions' },
          button(
            'Take them back now',
            () => void write(changeOfTakingBack, 'The rows of the planner are taken back.'),
            { look: 'primary' },
          ),
          button('Not now', () => {
            rest();
            go.focus();
          }),
        ),
      ),
    );
    title.focus();
  }

  return h(
    'section',
    { class: 'part', 'aria-label': 'Plan ahead' },
    h('h3', {}, 'Plan ahead'),
    h(
      'p',
      {},
      ownCount > 0
        ? 'Rows that the planner wrote and nobody touched make room for the new plan. What is done, and what you typed or changed, stays; what becomes otherwise is said.'
        : 'When to stock, move and sell, and which crop goes into which bed when. You see the plan before anything is written.',
    ),
    form.element,
    h(
      'div',
      { class: 'actions' },
      go,
      ownCount > 0 && button('Take the planner’s rows back', askToTakeBack, { look: 'subtle' }),
    ),
    stage,
  );
}
