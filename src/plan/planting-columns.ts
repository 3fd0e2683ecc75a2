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
import type { At, RegisterColumn } from './register';

type AtRow = At<'Plantings'>;
type Column = RegisterColumn<PlantingEntry, 'Plantings'>;
type Computed = 'says' | 'bed_number' | 'code' | 'sorted' | 'at' | 'stand' | 'asked';

const DAY = 1e5;
const BED = 1e11;
const NONE = 9e15;
/** Line of the sheet on which the first row of the register stands. */
const FIRST_LINE = 6;

const PLACE = 1e12;
/** Beyond every number of days since a planting. */
const NEXT = 3e6;
const NO_DAY = 2.9e6;

/** Row of the Plantings that stands in bed number `bed` on the day of the plan, or else is next there; blank where none. */
export function batchNow(bed: Formula): Formula {
  const keys = named('Plantings_stand');
  const from = bed.times(PLACE);
  const found = call(
    'IFERROR',
    call('SMALL', keys, call('COUNTIF', keys, joined('<', from)).plus(1)),
    0,
  );
  const row = call('MOD', found, DAY);
  return blankUnless(
    call('INT', found.over(PLACE)).is(bed),
    when(call('MOD', found, PLACE).below(NEXT * DAY), part(DAY).minus(row), row),
  );
}

/** Row of the Plantings that stood in bed number `bed` on a day; 0 where none did. */
export function batchOn(bed: Formula, day: Formula): Formula {
  const found = call(
    'IFERROR',
    call(
      'LOOKUP',
      bed
        .times(BED)
        .plus(day.times(DAY))
        .plus(DAY - 1),
      named('Plantings_sorted'),
    ),
    0,
  );
  const row = call('MOD', found, DAY);
  const cleared = nth('Plantings_cleared', row);
  return when(
    call('INT', found.over(BED)).isNot(bed),
    0,
    when(any(cleared.isBlank, cleared.orZero.atLeast(day)), row, 0),
  );
}

/** Treatments for which something from a place still has to wait on a day. */
export const treatmentsAt = (place: Formula, day: Formula): Formula => {
  const where = named('Treatments_where');
  return call(
    'SUMPRODUCT',
    where
      .is(place)
      .plus(where.is('all'))
      .times(named('Treatments_date').above(0))
      .times(named('Treatments_date').atMost(day))
      .times(named('Treatments_free').above(day)),
  );
};

const helper = (head: string, formula: NonNullable<Column['formula']>): Column => ({
  helper: true,
  always: true,
  head,
  width: 9,
  look: 'source',
  formula,
});

/** Columns behind the typed ones: what to put right, and helpers. */
export function computedPlantingColumns(): Readonly<Record<Computed, Column>> {
  const today = named('Farm_date');
  const isTyped = (at: AtRow): Condition => call('COUNTA', at.shown('batch', 'cleared')).above(0);
  const counts = (at: AtRow): Condition => any(at('planned').isBlank, at('planned').is('planned'));
  const isPlanned = (at: AtRow): Condition => at('planned').is('planned');
  const before = (
    at: AtRow,
    first: 'sown' | 'planted' | 'first_cut',
    then: 'planted' | 'first_cut' | 'cleared',
  ) => all(at(first).isNumber, at(then).isNumber, at(then).orZero.below(at(first).orZero));
  const placeOf = (at: AtRow): Formula =>
    call('ROW', at('bed'))
      .minus(call('ROW', at.first('bed')))
      .plus(1);
  /** The day on which a batch is planted out, or sown where that is not known. */
  const next = (at: AtRow): Formula =>
    cases(
      [
        [at('planted').isNumber, at('planted')],
        [at('sown').isNumber, at('sown')],
      ],
      NO_DAY,
    );
  /** The day on which there is first something to do for it. */
  const begins = (at: AtRow): Formula =>
    cases(
      [
        [at('sown').isNumber, at('sown')],
        [at('planted').isNumber, at('planted')],
      ],
      NO_DAY,
    );
  const neighbour = (at: AtRow): Formula => nth('Plantings_sorted', at('at').minus(1));
  const earlier = (at: AtRow): Formula => call('MOD', neighbour(at), DAY);
  return {
    says: {
      always: true,
      head: 'To put right',
      width: 50,
      look: 'verdict',
      note: 'What cannot be, and planned rows whose day has come.',
      formula: (at) =>
        cases(
          [
            [not(isTyped(at)), ''],
            [not(counts(at)), ''],
            [at('crop').isBlank, 'type the crop'],
            [
              all(at('bed').isFilled, not(at('bed_number').isNumber)),
              joined('Beds has no bed called ', at('bed')),
            ],
            [all(at('bed').isBlank, at('planted').isFilled), 'say in which bed it was planted'],
            [before(at, 'sown', 'planted'), 'planted out before it was sown'],
            [before(at, 'planted', 'first_cut'), 'cut before it was planted out'],
            [before(at, 'planted', 'cleared'), 'cleared before it was planted out'],
            [before(at, 'first_cut', 'cleared'), 'cleared before its first cut'],
            [
              all(at('planned').isBlank, at('cleared').isNumber, at('cleared').orZero.above(today)),
              'cleared on a day that is still to come: clear the date, or mark the row as planned',
            ],
            [
              all(
                isPlanned(at),
                any(
                  all(at('sown').isNumber, at('sown').orZero.below(today)),
                  all(at('planted').isNumber, at('planted').orZero.below(today)),
                ),
              ),
              'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
            ],
            [
              all(at('at').isNumber, at('at').orZero.above(1)),
              when(
                all(
                  call('INT', neighbour(at).over(BED)).is(at('bed_number')),
                  // Until it is planted out, the bed may be cleared as expected.
                  when(
                    isPlanned(at),
                    nth('Plantings_free', earlier(at)).above(at('planted')),
                    any(
                      nth('Plantings_cleared', earlier(at)).isBlank,
                      nth('Plantings_cleared', earlier(at)).orZero.above(at('planted')),
                    ),
                  ) as Condition,
                  // Batches stand side by side as far as there is room.
                  nth('Plantings_needs', earlier(at))
                    .orZero.plus(at('needs').orZero)
                    .above(1 + 1e-6),
                ),
                joined(
                  at('bed'),
                  ' was not cleared of line ',
                  earlier(at).plus(FIRST_LINE - 1),
                  ' on ',
                  isoDate(at('planted')),
                ),
                '',
              ),
            ],
          ],
          '',
        ),
    },
    asked: helper('Planned, and due', (at) =>
      blankUnless(
        all(isPlanned(at), begins(at).below(NO_DAY), begins(at).atMost(named('Farm_week').plus(6))),
        begins(at).times(DAY).plus(placeOf(at)),
      ),
    ),
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
          at('bed_number')
            .times(BED)
            .plus(at('planted').times(DAY))
            .plus(row + 1),
        ),
      ),
      total: (column) => call('COUNT', column),
    },
    sorted: helper('In order', (at, row) =>
      when(at.total('code').below(row + 1), NONE, call('SMALL', named('Plantings_code'), row + 1)),
    ),
    stand: helper('In its bed now or next', (at) => {
      const place = placeOf(at);
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
              today.minus(at('planted')).plus(1).times(DAY).minus(place),
              next(at).plus(NEXT).times(DAY).plus(place),
            ),
          ),
      );
    }),
    at: helper('Place in order', (at) =>
      blankUnless(at('code').isNumber, call('MATCH', at('code'), named('Plantings_sorted'), 1)),
    ),
  };
}
