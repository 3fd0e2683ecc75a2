import { button } from '../button';
import { h } from '../dom';
import type { Host } from '../host';

/** A list of sentences; nothing where there are none. */
export const sentenceList = (
  sentences: readonly string[],
  className = 'plain-list',
): HTMLElement | undefined =>
  sentences.length === 0
    ? undefined
    : h('ul', { class: className }, ...sentences.map((sentence) => h('li', {}, sentence)));

/** A part that opens and closes. */
export const folded = (
  title: string,
  open: boolean,
  ...children: readonly (Node | undefined | false)[]
): HTMLElement =>
  h(
    'details',
    { class: 'section', open },
    h('summary', {}, h('span', { class: 'section-title' }, title)),
    ...children,
  );

/** Leads to a sheet of the workbook. */
export function sheetLink(host: Host, sheet: string, failed: (sentence: string) => void) {
  return button(
    `Go to the sheet ${sheet}`,
    () => {
      host.goTo(sheet, 'A1').catch((fault: Error) => failed(fault.message));
    },
    { small: true },
  );
}

/** A table that scrolls sideways in a narrow pane. */
export const wideTable = (
  label: string,
  heads: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): HTMLElement =>
  h(
    'div',
    { class: 'scroll result', tabindex: 0, role: 'region', 'aria-label': label },
    h(
      'table',
      {},
      h('thead', {}, h('tr', {}, ...heads.map((head) => h('th', { scope: 'col' }, head)))),
      h(
        'tbody',
        {},
        ...rows.map(([first, ...more]) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, String(first)),
            ...more.map((cell) => h('td', {}, String(cell))),
          ),
        ),
      ),
    ),
  );

export const sentenceOf = (fault: unknown): string =>
  fault instanceof Error ? fault.message : String(fault);
