import { isoText, serialFromIsoText } from '../../core/serial-date';
import { cellAddress } from '../../plan/addresses';
import { dueRows, type DueRow, dueTasks } from '../../records/due';
import { type HappeningId, happeningOf, happenings } from '../../records/happenings';
import { type Entries, type Noted, propose, takeBack } from '../../records/note';
import { h, say } from '../dom';
import type { Host } from '../host';
import { afterChanges, openFarm, type OpenFarm, typeInto } from '../open-farm';
import type { Page } from '../page';
import { today } from '../today';
import { noteForm } from './note-form';

const GROUPS = ['Fish', 'Plants', 'Water and all'] as const;
/** Notes of this visit that can be taken back one by one. */
const MAX_NOTES = 20;
/** Lines of what is due that stand open; the rest is folded, so that the page does not run on for yards. */
const DUE_IN_SIGHT = 6;

const big = (text: string, click: () => void, label?: string): HTMLElement =>
  h(
    'button',
    { type: 'button', class: 'big', ...(label && { 'aria-label': label }), on: { click } },
    text,
  );

function render(panel: HTMLElement, host: Host): void {
  const room = h('div', { class: 'note' });
  const said = h('p', { class: 'done', role: 'status', hidden: true });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const notes: Noted[] = [];
  let isForm = false;
  /** The button that led to the form: keys go on there once it is left. */
  let opener = '';
  let isRestOpen = false;
  // What is asked for last is what shows: reading the workbook for something before it may take longer.
  let turn = 0;
  const heading = h('h2', { tabindex: '-1' }, 'Note down');
  panel.append(heading, said, problem, room);
  const failed = (fault: unknown): void =>
    say(problem, fault instanceof Error ? fault.message : String(fault));
  const doing = (work: () => Promise<void>) => (): void => {
    say(problem, undefined);
    say(said, undefined);
    void work().catch(failed);
  };

  const nameOf = (element: Element | null): string =>
    element?.getAttribute('aria-label') ?? element?.textContent ?? '';
  /** Keys go on where they were: let go, they would be typed into the cell that is selected. */
  function show(...nodes: readonly Node[]): void {
    const before = document.activeElement;
    const wasHere = room.contains(before);
    const name = nameOf(before);
    room.replaceChildren(...nodes);
    if (!wasHere) return;
    const all = [...room.querySelectorAll<HTMLElement>('button, summary')];
    const named = (wanted: string): HTMLElement | undefined =>
      all.find((element) => nameOf(element) === wanted);
    (named(name) ?? named(opener) ?? heading).focus({ preventScroll: true });
  }

  const headInSight = (): void => heading.scrollIntoView({ block: 'start' });

  async function write(noted: Noted): Promise<void> {
    await typeInto(host, noted.cells);
    notes.unshift(noted);
    notes.length = Math.min(notes.length, MAX_NOTES);
    await menu();
    say(said, `Written. ${noted.says}`);
    headInSight();
  }

  async function back(noted: Noted): Promise<void> {
    const { cells } = await openFarm(host);
    const found = takeBack(noted, cells);
    if ('refused' in found) {
      say(problem, found.refused);
      return;
    }
    await typeInto(host, found.cells);
    notes.splice(notes.indexOf(noted), 1);
    await menu();
    say(said, `Taken back. ${noted.says}`);
  }

  async function form(id: HappeningId, entries?: Entries, instead?: DueRow): Promise<void> {
    const mine = ++turn;
    if (!isForm && room.contains(document.activeElement)) opener = nameOf(document.activeElement);
    isForm = true;
    const open = await openFarm(host).catch((fault: unknown) => {
      isForm = false;
      throw fault;
    });
    if (mine !== turn) return;
    if (!open.reading.farm) return menu();
    const element = noteForm({
      happening: happeningOf(id),
      open,
      ...(entries && { entries }),
      ...(instead && { instead: { list: instead.list, at: instead.at } }),
      readAgain: () => openFarm(host),
      write,
      back: doing(menu),
    });
    room.replaceChildren(element);
    element.querySelector<HTMLElement>('.note-title')?.focus();
    headInSight();
  }

  /** A planned row is answered: its mark goes, or says that it was not done. */
  async function answer(row: DueRow, mark: 'not done' | undefined): Promise<void> {
    const { reading, cells } = await openFarm(host);
    const proposal = propose(
      reading,
      cells,
      [{ list: row.list, at: row.at, fields: { planned: mark } }],
      `${row.says}: ${mark ?? 'done as planned'}`,
    );
    if (proposal.refused === undefined) return write(proposal.noted);
    // What is missing, such as the weight of fish that were to be weighed, is typed.
    await form(row.happening, row.entries, row);
    say(problem, proposal.refused);
  }

  function dueItem(row: DueRow): HTMLElement {
    const isToCome = isoText(row.date) > today();
    return h(
      'li',
      {},
      h('p', {}, row.says),
      h(
        'div',
        { class: 'note-answers' },
        ...(isToCome
          ? []
          : [
              big(
                'Done',
                doing(() => answer(row, undefined)),
                `Done as planned: ${row.says}`,
              ),
            ]),
        big(
          'Otherwise',
          doing(() => form(row.happening, row.entries, row)),
          `Otherwise: ${row.says}`,
        ),
        big(
          'Not done',
          doing(() => answer(row, 'not done')),
          `Not done: ${row.says}`,
        ),
      ),
    );
  }

  function due({ reading, cells }: OpenFarm): readonly Node[] {
    const { farm } = reading;
    if (!farm) return [];
    const rows = dueRows(farm).map(dueItem);
    const tasks = dueTasks(farm, cells).map(({ says, happening, entries }) =>
      h(
        'li',
        {},
        h('p', {}, says),
        h(
          'div',
          { class: 'note-answers' },
          big(
            happeningOf(happening).title,
            doing(() => form(happening, entries)),
            `${happeningOf(happening).title}: ${says}`,
          ),
        ),
      ),
    );
    const lines = [...rows, ...tasks];
    const list = (some: readonly HTMLElement[]): HTMLElement => h('ul', { class: 'due' }, ...some);
    const rest = lines.slice(DUE_IN_SIGHT);
    return [
      h('h3', {}, 'Due by Sunday'),
      lines.length === 0
        ? h('p', { class: 'quiet' }, 'Nothing is planned or due.')
        : list(lines.slice(0, DUE_IN_SIGHT)),
      ...(rest.length === 0 ? [] : [folded(`${rest.length} more`, list(rest))]),
    ];
  }

  /** Stays open while the page is made anew. */
  function folded(title: string, content: HTMLElement): HTMLElement {
    const details = h(
      'details',
      { class: 'more-due', open: isRestOpen },
      h('summary', {}, title),
      content,
    );
    details.addEventListener('toggle', () => {
      isRestOpen = details.open;
    });
    return details;
  }

  /** Rows after the day of the plan count as still to come, so that somebody in the tunnel is told. */
  function dayNotice({ reading }: OpenFarm): HTMLElement | undefined {
    const { farm, places } = reading;
    const place = places.get('asOf');
    const day = today();
    if (!farm || !place || isoText(farm.asOf) === day) return undefined;
    const { sheet, row, column } = place;
    const set = async (): Promise<void> => {
      await typeInto(host, [{ sheet, row, column, value: serialFromIsoText(day) }]);
      await menu();
      say(said, `The plan now speaks of ${day}.`);
    };
    return h(
      'div',
      { class: 'ask' },
      h(
        'p',
        {},
        isoText(farm.asOf) < day
          ? `The plan speaks of ${isoText(farm.asOf)}: what is noted for a later day counts as still to come until its day is moved on.`
          : `The plan speaks of ${isoText(farm.asOf)}, a day still to come.`,
      ),
      big(`Let it speak of ${day}`, doing(set)),
    );
  }

  async function menu(): Promise<void> {
    isForm = false;
    const mine = ++turn;
    const open = await openFarm(host);
    if (mine !== turn) return;
    const [fault] = open.reading.faults;
    if (fault) {
      show(
        h('p', { class: 'problem' }, `First put right: ${fault.says}`),
        ...(fault.sheet !== undefined
          ? [
              big(
                'Go there',
                () =>
                  void host.goTo(fault.sheet ?? '', cellAddress(fault.row ?? 0, fault.column ?? 0)),
              ),
            ]
          : []),
      );
      return;
    }
    const [newest, ...earlier] = notes;
    show(
      // Where the hand is that has just written it.
      ...(newest === undefined
        ? []
        : [
            h(
              'div',
              { class: 'note-back' },
              big(
                `Take it back: ${newest.says}`,
                doing(() => back(newest)),
              ),
            ),
          ]),
      ...[dayNotice(open)].filter((element) => element !== undefined),
      ...GROUPS.flatMap((group) => [
        h('h3', {}, group),
        h(
          'div',
          { class: 'note-kinds' },
          ...happenings
            .filter((happening) => happening.group === group)
            .map(({ id, title }) =>
              big(
                title,
                doing(() => form(id)),
              ),
            ),
        ),
      ]),
      ...(earlier.length === 0
        ? []
        : [
            h('h3', {}, 'Written before on this visit'),
            h(
              'ul',
              { class: 'due' },
              ...earlier.map((noted) =>
                h(
                  'li',
                  {},
                  h('p', {}, noted.says),
                  h(
                    'div',
                    { class: 'note-answers' },
                    big(
                      'Take it back',
                      doing(() => back(noted)),
                      `Take it back: ${noted.says}`,
                    ),
                  ),
                ),
              ),
            ),
          ]),
      ...due(open),
    );
  }

  doing(menu)();
  // Nobody's half-typed note is taken from under his fingers.
  afterChanges(host, panel, () => {
    if (!isForm) void menu().catch(failed);
  });
}

/** What happened, in a few taps: one row of its register. */
export const notePage: Page = { id: 'note', title: 'Note', render };
