/** What a row of the Fish log says by itself: whether it counts, what is wrong with it, where it stands in time. */
import { fishEvents } from '../core/fish-log';
import { MAX_SERIAL, MIN_SERIAL } from '../core/serial-date';
import type { FishLogEntry } from './farm';
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
  madeElsewhere,
  not,
  when,
} from './formula-parts';
import { named, nth } from './names';
import type { At, RegisterColumn } from './register';

type AtRow = At<'Fishlog'>;
type Column = RegisterColumn<FishLogEntry, 'Fishlog'>;
type Computed =
  'says' | 'kind' | 'tank_number' | 'to_number' | 'fault' | 'key' | 'place' | 'coming' | 'asked';

/** The key of a row is its day times this, and its place. */
export const DAY = 1e5;

/** Events by their place, from 1. */
export const kindIs = (kind: Formula, what: (typeof fishEvents)[number]): Condition =>
  kind.is(fishEvents.indexOf(what) + 1);

/** What a row cannot be by the state of its tank. */
export const problems = {
  'no fish': 1,
  'few to weigh': 2,
  'few to leave': 3,
  'too heavy': 4,
} as const;

const eventList = madeElsewhere(`{${fishEvents.map((word) => `"${word}"`).join(',')}}`);

const helper = (head: string, formula: NonNullable<Column['formula']>): Column => ({
  helper: true,
  always: true,
  head,
  width: 9,
  look: 'source',
  formula,
});

