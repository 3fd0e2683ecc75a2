import { type Crop, usual } from '../core/tables/crops';

/** Exact by definition: the avoirdupois pound. */
export const LB = 0.45359237;

/** How a crop is sold, and what a plant gives where the grower knows. */
interface Sold {
  readonly unit: 'piece' | 'bunch' | 'kg' | 'lb';
  readonly perPlant?: number | undefined;
}

/** Units that one plant gives in its whole life: the farm's own figure, or the crop table's weights. */
export function unitsPerPlant(crop: Crop, { unit, perPlant }: Sold): number {
  if (perPlant !== undefined) return perPlant;
  const kg = usual(crop, 'kg_per_plant');
  switch (unit) {
    case 'kg':
      return kg;
    case 'lb':
      return kg / LB;
    case 'bunch':
      return (1000 * kg) / usual(crop, 'bunch_weight');
    case 'piece':
      return (1000 * kg) / usual(crop, 'piece_weight');
  }
}
