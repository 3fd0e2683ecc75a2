import type { PlanContext } from './context';
import type { Condition, Formula } from './formula-parts';
import type { ConditionModel, FormatId, LookId, ValidationModel } from './workbook-model';
import type { FigureName } from './names';
import { lookOfTyped } from './preset-fields';
import { type PresetName, presetOf, presetValue } from './presets';
import {
  converts,
  metricFormula,
  type QuantityId,
  shownFormula,
  shownIn,
  toShown,
} from './quantities';
import { cellRef } from './references';
import { area, type SheetBuilder } from './sheet-builder';
import { atPath, type FarmPath } from './typed-cells';

/** One line of a block: label, figure, unit, remark. */
export interface Field {
  /** Defined name of the figure in metric units. */
  readonly name?: FigureName;
  readonly label: string;
  /** The field of the farm that the cell holds; or what the plan brings along, unless the farm says otherwise. */
  readonly farm?: FarmPath;
  readonly preset?: PresetName;
  /** Gives the figure in metric units; of a typed cell as long as nothing is typed. */
  readonly formula?: Formula;
  readonly quantity?: QuantityId;
  /** In place of the quantity's unit. */
  readonly unit?: string;
  readonly look: LookId;
  /** Columns that a text takes, with no unit or remark within them. One without it. */
  readonly across?: number;
  readonly format?: FormatId;
  readonly note?: string;
  readonly remark?: string;
  readonly rule?: { readonly rule: ValidationModel['rule']; readonly message: string };
  /** When the figure is marked, and how. */
  readonly mark?: readonly [when: (cell: Formula) => Condition, mark: ConditionModel['mark']];
}

const numberWords = (min: number | undefined, max: number | undefined, unit: string): string =>
  `Type a number${min === undefined ? '' : ` from ${min}`}${max === undefined ? '' : ` to ${max}`}${unit && ` (${unit})`}.`;

/** Rule for a figure between metric bounds, worded in the farm's units. */
export function between(
  quantity: QuantityId,
  ctx: PlanContext,
  min: number,
  max: number,
): { rule: ValidationModel['rule']; message: string } {
  const low = toShown(min, quantity, ctx.system);
  const high = toShown(max, quantity, ctx.system);
  const { unit } = shownIn(quantity, ctx.system);
  const round = (value: number): number => Number(value.toPrecision(4));
  // The rule is widened to the rounded words, so that what the message allows is allowed.
  const bounds = { min: Math.min(low, round(low)), max: Math.max(high, round(high)) };
  return {
    rule: { kind: 'number', ...bounds },
    message:
      unit === '%'
        ? `Type a share from ${min * 100} % to ${max * 100} %.`
        : numberWords(round(low), round(high), unit),
  };
}

/** The rule of a preset that takes its own words alone. */
export function oneOf(name: PresetName): { rule: ValidationModel['rule']; message: string } {
  const preset = presetOf(name);
  const words = 'quantity' in preset ? undefined : preset.words;
  if (!words) throw new Error(`${name} has no words to choose from`);
  return { rule: { kind: 'words', words }, message: `Choose ${words.join(' or ')}.` };
}

/** The rule of a preset: between its bounds. */
function ruleOf(
  name: PresetName,
  ctx: PlanContext,
): { rule: ValidationModel['rule']; message: string } | undefined {
  const preset = presetOf(name);
  if (!('quantity' in preset)) return undefined;
  if (!preset.whole) return between(preset.quantity, ctx, preset.min, preset.max);
  const { min, max, quantity } = preset;
  return {
    rule: { kind: 'whole', min, max },
    message: `Type whole ${shownIn(quantity, ctx.system).unit} from ${min} to ${max}.`,
  };
}

/** What lines show beside their figures, where two strips share their labels and units. */
export interface ShownBeside {
  readonly labels?: false;
  readonly units?: false;
}

/**
 * Writes lines of label, figure, unit and remark from `row` on in columns `column` to `column + 3`; returns
 * the row after them. In US units `metricColumn` holds the metric figure where one differs.
 */
