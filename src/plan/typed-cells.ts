import type { Farm } from './farm';
import type { PlanName } from './names';
import { type PresetName, presetOf } from './presets';
import type { QuantityId } from './quantities';

/**
 * The cells of a plan that somebody types, as the sheets declare them while they are made. A declaration
 * writes the cell from the farm, and is what the cell is read back by.
 */

type Section = 'site' | 'water' | 'filter' | 'feed' | 'stock';

/** A field of the farm that one cell holds: "name", "site.altitude". */
export type FarmPath =
  'name' | 'currency' | 'asOf' | { [S in Section]: `${S}.${keyof Farm[S] & string}` }[Section];

/** What the farm says in a field, in metric units. */
export function atPath(farm: Farm, path: FarmPath): number | string | undefined {
  const [first, second] = path.split('.') as [string, string?];
  const of = (from: unknown, key: string): unknown =>
    (from as Readonly<Record<string, unknown>>)[key];
  const found = second === undefined ? of(farm, first) : of(of(farm, first), second);
  return found as number | string | undefined;
}

/** Lists of the farm that registers hold. */
export type FarmList = {
  [K in keyof Farm]: NonNullable<Farm[K]> extends readonly Readonly<Record<string, unknown>>[]
    ? K
    : never;
}[keyof Farm] &
  string;

/** One typed cell, or a column of them. */
export interface TypedColumn {
  /** Name of the cells, in metric units: the typed cell is the one that they convert from. */
  readonly name: PlanName;
  /** The typed cell stands so many columns beside the named one. */
  readonly beside: number;
  /** As the sheet calls it, with its unit. */
  readonly label: string;
  readonly holds: 'text' | 'number' | 'date';
  readonly quantity?: QuantityId;
  /** A formula of the plan stands there, unless an earlier version or somebody's hand typed a figure. */
  readonly computed?: true;
}

export interface TypedFigure extends TypedColumn {
  readonly kind: 'figure';
  readonly to: { readonly farm: FarmPath } | { readonly preset: PresetName };
}

/** A preset whose cell the name means itself, in every system of units. */
export function typedPreset(name: PresetName, label: string): TypedFigure {
  const preset = presetOf(name);
  const isNumber = 'quantity' in preset;
  return {
    kind: 'figure',
    to: { preset: name },
    name,
    beside: 0,
    label,
    holds: isNumber ? 'number' : 'text',
    ...(isNumber && { quantity: preset.quantity }),
  };
}

export interface TypedRegister {
  readonly kind: 'register';
  readonly sheet: string;
  /** Several registers may hold a part of one list, row by row. */
  readonly list: FarmList;
  readonly columns: readonly (TypedColumn & { readonly field: string })[];
  /** Rows below the named ones still count as typed; the register is the last thing on its sheet. */
  readonly open: boolean;
}

export interface TypedTable {
  readonly kind: 'table';
  readonly prefix: 'Crop' | 'Fish';
}

export type Typed = TypedFigure | TypedRegister | TypedTable;