/** @param tanks how many tanks have a place in the workings beside the log */
export function computedFishColumns(tanks: number): Readonly<Record<Computed, Column>> {
  const today = named('Farm_date');
  const isTyped = (at: AtRow): Condition => call('COUNTA', at.shown('date', 'to_tank')).above(0);
  const isPlanned = (at: AtRow): Condition => at('planned').is('planned');
  const counts = (at: AtRow): Condition => any(at('planned').isBlank, isPlanned(at));
  const isAhead = (at: AtRow): Condition => any(isPlanned(at), at('date').above(today));
  const waits = (at: AtRow): Condition =>
    all(isPlanned(at), at('date').isNumber, at('date').orZero.below(today));
  const isMove = (at: AtRow): Condition => kindIs(at('kind'), 'moved');
  const number = (tank: Formula): Formula =>
    call('IFERROR', call('MATCH', call('TRIM', tank), named('Tanks_name'), 0), 0);
  const noTank = (number: Formula, name: Formula): [Condition, Formula][] => [
    [number.is(0), joined('Tanks has no tank called ', name)],
    [
      number.above(tanks),
      joined(name, ' is beyond the tanks that this plan was made for: renew it'),
    ],
  ];
  const dayAndRow = (at: AtRow): Formula =>
    at('date')
      .times(DAY)
      .plus(call('ROW', at('date')))
      .minus(call('ROW', at.first('date')))
      .plus(1);
  const isWhole = (of: Formula): Condition =>
    all(of.isNumber, of.orZero.atLeast(0), call('INT', of.orZero).is(of.orZero));
  return {
    says: {
      always: true,
      head: 'To put right',
      width: 50,
      look: 'verdict',
      note: 'What cannot be, and planned rows whose day has come. A row that cannot be counts nowhere.',
      formula: (at) => {
        const problem = nth('Journal_problem', at('place'));
        return cases(
          [
            [any(not(isTyped(at)), not(counts(at))), ''],
            [at('fault').isFilled, at('fault')],
            [
              waits(at),
              'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
            ],
            [at('place').isBlank, ''],
            [problem.is(0), ''],
            [
              problem.is(problems['no fish']),
              joined(
                at('tank'),
                ' holds no fish on ',
                isoDate(at('date')),
                ': write down first where they came from',
              ),
            ],
            [
              problem.is(problems['few to weigh']),
              joined(
                at('tank'),
                ' holds fewer than ',
                at('fish'),
                ' fish on ',
                isoDate(at('date')),
              ),
            ],
            [
              problem.is(problems['few to leave']),
              joined(
                at('tank'),
                ' holds fewer than ',
                at('fish'),
                ' fish on ',
                isoDate(at('date')),
                ': so many cannot leave it',
              ),
            ],
          ],
          joined(
            'so many of such a weight are more than all fish of ',
            at('tank'),
            ' weigh: weigh them first',
          ),
        );
      },
    },
    kind: helper('Event, by number', (at) =>
      blankUnless(
        at('what').isFilled,
        call('IFERROR', call('MATCH', call('TRIM', at('what')), eventList, 0), 0),
      ),
    ),
    tank_number: helper('Tank, by number', (at) =>
      blankUnless(at('tank').isFilled, number(at('tank'))),
    ),
    to_number: helper('To tank, by number', (at) =>
      when(all(isMove(at), at('to_tank').isFilled), number(at('to_tank')), 0),
    ),
    fault: helper('By itself', (at) => {
      const left = any(isMove(at), kindIs(at('kind'), 'sold'), kindIs(at('kind'), 'died'));
      const isStocked = kindIs(at('kind'), 'stocked');
      return cases(
        [
          [any(not(isTyped(at)), not(counts(at))), ''],
          [at('date').isBlank, 'type the date'],
          [
            any(
              not(isWhole(at('date'))),
              at('date').orZero.below(MIN_SERIAL),
              at('date').orZero.above(MAX_SERIAL),
            ),
            'the date is no date',
          ],
          [waits(at), ''],
          [at('tank').isBlank, 'name the tank'],
          ...noTank(at('tank_number'), at('tank')),
          [at('what').isBlank, `say what happened: ${fishEvents.join(', ')}`],
          [at('kind').is(0), joined(at('what'), ` is none of ${fishEvents.join(', ')}`)],
          [all(isMove(at), at('to_tank').isBlank), 'name the tank that they went to'],
          [
            all(isMove(at), at('to_number').is(0)),
            joined('Tanks has no tank called ', at('to_tank')),
          ],
          [
            all(isMove(at), at('to_number').above(tanks)),
            joined(at('to_tank'), ' is beyond the tanks that this plan was made for: renew it'),
          ],
          [
            all(isMove(at), at('to_number').is(at('tank_number'))),
            'from a tank to itself is no move',
          ],
          [
            all(
              at('fish').isBlank,
              any(isStocked, all(not(isAhead(at)), any(left, kindIs(at('kind'), 'counted')))),
            ),
            'type how many fish',
          ],
          [all(at('fish').isFilled, not(isWhole(at('fish')))), 'fish are whole numbers from 0'],
          [
            all(at('fish').isNumber, at('fish').orZero.is(0), any(isStocked, left)),
            'type how many fish',
          ],
          [
            all(
              at('weight').isBlank,
              any(isStocked, all(kindIs(at('kind'), 'weighed'), not(isAhead(at)))),
            ),
            'type the mean weight',
          ],
          [
            all(
              at('weight').isFilled,
              not(kindIs(at('kind'), 'died')),
              any(not(at('weight').isNumber), at('weight').orZero.atMost(0)),
            ),
            'the mean weight must be above 0',
          ],
        ],
        '',
      );
    }),
    key: helper('Day and row', (at) =>
      blankUnless(
        at('date').isFilled,
        when(
          any(at('fault').isFilled, not(counts(at)), isAhead(at), not(at('date').isNumber)),
          0,
          dayAndRow(at),
        ),
      ),
    ),
    coming: helper('Day and row, if still to come', (at) =>
      blankUnless(
        all(
          isTyped(at),
          counts(at),
          at('fault').isBlank,
          at('date').isNumber,
          isAhead(at),
          not(waits(at)),
        ),
        at('date')
          .times(DAY)
          .plus(call('ROW', at('date')))
          .minus(call('ROW', at.first('date')))
          .plus(1),
      ),
    ),
    place: helper('Place in time', (at) =>
      blankUnless(at('key').orZero.above(0), call('MATCH', at('key'), named('Journal_order'), 1)),
    ),
    asked: helper('Planned, and due', (at) =>
      blankUnless(
        all(
          isPlanned(at),
          at('date').isNumber,
          at('date').orZero.atMost(named('Farm_week').plus(6)),
        ),
        dayAndRow(at),
      ),
    ),
  };
}
