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
import { dayKey } from './register-keys';
import { type At, helperColumn, type RegisterColumn } from './register';
import { hasToWait } from './treated-places';

type AtRow = At<'Fishlog'>;
type Column = RegisterColumn<FishLogEntry, 'Fishlog'>;
type Computed =
  | 'says'
  | 'kind'
  | 'tank_number'
  | 'to_number'
  | 'stage'
  | 'fault'
  | 'key'
  | 'place'
  | 'coming'
  | 'asked';

/** Events by their place, from 1. */
export const kindIs = (kind: Formula, what: (typeof fishEvents)[number]): Condition =>
  kind.is(fishEvents.indexOf(what) + 1);

/** Where a row stands: nothing that counts; done; to come; planned for a day that has passed. */
const stages = { none: 0, done: 1, ahead: 2, waits: 3 } as const;

/** What is said of a row that cannot be, by number from 1. What stands in brackets is put in from the row. */
const sentences = [
  'type the date',
  'the date is no date',
  'name the tank',
  'say what happened: stocked, moved, sold, died, counted, weighed',
  'name the tank that they went to',
  'from a tank to itself is no move',
  'type how many fish',
  'fish are whole numbers from 0',
  'type the mean weight',
  'the mean weight must be above 0',
  'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
  'Tanks has no tank called [tank]',
  '[tank] is beyond the tanks that this plan was made for: renew it',
  '[what] is none of stocked, moved, sold, died, counted, weighed',
  'Tanks has no tank called [to]',
  '[to] is beyond the tanks that this plan was made for: renew it',
  '',
  '[tank] holds no fish on [day]: write down first where they came from',
  '[tank] holds fewer than [fish] fish on [day]',
  '[tank] holds fewer than [fish] fish on [day]: so many cannot leave it',
  'so many of such a weight are more than all fish of [tank] weigh: weigh them first',
] as const;
export const fishSentences: readonly string[] = sentences;

const sentence = (words: (typeof sentences)[number]): number => sentences.indexOf(words) + 1;

/** The sentence of no problem; what a row cannot be by the state of its tank follows. */
const NO_PROBLEM = sentence('');

/** What a row cannot be by the state of its tank. */
export const problems = {
  'no fish': 1,
  'few to weigh': 2,
  'few to leave': 3,
  'too heavy': 4,
} as const;

const eventList = madeElsewhere(`{${fishEvents.map((word) => `"${word}"`).join(',')}}`);

const helper = helperColumn<FishLogEntry, 'Fishlog'>;

const putIn = (text: Formula, marks: Readonly<Record<string, Formula>>): Formula =>
  Object.entries(marks).reduce(
    (so, [mark, word]) => call('SUBSTITUTE', so, `[${mark}]`, word),
    text,
  );

const today = named('Farm_date');

const isPlanned = (at: AtRow): Condition => at('planned').is('planned');

const number = (tank: Formula): Formula =>
  call('IFERROR', call('MATCH', call('TRIM', tank), named('Tanks_name'), 0), 0);

const key = (at: AtRow): Formula => dayKey(at('date'), at.place);

const isWhole = (of: Formula): Condition =>
  all(of.isNumber, of.orZero.atLeast(0), call('INT', of.orZero).is(of.orZero));

/** One of the events up to `last`, where the row has an event. */
const upTo = (at: AtRow, last: (typeof fishEvents)[number]): Condition =>
  at('kind').atMost(fishEvents.indexOf(last) + 1);

