import type { Host } from '../host';
import { button, setUsable } from '../button';
import { freshId, h, say } from '../dom';
import type { Json } from './draft';
import type { FieldSpec } from './form-fields';
import { type Cells, matchColumns, rowsFrom } from './rows-from-sheet';

interface RowsFromSheet {
  /** Opens the panel over the selected cells. */
  readonly button: HTMLElement;
  readonly panel: HTMLElement;
}

/** Takes rows from the selected block of the grower's own sheet; columns are confirmed by hand. */
export function rowsFromSheet(
  { one, fields, host }: { one: string; fields: readonly FieldSpec[]; host: Host },
  take: (rows: readonly Json[], instead: boolean) => void,
): RowsFromSheet {
  const panel = h('div', { class: 'take', hidden: true });
  const opener = button('Take from the sheet', () => void open(), {
    small: true,
    label: `Take from the sheet: each ${one} a row`,
  });
  const close = (): void => {
    panel.hidden = true;
    panel.replaceChildren();
    opener.focus();
  };

  function ask(cells: Cells, from: string): void {
    const heads = (cells[0] ?? []).map(String);
    const matched = matchColumns(heads, fields);
    const choices = fields.map((field) => {
      const id = freshId('column');
      const select = h(
        'select',
        { id },
        h('option', { value: '' }, 'not taken'),
        ...heads.map((heading, column) =>
          h('option', { value: column }, heading || `column ${column + 1}`),
        ),
      );
      select.value = String(matched.get(field.path) ?? '');
      const element = h(
        'div',
        { class: 'field' },
        h('label', { for: id }, field.label),
        h('div', { class: 'entry' }, select),
      );
      return { field, select, element };
    });
    const rows = (): ReturnType<typeof rowsFrom> =>
      rowsFrom(
        cells,
        fields,
        new Map(
          choices.flatMap(({ field, select }) =>
            select.value === '' ? [] : [[field.path, Number(select.value)] as const],
          ),
        ),
      );
    const count = h('p', { class: 'quiet', role: 'status' });
    const takers = [
      button('Add these', () => finish(false), { look: 'primary' }),
      button('Use these instead', () => finish(true)),
    ];
    const tell = (): void => {
      const { rows: found, empty } = rows();
      for (const taker of takers) setUsable(taker, found.length > 0);
      count.textContent = `${found.length} ${found.length === 1 ? 'row' : 'rows'} from ${from}${empty > 0 ? `; ${empty} without any entry` : ''}.`;
    };
    const finish = (instead: boolean): void => {
      take(rows().rows, instead);
      close();
    };
    tell();
    panel.replaceChildren(
      h('p', {}, 'Which column holds what? The first row is taken as headings.'),
      h('div', { class: 'grid', on: { change: tell } }, ...choices.map((choice) => choice.element)),
      count,
      h('div', { class: 'actions' }, ...takers, button('Not now', close)),
    );
    choices[0]?.select.focus();
  }

  async function open(): Promise<void> {
    panel.hidden = false;
    try {
      const { sheet, address, values } = await host.selection();
      if (values.length >= 2) {
        ask(values, `${sheet}!${address}`);
        return;
      }
      panel.replaceChildren(
        h(
          'p',
          { class: 'advice', role: 'status' },
          `Select the block with its row of headings in the sheet first: ${sheet}!${address} is one row.`,
        ),
      );
    } catch (thrown) {
      const problem = h('p', { class: 'problem', role: 'alert' });
      say(problem, thrown instanceof Error ? thrown.message : String(thrown));
      panel.replaceChildren(problem);
    }
  }

  return { button: opener, panel };
}
