import { describe, expect, it } from 'vitest';
import { MONTH } from '../../src/core/stocking';
import { countedFarm } from '../../src/experience/taken-over';
import { planWorkbook } from '../../src/plan/plan';
import { type QuantityId, shownIn, toShown } from '../../src/plan/quantities';
import { sampleFarm } from '../tools/farms';
import { figuresOf } from './plan-figures';

/** No sheet says otherwise than another: each quantity is read wherever the sheets show it, in the farm's units. */

const sum = (figures: readonly number[]): number => figures.reduce((all, one) => all + one, 0);

describe.each(['quillwater', 'larkfield-school', 'aldermoor-springs'] as const)('%s', (name) => {
  const farm = countedFarm(sampleFarm(name));
  const model = planWorkbook(farm, { formulas: 'plain' });
  const { values, number, numbers, rows, all } = figuresOf(model);
  const lines = (sheet: string): number =>
    model.sheets.find((one) => one.name === sheet)?.rows.length ?? 0;
  /** The row of a label in the first column, after so many others of the same. */
  const rowOf = (sheet: string, label: string, skipped = 0): number => {
    const found = Array.from({ length: lines(sheet) }, (_, row) => row).filter(
      (row) => values(sheet, row, 0) === label,
    );
    const row = found[skipped];
    if (row === undefined) throw new Error(`${sheet} has no line ${label}`);
    return row;
  };
  const beside = (sheet: string, label: string): unknown => values(sheet, rowOf(sheet, label), 1);
  /** The figure beside a head, so many rows from it: above it that of the whole farm, below it the first line's. */
  const atHead = (sheet: string, head: string, rows: number): unknown => {
    for (let row = 0; row < lines(sheet); row++) {
      for (let column = 0; column < 30; column++) {
        const text = values(sheet, row, column);
        if (text === head || (typeof text === 'string' && text.startsWith(`${head}, `)))
          return values(sheet, row + rows, column);
      }
    }
    throw new Error(`${sheet} has no column ${head}`);
  };
  const above = (sheet: string, head: string): unknown => atHead(sheet, head, -1);
  const below = (sheet: string, head: string): unknown => atHead(sheet, head, 1);
  const today = (name: string): number => all(name)[0] as number;
  const shown = (metric: number, quantity: QuantityId): number =>
    toShown(metric, quantity, farm.units);

  const same = (places: Readonly<Record<string, unknown>>): void => {
    const [first, ...others] = Object.entries(places);
    const of = first?.[1] as number;
    expect(of, first?.[0]).toBeTypeOf('number');
    for (const [place, value] of others) {
      expect(value, place).toBeTypeOf('number');
      expect(Math.abs((value as number) - of), `${place}: ${String(value)}, ${of}`).toBeLessThan(
        1e-9 * Math.max(1, Math.abs(of)),
      );
    }
  };

  it('has one day', () => {
    same({
      Start: beside('Start', 'Day of the plan, changed on Site'),
      Site: beside('Site', 'Day of the plan'),
      'its name': number('Farm_date'),
    });
  });

  it('has one biomass', () => {
    same({
      Start: beside('Start', 'Biomass of the fish'),
      'sum of tanks': shown(sum(numbers('Tanks_biomass')), 'mass'),
      Tanks: above('Tanks', 'Biomass'),
      'Tank year, today': shown(today('Ahead_standing'), 'mass'),
      'Stock plan, today': below('Stock plan', 'All biomass'),
    });
    same({
      'Stock plan, most': beside('Stock plan', 'Most biomass in the year ahead'),
      'Tank year, most': shown(Math.max(...numbers('Ahead_standing')), 'mass'),
    });
  });

  it('has one feed, of the fish and of the beds', () => {
    same({
      Start: beside('Start', 'Feed a day'),
      Balance: beside('Balance', 'Feed given'),
      'sum of tanks': shown(sum(numbers('Tanks_feed')), 'feedDay'),
      Tanks: above('Tanks', 'Feed a day'),
      'Tank year, today': shown(today('Ahead_feed'), 'feedDay'),
      'Stock plan, today': below('Stock plan', 'All feed'),
      'Balance, today': below('Balance', `Feed given, ${shownIn('feedDay', farm.units).unit}`),
    });
    same({
      'Stock plan, most': beside('Stock plan', 'Most feed in the year ahead'),
      'Tank year, most': shown(Math.max(...numbers('Ahead_feed')), 'feedDay'),
    });
    same({
      Start: beside('Start', 'Feed that the planted beds call for'),
      Balance: beside('Balance', 'Feed the beds call for'),
      'sum of beds': shown(sum(numbers('Beds_feed')), 'feedDay'),
    });
  });

  it('has one area of beds', () => {
    const gravel = all('Beds_kind').map((kind) => kind === 'gravel');
    const areas = all('Beds_area').map((area) => (typeof area === 'number' ? area : 0));
    same({
      Start: beside('Start', 'Bed area'),
      Beds: above('Beds', 'Area'),
      'sum of beds': shown(sum(areas), 'area'),
      'what is typed': shown(
        sum(farm.beds.map(({ length = 0, width = 0 }) => length * width)),
        'area',
      ),
    });
    same({
      Balance: beside('Balance', 'Gravel beds'),
      'sum of beds': shown(sum(areas.filter((_, i) => gravel[i])), 'area'),
    });
    same({
      'Plant room': beside('Plant room', 'Gravel beds'),
      Money: beside('Money', 'Gravel beds'),
      'number of beds': gravel.filter(Boolean).length,
    });
  });

  it('has one amount of water, flow, oxygen and power', () => {
    same({
      'Stock plan': beside('Stock plan', 'Water in the tanks'),
      Tanks: above('Tanks', 'Water'),
      'what is typed': shown(sum(farm.tanks.map(({ volume = 0 }) => volume)), 'volume'),
    });
    same({
      'Plant room, tank by tank': above('Plant room', 'Flow for turnover'),
      'Plant room, water ways': beside('Plant room', 'Flow that the tanks ask for'),
    });
    const fish = beside('Plant room', 'Oxygen that the fish use a day') as number;
    const rest = beside('Plant room', 'Oxygen that filter and solids use a day') as number;
    same({
      // In grams everywhere; the Plant room has the farm's own unit.
      Balance: shown(beside('Balance', 'Oxygen for fish and filter') as number, 'dose'),
      'Plant room': fish + rest,
    });
    same({
      'Money, pumps': beside('Money', 'Pumps'),
      'Plant room, pumps': above('Plant room', 'Power at the wall'),
    });
    same({
      'Money, blower': beside('Money', 'Blower'),
      'Plant room, blower': beside(
        'Plant room',
        'Power of the blower for all the air that is needed',
      ),
    });
    same({
      'Money, sump': beside('Money', 'Sump'),
      'Plant room, sump': beside('Plant room', 'Water that the sump must hold'),
    });
  });

  it('has one harvest and one income', () => {
    const wanted = farm.markets.map(({ crop }) => crop);
    for (const crop of new Set(wanted)) {
      same({
        [`Season, ${crop}`]: values('Season', rowOf('Season', crop), 1),
        Sowing: sum(
          farm.markets
            .filter((market) => market.crop === crop)
            .map((market) => market.perWeek ?? 0),
        ),
      });
    }
    const month = (sum(numbers('Ahead_sold')) / (7 * 53)) * MONTH;
    same({
      Start: beside('Start', 'Fish to sell, mean of the year ahead'),
      'Stock plan': beside('Stock plan', 'Sold on average in the year ahead'),
      'Tank year': shown(month, 'massMonth'),
    });
    const year = rows('Money', 'Against wanted');
    const heads = rowOf('Money', 'Month');
    const column = (head: string): number =>
      Array.from({ length: 9 }, (_, c) => c).find((c) => values('Money', heads, c) === head) ?? -1;
    same({
      'Harvest log, all of it': above('Harvest log', 'Income'),
      'Money, twelve months': sum(year.slice(0, 12).map((row) => row[column('Income')] as number)),
      'Money, fish and crops': sum(
        year
          .slice(0, 12)
          .map((row) => (row[column('Fish')] as number) + (row[column('Crops')] as number)),
      ),
    });
    same({
      'what is left': beside('Money', 'Left in a year'),
      'from what comes and goes':
        (beside('Money', 'Fish bring') as number) +
        (beside('Money', 'Crops bring in the months in which they grow') as number) -
        (values('Money', rowOf('Money', 'All costs', 1), 1) as number),
    });
  });

  it('says on Start of each part what its own sheet says', () => {
    for (const [label, name] of [
      ['Feed and beds', 'Balance_verdict'],
      ['Filter', 'Filter_verdict'],
      ['Sump', 'Sump_verdict'],
      ['Fish', 'Stock_verdict'],
      ['Money', 'Money_verdict'],
    ] as const) {
      const words = values('Start', rowOf('Start', label), 1);
      expect(words).toMatch(/\w{3}/);
      expect(words, label).toBe(all(name)[0]);
    }
  });
});
