import { callCard } from '../../functions/call';
import type { Card } from '../../functions/card';
import { NAMESPACE } from '../../functions/card-list';
import type { Argument } from '../../functions/parameter';
import { cellAddress, readArea } from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';
import type { Host, Selection } from '../host';
import { button } from '../button';
import { h, say } from '../dom';
import type { Result } from './answer';
import { argumentOf, formulaOf, formulaText, type Given } from './argument';
import { type ArgumentField, argumentField } from './argument-field';
import { curveView, type PutTable } from './curve-view';
import {
  firstFreeBlockBelow,
  firstFreeCellBeside,
  takeTableOut,
  type Target,
  targetOf,
  targetText,
} from './put';
import { resultView } from './result-view';

export interface FunctionForm {
  readonly element: HTMLElement;
  /** Ends what the form listens to. */
  readonly close: () => void;
}

/** Cells are read anew for every result: not with every key that is pressed. */
const UPDATE_AFTER_MS = 120;

const sentenceOf = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : String(thrown);

const isRange = ({ values }: Selection): boolean => values.length > 1;

/** Fields for a function's arguments, its result while typing, and the ways into the sheet. */
export function functionForm(card: Card, host: Host): FunctionForm {
  let latest: Result | undefined;
  let turn = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const fields = card.parameters.map((parameter) =>
    argumentField(parameter, host, () => {
      clearTimeout(timer);
      timer = setTimeout(() => void update(), UPDATE_AFTER_MS);
    }),
  );
  const given = () => fields.map((field) => field.given());
  /** The cells of each argument that names some; undefined for the others and where none could be read. */
  let cells: readonly (Selection | undefined)[] = [];
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

  const pickedColumn = (): Selection | undefined => cells.find((cell) => cell && isRange(cell));

  /** The cells behind an argument as they stand now. */
  async function cellsOf(given: Given, field: ArgumentField): Promise<Selection | undefined> {
    if (given.kind === 'typed') return undefined;
    const [sheet, address] =
      given.kind === 'picked'
        ? [given.from.sheet, given.from.address]
        : [given.sheet ?? target?.sheet, given.address];
    try {
      const read = await host.read(sheet, address);
      field.tell(undefined);
      return read;
    } catch (thrown) {
      field.tell(sentenceOf(thrown));
      return undefined;
    }
  }

  async function update(): Promise<void> {
    const mine = ++turn;
    say(done, undefined);
    say(note, undefined);
    replace.hidden = true;
    const all = given();
    formula.textContent = formulaFor(target?.sheet ?? '');
    const read = await Promise.all(
      all.map((given, i) => cellsOf(given, fields[i] as ArgumentField)),
    );
    if (mine !== turn) return;
    cells = read;
    beside.hidden = pickedColumn() === undefined;
    const args = card.parameters.map((parameter, i) => {
      const argument = all[i];
      return argument ? argumentOf(parameter, argument, cells[i]) : null;
    });
    const untouched = all.every((given) => given.kind === 'typed' && given.text.trim() === '');
    const unread = args.some((arg) => arg === undefined);
    const needed = card.parameters.some((parameter) => !parameter.optional);
    if (unread || (untouched && needed)) {
      latest = undefined;
      curve.show(undefined);
      result.replaceChildren(
        ...(untouched && needed
          ? [h('p', { class: 'quiet' }, 'The result appears here as soon as something is given.')]
          : []),
      );
      return;
    }
    const answer = callCard(card, args as readonly Argument[]);
    latest = answer;
    result.replaceChildren(...resultView(card, answer));
    curve.show(args as readonly Argument[]);
  }

  /** Values of one argument below each other and beside each the formula that reads it. */
  async function putTable(which: number, values: readonly number[]): Promise<PutTable | undefined> {
    try {
      say(done, undefined);
      const selected = targetOf(await host.selection());
      const place = await firstFreeBlockBelow(host, selected, values.length + 1, 2);
      if (!place) {
        say(note, `There are no free cells below ${targetText(selected)}.`);
        return undefined;
      }
      const area = readArea(place.address) as Area;
      const cell = (row: number, column: number): string =>
        cellAddress(area.row + row, area.column + column);
      const texts = card.parameters.map((parameter, i) =>
        formulaText(parameter, given()[i] ?? { kind: 'typed', text: '' }, place.sheet),
      );
      const heads = [card.parameters[which]?.name ?? '', card.id];
      const typed = [heads[0], ...values].map((value, i) => ({
        sheet: place.sheet,
        row: area.row + i,
        column: area.column,
        value,
      }));
      await host.enter(
        [...typed, { sheet: place.sheet, row: area.row, column: area.column + 1, value: heads[1] }],
        [],
      );
      await host.putFormulas(
        place.sheet,
        values.map((_, i) => ({
          address: cell(i + 1, 1),
          formula: formulaOf(
            `${NAMESPACE}.${card.id}`,
            texts.map((text, k) => (k === which ? cell(i + 1, 0) : text)),
          ),
        })),
      );
      await host.goTo(place.sheet, place.address);
      say(note, undefined);
      return {
        says: `The table stands from ${targetText(place)} on.`,
        takeOut: () => takeTableOut(host, place, [heads[0] ?? '', ...values], card.id),
      };
    } catch (thrown) {
      say(note, sentenceOf(thrown));
      return undefined;
    }
  }
  const curve = curveView(card, putTable);

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
      const place = await firstFreeCellBeside(host, column, rows, columns);
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
    // The cells may have been changed before the selection moved on.
    if (given().some((given) => given.kind !== 'typed')) void update();
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
    curve.element,
  );
  return { element, close };
}
