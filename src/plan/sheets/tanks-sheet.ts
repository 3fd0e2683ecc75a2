import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  type Condition,
  type Formula,
  joined,
  part,
  roundedUp,
  sum,
  when,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import type { SheetModel } from '../workbook-model';
import { codeOf, lineOf, named, nth, wordsOf } from '../names';
import { type At, type Columns, HEAD_ROW, register, registerSheet } from '../register';

const SHEET = 'Tanks';
/** Prepared empty rows; sheets that follow the tanks have as many. */
export const SPARE_TANKS = 4;

/** From this share of the limit on, a tank is nearly full. */
const NEARLY_FULL = 0.9;

type AtTank = At<'Tanks'>;

/** Without fish, their weight or the tank's water there is nothing to work out. */
const stocked = (at: AtTank, formula: Formula): Formula =>
  blankIf(
    any(at('fish').isBlank, at('fish').is(0), at('weight').isBlank, at('volume').isBlank),
    formula,
  );

/** The weight at which fish of a line of the Species sheet are sold, g. */
export const sellingWeight = (line: Formula): Formula =>
  when(
    line.is(named('Stock_line')),
    named('Stock_harvest_weight'),
    nth('Fish_harvest_weight', line),
  );

/** Whether the water of the month is too cold or too warm for netting fish of a line of the Species sheet. */
const handlingNow = (line: Formula): Formula =>
  codeOf(
    'Tanks_handling',
    [
      [named('Water_now').below(nth('Fish_handling_low', line)), 'cold'],
      [named('Water_now').above(nth('Fish_handling_high', line)), 'warm'],
    ],
    '',
  );

/** Fish over the limit at their weight of now. */
const tooMany = (at: AtTank): Formula =>
  roundedUp(at('fish').minus(at('limit').times(at('volume')).over(at('weight'))));

const placeOf = (at: AtTank): Formula =>
  call('ROW', at('name'))
    .minus(call('ROW', at.first('name')))
    .plus(1);

const wrong = (at: AtTank): Formula => nth('Held_wrong', placeOf(at)).orZero;

type TankColumns = Columns<TankEntry, 'Tanks'>;

/** What is typed of a tank, and the fish that it holds. */
const tankColumns = {
  name: { head: 'Tank', width: 14, look: 'input', field: 'name' },
  volume: {
    head: 'Water',
    width: 10,
    look: 'input',
    quantity: 'volume',
    field: 'volume',
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type the water in the tank.' },
    total: sum,
  },
  species: {
    head: 'Species',
    width: 18,
    look: 'input',
    field: 'species',
    rule: {
      rule: { kind: 'list', name: 'Fish_name' },
      message: 'Choose a species of the Species sheet.',
    },
  },
  fish: {
    head: 'Fish',
    width: 9,
    look: 'computed',
    quantity: 'count',
    typedBefore: 'fish',
    note: 'From the Fish log, on the day of the plan: write down there what came, went or was counted.',
    formula: (at) => nth('Held_fish', placeOf(at)),
    total: sum,
  },
  weight: {
    head: 'Mean weight',
    width: 9,
    look: 'computed',
    quantity: 'fishWeight',
    typedBefore: 'weight',
    note: 'From the Fish log; since their last weighing the fish grew in the water of each month.',
    formula: (at) => nth('Held_weight', placeOf(at)),
  },
  stocked: {
    head: 'In the tank since',
    width: 11,
    look: 'computed',
    format: 'date',
    typedBefore: 'stocked',
    note: 'The day on which the first of them came into the empty tank.',
    formula: (at) => nth('Held_since', placeOf(at)),
  },
} satisfies Partial<TankColumns>;

/** How full it is, and what still goes in. */
const densityColumns = ({ gill }: PlanContext) =>
  ({
    own_limit: {
      head: 'Own density limit',
      width: 13,
      look: 'input',
      quantity: 'density',
      field: 'density',
      note: 'Leave it blank to take the limit of the Species sheet for an aerated tank.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type a density, or leave it blank.' },
    },
    biomass: {
      head: 'Biomass',
      width: 10,
      look: 'computed',
      quantity: 'mass',
      formula: (at) => stocked(at, at('fish').times(at('weight')).over(1000)),
      total: sum,
    },
    density: {
      head: 'Density',
      width: 10,
      look: 'result',
      quantity: 'density',
      formula: (at) => stocked(at, gill('STOCK.DENSITY', at('fish'), at('weight'), at('volume'))),
    },
    limit: {
      head: 'Density limit',
      width: 10,
      look: 'computed',
      quantity: 'density',
      formula: (at) =>
        when(
          at('own_limit').isFilled,
          at('own_limit'),
          blankWithout([at('line')], nth('Fish_density_aerated', at('line'))),
        ),
    },
    room: {
      head: 'Room for more fish',
      width: 10,
      look: 'computed',
      quantity: 'count',
      note: 'How many more fish the limit allows once all of them weigh what they are sold at; below 0 that many are too many by then.',
      formula: (at) =>
        stocked(
          at,
          gill(
            'STOCK.LIMIT',
            at('volume'),
            call('MAX', at('weight'), at('sold_at').orZero),
            at('limit'),
          ).minus(at('fish')),
        ),
    },
  }) satisfies Partial<TankColumns>;

