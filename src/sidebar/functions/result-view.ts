import { GillError } from '../../core/errors';
import type { Card } from '../../functions/card';
import { h } from '../dom';
import { unitWord } from '../../functions/unit-word';
import { outcomeText, type Result } from './answer';

const MAX_ROWS = 8;

const withUnit = (unit: string): string => (unit ? ` ${unitWord(unit)}` : '');

function table(card: Card, rows: readonly (readonly (string | undefined)[])[], all: number): Node {
  const heads = card.columns?.map((column) =>
    h('th', { scope: 'col' }, column.name, h('span', { class: 'quiet' }, withUnit(column.unit))),
  );
  const body = rows.map((row) => h('tr', {}, ...row.map((text) => h('td', {}, text ?? ''))));
  return h(
    'div',
    { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': 'Result' },
    h('table', {}, heads && h('thead', {}, h('tr', {}, ...heads)), h('tbody', {}, ...body)),
    all > rows.length &&
      h(
        'p',
        { class: 'quiet' },
        `and ${all - rows.length} more ${all - rows.length === 1 ? 'row' : 'rows'}`,
      ),
  );
}

/** Shows a result as the sheet would, an error with its sentence. */
export function resultView(card: Card, result: Result): Node[] {
  if (result instanceof GillError) {
    return [
      h('p', { class: 'answer bad' }, result.code),
      h('p', { class: 'sentence' }, result.message),
    ];
  }
  if (!Array.isArray(result)) {
    if (result === '' || card.columns) return [];
    const { kind, unit, meaning } = card.result;
    return [
      h(
        'p',
        { class: 'answer' },
        outcomeText(result, kind),
        h('span', { class: 'unit' }, withUnit(unit)),
      ),
      h('p', { class: 'sentence' }, meaning),
    ];
  }
  const shown = result
    .slice(0, MAX_ROWS)
    .map((row) =>
      row.map((outcome, i) =>
        outcomeText(outcome, (card.columns ? card.columns[i]?.kind : card.result.kind) ?? 'any'),
      ),
    );
  const wrong = result.flat().find((outcome) => outcome instanceof GillError);
  return [
    table(card, shown, result.length),
    ...(wrong ? [h('p', { class: 'sentence' }, `${wrong.code}: ${wrong.message}`)] : []),
  ];
}
