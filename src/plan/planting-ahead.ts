/**
 * What the rows of the Plantings come to in the weeks ahead: when each is planted out, first cut and cleared by the
 * warmth of the months, what it gives, and which stands in a bed on a day. The method is that of the planner of the
 * beds (ahead/standing-plantings.ts, ahead/harvest-spread.ts).
 */
import { BED_REMARK } from '../core/planner-remarks';
import { cropTable } from '../functions/crop-table';
import { bedFeedFormula } from './bed-feed';
import { cropFigure, cutWithin, pickingDays } from './crop-figures';
import type { PlantingEntry } from './farm';
import {
  all,
  any,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  part,
  roundedUp,
  when,
} from './formula-parts';
import { lineOf, named, nth, type PlantingAhead } from './names';
import { bedKey, bedOfKey, isKey, keyInOrder, placeInOrder, rowOfKey } from './register-keys';
import { type At, helperColumn, type RegisterColumn } from './register';

type AtRow = At<'Plantings'>;
type Column = RegisterColumn<PlantingEntry, 'Plantings'>;

/** A day that never comes. */
const NEVER = 9e9;
/** Days by which two batches in a bed may overlap before they count as sharing it. */
const OVERLAP = 6;
/** Letters of a crop in the calendar of the Season sheet. */
const LETTERS = 5;
/** Less than the warmth of a minute: sums that meet a month's end exactly belong to its end. */
const HAIR = 1e-7;

/**
 * What adds up day by day, on a line of the Season sheet, from its first month up to a day in a month: warmth of a
 * crop, light.
 */
function sumUntil(day: Formula, month: Formula, line: Formula): Formula {
  const after = month.plus(1);
  const heat = (at: Formula): Formula => nth('Season_heat', line, at);
  const begins = (at: Formula): Formula => nth('Season_months', 1, at);
  return heat(month).plus(
    heat(after)
      .minus(heat(month))
      .over(begins(after).minus(begins(month)))
      .times(day.minus(begins(month))),
  );
}

/** Line of Season_heat behind those of the crops: light inside, lamps included. */
export const LIGHT_LINE = cropTable.rows.length + 1;
export const lightUntil = (day: Formula): Formula =>
  sumUntil(day, call('MATCH', day, named('Season_months'), 1), part(LIGHT_LINE));

/** Transplanting to first cut: the usual days at the usual air temperature, above the base. */
const warmthNeeded = (line: Formula): Formula =>
  cropFigure('bed_days', line).times(
    call('MIN', cropFigure('air', line), cropFigure('cap_temp', line)).minus(
      cropFigure('base_temp', line),
    ),
  );

const helper = helperColumn<PlantingEntry, 'Plantings'>;

const day = (head: string, formula: NonNullable<Column['formula']>): Column => ({
  ...helper(head, formula),
  format: 'date',
});

