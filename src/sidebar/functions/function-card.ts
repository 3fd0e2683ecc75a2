import type { Card } from '../../functions/card';
import { sourceLine } from '../../functions/source-words';
import { h } from '../dom';
import { numberText } from '../../plan/shown-figure';
import { formulaOf } from './argument';

const exampleFormula = (card: Card, args: Card['examples'][number]['args']): string =>
  formulaOf(
    `GILL.${card.id}`,
    args.map((arg) => (arg === null ? '' : typeof arg === 'string' ? `"${arg}"` : String(arg))),
  );

function exampleResult(result: Card['examples'][number]['result']): string {
  if (typeof result === 'number') return numberText(result);
  return typeof result === 'string' ? result : 'rows';
}

/** What is known of a function besides its arguments: method, source, where it holds, examples. */
export function functionFacts(
  card: Card,
  open: (id: string) => (() => void) | undefined,
): HTMLElement {
  const facts = h('dl', { class: 'facts' });
  const add = (term: string, ...content: readonly (Node | string)[]): void =>
    facts.append(h('dt', {}, term), h('dd', {}, ...content));
  add('How', card.method);
  add('Holds for', card.validity);
  add(
    card.sources.length > 1 ? 'Sources' : 'Source',
    h('ul', {}, ...card.sources.map((source) => h('li', {}, sourceLine(source)))),
  );
  add(
    'Examples',
    h(
      'ul',
      {},
      ...card.examples.map((example) =>
        h(
          'li',
          {},
          h('code', {}, exampleFormula(card, example.args)),
          ` gives ${exampleResult(example.result)}. ${example.says}`,
        ),
      ),
    ),
  );
  const others = (card.seeAlso ?? []).flatMap((id) => {
    const click = open(id);
    return click ? [h('button', { type: 'button', class: 'link', on: { click } }, id)] : [];
  });
  if (others.length > 0) add('See also', h('span', { class: 'links' }, ...others));
  return facts;
}
