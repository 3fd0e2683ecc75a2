import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  roundedUp,
  sum,
  when,
  written,
} from '../formula-parts';
import { type Gill, plainCall } from '../live-or-plain';
import { named, nth } from '../names';
import type { At, Columns } from '../register';
import { airBrings } from './plant-room-air';

/** Words in place of minutes. */
const HOLDS = 'holds';

/** g a day that stand for none: a bare 0 could be a blank cell. */
const NO_FEED = 0.001;

type AtTank = At<'Plant'>;

/** The tank of the same row on the Tanks sheet. */
const ofTank = (
  name: 'Tanks_name' | 'Tanks_volume' | 'Tanks_fish' | 'Tanks_weight' | 'Tanks_species',
  row: number,
): Formula => nth(name, row + 1);

interface Supply {
  /** mg/L from which it falls; the level of the fields without it */
  readonly from?: Formula;
  /** g/h of air that runs on */
  readonly air?: Formula;
  /** L/h of water that runs on, with so many mg/L */
  readonly water?: readonly [flow: Formula, oxygen: Formula];
}

type PlantRoomColumns = Columns<TankEntry, 'Plant'>;

/** Oxygen that a tank's fish use, and how long what is there lasts. */
function oxygenOfTanks(ctx: PlanContext) {
  const { gill } = ctx;
  const [level, water] = [named('Plant_oxygen'), named('Water_now')];
  const full = named('Pump_full');
  /** Nothing where no fish stand. */
  const stocked = (at: AtTank, formula: Formula): Formula => blankWithout([at('use')], formula);
  const noFish = (row: number): Condition =>
    any(
      ofTank('Tanks_fish', row).orZero.is(0),
      ofTank('Tanks_weight', row).orZero.is(0),
      ofTank('Tanks_volume', row).orZero.is(0),
    );
  /** g/h of the fish that stand in the tank, on the feed of the table or on `feed` g a day. */
  const breathe = (row: number, feed?: number): Formula =>
    gill(
      'OXYGEN.FISH',
      ofTank('Tanks_fish', row),
      ofTank('Tanks_weight', row),
      ofTank('Tanks_species', row),
      water,
      feed,
    );
  const critical = (row: number): Formula =>
    nth('Fish_oxygen_critical', nth('Tanks_line', row + 1));
  const bacteria = (row: number): Formula =>
    named('Plant_bacteria').times(ofTank('Tanks_volume', row)).over(1000);
  const minutes = (look: 'computed' | 'result', head: string, note: string) => ({
    head,
    width: 11,
    look,
    quantity: 'number' as const,
    format: 'whole' as const,
    note,
  });
  const flowIn = (row: number): Formula => nth('Pumps_turnover', row + 1).orZero;
  const inlet = named('Pump_return').times(full);
  const out = (use: Formula, row: number): Formula => use.plus(bacteria(row));
  const lastsBy =
    (ask: Gill) =>
    (row: number, use: Formula, { from, air, water: flow }: Supply = {}): Formula =>
      ask(
        'OXYGEN.MINUTES',
        ofTank('Tanks_volume', row),
        from ?? level,
        critical(row),
        use,
        air,
        named('Plant_bacteria'),
        ...(flow ?? []),
      );
  /** Minutes that a tank lasts: what uses its oxygen, and what still comes in. */
  const lasts = lastsBy(gill);
  /** The same while air runs on, which may hold the tank for good. */
  const lastsWithAir = (row: number, use: Formula, air: Formula): Formula =>
    when(air.atLeast(out(use, row)), HOLDS, lasts(row, use, { air: call('MAX', air, 0) }));
  const ofWeek = (name: 'Ahead_fish' | 'Ahead_weights', at: AtTank, row: number): Formula =>
    nth(name, at('full_place'), row + 1);
  return {
    noFish,
    breathe,
    stocked,
    level,
    full,
    gill,
    water,
    minutes,
    lasts,
    inlet,
    out,
    flowIn,
    critical,
    lastsWithAir,
    lastsBy,
    ofWeek,
  };
}
type OxygenOfTanks = ReturnType<typeof oxygenOfTanks>;

