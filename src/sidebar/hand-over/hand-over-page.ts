import type { Host } from '../host';
import { button } from '../button';
import { freshId, h } from '../dom';
import { inSteps } from '../../plan/in-steps';
import type { Page } from '../page';
import { pausing } from '../pausing';
import { type Part, stage } from './part-stage';
import { reportPart } from './report-part';
import { returnedPart } from './returned-part';
import { turnedList } from './turned-list';

const COPY_NAME = 'without-gillbed.xlsx';

/** A copy of the workbook that needs no Gillbed. */
function copyPart(host: Host): Part {
  const out = stage();
  const group = freshId('copy');
  let values = false;
  const chosen = { folded: false, typedOnly: false };
  const tick = (name: keyof typeof chosen, title: string, says: string): HTMLElement =>
    h(
      'label',
      { class: 'option' },
      h('input', {
        type: 'checkbox',
        on: {
          change: (event: Event) => {
            chosen[name] = (event.target as HTMLInputElement).checked;
          },
        },
      }),
      h('span', {}, h('strong', {}, title), h('span', { class: 'quiet' }, ` ${says}`)),
    );
  const choice = (asValues: boolean, title: string, says: string): HTMLElement =>
    h(
      'label',
      { class: 'option' },
      h('input', {
        type: 'radio',
        name: group,
        checked: asValues === values,
        on: {
          change: () => {
            values = asValues;
          },
        },
      }),
      h('span', {}, h('strong', {}, title), h('span', { class: 'quiet' }, ` ${says}`)),
    );
  async function run(): Promise<void> {
    out.begin('Reading the workbook …');
    try {
      const { handingOver } = await import('../../handover/hand-over');
      const bytes = await host.fileBytes();
      const work = handingOver(bytes, { values, ...chosen });
      const {
        bytes: copy,
        turned,
        notes,
      } = await inSteps(
        work,
        pausing((share) => out.begin(`Handing over: ${Math.round(share * 100)} %`)),
      );
      const where = await host.openCopy(COPY_NAME, copy);
      out.end(
        `${where === 'opened' ? 'The copy is open as a new workbook' : `The copy was saved as ${COPY_NAME} among your downloads`}; this workbook is as it was. ${turned.length} GILL formulas.`,
        ...notes.map((note) => h('p', { class: 'hint' }, note)),
        ...turnedList(turned),
      );
    } catch (thrown) {
      out.fail(`No copy was made: ${(thrown as Error).message}`);
    }
  }
  return {
    element: h(
      'section',
      { class: 'part' },
      h('h2', {}, 'A copy that needs no Gillbed'),
      h(
        'p',
        {},
        'Every GILL formula of the copy becomes a formula of the spreadsheet’s own functions. This workbook stays as it is.',
      ),
      h(
        'fieldset',
        {},
        h('legend', {}, 'In place of GILL formulas'),
        choice(false, 'Formulas', 'The copy goes on computing.'),
        choice(true, 'Values', 'What the cells show now, and nothing moves any more.'),
      ),
      h(
        'fieldset',
        {},
        h('legend', {}, 'For whom it is'),
        tick('folded', 'Hide the sheets that are added', 'They hold steps of the formulas.'),
        tick(
          'typedOnly',
          'Leave open only what is typed',
          'Sheets are protected, without a password: whoever wants to can take it off.',
        ),
      ),
      h(
        'div',
        { class: 'actions' },
        button('Make the copy', () => void run(), { look: 'primary' }),
      ),
      ...out.nodes,
    ),
  };
}

/** GILL formulas that show #NAME? after the workbook travelled are entered again. */
function repairPart(host: Host): Part {
  const out = stage();
  async function run(): Promise<void> {
    out.begin('Looking for formulas that lost their function …');
    try {
      const { brokenFormulas } = await import('../../handover/broken-formulas');
      const broken = brokenFormulas(await host.readSheets());
      const skipped = new Map<string, string>();
      let mended = 0;
      for (const sheet of new Set(broken.map((formula) => formula.sheet))) {
        const cells = broken
          .filter((formula) => formula.sheet === sheet)
          .map(({ address, now }) => ({ address, formula: now }));
        try {
          await host.putFormulas(sheet, cells);
          mended += cells.length;
        } catch (thrown) {
          skipped.set(sheet, (thrown as Error).message);
        }
      }
      out.end(
        broken.length === 0
          ? 'No formula has lost its function.'
          : `${mended} of ${broken.length} formulas were entered again.`,
        ...[...skipped].map(([sheet, why]) =>
          h('p', { class: 'advice' }, `The sheet "${sheet}" was skipped: ${why}`),
        ),
      );
    } catch (thrown) {
      out.fail(`Nothing was changed: ${(thrown as Error).message}`);
    }
  }
  return {
    element: h(
      'section',
      { class: 'part' },
      h('h2', {}, 'Repair'),
      h(
        'p',
        {},
        'A workbook that was on a computer without Gillbed may come back with formulas that show #NAME?. Here they are entered again as they stand; protected sheets are skipped and named.',
      ),
      h(
        'div',
        { class: 'actions' },
        button('Repair the formulas', () => void run()),
      ),
      ...out.nodes,
    ),
  };
}

function render(panel: HTMLElement, host: Host): void {
  panel.append(
    reportPart(host).element,
    copyPart(host).element,
    returnedPart(host).element,
    repairPart(host).element,
  );
}

/** A copy for somebody without Gillbed, and the way back. */
export const handOverPage: Page = { id: 'hand-over', title: 'Hand over', render };
