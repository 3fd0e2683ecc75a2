import type { Host } from '../host';
import { h } from '../dom';
import type { Page } from '../page';

/** What plans and draws is loaded when somebody looks at the page, the solver when a plan is asked for. */
function render(panel: HTMLElement, host: Host): void {
  const status = h('p', { class: 'quiet', role: 'status' }, 'Loading …');
  panel.append(h('h2', {}, 'Weeks ahead'), status);
  import('./ahead-view').then(
    ({ aheadView }) => status.replaceWith(aheadView(host)),
    (fault: Error) => {
      status.textContent = `This page could not be loaded: ${fault.message}`;
    },
  );
}

/** What is to be done in the weeks to come, and a plan of fish and beds for them. */
export const aheadPage: Page = { id: 'ahead', title: 'Ahead', render };
