import { h } from '../dom';
import type { Host } from '../host';
import type { Page } from '../page';

/** What reads, plays and draws is loaded when somebody looks at the page. */
function render(panel: HTMLElement, host: Host): void {
  const status = h('p', { class: 'quiet', role: 'status' }, 'Loading …');
  panel.append(h('h2', {}, 'Chances of the weeks ahead'), status);
  import('./chances-view').then(
    ({ chancesView }) => status.replaceWith(chancesView(host)),
    (fault: Error) => {
      status.textContent = `This page could not be loaded: ${fault.message}`;
    },
  );
}

/** In which band the weeks ahead may end, and what moves it most. */
export const chancesPage: Page = { id: 'chances', title: 'Chances', render };
