import { cards } from '../../functions/list';
import { excelFunction } from './functions';

// At once, while the script loads: formulas of a workbook that is just being opened wait for this.
for (const card of cards) CustomFunctions.associate(card.id, excelFunction(card));
