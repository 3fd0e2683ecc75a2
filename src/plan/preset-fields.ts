import { isoText } from '../core/serial-date';
import type { Farm } from './farm';
import type { LookId } from './workbook-model';

/**
 * Fields of a farm that nobody has typed: a proposal put something there. They look like every figure that the
 * plan brings along, as long as the same stands in them.
 */

/** Of a figure: what tells it from one that was typed anew. */
const SAME = 1e-6;

const isSame = (preset: string | number, value: string | number): boolean =>
  typeof preset === 'number'
    ? typeof value === 'number' &&
      Math.abs(preset - value) <= SAME * Math.max(1e-9, Math.abs(preset), Math.abs(value))
    : preset === value || (typeof value === 'number' && preset === isoText(Math.floor(value)));

const byField = new WeakMap<Farm['presets'], Map<string, (string | number)[]>>();

/** @param value as the farm's units have it */
export function isPresetField(
  { presets }: Pick<Farm, 'presets'>,
  field: string,
  value: string | number | undefined,
): boolean {
  if (value === undefined || presets.length === 0) return false;
  let fields = byField.get(presets);
  if (!fields) {
    fields = new Map();
    for (const { field: path, figure } of presets)
      fields.set(path, [...(fields.get(path) ?? []), figure]);
    byField.set(presets, fields);
  }
  return fields.get(field)?.some((figure) => isSame(figure, value)) ?? false;
}

/** The look of a typed cell: its own, or that of what is preset. */
export const lookOfTyped = (
  farm: Pick<Farm, 'presets'>,
  field: string,
  value: string | number | undefined,
  look: LookId,
): LookId => (isPresetField(farm, field, value) ? 'preset' : look);