export function plantingsAhead(): Readonly<Record<PlantingAhead, Column>> {
  const monday = named('Season_from');
  const counts = (at: AtRow): Condition => any(at('planned').isBlank, at('planned').is('planned'));
  const inPlace = (at: AtRow): Condition => cropFigure('start', at('line')).is('in place');
  const inBed = (at: AtRow): Condition => all(at('bed_number').isNumber, at('out').isNumber);
  const bedArea = (at: AtRow): Formula => nth('Beds_area', at('bed_number'));
  const density = (at: AtRow): Formula => cropFigure('plants_per_m2', at('line'));
  const isSame = (at: AtRow): Condition => bedOfKey(at.above('slots')).is(bedOfKey(at('slots')));
  /** A day of a row; one that never comes where it has none. */
  const ofRow = (at: AtRow, what: 'free' | 'due', row: Formula): Formula => {
    const found = nth(`Plantings_${what}`, row);
    return blankUnless(isKey(at('slots')), when(found.isNumber, found, NEVER));
  };
  return {
    line: helper('Line in Crops', (at) =>
      blankUnless(
        all(counts(at), at('crop').isFilled),
        call('IFERROR', lineOf('Crop', at('crop')), ''),
      ),
    ),
    out: day('Expected out', (at) =>
      blankUnless(
        at('line').isNumber,
        cases(
          [
            [at('planted').isNumber, at('planted')],
            [at('sown').orZero.atMost(0), ''],
            [inPlace(at), at('sown')],
          ],
          call('MAX', monday, at('sown').plus(cropFigure('transplant_days', at('line')))),
        ),
      ),
    ),
    counts_from: day('Day from which its warmth counts', (at) =>
      blankUnless(
        at('out').isNumber,
        at('out').plus(when(inPlace(at), cropFigure('transplant_days', at('line')), 0)),
      ),
    ),
    month: helper('Month of Season then', (at) =>
      call('IFERROR', call('MATCH', at('counts_from'), named('Season_months'), 1), ''),
    ),
    warmth: helper('Warmth at first cut', (at) =>
      blankUnless(
        at('month').isNumber,
        call(
          'IFERROR',
          sumUntil(at('counts_from'), at('month'), at('line')).plus(warmthNeeded(at('line'))),
          '',
        ),
      ),
    ),
    due_month: helper('Month of Season at first cut', (at) =>
      blankUnless(
        at('warmth').isNumber,
        call(
          'IFERROR',
          call(
            'MATCH',
            at('warmth').minus(HAIR),
            call('INDEX', named('Season_heat'), at('line'), 0),
            1,
          ),
          '',
        ),
      ),
    ),
    ripe: day('Ready to cut', (at) => {
      const heat = (month: Formula): Formula => nth('Season_heat', at('line'), month);
      const month = at('due_month');
      const begins = (at: Formula): Formula => nth('Season_months', 1, at);
      const days = at('warmth')
        .minus(heat(month))
        .over(heat(month.plus(1)).minus(heat(month)))
        .times(begins(month.plus(1)).minus(begins(month)));
      return blankUnless(month.isNumber, call('IFERROR', begins(month).plus(roundedUp(days)), ''));
    }),
    due: day('Expected first cut', (at) =>
      cases(
        [
          [at('out').isBlank, ''],
          [at('first_cut').isNumber, at('first_cut')],
          [any(at('ripe').isBlank, at('cleared').isNumber), at('ripe')],
        ],
        // What is ready and was not cut is cut today, within the days that it keeps.
        call('MEDIAN', at('ripe'), named('Farm_date'), at('ripe').plus(cutWithin(at('line')))),
      ),
    ),
    free: day('Expected clear', (at) =>
      cases(
        [
          [at('out').isBlank, ''],
          [at('cleared').isNumber, at('cleared')],
          [at('due').isBlank, ''],
        ],
        call('MAX', at('out').plus(1), at('due').plus(pickingDays(at('line')))),
      ),
    ),
    needs: helper('Share of the bed by plants', (at) =>
      blankUnless(
        inBed(at),
        when(
          at('plants').isNumber,
          call('MIN', 1, at('plants').over(density(at).times(bedArea(at)))),
          1,
        ),
      ),
    ),
    slot: {
      ...helper('Bed and day out', (at, row) =>
        blankUnless(inBed(at), bedKey(at('bed_number'), at('out'), row + 1)),
      ),
      total: (column) => call('COUNT', column),
    },
    slots: helper('Those in order', (at, row) =>
      keyInOrder('Plantings_slot', at.total('slot'), row + 1),
    ),
    turn: helper('Place in that order', (at) => placeInOrder(at('slot'), 'Plantings_slots')),
    before: helper('Bed kept by earlier until', (at, row) =>
      row === 0 ? part(0) : when(all(isKey(at('slots')), isSame(at)), at.above('until'), 0),
    ),
    own: helper('Bed kept by its own row until', (at) => ofRow(at, 'free', rowOfKey(at('slots')))),
    until: helper('Bed kept until', (at) =>
      blankUnless(isKey(at('slots')), call('MAX', at('before'), at('own'))),
    ),
    holder: helper('By row', (at, row) => {
      const own = rowOfKey(at('slots'));
      const before = row === 0 ? own : at.above('holder');
      return blankUnless(isKey(at('slots')), when(at('before').is(at('until')), before, own));
    }),
    mark: helper('In a few letters', (at) =>
      joined(blankUnless(at('planned').is('planned'), '·'), call('LEFT', at('crop'), LETTERS)),
    ),
    // What the Season sheet shows of a batch and of the one that keeps the bed after it, beside its key.
    newest: helper('Its letters', (at) =>
      blankUnless(isKey(at('slots')), nth('Plantings_mark', rowOfKey(at('slots')))),
    ),
    kept: helper('Letters of what keeps the bed', (at) =>
      blankUnless(isKey(at('slots')), nth('Plantings_mark', at('holder'))),
    ),
    newest_cut: helper('Its first cut', (at) => ofRow(at, 'due', rowOfKey(at('slots')))),
    kept_cut: helper('First cut of what keeps the bed', (at) => ofRow(at, 'due', at('holder'))),
    share: helper('Share of the bed', (at) => {
      const next = nth('Plantings_slots', at('turn').plus(1));
      const follows = all(
        bedOfKey(next).is(at('bed_number')),
        nth('Plantings_out', rowOfKey(next)).below(at('free').minus(OVERLAP)),
        nth('Plantings_free', rowOfKey(next)).above(monday),
      );
      return cases(
        [
          [at('turn').isBlank, ''],
          [call('LEFT', at('remark'), BED_REMARK.length + 1).is(`${BED_REMARK} `), at('needs')],
          [
            nth('Plantings_before', at('turn')).above(call('MAX', monday, at('out').plus(OVERLAP))),
            at('needs'),
          ],
          [at('free').isBlank, 1],
        ],
        call('IFERROR', when(follows, at('needs'), 1), 1),
      );
    }),
    units: helper('Units it gives', (at) => {
      const gives = nth('Sowing_gives', call('MATCH', at('line'), named('Sowing_line'), 0));
      const plants = when(
        at('plants').isNumber,
        at('plants'),
        call('INT', call('ROUND', density(at).times(bedArea(at)), 9)),
      );
      return blankUnless(
        all(inBed(at), at('due').isNumber),
        call('IFERROR', plants.times(gives), ''),
      );
    }),
    ends: day('Last cut before', (at) =>
      blankUnless(
        at('units').isNumber,
        at('due').plus(call('MAX', 1, at('free').minus(at('due')))),
      ),
    ),
    rate: helper('Units a day', (at) =>
      blankUnless(at('units').isNumber, at('units').over(at('ends').minus(at('due')))),
    ),
    moment: helper('Units a day, times the first', (at) =>
      blankUnless(at('rate').isNumber, at('rate').times(at('due'))),
    ),
    calls: helper('Feed it can use, g/day', (at) =>
      blankUnless(
        at('share').isNumber,
        bedFeedFormula({
          area: bedArea(at).times(at('share')),
          kind: nth('Beds_kind', at('bed_number')),
          ratio: cropFigure('feed_ratio', at('line')),
        }),
      ),
    ),
  };
}
