import { button } from '../button';
import { h } from '../dom';
import type { Draft, Json } from './draft';
import { unitText } from './entries';
import { fieldView } from './field-view';
import { monthFields } from './form-fields';
import { monthNames } from './months';
import type { FieldGroup } from './rows-view';

/** The year's water and air as a table, a line for each month. */
export function monthsView(draft: Draft): FieldGroup {
  const views = monthNames.map((month, i) =>
    monthFields.map((field) =>
      fieldView(field, `months[${i}].${field.path}`, draft, {
        bare: true,
        name: `${field.label}, ${month}`,
      }),
    ),
  );
  const units = monthFields.map(() => h('span', { class: 'quiet' }));
  const table = h(
    'table',
    { class: 'months' },
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        h('td', {}),
        ...monthFields.map((field, i) =>
          h('th', { scope: 'col' }, field.label, ' ', units[i] as HTMLElement),
        ),
      ),
    ),
    h(
      'tbody',
      {},
      ...monthNames.map((month, i) =>
        h(
          'tr',
          {},
          h('th', { scope: 'row', 'aria-label': month }, month.slice(0, 3)),
          ...(views[i] ?? []).map((view) => h('td', {}, view.element)),
        ),
      ),
    ),
  );
  const sameAllYear = (): void => {
    const january = (draft.list('months')[0] ?? {}) as Readonly<Record<string, Json>>;
    const paths = monthNames.flatMap((_, i) =>
      monthFields.map((field) => `months[${i}].${field.path}`),
    );
    for (const [i, path] of paths.entries())
      draft.set(path, january[monthFields[i % monthFields.length]?.path ?? '']);
    draft.finished(paths);
  };
  return {
    element: h(
      'div',
      {},
      table,
      h(
        'div',
        { class: 'actions' },
        button('Use January for all months', sameAllYear, { small: true }),
      ),
    ),
    views: () => views.flat(),
    refresh: () => {
      const system = draft.get('units') === 'US' ? 'US' : 'metric';
      monthFields.forEach(({ takes }, i) => {
        const unit = units[i];
        if (unit) unit.textContent = unitText(takes, system, '');
      });
      for (const view of views.flat()) view.refresh();
    },
  };
}
