import { h } from '../dom';

/** One part of the page. */
export interface Part {
  readonly element: HTMLElement;
}

/** Status, problem and result of one action on the page. */
export function stage(): {
  readonly nodes: HTMLElement[];
  readonly begin: (text: string) => void;
  readonly end: (text: string, ...result: readonly Node[]) => void;
  readonly fail: (text: string) => void;
} {
  const status = h('p', { class: 'quiet', role: 'status' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const result = h('div', {});
  return {
    nodes: [status, problem, result],
    begin: (text) => {
      status.textContent = text;
      problem.hidden = true;
      result.replaceChildren();
    },
    end: (text, ...nodes) => {
      status.textContent = text;
      result.replaceChildren(...nodes);
    },
    fail: (text) => {
      status.textContent = '';
      problem.textContent = text;
      problem.hidden = false;
    },
  };
}