/** What its fish take today. */
const feedingColumns = ({ gill }: PlanContext) =>
  ({
    rate: {
      head: 'Feed rate of the day',
      width: 10,
      look: 'computed',
      quantity: 'share',
      format: 'percent',
      note: 'From the Species sheet, for this weight and the water of the month.',
      formula: (at) =>
        stocked(
          at,
          blankWithout(
            [named('Water_now')],
            plainCall('FEED.RATE', at('species'), at('weight'), named('Water_now')),
          ),
        ),
    },
    feed: {
      head: 'Feed a day',
      width: 10,
      look: 'result',
      quantity: 'feedDay',
      formula: (at) =>
        stocked(
          at,
          blankWithout(
            [named('Water_now')],
            gill(
              'FEED.DAY',
              at('fish'),
              at('weight'),
              at('species'),
              named('Water_now'),
              at('rate'),
            ),
          ),
        ),
      total: sum,
    },
  }) satisfies Partial<TankColumns>;

/** What is to be done. */
const verdictColumns = {
  verdict: {
    head: 'Verdict',
    width: 36,
    look: 'verdict',
    formula: (at) =>
      wordsOf('Tanks_status', at('status'), {
        empty: 'empty',
        unknown: 'put its lines in the Fish log right',
        log: 'put its lines in the Fish log right',
        unmeasured: 'type the water in the tank',
        over: joined(
          'over its limit: ',
          when(
            at('handling').isFilled,
            joined(
              tooMany(at),
              ' too many. Not to be moved, too ',
              at('handling'),
              ': more air, less feed',
            ),
            joined('move ', tooMany(at), ' fish'),
          ),
        ),
        'nearly full': 'nearly full',
        outgrows: joined('room now; ', at('room').negative(), ' too many when they are sold'),
        room: 'room left',
      }),
  },
  lot: {
    head: 'Lot',
    width: 24,
    look: 'computed',
    note: 'The fish that stand in it, by where they came from.',
    formula: (at) => nth('Held_lot', placeOf(at)),
  },
} satisfies Partial<TankColumns>;

/** What the columns before look up. */
const workingColumns = {
  line: {
    helper: true,
    head: 'Line in Species',
    width: 8,
    look: 'source',
    formula: (at) => blankWithout([at('species')], lineOf('Fish', at('species'))),
  },
  status: {
    helper: true,
    head: 'Status',
    width: 12,
    look: 'source',
    formula: (at) =>
      codeOf(
        'Tanks_status',
        [
          [all(any(at('fish').isBlank, at('fish').is(0)), wrong(at).is(0)), 'empty'],
          [any(at('fish').isBlank, at('fish').is(0)), 'unknown'],
          [at('volume').isBlank, 'unmeasured'],
          [at('density').above(at('limit')), 'over'],
          [wrong(at).above(0), 'log'],
          [at('density').above(part(NEARLY_FULL).times(at('limit'))), 'nearly full'],
          [at('room').below(0), 'outgrows'],
        ],
        'room',
      ),
  },
  sold_at: {
    helper: true,
    head: 'Sold at, g',
    width: 8,
    look: 'source',
    formula: (at) => blankWithout([at('line')], sellingWeight(at('line'))),
  },
  handling: {
    helper: true,
    head: 'Not to be handled: too',
    width: 10,
    look: 'source',
    formula: (at) => blankWithout([at('line')], handlingNow(at('line'))),
  },
} satisfies Partial<TankColumns>;

export function tanksSheet(ctx: PlanContext): SheetModel {
  const columns: TankColumns = {
    ...tankColumns,
    ...densityColumns(ctx),
    ...feedingColumns(ctx),
    ...verdictColumns,
    ...workingColumns,
  };
  const sheet = registerSheet(
    SHEET,
    'What stands in each tank, is there room, and how much is fed?',
  );
  sheet.text(3, 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Tanks',
    headRow: HEAD_ROW,
    columns,
    list: 'tanks',
    spare: SPARE_TANKS,
    cautions: ['weight', 'air', 'electricity', 'wounds'],
  });
  const [density, limit] = [made.first('density'), made.first('limit')];
  const beyond = (most: Formula): Condition =>
    all(density.isNumber, limit.isNumber, density.above(most));
  sheet.mark(made.cells('density'), beyond(limit), 'bad');
  sheet.mark(made.cells('density'), beyond(part(NEARLY_FULL).times(limit)), 'watch');
  return sheet.model();
}
