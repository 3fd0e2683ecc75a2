import type { Host } from '../host';
import { button } from '../button';
import { h, say } from '../dom';
import type { Draft, Json } from './draft';
import { type FieldView, fieldView, type Told } from './field-view';
import type { FieldSpec } from './form-fields';
import { rowsFromSheet } from './rows-from-sheet-view';

export interface RowsSpec {
  readonly list: string;
  /** One row, in words: "tank". */
  readonly one: string;
  readonly fields: readonly FieldSpec[];
  /** What a new row starts with, `n` rows being there. */
  readonly blank: (n: number, draft: Draft) => Json;
  /** The rows's own name on its closed line. */
  readonly title: (row: Readonly<Record<string, Json>>) => string;
}

export interface FieldGroup {
  readonly element: HTMLElement;
  readonly views: () => readonly FieldView[];
  readonly refresh: () => void;
}

type Row = Readonly<Record<string, Json>>;
const asRow = (row: Json | undefined): Row =>
  typeof row === 'object' && row !== null && !Array.isArray(row) ? row : {};

/** A field of a row that is still folded: it is made when somebody looks at it. */
function foldedField(path: string, make: () => FieldView, unfold: () => void): FieldView {
  let made: FieldView | undefined;
  let told: Told = {};
  return {
    path,
    get touched() {
      return made?.touched ?? false;
    },
    get element() {
      if (!made) {
        made = make();
        made.tell(told);
      }
      return made.element;
    },
    refresh: () => made?.refresh(),
    tell: (next) => {
      told = next;
      made?.tell(next);
    },
    focus: () => {
      unfold();
      made?.focus();
    },
  };
}

/**
 * A list of the farm file: each row folds open to its fields; rows can be added, copied, removed, and with
 * a host taken from the grower's own sheet. `renew` shows where a plan is renewed that has no other row.
 */
export function rowsView(
  spec: RowsSpec,
  draft: Draft,
  host?: Host,
  renew?: (list: string) => void,
): FieldGroup {
  const holder = h('div', { class: 'rows' });
  let views: FieldView[] = [];
  let titles: HTMLElement[] = [];
  /** A line as it shows, with what follows from elsewhere. */
  const shownRow = (i: number): Row =>
    Object.fromEntries(
      spec.fields.flatMap(({ path }) => {
        const value = draft.shown(`${spec.list}[${i}].${path}`);
        return value === undefined ? [] : [[path, value]];
      }),
    );
  const titleOf = (i: number): string => spec.title(shownRow(i)) || `${spec.one} ${i + 1}`;
  const refused = h('p', { class: 'problem', role: 'alert', hidden: true });
  /** Why there is no other row to be had here: it is said, and nothing else is done. */
  const mayNot = (why: string | undefined): boolean => {
    say(refused, why);
    if (why !== undefined) renew?.(spec.list);
    return why !== undefined;
  };

  function rowElement(i: number, open: boolean): HTMLElement {
    const fields = spec.fields.map((field) => {
      const path = `${spec.list}[${i}].${field.path}`;
      return foldedField(path, () => fieldView(field, path, draft), unfold);
    });
    views.push(...fields);
    const title = h('span', { class: 'row-title' }, titleOf(i));
    titles.push(title);
    const named = (verb: string): string => `${verb} ${titleOf(i)}`;
    // A thousand beds are twenty thousand fields, of which few are ever looked at.
    const fill = (): void => {
      if (element.children.length > 1) return;
      element.append(
        h('div', { class: 'grid' }, ...fields.map((field) => field.element)),
        h(
          'div',
          { class: 'actions' },
          !draft.isOfBook && button('Copy', () => copy(i), { small: true, label: named('Copy') }),
          button('Remove', () => remove(i), { small: true, label: named('Remove') }),
        ),
      );
    };
    const element = h(
      'details',
      { class: 'row', open, on: { toggle: fill } },
      h('summary', { on: { click: fill } }, title),
    );
    function unfold(): void {
      fill();
      element.open = true;
    }
    if (open) fill();
    return element;
  }

  function draw(openRow?: number): void {
    views = [];
    titles = [];
    holder.replaceChildren(...draft.list(spec.list).map((_, i) => rowElement(i, i === openRow)));
    if (openRow !== undefined) {
      const first = holder.children[openRow]?.querySelector<HTMLElement>('input, select');
      first?.focus();
    }
  }
  const add = (row: Json): void => {
    if (mayNot(draft.closed(spec.list))) return;
    draft.add(spec.list, row);
    draw(draft.list(spec.list).length - 1);
  };
  const copy = (i: number): void => {
    const row = asRow(draft.list(spec.list)[i]);
    const { name } = row;
    add({ ...row, ...(typeof name === 'string' && { name: `${name} copy`.slice(0, 40) }) });
  };
  const remove = (i: number): void => {
    if (mayNot(draft.kept(spec.list))) return;
    draft.remove(spec.list, i);
    draw();
    addButton.focus();
  };
  const addButton = button(`Add a ${spec.one}`, () =>
    add(spec.blank(draft.list(spec.list).length, draft)),
  );
  const sheet =
    host &&
    !draft.isOfBook &&
    rowsFromSheet({ one: spec.one, fields: spec.fields, host }, (rows, instead) => {
      const before = instead ? [] : draft.list(spec.list);
      // A name may be made up; a length or a crop that the sheet does not give may not.
      const named = rows.map((row, i) => {
        const { name } = asRow(spec.blank(before.length + i, draft));
        return { ...(name !== undefined && { name }), ...asRow(row) };
      });
      draft.set(spec.list, [...before, ...named]);
      draw();
    });
  draw();
  return {
    element: h(
      'div',
      {},
      holder,
      h('div', { class: 'actions' }, addButton, sheet && sheet.button),
      refused,
      sheet && sheet.panel,
    ),
    views: () => views,
    refresh: () => {
      if (draft.list(spec.list).length !== titles.length) draw();
      for (const view of views) view.refresh();
      titles.forEach((title, i) => {
        title.textContent = titleOf(i);
      });
    },
  };
}
