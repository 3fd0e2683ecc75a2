import type { Comparison, Difference } from '../../handover/returned';
import { button, setUsable } from '../button';
import { h } from '../dom';
import type { Host } from '../host';
import { type Part, stage } from './part-stage';

const TAKEN_NAME = 'with-what-came-back.xlsx';
const MAX_BYTES = 50_000_000;

const item = ({ where, label, shownWas, shownNow, refused, note }: Difference): HTMLElement =>
  h(
    'li',
    {},
    h('strong', {}, label === '' ? where : `${label} (${where})`),
    `: ${shownWas === '' ? 'blank' : shownWas} → ${shownNow === '' ? 'blank' : shownNow}`,
    refused !== undefined && h('span', { class: 'quiet' }, ` Not taken over: ${refused}.`),
    note !== undefined && h('span', { class: 'quiet' }, ` ${note}`),
  );

const countWords = ({ differences, compared }: Comparison): string =>
  differences.length === 0
    ? `None of the ${compared} typed cells differs.`
    : `${differences.length} of ${compared} typed cells ${differences.length === 1 ? 'differs' : 'differ'} from yours.`;

/** What somebody typed into a copy that came back, listed, and taken over where one wishes. */
export function returnedPart(host: Host): Part {
  const out = stage();
  const chooser = h('input', {
    type: 'file',
    accept: '.xlsx',
    hidden: true,
    'aria-label': 'Copy that came back',
  });

  async function compare(file: File): Promise<void> {
    out.begin('Comparing …');
    try {
      if (file.size > MAX_BYTES) throw new Error(`${file.name} is too large for a workbook.`);
      const [{ compareReturned, takenOver }, { openTraced }] = await Promise.all([
        import('../../handover/returned'),
        import('../../ooxml/open-book'),
      ]);
      const own = await host.fileBytes();
      const back = new Uint8Array(await file.arrayBuffer());
      const comparison = compareReturned(openTraced(own), openTraced(back));
      const { differences, elsewhere } = comparison;
      const done = h('p', { class: 'done', role: 'status' });
      const take = button('Take them over into a copy of mine', () => {
        setUsable(take, false);
        void host
          .openCopy(TAKEN_NAME, takenOver(own, differences))
          .then((where) => {
            done.textContent =
              where === 'opened'
                ? 'Your workbook with these figures is open as a new one; this one is as it was.'
                : `Your workbook with these figures was saved as ${TAKEN_NAME} among your downloads; this one is as it was.`;
          })
          .catch((thrown: unknown) => out.fail((thrown as Error).message));
      });
      const usable = differences.some(({ refused }) => refused === undefined);
      out.end(
        countWords(comparison),
        h('ul', { class: 'differences' }, ...differences.map(item)),
        ...(elsewhere.length > 0
          ? [
              h(
                'p',
                { class: 'advice' },
                `Outside of the typed cells ${elsewhere.length} differ and are not taken over: ${elsewhere.slice(0, 5).join(', ')}${elsewhere.length > 5 ? ', …' : ''}.`,
              ),
            ]
          : []),
        ...(usable ? [h('div', { class: 'actions' }, take)] : []),
        done,
      );
    } catch (thrown) {
      out.fail(`Nothing was compared: ${(thrown as Error).message}`);
    }
  }

  chooser.addEventListener('change', () => {
    const [file] = chooser.files ?? [];
    chooser.value = '';
    if (file) void compare(file);
  });
  return {
    element: h(
      'section',
      { class: 'part' },
      h('h2', {}, 'A copy that came back'),
      h(
        'p',
        {},
        'Choose the workbook that a client filled in. What is typed otherwise in it is listed beside your own; nothing changes before you say so.',
      ),
      h(
        'div',
        { class: 'actions' },
        button('Choose the copy', () => chooser.click()),
      ),
      chooser,
      ...out.nodes,
    ),
  };
}
