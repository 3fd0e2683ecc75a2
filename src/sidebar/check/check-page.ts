import type { Finding, Level } from '../../check/finding';
import type { Host } from '../host';
import { button } from '../button';
import { h } from '../dom';
import { drawn } from '../drawn';
import type { Page } from '../page';
import { whyPart } from './why-part';

/** Said in words, never by colour alone. */
const levelWords: Record<Level, string> = {
  danger: 'Danger',
  watch: 'Watch',
  note: 'Note',
};

const findingItem = (
  finding: Finding,
  host: Host,
  failed: (sentence: string) => void,
): HTMLElement =>
  h(
    'li',
    { class: `finding ${finding.level}` },
    h('p', { class: 'what' }, h('strong', {}, `${levelWords[finding.level]}. `), finding.what),
    h(
      'button',
      {
        type: 'button',
        class: 'place',
        'aria-label': `Go to ${finding.sheet}, ${finding.address}`,
        on: {
          click: () => {
            host
              .goTo(finding.sheet, finding.address)
              .catch((problem: Error) => failed(problem.message));
          },
        },
      },
      `${finding.sheet} · ${finding.address}`,
    ),
    h('p', { class: 'hint' }, finding.why),
    h('p', { class: 'remedy' }, finding.remedy),
  );

const countWords = (count: number): string =>
  count === 0
    ? 'Nothing found. The checks see figures, not fish: look at the tanks all the same.'
    : count === 1
      ? '1 finding, the most pressing first.'
      : `${count} findings, the most pressing first.`;

interface Checked {
  readonly findings: readonly Finding[];
  /** Why the workbook could not be read as a whole, with its names; its registers are not looked at then. */
  readonly unread?: string;
}

async function checked(host: Host): Promise<Checked> {
  const [{ checkSheets }, { markOfBook }, { readChancesSheets }] = await Promise.all([
    import('../../check/check'),
    import('../../chances/plan-mark'),
    import('../../chances/read-chances-sheet'),
  ]);
  const sheets = await host.readSheets();
  let book;
  try {
    book = await host.book();
  } catch (thrown) {
    return { findings: checkSheets(sheets), unread: (thrown as Error).message };
  }
  const mark = readChancesSheets(sheets).length > 0 ? markOfBook(book) : undefined;
  return { findings: checkSheets(sheets, { book, mark }) };
}

function render(panel: HTMLElement, host: Host): void {
  const status = h('p', { class: 'quiet', role: 'status' });
  const list = h('ul', { class: 'findings' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const failed = (sentence: string): void => {
    problem.textContent = sentence;
    problem.hidden = false;
  };
  let running = false;
  async function run(): Promise<void> {
    if (running) return;
    running = true;
    problem.hidden = true;
    status.textContent = 'Reading the sheets …';
    status.toggleAttribute('data-doing', true);
    try {
      await drawn();
      const { findings, unread } = await checked(host);
      list.replaceChildren(...findings.map((finding) => findingItem(finding, host, failed)));
      status.textContent = countWords(findings.length);
      if (unread !== undefined) {
        failed(
          `Each sheet was checked, but what the registers of a plan say against each other was not: the workbook could not be read as a whole. ${unread}`,
        );
      }
    } catch (thrown) {
      status.textContent = '';
      failed(`The sheets could not be read: ${(thrown as Error).message}`);
    } finally {
      running = false;
      status.toggleAttribute('data-doing', false);
    }
  }
  panel.append(
    whyPart(host),
    h('h2', {}, 'Check the figures'),
    h(
      'p',
      { class: 'intro' },
      'Gillbed reads every sheet of this workbook, your own ones too, and says what looks dangerous or mistyped: crowded tanks, ammonia, oxygen, feed against beds, sump, dates, gaps in sowing, wrong units, cells with errors. It changes nothing.',
    ),
    h(
      'div',
      { class: 'actions' },
      button('Check the workbook', () => void run(), { look: 'primary' }),
    ),
    status,
    problem,
    list,
  );
}

/** What in the open workbook is out of bounds, out of order or mistyped. */
export const checkPage: Page = { id: 'check', title: 'Check', render };
