import { button } from '../button';
import { h } from '../dom';
import type { Host } from '../host';
import type { Section } from '../../why/why-lines';

/** How many steps are open from the beginning: the cell itself. */
const OPEN_STEPS = 1;

const lineItem = (line: string): HTMLElement =>
  h('li', line.startsWith('  ') ? { class: 'inner' } : {}, line.trim());

/** One step, which opens and closes; `goTo` leads to its cell. */
const sectionBox = ({ head, lines }: Section, open: boolean, goTo?: HTMLElement): HTMLElement =>
  lines.length === 0
    ? h('p', { class: 'hint' }, head)
    : h(
        'details',
        { class: 'why-step', open },
        h('summary', {}, head),
        goTo,
        h('ul', { class: 'why-lines' }, ...lines.map(lineItem)),
      );

/** Lets the page show what was set, and the keys and buttons do their work. */
const shown = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

/** What stands behind the figure of the selected cell. */
export function whyPart(host: Host): HTMLElement {
  const status = h('p', { class: 'quiet', role: 'status' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const result = h('div', {});
  let running = false;
  let stops = 0;
  const stop = button('Stop', () => (stops += 1));
  stop.hidden = true;

  async function guarded(doing: string, does: () => Promise<void>): Promise<void> {
    if (running) return;
    running = true;
    problem.hidden = true;
    status.textContent = doing;
    try {
      await does();
      status.textContent = '';
    } catch (thrown) {
      status.textContent = '';
      problem.textContent = (thrown as Error).message;
      problem.hidden = false;
    } finally {
      running = false;
    }
  }

  const goTo = (sheet: string, address: string): HTMLElement =>
    h(
      'button',
      {
        type: 'button',
        class: 'place',
        'aria-label': `Go to ${sheet}, ${address}`,
        on: {
          click: () => void guarded('', () => host.goTo(sheet, address)),
        },
      },
      `${sheet} · ${address}`,
    );

  async function explain(): Promise<void> {
    const { sheet, address } = await host.selection();
    const [{ askedOf, placeNamed, whatMoves, why, whySections }, { openTraced }, { cellAddress }] =
      await Promise.all([
        import('../../why/why'),
        import('../../ooxml/open-book'),
        import('../../plan/addresses'),
      ]);
    const asked = askedOf(openTraced(await host.fileBytes()));
    const [first = address] = address.split(':');
    const place = placeNamed(`'${sheet.replaceAll("'", "''")}'!${first}`, asked.cells);
    const recalculator = await host.recalculator?.();
    const answer = why(place, asked, recalculator);
    const sections = whySections(answer);
    const steps = answer.steps.length;
    const notes = sections.length - steps;
    const movers = h('div', {});
    const findMovers = (): void =>
      void guarded('Making a copy of what it hangs on …', async () => {
        if (!recalculator) return;
        await shown();
        const moving = whatMoves(place, asked, recalculator);
        let step = moving.next();
        stop.hidden = false;
        const before = stops;
        try {
          while (step.done !== true) {
            const { done, of } = step.value;
            status.textContent = `Changing each of ${of} typed numbers alone: ${done} done …`;
            await shown();
            if (stops > before) {
              movers.replaceChildren(
                h('p', { class: 'hint' }, `Stopped when ${done} of ${of} numbers were done.`),
              );
              return;
            }
            step = moving.next();
          }
        } finally {
          stop.hidden = true;
        }
        const last = whySections({ steps: [], ...step.value }).at(-1);
        if (last) movers.replaceChildren(sectionBox(last, true));
      });
    const canMove = steps > 0 && recalculator !== undefined;
    result.replaceChildren(
      h('h3', {}, answer.title),
      ...sections.map((section, i) => {
        const step = answer.steps[i - notes];
        const link = step && goTo(step.place.sheet, cellAddress(step.place.row, step.place.column));
        return sectionBox(section, i < notes + OPEN_STEPS, link);
      }),
      ...(canMove
        ? [
            h('div', { class: 'actions' }, button('What would change it by 10 %?', findMovers)),
            movers,
          ]
        : steps > 0
          ? [
              h(
                'p',
                { class: 'hint' },
                'What would change it by 10 % is computed where the workbook can be computed a second time: open it in the workbench, or ask "why" in the terminal.',
              ),
            ]
          : []),
    );
  }

  return h(
    'section',
    { class: 'part' },
    h('h2', {}, 'Why this number?'),
    h(
      'p',
      {},
      'Select a cell with a figure. Gillbed says what it is made of, down to what somebody typed, by which method and on whose word.',
    ),
    h(
      'div',
      { class: 'actions' },
      button('Explain the selected cell', () => void guarded('Reading the workbook …', explain)),
    ),
    status,
    stop,
    problem,
    result,
  );
}
