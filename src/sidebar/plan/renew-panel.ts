import type { Renewal, RenewOptions } from '../../renew/renew';
import { button, setUsable } from '../button';
import { freshId, h, say } from '../dom';
import type { Host } from '../host';

const COPY_NAME = 'renewed.xlsx';

/** Lets the pane show what has changed, and hear whoever wants to stop. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** A field of the panel: its element and what is typed. */
function field(label: string, type: 'number' | 'date', hint: string) {
  const id = freshId('renew');
  const input = h('input', {
    id,
    type,
    'aria-describedby': `${id}-hint`,
    ...(type === 'number' && { min: 1, step: 1 }),
  });
  return {
    element: h(
      'div',
      { class: 'field' },
      h('label', { for: id }, label, h('span', { class: 'quiet' }, ' optional')),
      h('div', { class: 'entry' }, input),
      h('p', { class: 'hint', id: `${id}-hint` }, hint),
    ),
    text: (): string => input.value.trim(),
    set: (text: string): void => {
      input.value = text;
      input.focus();
    },
  };
}

/** What is lost, and what is carried, before anything is done. */
function reportOf({ losses, carried, notes }: Renewal): HTMLElement[] {
  const { typed, own, sheets, formulas } = carried;
  return [
    h(
      'p',
      {},
      `Carried: ${typed} typed cells, ${own} cells of your own beside the plan, ${sheets} sheets of your own; ${formulas} of your formulas point at new places.`,
    ),
    ...notes.map((note) => h('p', { class: 'hint' }, note)),
    ...(losses.length === 0
      ? [h('p', { class: 'done' }, 'Nothing is lost.')]
      : [
          h('p', { class: 'problem' }, 'This would not be as it was:'),
          h(
            'ul',
            {},
            ...losses.map(({ where, says }) => h('li', {}, h('strong', {}, where), ` ${says}`)),
          ),
        ]),
  ];
}

export interface RenewPanel {
  readonly element: HTMLElement;
  /** Folds open and goes to what is to be filled in for one row more of a list. */
  readonly want: (list: string, count: number) => void;
}

/**
 * The plan of the open workbook made anew, with everything that was typed. The renewed workbook is offered as a file of
 * its own: sheets replaced under formulas that point at them could not be put back.
 */
export function renewPanel(host: Host): RenewPanel {
  const tanks = field(
    'Tanks in all',
    'number',
    'New ones are like the last. Blank: as many as there are.',
  );
  const beds = field(
    'Beds in all',
    'number',
    'New ones are like the last. Blank: as many as there are.',
  );
  const day = field('Day of the plan', 'date', 'Blank: the day stays.');
  /** What the Escape key does while something shows on the stage. */
  let leave: (() => void) | undefined;
  const stage = h('div', {
    class: 'stage',
    on: {
      keydown: (event) => {
        if ((event as KeyboardEvent).key === 'Escape') leave?.();
      },
    },
  });
  const look = button('Look what becomes of it', () => void run());

  function changes(): NonNullable<RenewOptions['changes']> {
    const count = (text: string): number | undefined => (text === '' ? undefined : Number(text));
    return {
      tanks: count(tanks.text()),
      beds: count(beds.text()),
      day: day.text() === '' ? undefined : day.text(),
    };
  }

  /** Keys that were on the stage go on where they came from. */
  function clear(...nodes: readonly Node[]): void {
    const wasHere = stage.contains(document.activeElement);
    leave = undefined;
    setUsable(look, true);
    stage.replaceChildren(...nodes);
    if (wasHere) look.focus();
  }

  async function run(): Promise<void> {
    const bar = h('fluent-progress-bar', { max: 100, 'aria-label': 'Renewing the plan' });
    const status = h('p', { class: 'quiet', role: 'status' }, 'Reading the workbook …');
    const stop = new AbortController();
    leave = () => stop.abort();
    const cancel = button('Cancel', leave);
    setUsable(look, false);
    stage.replaceChildren(bar, status, h('div', { class: 'actions' }, cancel));
    cancel.focus();
    try {
      const { renewal } = await import('../../renew/renew');
      const steps = renewal(await host.fileBytes(), { changes: changes() });
      for (;;) {
        await breathe();
        if (stop.signal.aborted) {
          clear(h('p', { class: 'quiet', role: 'status' }, 'Stopped; the workbook is as it was.'));
          return;
        }
        const { done, value } = steps.next();
        if (done === true) {
          offer(value);
          return;
        }
        bar.setAttribute('value', String(Math.round(value.share * 100)));
        status.textContent = `${value.doing} …`;
      }
    } catch (thrown) {
      fail(`Nothing was changed: ${(thrown as Error).message}`);
    } finally {
      setUsable(look, true);
    }
  }

  function fail(text: string): void {
    leave = undefined;
    const said = h('p', { class: 'problem', role: 'alert', tabindex: '-1' });
    say(said, text);
    stage.replaceChildren(said);
    said.focus();
  }

  function offer(renewed: Renewal): void {
    leave = () => clear();
    const title = h('p', { tabindex: '-1' }, h('strong', {}, 'What becomes of the workbook'));
    const go = button('Open the renewed workbook', () => void open(renewed), { look: 'primary' });
    stage.replaceChildren(
      h(
        'div',
        { class: 'ask', role: 'group', 'aria-label': 'Before the plan is renewed' },
        title,
        ...reportOf(renewed),
        h('div', { class: 'actions' }, go, button('Not now', leave)),
      ),
    );
    title.focus();
  }

  async function open({ bytes }: Renewal): Promise<void> {
    try {
      const where = await host.openCopy(COPY_NAME, bytes);
      const done = h(
        'p',
        { class: 'done', role: 'status', tabindex: '-1' },
        where === 'opened'
          ? 'The renewed workbook is open; this one is as it was. Save the new one in its place once you have looked at it.'
          : `The renewed workbook was saved as ${COPY_NAME} among your downloads; this one is as it was. Open the new one and keep it in its place.`,
      );
      leave = undefined;
      stage.replaceChildren(done);
      done.focus();
    } catch (thrown) {
      fail(`The renewed workbook could not be opened: ${(thrown as Error).message}`);
    }
  }

  const element = h(
    'details',
    { class: 'section' },
    h('summary', {}, h('span', { class: 'section-title' }, 'Renew the plan of this workbook')),
    h(
      'p',
      { class: 'hint' },
      'A newer version, more tanks or beds, the next year: the plan is made anew with all that was typed, with your own columns and sheets. You get a workbook of its own, and see first what could not be kept.',
    ),
    tanks.element,
    beds.element,
    day.element,
    h('div', { class: 'actions' }, look),
    stage,
  );
  return {
    element,
    want: (list, count) => {
      element.open = true;
      const asked = { tanks, beds }[list];
      if (asked) asked.set(String(count));
      else element.scrollIntoView({ block: 'nearest' });
    },
  };
}
