import { LB } from '../../plan/units-per-plant';
import {
  type QuantityId,
  shownIn,
  toMetric,
  toShown,
  type UnitSystem,
} from '../../plan/quantities';
import { unitWord } from '../../functions/unit-word';
import type { Draft, Json } from './draft';
import { type FieldKind, figures } from './form-fields';

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;
const PERCENT = 100;
/** Digits that a changed unit leaves: more would only show the arithmetic. */
const DIGITS = 6;

export const isShare = (takes: FieldKind): boolean =>
  takes.kind === 'measured' && takes.quantity === 'share';

const percent: FieldKind = { kind: 'measured', quantity: 'share' };

const isFigure = (takes: FieldKind): boolean =>
  takes.kind === 'measured' || takes.kind === 'money' || takes.kind === 'price';

/** What stands in the field for a value of the file; a share shows as per cent. */
export function shownText(takes: FieldKind, value: Json | undefined): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'number' && isShare(takes)) {
    return String(Number((value * PERCENT).toPrecision(10)));
  }
  const text = String(value);
  return takes.kind === 'name' ? (takes.spelled(text) ?? text) : text;
}

/** A sentence about a share, its numbers in per cent as they stand in the field. */
export const inPerCent = (sentence: string): string =>
  sentence
    .replace(' (1 is 100 %)', '')
    .split(/("[^"]*")/)
    .map((part, i) =>
      i % 2 === 1
        ? part
        : part.replace(/-?\d+(?:\.\d+)?/g, (figure) => `${shownText(percent, Number(figure))} %`),
    )
    .join('');

/** What goes into the file for what was typed; undefined for an empty field. */
export function typedValue(takes: FieldKind, typed: string): Json | undefined {
  const text = typed.trim();
  if (text === '') return undefined;
  if (!isFigure(takes)) return text;
  const digits = text.replace(/(?<=\d),(?=\d{3}(?:\D|$))/g, '');
  if (!NUMBER.test(digits)) return text;
  return isShare(takes) ? Number((Number(digits) / PERCENT).toPrecision(12)) : Number(digits);
}

/** The unit beside a field. */
export function unitText(takes: FieldKind, system: UnitSystem, currency: string): string {
  if (takes.kind === 'money') return currency;
  if (takes.kind === 'price') return `${currency}/${system === 'US' ? 'lb' : 'kg'}`;
  return takes.kind === 'measured' ? unitWord(shownIn(takes.quantity, system).unit) : '';
}

const rounded = (value: number): number => Number(value.toPrecision(DIGITS));

function converted(takes: FieldKind, value: number, from: UnitSystem, to: UnitSystem): number {
  if (takes.kind === 'price') return rounded(to === 'US' ? value * LB : value / LB);
  if (takes.kind !== 'measured') return value;
  const id: QuantityId = takes.quantity;
  const metric = toMetric(value, id, from);
  const changed = toShown(metric, id, to);
  return changed === value ? value : rounded(changed);
}

function* places(draft: Draft, path: string): Generator<string> {
  const [list, rest] = path.split('[]');
  if (rest === undefined) yield path;
  else for (let i = 0; i < draft.list(list as string).length; i++) yield `${list}[${i}]${rest}`;
}

/** Changes the farm's units and with them every figure, so that the farm stays what it is. */
export function changeUnits(draft: Draft, to: UnitSystem): void {
  const from: UnitSystem = draft.get('units') === 'US' ? 'US' : 'metric';
  if (from === to) return;
  for (const { path, takes } of figures) {
    for (const place of places(draft, path)) {
      const value = draft.get(place);
      if (typeof value === 'number') draft.set(place, converted(takes, value, from, to));
    }
  }
  draft.set('units', to);
}