/** Air and oxygen that the tank's fish use. */
const airColumns = ({ noFish, breathe, stocked, level, full, gill, water }: OxygenOfTanks) =>
  ({
    tank: {
      head: 'Tank',
      width: 23,
      look: 'computed',
      formula: (_, row) => blankWithout([ofTank('Tanks_name', row)], ofTank('Tanks_name', row)),
    },
    air_there: {
      head: 'Air that it has',
      width: 11,
      look: 'input',
      quantity: 'airFlow',
      field: 'air',
      note: 'Of the air stones in this tank. Blank: what happens when the pump alone stops is left out.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the air that this tank gets.' },
    },
    use: {
      head: 'Use of oxygen an hour, peak, g',
      width: 11,
      look: 'result',
      quantity: 'number',
      format: 'one',
      note: 'By the fish of today, some hours after feeding.',
      formula: (_, row) => blankIf(noFish(row), breathe(row).times(named('Plant_peak'))),
      total: sum,
    },
    air: {
      head: 'Air that it needs',
      width: 10,
      look: 'result',
      quantity: 'airFlow',
      note: 'So that the level of the fields is held at the peak by air alone.',
      formula: (at) =>
        stocked(
          at,
          when(
            level.atLeast(full.times(0.98)),
            'less oxygen',
            gill(
              'AIR.DIFFUSED',
              at('use'),
              named('Plant_stone_depth'),
              water,
              level,
              named('Plant_dissolved'),
            ),
          ),
        ),
      total: sum,
    },
    stones: {
      head: 'Air stones',
      width: 9,
      look: 'computed',
      quantity: 'plants',
      format: 'whole',
      formula: (at) => stocked(at, roundedUp(at('air').orZero.over(named('Plant_stone_air')))),
      total: sum,
    },
  }) satisfies Partial<PlantRoomColumns>;

/** How long its fish have when air or pumps stop. */
const stopColumns = ({
  minutes,
  stocked,
  lasts,
  inlet,
  out,
  flowIn,
  critical,
  lastsWithAir,
  lastsBy,
}: OxygenOfTanks) =>
  ({
    all_stops: {
      ...minutes(
        'result',
        'Minutes when all stops',
        'Until the oxygen at which the species is in danger.',
      ),
      formula: (at, row) => stocked(at, lasts(row, at('use'))),
    },
    air_stops: {
      ...minutes(
        'computed',
        'Minutes when the air stops',
        'While the pump runs on at the turnover of “Pumps and flow”, with the oxygen that comes back.',
      ),
      formula: (at, row) => {
        const settles = inlet.minus(
          out(at('use'), row)
            .times(1000)
            .over(call('MAX', flowIn(row), 0.001)),
        );
        return stocked(
          at,
          when(
            all(flowIn(row).above(0), settles.atLeast(critical(row))),
            HOLDS,
            lasts(row, at('use'), { water: [flowIn(row), inlet] }),
          ),
        );
      },
    },
    pump_stops: {
      ...minutes(
        'computed',
        'Minutes when the pump stops',
        'While the air that the tank has runs on.',
      ),
      formula: (at, row) =>
        stocked(at, blankWithout([at('air_there')], lastsWithAir(row, at('use'), at('supply')))),
    },
    full_week: {
      head: 'Its fullest week',
      width: 11,
      look: 'computed',
      format: 'date',
      note: 'The week ahead in which most kilograms stand in it, by the Tank year sheet.',
      formula: (at) => blankWithout([at('full_place')], nth('Weeks_date', at('full_place'))),
    },
    full: {
      ...minutes(
        'result',
        'Minutes, all stops, fullest week',
        'With the fish, their weight and the water of that week.',
      ),
      // Plain in both forms: the weeks ahead hang on calls already, and each link costs a round trip.
      formula: (at, row) => blankWithout([at('full_use')], lastsBy(plainCall)(row, at('full_use'))),
    },
    unfed: {
      ...minutes(
        'computed',
        'All stops, but no feed for a day',
        'Fish without feed use least: stop feeding before a storm.',
      ),
      formula: (at, row) => stocked(at, lasts(row, at('unfed_use'))),
    },
    halved: {
      ...minutes('computed', 'All stops, half the fish', 'Fed like today.'),
      formula: (at, row) => stocked(at, lasts(row, at('use').over(2))),
    },
  }) satisfies Partial<PlantRoomColumns>;

