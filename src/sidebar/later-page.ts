import { h } from './dom';
import type { Host } from './host';
import type { Page } from './page';

interface LaterPage extends Pick<Page, 'id' | 'title'> {
  /** Stands above the page. */
  readonly heading: string;
  /** Fetches what makes the page. */
  readonly load: () => Promise<(host: Host) => HTMLElement>;
}

/** A page whose scripts are fetched when somebody looks at it. */
export const laterPage = ({ id, title, heading, load }: LaterPage): Page => ({
  id,
  title,
  render: (panel, host) => {
    const status = h('p', { class: 'quiet', role: 'status' }, 'Loading …');
    panel.append(h('h2', {}, heading), status);
    load().then(
      (view) => status.replaceWith(view(host)),
      (fault: Error) => {
        status.textContent = `This page could not be loaded: ${fault.message}`;
      },
    );
  },
});
