import { h } from '../dom';
import type { Host } from '../host';
import type { Page } from '../page';

/** What counts the registers is loaded when somebody looks at the page. */
function render(panel: HTMLElement, host: Host): void {
  const status = h('p', { class: 'quiet', role: 'status' }, 'Loading …');
  panel.append(h('h2', {}, 'Own figures'), status);
  import('./own-figures-view').then(
    ({ ownFiguresView }) => status.replaceWith(ownFiguresView(host)),
    (fault: Error) => {
      status.textContent = `This page could not be loaded: ${fault.message}`;
    },
  );
}

/** What the farm's own records say beside the tables, and which of both counts. */
export const ownFiguresPage: Page = { id: 'own-figures', title: 'Own figures', render };
