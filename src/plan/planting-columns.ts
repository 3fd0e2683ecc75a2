/**
 * What cannot be in the Plantings, and what stood in a bed on a day. Rows may be typed in any order: sorted by
 * bed and day of planting, each row has the one before it in its bed as its neighbour.
 */
import type { PlantingEntry } from './farm';
import {
  all,
  any,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  isoDate,
  joined,
  not,
  part,
  when,
} from './formula-parts';
import { named, nth } from './names';
import {
  bedKey,
  bedOfKey,
  dayKey,
  keyInOrder,
  placeInOrder,
  ROW_PLACES,
  rowOfKey,
} from './register-keys';
import { type At, helperColumn, type RegisterColumn } from './register';

type AtRow = At<'Plantings'>;
type Column = RegisterColumn<PlantingEntry, 'Plantings'>;
type Computed =
  'says' | 'bed_number' | 'fault' | 'earlier' | 'code' | 'sorted' | 'at' | 'stand' | 'asked';

/** Line of the sheet on which the first row of the register stands. */
const FIRST_LINE = 6;

const PLACE = 1e12;
/** Beyond every number of days since a planting. */
const NEXT = 3e6;
const NO_DAY = 2.9e6;

/** What is said of a row that cannot be, by number from 1. */
export const plantingSentences = [
  'type the crop',
  'Beds has no bed called [bed]',
  'say in which bed it was planted',
  'planted out before it was sown',
  'cut before it was planted out',
  'cleared before it was planted out',
  'cleared before its first cut',
  'cleared on a day that is still to come: clear the date, or mark the row as planned',
  'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
  'Crops has no such crop: choose one of its names',
  'up before it was sown',
] as const;

const sentence = (words: (typeof plantingSentences)[number]): number =>
  plantingSentences.indexOf(words) + 1;

/** Row of the Plantings that stands in bed number `bed` on the day of the plan, or else is next there; blank where none. */
export function batchNow(bed: Formula): Formula {
  const keys = named('Plantings_stand');
  const from = bed.times(PLACE);
  const found = call(
    'IFERROR',
    call('SMALL', keys, call('COUNTIF', keys, joined('<', from)).plus(1)),
    0,
  );
  const row = rowOfKey(found);
  return blankUnless(
    call('INT', found.over(PLACE)).is(bed),
    when(call('MOD', found, PLACE).below(NEXT * ROW_PLACES), part(ROW_PLACES).minus(row), row),
  );
}

/** Row of the Plantings that stood in bed number `bed` on a day; 0 where none did. */
export function batchOn(bed: Formula, day: Formula): Formula {
  const found = call(
    'IFERROR',
    call('LOOKUP', bedKey(bed, day, ROW_PLACES - 1), named('Plantings_sorted')),
    0,
  );
  const row = rowOfKey(found);
  const cleared = nth('Plantings_cleared', row);
  return when(
    bedOfKey(found).isNot(bed),
    0,
    when(any(cleared.isBlank, cleared.orZero.atLeast(day)), row, 0),
  );
}

const helper = helperColumn<PlantingEntry, 'Plantings'>;

