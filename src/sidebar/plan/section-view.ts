import { h } from '../dom';
import type { Draft } from './draft';
import { fieldView } from './field-view';
import type { FieldSpec } from './form-fields';
import type { FieldGroup } from './rows-view';

/** Single fields of the farm file. */
export function fieldsView(specs: readonly FieldSpec[], draft: Draft): FieldGroup {
  const views = specs.map((spec) => fieldView(spec, spec.path, draft));
  return {
    element: h('div', { class: 'grid' }, ...views.map((view) => view.element)),
    views: () => views,
    refresh: () => views.forEach((view) => view.refresh()),
  };
}

export interface Section {
  readonly element: HTMLDetailsElement;
  readonly groups: readonly FieldGroup[];
  /** Says how it stands on the closed line. */
  readonly mark: (state: 'done' | 'open' | 'wrong', text: string) => void;
}

/** A part of the form that folds away. */
export function section(title: string, lead: string, ...groups: readonly FieldGroup[]): Section {
  const state = h('span', { class: 'state' });
  const element = h(
    'details',
    { class: 'section' },
    h('summary', {}, h('span', { class: 'section-title' }, title), state),
    h('p', { class: 'quiet' }, lead),
    ...groups.map((group) => group.element),
  );
  return {
    element,
    groups,
    mark: (found, text) => {
      state.className = `state ${found}`;
      state.textContent = text;
    },
  };
}
