import type { Card } from '../../functions/card';
import { NAMESPACE } from '../../functions/list';
import type { Argument } from '../../functions/parameter';
import type { Host, Selection } from '../../hosts/host';
import { button } from '../button';
import { h, say } from '../dom';
import { type Result, answerOf } from './answer';
import { argumentOf, formulaOf, formulaText } from './argument';
import { argumentField } from './argument-field';
import { freeBeside, type Target, targetOf, targetText } from './put';
import { resultView } from './result-view';

export interface FunctionForm {
  readonly element: HTMLElement;
  /** Ends what the form listens to. */
  readonly close: () => void;
}

const sentenceOf = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : String(thrown);

const isRange = ({ values }: Selection): boolean => values.length > 1;

/** Fields for a function's arguments, its result while typing, and the ways into the sheet. */
export function functionForm(card: Card, host: Host): FunctionForm {
  let latest: Result | undefined;
  let turn = 0;
  const fields = card.parameters.map((parameter) =>
    argumentField(parameter, host, () => void update()),
  );
  const given = () => fields.map((field) => field.given());
  const formulaFor = (sheet: string): string =>
    formulaOf(
      `${NAMESPACE}.${card.id}`,
      card.parameters.map((parameter, i) =>
        formulaText(parameter, given()[i] ?? { kind: 'typed', text: '' }, sheet),
      ),
    );

  const result = h('div', { class: 'result', 'aria-live': 'polite' });
  const formula = h('code', { class: 'formula' });
  const note = h('p', { class: 'problem', role: 'status', hidden: true });
  const done = h('p', { class: 'done', role: 'status', hidden: true });

  let target: Target | undefined;
  const where = h('span', {}, 'the selected cell');
  const put = button('Put into the cell', () => void putThere(false), { look: 'primary' });
  const replace = button('Replace it', () => void putThere(true));
  replace.hidden = true;
  const beside = button('Fill beside this column', () => void fillBeside());
  beside.hidden = true;

  const pickedColumn = (): Selection | undefined =>
    given().flatMap((one) => (one.kind === 'picked' && isRange(one.from) ? [one.from] : []))[0];

  async function update(): Promise<void> {
    const mine = ++turn;
    say(done, undefined);
    say(note, undefined);
    replace.hidden = true;
    const all = given();
    formula.textContent = formulaFor(target?.sheet ?? '');
    beside.hidden = pickedColumn() === undefined;
    const args = card.parameters.map((parameter, i) => {
      const one = all[i];
      return one ? argumentOf(parameter, one) : null;
    });
    const untouched = all.every((one) => one.kind === 'typed' && one.text.trim() === '');
    const unread = args.some((one) => one === undefined);
    const needed = card.parameters.some((one) => !one.optional);
    if (unread || (untouched && needed)) {
      latest = undefined;
      result.replaceChildren(
        ...(unread
          ? [
              h(
                'p',
                { class: 'quiet' },
                'Take the cells from the sheet to see the result here; a typed address is read only in the sheet.',
              ),
            ]
          : []),
      );
      return;
    }
    const answer = await answerOf(card, args as readonly Argument[]);
    if (mine !== turn) return;
    latest = answer;
    result.replaceChildren(...resultView(card, answer));
  }

  async function putAt(place: Target): Promise<void> {
    await host.putFormula(place.sheet, place.address, [[formulaFor(place.sheet)]]);
    await host.goTo(place.sheet, place.address);
    say(done, `The formula stands in ${targetText(place)}.`);
    say(note, undefined);
    replace.hidden = true;
  }

  async function putThere(overwrite: boolean): Promise<void> {
    try {
      const place = targetOf(await host.selection());
      if (place.holds !== '' && !overwrite) {
        say(note, `${targetText(place)} holds "${place.holds}".`);
        replace.hidden = false;
        return;
      }
      await putAt(place);
    } catch (thrown) {
      say(note, sentenceOf(thrown));
    }
  }

  async function fillBeside(): Promise<void> {
    try {
      const column = pickedColumn();
      if (!column) return;
      const rows = Array.isArray(latest) ? latest.length : column.values.length;
      const columns = Array.isArray(latest) ? (latest[0]?.length ?? 1) : 1;
      const place = await freeBeside(host, column, rows, columns);
      if (!place) {
        say(note, `There is no free column near ${column.sheet}!${column.address}.`);
        return;
      }
      await putAt(place);
    } catch (thrown) {
      say(note, sentenceOf(thrown));
    }
  }

  const follow = (selection: Selection): void => {
    target = targetOf(selection);
    where.textContent = targetText(target);
    formula.textContent = formulaFor(target.sheet);
    replace.hidden = true;
    say(note, undefined);
  };
  const close = host.onSelection(follow);
  void host.selection().then(follow, () => undefined);
  void update();

  const element = h(
    'div',
    { class: 'function-form' },
    ...fields.map((field) => field.element),
    h(
      'section',
      { class: 'outcome', 'aria-label': 'Result' },
      result,
      h('p', { class: 'formula-line' }, formula),
      h('div', { class: 'actions' }, put, beside),
      h('p', { class: 'quiet' }, 'Goes into ', where, '.'),
      h('div', { class: 'actions' }, replace),
      note,
      done,
    ),
  );
  return { element, close };
}
