/**
 * Rows of a register in an order of their own, whatever the order in which they were typed. Each row has a key: where
 * it belongs, its day, its place among the rows. A column holds the keys in order, and a row finds itself in it.
 */
import {
  blankUnless,
  call,
  type Condition,
  type Formula,
  type Part,
  part,
  when,
} from './formula-parts';
import { named, type PlanName } from './names';

/** Places for rows in a key. */
export const ROW_PLACES = 1e5;
/** Places for days and rows. */
export const BED_PLACES = 1e11;
/** Above every key. */
export const NO_KEY = 9e15;

export const dayKey = (day: Formula, row: Part): Formula => day.times(ROW_PLACES).plus(row);

export const bedKey = (bed: Formula, day: Formula, row: Part): Formula =>
  bed.times(BED_PLACES).plus(dayKey(day, row));

/** The row that a key belongs to. */
export const rowOfKey = (key: Formula): Formula => call('MOD', key, ROW_PLACES);

export const dayOfDayKey = (key: Formula): Formula => call('INT', key.over(ROW_PLACES));

export const bedOfKey = (key: Formula): Formula => call('INT', key.over(BED_PLACES));

/** The key at a place of the order, from 1; `count` keys are to be put in order, behind `skip` that are not. */
export const keyInOrder = (
  keys: PlanName,
  count: Formula,
  place: number,
  skip?: Formula,
): Formula =>
  when(
    count.below(place),
    NO_KEY,
    call('SMALL', named(keys), skip ? skip.plus(place) : part(place)),
  );

export const isKey = (key: Formula): Condition => key.below(NO_KEY);

/** Where a row stands in the order, from 1; blank for a row without a key. */
export const placeInOrder = (key: Formula, inOrder: PlanName): Formula =>
  // A text among numbers would be looked for in every one of them.
  blankUnless(key.isNumber, call('MATCH', key.orZero, named(inOrder), 1));