/** Oxygen that is there and kept ready. */
const oxygenColumns = ({ minutes, stocked, lasts, full, lastsWithAir, out }: OxygenOfTanks) =>
  ({
    saturated: {
      ...minutes(
        'computed',
        'All stops, water full of oxygen',
        'From saturation: all that air alone can put into the water beforehand.',
      ),
      formula: (at, row) => stocked(at, lasts(row, at('use'), { from: full })),
    },
    backup: {
      ...minutes(
        'result',
        'All stops, stand-by stones start',
        'As many as the fields say, with the air of one stone each.',
      ),
      formula: (at, row) =>
        stocked(at, lastsWithAir(row, at('use'), named('Plant_standby_brings'))),
    },
    verdict: {
      head: 'What lengthens them most',
      width: 40,
      look: 'verdict',
      formula: (at, row) => {
        const needed = roundedUp(
          out(at('use'), row)
            .times(named('Plant_standby'))
            .over(call('MAX', named('Plant_standby_brings'), 0.000001)),
        );
        return cases(
          [
            [at('use').isBlank, ''],
            [at('backup').is(HOLDS), 'the stand-by stones: they hold it as it is'],
            [named('Plant_standby_brings').atMost(0), 'air that starts by itself, and an alarm'],
          ],
          joined('stand-by air: ', written(needed, '0'), ' stones hold it; and no feed'),
        );
      },
    },
  }) satisfies Partial<PlantRoomColumns>;

/** What the columns before look up. */
const workingColumns = ({ gill, noFish, breathe, ofWeek }: OxygenOfTanks) =>
  ({
    pipe_water: {
      helper: true,
      head: 'Water in the pipe, L',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (_, row) => {
        const [bore, pipe] = [nth('Pumps_bore', row + 1), nth('Pumps_pipe', row + 1)];
        return when(any(bore.orZero.is(0), pipe.orZero.is(0)), 0, gill('PIPE.VOLUME', bore, pipe));
      },
    },
    supply: {
      helper: true,
      head: 'Oxygen that the air brings an hour, g',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (at) => airBrings(at('air_there')),
    },
    unfed_use: {
      helper: true,
      head: 'Use of oxygen an hour without feed, g',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      // Not by the use with feed: each link of a chain of calls costs a round trip.
      formula: (_, row) => blankIf(noFish(row), breathe(row, NO_FEED)),
    },
    full_place: {
      helper: true,
      head: 'Place of its fullest week',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'whole',
      formula: (_, row) => nth('Ahead_full_place', 1, row + 1),
    },
    full_use: {
      helper: true,
      head: 'Use of oxygen an hour in it, peak, g',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (at, row) =>
        blankWithout(
          [at('full_place')],
          gill(
            'OXYGEN.FISH',
            ofWeek('Ahead_fish', at, row),
            ofWeek('Ahead_weights', at, row),
            ofTank('Tanks_species', row),
            nth('Weeks_water', at('full_place')),
          ).times(named('Plant_peak')),
        ),
    },
    oxygen_least: {
      helper: true,
      head: 'Least oxygen of its species, mg/L',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (_, row) => {
        const line = nth('Tanks_line', row + 1);
        return when(line.isNumber, nth('Fish_oxygen_least', line), '');
      },
    },
  }) satisfies Partial<PlantRoomColumns>;

export function tankColumns(ctx: PlanContext): PlantRoomColumns {
  const tanks = oxygenOfTanks(ctx);

  const columns: Columns<TankEntry, 'Plant'> = {
    ...airColumns(tanks),
    ...stopColumns(tanks),
    ...oxygenColumns(tanks),
    ...workingColumns(tanks),
  };
  return columns;
}