/** Columns behind the typed ones: what to put right, and helpers. */
export function computedPlantingColumns(): Readonly<Record<Computed, Column>> {
  const today = named('Farm_date');
  const isPlanned = (at: AtRow): Condition => at('planned').is('planned');
  const counts = (at: AtRow): Condition => any(at('planned').isBlank, isPlanned(at));
  const before = (
    at: AtRow,
    first: 'sown' | 'planted' | 'first_cut',
    then: 'up' | 'planted' | 'first_cut' | 'cleared',
  ): Condition => all(call('COUNT', at(first), at(then)).is(2), at(then).below(at(first)));
  const isBefore = (day: Formula): Condition => all(day.isNumber, day.below(today));
  /** The day on which a batch is planted out, or sown where that is not known. */
  const next = (at: AtRow): Formula =>
    cases(
      [
        [at('planted').isNumber, at('planted')],
        [at('sown').isNumber, at('sown')],
      ],
      NO_DAY,
    );
  return {
    says: {
      always: true,
      head: 'To put right',
      width: 50,
      look: 'verdict',
      note: 'What cannot be, and planned rows whose day has come.',
      formula: (at) => {
        const held = nth('Plantings_cleared', at('earlier'));
        const isFull = all(
          // Until it is planted out, the bed may be cleared as expected.
          when(
            isPlanned(at),
            nth('Plantings_free', at('earlier')).above(at('planted')),
            any(held.isBlank, held.orZero.above(at('planted'))),
          ) as Condition,
          // Batches stand side by side as far as there is room.
          nth('Plantings_needs', at('earlier'))
            .orZero.plus(at('needs').orZero)
            .above(1 + 1e-6),
        );
        return cases(
          [
            [at('fault').is(0), ''],
            [
              at('fault').isFilled,
              call('SUBSTITUTE', nth('Planting_says', at('fault')), '[bed]', at('bed')),
            ],
            [at('earlier').isBlank, ''],
            [
              isFull,
              joined(
                at('bed'),
                ' was not cleared of line ',
                at('earlier').plus(FIRST_LINE - 1),
                ' on ',
                isoDate(at('planted')),
              ),
            ],
          ],
          '',
        );
      },
    },
    fault: helper('By itself (0: counts nowhere)', (at) =>
      cases(
        [
          [call('COUNTA', at.shown('batch', 'cleared')).is(0), 0],
          [not(counts(at)), 0],
          [at('crop').isBlank, sentence('type the crop')],
          [not(at('line').isNumber), sentence('Crops has no such crop: choose one of its names')],
          [
            all(at('bed').isFilled, not(at('bed_number').isNumber)),
            sentence('Beds has no bed called [bed]'),
          ],
          [
            all(at('bed').isBlank, at('planted').isFilled),
            sentence('say in which bed it was planted'),
          ],
          [before(at, 'sown', 'up'), sentence('up before it was sown')],
          [before(at, 'sown', 'planted'), sentence('planted out before it was sown')],
          [before(at, 'planted', 'first_cut'), sentence('cut before it was planted out')],
          [before(at, 'planted', 'cleared'), sentence('cleared before it was planted out')],
          [before(at, 'first_cut', 'cleared'), sentence('cleared before its first cut')],
          [
            all(at('planned').isBlank, at('cleared').isNumber, at('cleared').above(today)),
            sentence(
              'cleared on a day that is still to come: clear the date, or mark the row as planned',
            ),
          ],
          [
            all(isPlanned(at), any(isBefore(at('sown')), isBefore(at('planted')))),
            sentence(
              'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
            ),
          ],
        ],
        '',
      ),
    ),
    earlier: helper('Row before it in its bed', (at) => {
      const key = nth('Plantings_sorted', at('at').minus(1));
      return when(
        at('at').orZero.above(1),
        blankUnless(bedOfKey(key).is(at('bed_number')), rowOfKey(key)),
        '',
      );
    }),
    asked: helper('Planned, and due', (at) => {
      const begins = when(at('sown').isNumber, at('sown'), at('planted'));
      return when(
        all(isPlanned(at), call('COUNT', at('sown'), at('planted')).above(0)),
        blankUnless(begins.atMost(named('Farm_week').plus(6)), dayKey(begins, at.place)),
        '',
      );
    }),
    bed_number: helper('Bed, by number', (at) =>
      blankUnless(
        at('bed').isFilled,
        call('IFERROR', call('MATCH', call('TRIM', at('bed')), named('Beds_name'), 0), ''),
      ),
    ),
    code: {
      ...helper('Bed and day', (at, row) =>
        blankUnless(
          all(counts(at), at('bed_number').isNumber, at('planted').isNumber),
          bedKey(at('bed_number'), at('planted'), row + 1),
        ),
      ),
      total: (column) => call('COUNT', column),
    },
    sorted: helper('In order', (at, row) =>
      keyInOrder('Plantings_code', at.total('code'), row + 1),
    ),
    stand: helper('In its bed now or next', (at) => {
      const stands = all(
        at('planned').isBlank,
        at('planted').isNumber,
        at('planted').orZero.atMost(today),
      );
      const isCleared = all(at('cleared').isNumber, at('cleared').orZero.atMost(today));
      return blankUnless(
        all(counts(at), at('bed_number').isNumber, not(isCleared)),
        at('bed_number')
          .times(PLACE)
          .plus(
            when(
              stands,
              today.minus(at('planted')).plus(1).times(ROW_PLACES).minus(at.place),
              dayKey(next(at).plus(NEXT), at.place),
            ),
          ),
      );
    }),
    at: helper('Place in order', (at) => placeInOrder(at('code'), 'Plantings_sorted')),
  };
}