export function fields(
  sheet: SheetBuilder,
  ctx: PlanContext,
  row: number,
  column: number,
  lines: readonly Field[],
  metricColumn: number,
  { labels = true, units = true }: { readonly [K in keyof ShownBeside]: boolean } = {},
): number {
  lines.forEach((line, i) => {
    const r = row + i;
    const { look, farm, preset } = line;
    const offered = preset && presetOf(preset);
    const quantity =
      line.quantity ?? (offered && 'quantity' in offered ? offered.quantity : undefined);
    const value = farm ? atPath(ctx.farm, farm) : preset && presetValue(preset, ctx.farm.figures);
    const isTyped = farm !== undefined || preset !== undefined;
    // Cleared on purpose: no formula takes the place of what is not there.
    const cleared = preset !== undefined && ctx.farm.figures?.[preset] === null;
    const formula = value === undefined && !cleared ? line.formula : undefined;
    const shown = quantity && shownIn(quantity, ctx.system);
    const format = line.format ?? shown?.format ?? 'general';
    const twin = quantity && converts(quantity, ctx.system) && (line.name || formula);
    const figure = column + 1;
    const metric = twin ? metricColumn : figure;
    if (labels) sheet.text(r, column, line.label, 'label');
    const typed =
      typeof value === 'number' && quantity ? toShown(value, quantity, ctx.system) : value;
    const path = farm ?? (preset && `figures.${preset}`);
    const common = {
      look: path === undefined ? look : lookOfTyped(ctx.farm, path, typed, look),
      format: typeof typed === 'string' ? ('text' as const) : format,
      ...(line.note && { note: line.note }),
    };
    const here = cellRef(r, figure);
    const there = cellRef(r, metricColumn);
    if (formula === undefined || (isTyped && twin)) {
      const cell = {
        ...common,
        ...(typed !== undefined && { value: typed }),
        // What is typed over it counts: the metric figure follows the shown one.
        ...(formula &&
          quantity && {
            formula: twin ? shownFormula(formula, quantity, ctx.system) : formula,
          }),
      };
      if (line.across) sheet.wide(r, figure, line.across, cell);
      else sheet.put(r, figure, cell);
      if (twin) {
        sheet.put(r, metric, {
          formula: metricFormula(here, quantity, ctx.system),
          look: 'computed',
          format: shownIn(quantity, 'metric').format,
        });
      }
    } else if (twin) {
      sheet.put(r, metric, {
        formula,
        look: 'computed',
        format: shownIn(quantity, 'metric').format,
      });
      sheet.put(r, figure, { ...common, formula: shownFormula(there, quantity, ctx.system) });
    } else if (line.across) sheet.wide(r, figure, line.across, { ...common, formula });
    else sheet.put(r, figure, { ...common, formula });
    // A share shows its sign in the figure itself.
    const unit = line.unit ?? (format === 'percent' ? '' : (shown?.unit ?? ''));
    if (unit && units) sheet.text(r, column + 2, unit, 'unit');
    if (line.remark) sheet.text(r, column + 3, line.remark, 'source');
    if (line.name) ctx.name(line.name, sheet.name, area(r, metric));
    const rule = line.rule ?? (preset && ruleOf(preset, ctx));
    if (rule) sheet.rule(area(r, figure), rule.rule, rule.message);
    if (isTyped && line.name)
      ctx.typed.push({
        kind: 'figure',
        to: farm ? { farm } : { preset: preset as PresetName },
        name: line.name,
        beside: figure - metric,
        label: unit ? `${line.label}, ${unit}` : line.label,
        holds: line.format === 'date' ? 'date' : quantity ? 'number' : 'text',
        ...(quantity && { quantity }),
        ...(farm && line.formula && { computed: true as const }),
      });
    if (line.mark) {
      const [condition, mark] = line.mark;
      sheet.mark(area(r, figure), condition(here), mark);
    }
  });
  return row + lines.length;
}
