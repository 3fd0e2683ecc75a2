import { type DayParts, leapDays } from '../day-parts';
import { growthWeightCard } from '../../functions/growth-cards';
import { cardStep } from '../card-step';
import { call, type Formula, part, sum, when } from '../formula-parts';
import { named, nth } from '../names';
import { cellRef, fixedRef, rowRef } from '../references';
import { area } from '../sheet-builder';
import { TANK_YEAR, HEAD_ROW, FIRST_ROW, type TankYear, cubeRoot } from './tank-year-layout';

/** One line a tank, beside the first rows: what it holds on the day of the plan. */
export function heldTanks(year: TankYear): void {
  const { sheet, tanks, place, today, put, grown } = year;
  sheet.heads(HEAD_ROW, place.held, ['Fish now', 'Root now', 'Limit, kg/m³', 'Water, L']);
  const thisDay: DayParts = {
    years: part(0),
    month: call('MONTH', today),
    days: call('DAY', today).minus(1),
    leap: cellRef(HEAD_ROW - 1, place.held),
  };
  put(HEAD_ROW - 1, place.held, leapDays(today, thisDay), 'whole');
  const leapNow = fixedRef(area(HEAD_ROW - 1, place.held));
  for (let k = 0; k < tanks; k++) {
    const row = FIRST_ROW + k;
    const number = part(k + 1);
    put(row, place.held, nth('Held_fish', number).orZero);
    put(
      row,
      place.held + 1,
      when(
        rowRef(row, place.held).above(0),
        cubeRoot(nth('Held_weight', number).orZero).minus(
          grown(number, { ...thisDay, leap: leapNow }),
        ),
        0,
      ),
    );
    put(row, place.held + 2, call('IFERROR', nth('Tanks_limit', number).orZero, 0));
    put(row, place.held + 3, nth('Tanks_volume', number).orZero);
  }
}

/**
 * The expected rate of deaths: those of the main species from stocking to sale, spread over its days in a year's water.
 */
export function rateOfDeaths(year: TankYear): void {
  const { ctx, place, put } = year;
  const line = named('Stock_line');
  const fact = (name: string): Formula => nth(`Fish_${name as 'tgc'}`, line);
  const lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  lengths.forEach((length, m) =>
    put(
      FIRST_ROW + m,
      place.life,
      cardStep(growthWeightCard, 'temperature', {
        arguments: { water: nth('Month_water', m + 1) },
        fact,
      }).times(length),
    ),
  );
  const yearly = sum(fixedRef(area(FIRST_ROW, place.life, 12)));
  put(
    HEAD_ROW,
    place.life,
    when(
      line.isBlank,
      1,
      call(
        'IFERROR',
        named('Stock_survival_counts').power(
          fact('tgc')
            .over(1000)
            .times(yearly)
            .over(365)
            .over(
              cubeRoot(named('Stock_harvest_weight')).minus(cubeRoot(named('Stock_start_weight'))),
            ),
        ),
        1,
      ),
    ),
  );
  ctx.name('Ahead_survival', TANK_YEAR, area(HEAD_ROW, place.life));
}
