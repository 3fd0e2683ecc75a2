import { rowPlacesOf } from '../../records/row-place';
import { lotsOf, trace } from '../../records/trace';
import { traceInWords } from '../../records/trace-words';
import { button } from '../button';
import { freshId, h, say } from '../dom';
import { download } from '../download';
import type { Host } from '../host';
import { openFarm } from '../open-farm';
import type { Page } from '../page';

function render(panel: HTMLElement, host: Host): void {
  const id = freshId('lot');
  const names = freshId('lots');
  const options = h('datalist', { id: names });
  const input = h('input', {
    id,
    type: 'text',
    list: names,
    autocomplete: 'off',
    on: { focus: () => void offer().catch(() => undefined) },
  });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const status = h('p', { class: 'quiet', role: 'status' });
  const found = h('div', { class: 'traced' });
  const print = button('Save a page to print', () => void save().catch(failed));
  print.hidden = true;
  const failed = (fault: unknown): void =>
    say(problem, fault instanceof Error ? fault.message : String(fault));

  async function offer(): Promise<void> {
    const { farm } = (await openFarm(host)).reading;
    if (farm) options.replaceChildren(...lotsOf(farm).map((name) => h('option', { value: name })));
  }

  async function asked() {
    const { reading } = await openFarm(host);
    if (!reading.farm)
      throw new Error(`First put right: ${reading.faults[0]?.says ?? 'the cells of the farm'}`);
    return {
      farm: reading.farm,
      answer: trace(input.value, reading.farm),
      place: rowPlacesOf(reading),
    };
  }

  async function show(): Promise<void> {
    say(problem, undefined);
    found.replaceChildren();
    print.hidden = true;
    status.textContent = '';
    const { answer, place } = await asked();
    found.replaceChildren(
      ...traceInWords(answer, place).map(({ title, sections }) =>
        h(
          'section',
          { class: 'traced-lot' },
          h('h3', {}, title),
          ...sections.flatMap(({ head, lines }) => [
            h('h4', {}, head),
            h(
              'ul',
              {},
              ...lines.map(({ says, where, warns }) => {
                const [sheet, address] = where?.split('!') ?? [];
                return h(
                  'li',
                  {},
                  says,
                  sheet !== undefined && address !== undefined
                    ? h(
                        'button',
                        {
                          type: 'button',
                          class: 'place',
                          'aria-label': `Go to ${sheet}, ${address}`,
                          on: { click: () => void host.goTo(sheet, address).catch(failed) },
                        },
                        `${sheet} · ${address}`,
                      )
                    : undefined,
                  warns !== undefined && h('p', { class: 'problem' }, `${warns}.`),
                );
              }),
            ),
          ]),
        ),
      ),
    );
    const count = answer.tracks.length;
    status.textContent = `${count === 1 ? 'One lot' : `${count} lots`} by the rows of the registers.`;
    print.hidden = false;
  }

  async function save(): Promise<void> {
    const { tracePage: pageOf } = await import('../../report/trace-page');
    const { answer, farm, place } = await asked();
    const name =
      answer.asked
        .toLowerCase()
        .match(/[\p{L}\d]+/gu)
        ?.join('-') ?? 'lot';
    download(
      `trace-${name}.html`,
      new TextEncoder().encode(pageOf(answer, farm, place)),
      'text/html',
    );
  }

  panel.append(
    h('h2', {}, 'Where did it go?'),
    h(
      'p',
      { class: 'intro' },
      'A lot of fish, a batch of plants, or the day on which something was cut or sold: where it came from, where it was, with which water and treatments, and to whom it went.',
    ),
    h(
      'form',
      {
        class: 'trace-form',
        on: {
          submit: (event) => {
            event.preventDefault();
            void show().catch(failed);
          },
        },
      },
      h('label', { for: id }, 'Lot, batch or day'),
      h('div', { class: 'entry' }, input, options),
      h('button', { type: 'submit', class: 'big primary' }, 'Follow it'),
    ),
    problem,
    status,
    h('div', { class: 'actions' }, print),
    found,
  );
  void offer().catch(() => undefined);
}

/** From a lot or a day one step back and one step forward. */
export const tracePage: Page = { id: 'trace', title: 'Trace', render };
