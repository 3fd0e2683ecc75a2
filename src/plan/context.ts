import { asTyped, type Farm } from './farm';
import { type FormulaMode, type Gill, gillFor } from './live-or-plain';
import type { Area, NameModel } from './workbook-model';
import type { PlanName } from './names';
import type { UnitSystem } from './quantities';
import type { Typed } from './typed-cells';

/** What every sheet of one plan shares while it is made. */
export interface PlanContext {
  readonly farm: Farm;
  readonly mode: FormulaMode;
  readonly system: UnitSystem;
  readonly gill: Gill;
  readonly names: NameModel[];
  /** The cells that somebody types, as the sheets declare them. */
  readonly typed: Typed[];
  /** Gives an area a name, by which formulas on any sheet may call it. */
  readonly name: (name: PlanName, sheet: string, area: Area) => void;
}

export function planContext(farm: Farm, mode: FormulaMode): PlanContext {
  const names: NameModel[] = [];
  return {
    typed: [],
    // Cells hold what was typed; what own figures come to follows by formulas.
    farm: asTyped(farm),
    mode,
    system: farm.units,
    gill: gillFor(mode),
    names,
    name: (name, sheet, area) => {
      if (names.some((model) => model.name.toLowerCase() === name.toLowerCase())) {
        throw new Error(`${name} is named twice`);
      }
      names.push({ name, sheet, area });
    },
  };
}
