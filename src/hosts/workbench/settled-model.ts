import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { quietly } from './quietly';

/** A block that feeds a block that feeds a block: more of them no plan has. */
const MOST_ROUNDS = 5;

function contents(model: Model): string {
  const { getters } = model;
  return getters
    .getSheetIds()
    .map((id) => getters.getEvaluatedCells(id).map(({ value }) => String(value)))
    .join('\u0001');
}

/**
 * The engine with its cells computed. On the first round it does not see that a cell inside a spilled block
 * feeds another formula, and leaves that one wrong; it is asked again until nothing changes any more.
 */
export function settledModel(data: Partial<WorkbookData>): Model {
  return quietly(() => {
    const model = new Model(data);
    let before = contents(model);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      model.dispatch('EVALUATE_CELLS');
      const after = contents(model);
      if (after === before) break;
      before = after;
    }
    return model;
  });
}
