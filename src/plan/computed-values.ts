import type { GillError } from '../core/errors';

/** What a workbook's cells hold once computed; sheets by name, rows and columns from 0. */
export type ComputedValues = (
  sheet: string,
  row: number,
  column: number,
) => number | string | boolean | GillError | undefined;
