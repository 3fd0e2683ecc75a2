import { cropTable } from './crop-table';
import type { LookupTable } from './lookup';
import { speciesTable } from './species-table';

/** Every table that plain formulas look things up in. */
export const lookupTables: readonly LookupTable<never>[] = [
  cropTable as unknown as LookupTable<never>,
  speciesTable as unknown as LookupTable<never>,
];
