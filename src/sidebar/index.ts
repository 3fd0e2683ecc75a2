import './components';
import './sidebar.css';
import type { Tablist } from '@fluentui/web-components';
import type { Host } from './host';
import { aheadPage } from './ahead/ahead-page';
import { chancesPage } from './chances/chances-page';
import { checkPage } from './check/check-page';
import { freshId, h } from './dom';
import { functionsPage } from './functions/functions-page';
import { handOverPage } from './hand-over/hand-over-page';
import { notePage } from './note/note-page';
import { ownFiguresPage } from './own-figures/own-figures-page';
import type { Page } from './page';
import { planPage } from './plan/plan-page';
import { followTheme } from './theme';
import { tracePage } from './trace/trace-view';

const pages: readonly Page[] = [
  notePage,
  tracePage,
  ownFiguresPage,
  planPage,
  aheadPage,
  chancesPage,
  functionsPage,
  checkPage,
  handOverPage,
];

/** Fills `element` with the sidebar for the spreadsheet behind `host`; `first` is the page that shows. */
export function mountSidebar(element: HTMLElement, host: Host, first = planPage.id): void {
  element.classList.add('gillbed');
  followTheme(element, host);
  const tabs = pages.map(({ id, title }) => {
    const panel = h('div', { class: 'page', id: freshId(id), 'data-page': id, hidden: true });
    const tab = h('fluent-tab', { id: freshId('tab'), 'aria-controls': panel.id }, title);
    panel.setAttribute('role', 'tabpanel');
    panel.setAttribute('aria-labelledby', tab.id);
    return { tab, panel };
  });
  const list = h(
    'fluent-tablist',
    {
      'aria-label': 'Gillbed',
      activeid:
        (tabs.find(({ panel }) => panel.dataset['page'] === first) ?? tabs[0])?.tab.id ?? '',
    },
    ...tabs.map(({ tab }) => tab),
  ) as Tablist;
  const shown = new Set<string>();
  const show = (): void => {
    const active = list.activeid;
    tabs.forEach(({ tab, panel }, i) => {
      panel.hidden = tab.id !== active;
      const page = pages[i];
      if (panel.hidden || !page || shown.has(page.id)) return;
      shown.add(page.id);
      page.render(panel, host);
    });
  };
  list.addEventListener('change', () => {
    show();
    element.scrollIntoView({ block: 'start' });
  });
  element.replaceChildren(
    h('header', { class: 'top' }, list),
    ...host.limits.map((sentence) => h('p', { class: 'caution limit' }, sentence)),
    ...tabs.map(({ panel }) => panel),
    ...(host.about === undefined ? [] : [h('footer', { class: 'about' }, host.about)]),
  );
  show();
}
