import { cropTable } from '../../functions/crop-table';
import { speciesTable } from '../../functions/species-table';
import { lookupSheet, type LookupSheet } from '../lookup-sheet';
import type { SwitchedFigures } from '../own-figure-formulas';
import type { OwnFigures } from '../own-figures';

export const cropsSheet = (own?: OwnFigures, switched?: SwitchedFigures): LookupSheet =>
  lookupSheet(
    cropTable,
    {
      title: 'Crops',
      question: 'What is known of each crop? Overwrite what you know better for your farm.',
      cautions: ['sprays', 'food', 'coli'],
    },
    own,
    undefined,
    switched,
  );

export const speciesSheet = (
  own?: OwnFigures,
  feedWeights?: readonly number[],
  switched?: SwitchedFigures,
): LookupSheet =>
  lookupSheet(
    speciesTable,
    {
      title: 'Species',
      question: 'What is known of each fish? Overwrite what you know better for your farm.',
      cautions: ['permit', 'quarantine', 'medicines'],
    },
    own,
    feedWeights,
    switched,
    true,
  );
