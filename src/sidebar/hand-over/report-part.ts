import { button } from '../button';
import { freshId, h } from '../dom';
import { download } from '../download';
import type { Host } from '../host';
import { paperOf } from './paper';
import { type Part, stage } from './part-stage';

const REPORT_NAME = 'report.html';
const MAX_LOGO_BYTES = 2_000_000;

const dataAddress = (file: File): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(new Error(`${file.name} could not be read.`));
    reader.readAsDataURL(file);
  });

/** A page for a client, from the cells of the plan as they show. */
export function reportPart(host: Host): Part {
  const out = stage();
  const [clientId, logoId, paperId] = [freshId('client'), freshId('logo'), freshId('paper')];
  const client = h('input', { type: 'text', id: clientId, maxlength: 80, autocomplete: 'off' });
  const logo = h('input', {
    type: 'file',
    id: logoId,
    accept: 'image/png,image/jpeg,image/svg+xml',
  });
  const paper = h(
    'select',
    { id: paperId, class: 'short' },
    h('option', { value: '' }, 'as usual here'),
    h('option', { value: 'A4' }, 'A4'),
    h('option', { value: 'Letter' }, 'Letter'),
  );

  async function page(): Promise<string> {
    const [{ clientReport, unitsOfBook }, { openTraced }] = await Promise.all([
      import('../../report/client-report'),
      import('../../ooxml/open-book'),
    ]);
    const book = openTraced(await host.fileBytes());
    const [file] = logo.files ?? [];
    if (file && file.size > MAX_LOGO_BYTES)
      throw new Error(`${file.name} is larger than 2 MB; take a smaller picture.`);
    const name = client.value.trim();
    const usual = paperOf(navigator.languages, unitsOfBook(book) === 'US');
    return clientReport(book, {
      paper: paper.value === 'A4' || paper.value === 'Letter' ? paper.value : usual,
      ...(name !== '' && { client: name }),
      ...(file && { logo: await dataAddress(file) }),
    });
  }

  async function run(work: (html: string) => string): Promise<void> {
    out.begin('Reading the workbook …');
    try {
      out.end(work(await page()));
    } catch (thrown) {
      out.fail(`No report was made: ${(thrown as Error).message}`);
    }
  }

  /** The window is opened with the click itself: later on the browser would bar it. */
  function show(): void {
    const view = host.kind === 'workbench' ? window.open('', '_blank') : null;
    void run((html) => {
      if (view === null) return saved(html);
      const report = new DOMParser().parseFromString(html, 'text/html');
      const { document: shown } = view;
      shown.title = report.title;
      shown.documentElement.lang = report.documentElement.lang;
      const style = report.querySelector('style');
      if (style) shown.head.append(shown.importNode(style, true));
      shown.body.replaceChildren(...shown.importNode(report.body, true).childNodes);
      view.print();
      return 'The report is open in a window of its own, ready to be printed or saved as PDF.';
    }).finally(() => {
      if (view !== null && view.document.body.childElementCount === 0) view.close();
    });
  }

  function saved(html: string): string {
    download(REPORT_NAME, html, 'text/html');
    return `The report was saved as ${REPORT_NAME} among your downloads: open it in a browser and print it, or save it as PDF.`;
  }

  return {
    element: h(
      'section',
      { class: 'part' },
      h('h2', {}, 'A report for a client'),
      h(
        'p',
        {},
        'The plan as pages to be printed: the farm drawn to scale, what was wished and what comes out, the year, what to buy, the money, and what all of it rests on.',
      ),
      h(
        'div',
        { class: 'field' },
        h('label', { for: clientId }, 'For whom (may stay blank)'),
        client,
      ),
      h('div', { class: 'field' }, h('label', { for: logoId }, 'Your logo (may stay blank)'), logo),
      h('div', { class: 'field' }, h('label', { for: paperId }, 'Paper'), paper),
      h(
        'div',
        { class: 'actions' },
        host.kind === 'workbench' && button('Print the report', show, { look: 'primary' }),
        button('Save the report', () => void run(saved)),
      ),
      ...out.nodes,
    ),
  };
}
