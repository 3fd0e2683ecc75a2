import { type CautionId, cautions } from '../../functions/cautions';
import { cautionsBox } from '../cautions-box';
import { h } from '../dom';
import type { Advice } from './advice';
import type { Draft, Wrong } from './draft';
import { type FieldView, fieldView } from './field-view';
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
  /** Says beside the fields, and on the closed line, what is wrong, open or unwise. */
  readonly tell: (wrong: readonly Wrong[], advice: readonly Advice[]) => void;
  /** Every field's path in the farm file. */
  readonly paths: () => readonly string[];
  /** Folds open where a field is wrong or to be filled in; false where there is none. */
  readonly unfoldIfIncomplete: () => boolean;
  /** The same, and goes to the first such field. */
  readonly focusFirstOpen: () => boolean;
}

const count = (n: number, words: string): string => (n > 0 ? `${n} ${words}` : '');

/** A part of the form that folds away; `facts` sums it up where all is well, `dangers` say what to beware of. */
export function section(
  title: string,
  lead: string,
  groups: readonly FieldGroup[],
  {
    facts = () => '',
    dangers = [],
  }: { readonly facts?: () => string; readonly dangers?: readonly CautionId[] } = {},
): Section {
  const state = h('span', { class: 'state' });
  let openFields: readonly FieldView[] = [];
  const element = h(
    'details',
    { class: 'section' },
    h('summary', {}, h('span', { class: 'section-title' }, title), state),
    h('p', { class: 'quiet' }, lead),
    ...cautionsBox(dangers.map((id) => cautions[id])),
    ...groups.map((group) => group.element),
  );
  const unfoldIfIncomplete = (): boolean => {
    if (openFields.length > 0) element.open = true;
    return openFields.length > 0;
  };
  return {
    element,
    groups,
    paths: () => groups.flatMap((group) => group.views().map((view) => view.path)),
    unfoldIfIncomplete,
    focusFirstOpen: () => {
      const [first] = openFields;
      if (!first) return false;
      unfoldIfIncomplete();
      first.focus();
      return true;
    },
    tell: (wrong, advice) => {
      const wrongAt = new Map(wrong.map((wrong) => [wrong.path, wrong]));
      const adviceAt = new Map(advice.map((advice) => [advice.path, advice.sentence]));
      let bad = 0;
      let open = 0;
      let unwise = 0;
      const views = groups.flatMap((group) => group.views());
      openFields = views.filter((view) => wrongAt.has(view.path));
      for (const view of views) {
        const found = wrongAt.get(view.path);
        // What was not reached yet is not shouted at, only marked.
        const waiting = found !== undefined && found.missing && !view.touched;
        const hint = adviceAt.get(view.path);
        view.tell({
          wrong: waiting ? undefined : found?.sentence,
          where: found?.where && `${found.where.sheet}!${found.where.address}`,
          advice: hint,
          needed: waiting,
        });
        if (waiting) open++;
        else if (found) bad++;
        else if (hint) unwise++;
      }
      const kind = bad > 0 ? 'wrong' : open > 0 ? 'open' : unwise > 0 ? 'watch' : 'done';
      state.className = `state ${kind}`;
      state.textContent = {
        wrong: count(bad, 'to put right'),
        open: count(open, 'to fill in'),
        watch: count(unwise, 'to look at'),
        done: facts(),
      }[kind];
    },
  };
}