const wordsOfFishRow = {
  says: {
    always: true,
    head: 'To put right',
    width: 50,
    look: 'verdict',
    note: 'What cannot be, and planned rows whose day has come. A row that cannot be counts nowhere.',
    formula: (at) => {
      const isOfItself = any(at('fault').isFilled, at('stage').is(stages.waits));
      const ofItself = when(
        at('fault').isBlank,
        sentence(
          'planned for a day that has passed: clear the mark if it was done, or write otherwise or not done',
        ),
        at('fault'),
      );
      const says = (number: Formula): Formula => nth('Journal_says', number);
      const problem = when(at('place').isBlank, 0, nth('Journal_problem', at('place')));
      return cases(
        [
          [at('stage').is(stages.none), ''],
          [
            isOfItself,
            putIn(says(ofItself), { what: at('what'), to: at('to_tank'), tank: at('tank') }),
          ],
          [
            problem.above(0),
            putIn(says(problem.plus(NO_PROBLEM)), {
              day: isoDate(at('date')),
              fish: at('fish'),
              tank: at('tank'),
            }),
          ],
          [not(kindIs(at('kind'), 'sold')), ''],
          [
            hasToWait(at('tank_number'), at('date')),
            joined(
              at('tank'),
              ' was treated, and the days to wait ',
              when(at('stage').is(stages.ahead), 'will not be', 'were not'),
              ' over: see Treatments',
            ),
          ],
        ],
        '',
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
    when(all(kindIs(at('kind'), 'moved'), at('to_tank').isFilled), number(at('to_tank')), 0),
  ),
  stage: helper('Done 1, to come 2, waits 3', (at) =>
    cases(
      [
        [call('COUNTA', at.shown('date', 'to_tank')).is(0), stages.none],
        [
          isPlanned(at),
          when(
            all(at('date').isNumber, at('date').orZero.below(today)),
            stages.waits,
            stages.ahead,
          ),
        ],
        [at('planned').isFilled, stages.none],
      ],
      when(at('date').above(today), stages.ahead, stages.done),
    ),
  ),
} satisfies Partial<Record<Computed, Column>>;

const faultOfFishRow = (tanks: number) =>
  ({
    fault: helper('By itself', (at) => {
      const isDone = at('stage').is(stages.done);
      const isStocked = kindIs(at('kind'), 'stocked');
      const day = at('date').orZero;
      return cases(
        [
          [at('stage').is(stages.none), ''],
          [at('date').isBlank, sentence('type the date')],
          [
            any(
              not(at('date').isNumber),
              call('INT', day).isNot(day),
              day.below(MIN_SERIAL),
              day.above(MAX_SERIAL),
            ),
            sentence('the date is no date'),
          ],
          [at('stage').is(stages.waits), ''],
          [at('tank').isBlank, sentence('name the tank')],
          [at('tank_number').is(0), sentence('Tanks has no tank called [tank]')],
          [
            at('tank_number').above(tanks),
            sentence('[tank] is beyond the tanks that this plan was made for: renew it'),
          ],
          [
            at('what').isBlank,
            sentence('say what happened: stocked, moved, sold, died, counted, weighed'),
          ],
          [
            at('kind').is(0),
            sentence('[what] is none of stocked, moved, sold, died, counted, weighed'),
          ],
          [
            all(kindIs(at('kind'), 'moved'), at('to_number').is(0)),
            when(
              at('to_tank').isBlank,
              sentence('name the tank that they went to'),
              sentence('Tanks has no tank called [to]'),
            ),
          ],
          // Fish that did not move have no other tank.
          [
            at('to_number').above(tanks),
            sentence('[to] is beyond the tanks that this plan was made for: renew it'),
          ],
          [at('to_number').is(at('tank_number')), sentence('from a tank to itself is no move')],
          [
            all(at('fish').isBlank, any(isStocked, all(isDone, upTo(at, 'counted')))),
            sentence('type how many fish'),
          ],
          [
            all(at('fish').isFilled, not(isWhole(at('fish')))),
            sentence('fish are whole numbers from 0'),
          ],
          [
            all(at('fish').isFilled, at('fish').is(0), upTo(at, 'died')),
            sentence('type how many fish'),
          ],
          [
            all(at('weight').isBlank, any(isStocked, all(kindIs(at('kind'), 'weighed'), isDone))),
            sentence('type the mean weight'),
          ],
          [
            all(
              at('weight').isFilled,
              not(kindIs(at('kind'), 'died')),
              at('weight').orZero.atMost(0),
            ),
            sentence('the mean weight must be above 0'),
          ],
        ],
        '',
      );
    }),
  }) satisfies Partial<Record<Computed, Column>>;

const orderOfFishRow = {
  key: helper('Day and row', (at) =>
    blankUnless(
      at('date').isFilled,
      when(all(at('stage').is(stages.done), at('fault').isBlank), key(at), 0),
    ),
  ),
  coming: helper('Day and row, if still to come', (at) =>
    blankUnless(all(at('stage').is(stages.ahead), at('fault').isBlank), key(at)),
  ),
  place: helper('Place in time', (at) =>
    blankUnless(at('key').orZero.above(0), call('MATCH', at('key'), named('Journal_order'), 1)),
  ),
  asked: helper('Planned, and due', (at) =>
    blankUnless(
      all(isPlanned(at), at('date').isNumber, at('date').orZero.atMost(named('Farm_week').plus(6))),
      key(at),
    ),
  ),
} satisfies Partial<Record<Computed, Column>>;

/** @param tanks how many tanks have a place in the workings beside the log */
export function computedFishColumns(tanks: number): Readonly<Record<Computed, Column>> {
  return { ...wordsOfFishRow, ...faultOfFishRow(tanks), ...orderOfFishRow };
}
