import { cropTable } from '../../functions/crop-table';
import { speciesTable } from '../../functions/species-table';
import { lookupSheet, type LookupSheet } from '../lookup-sheet';
import type { OwnFigures } from '../own-figures';

export const cropsSheet = (own?: OwnFigures): LookupSheet =>
  lookupSheet(
    cropTable,
    {
      title: 'Crops',
      question: 'What is known of each crop? Overwrite what you know better for your farm.',
      cautions: ['sprays', 'food', 'coli'],
    },
    own,
  );

export const speciesSheet = (own?: OwnFigures, feedWeights?: readonly number[]): LookupSheet =>
  lookupSheet(
    speciesTable,
    {
      title: 'Species',
      question: 'What is known of each fish? Overwrite what you know better for your farm.',
      cautions: ['permit', 'quarantine', 'medicines'],
    },
    own,
    feedWeights,
  );
