import { describe, expect, it } from 'vitest';
import { fishLog } from '../../src/core/fish-log';
import type { Species } from '../../src/core/tables/species';
import { speciesTable } from '../../src/functions/species-table';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { fishRowsOf } from '../../src/plan/registers-of-farm';
import { farmOfProposal } from '../../src/size/farm-of-proposal';
import { propose } from '../../src/size/proposal';
import { readWish } from '../../src/size/wish';
import { figuresOf } from '../plan/plan-figures';
import { few } from '../tools/how-many';
import { farmDifferences } from '../tools/same-farm';
import { smallestWish } from '../tools/smallest-wish';
import { DAY, planFaults, planOf } from './wish-faults';

const fileOf = (json: object) => farmOfProposal(propose(readWish(json, DAY)));
const farmOf = (json: object): Farm => readFarm(fileOf(json));
const without = (...answers: string[]): object =>
  Object.fromEntries(Object.entries(smallestWish).filter(([key]) => !answers.includes(key)));
const smallest = planOf(smallestWish);
const US = {
  ...smallestWish,
  units: 'US',
  coldest: 54,
  warmest: 80,
  fish: { species: 'Nile tilapia', lbPerMonth: 220 },
};

describe('the farm of a proposal', () => {
  it('marks everything that nobody said as preset, and nothing that somebody said', () => {
    const farm = farmOf(smallestWish);
    const fields = new Set(farm.presets.map(({ field }) => field));
    for (const field of [
      'site.altitude',
      'months[].water',
      'months[].humidity',
      'tanks[].volume',
      'stock.wanted',
      'beds[].length',
      'fishLog[].fish',
      'water.sump',
      'markets[].every',
    ])
      expect(fields, field).toContain(field);
    for (const field of [
      'site.latitude',
      'stock.species',
      'currency',
      'markets[].crop',
      'markets[].perWeek',
    ])
      expect(fields, field).not.toContain(field);
    expect(farm.presets.every(({ why }) => why.length > 10)).toBe(true);
  });

  it('shows presets as such in the plan, and typed figures as typed', () => {
    const lookAt = (name: string): string | undefined => {
      const { sheet, area } = smallest.names.find((one) => one.name === name) as {
        sheet: string;
        area: { row: number; column: number };
      };
      return smallest.sheets.find((one) => one.name === sheet)?.rows[area.row]?.[area.column]?.look;
    };
    expect(lookAt('Farm_altitude')).toBe('preset');
    expect(lookAt('Farm_latitude')).toBe('input');
    expect(lookAt('Tanks_volume')).toBe('preset');
    expect(lookAt('Tanks_species')).toBe('input');
    expect(lookAt('Month_humidity')).toBe('preset');
    expect(lookAt('Stock_wanted')).toBe('preset');
    expect(lookAt('Sowing_wanted')).toBe('input');
    expect(lookAt('Sowing_every')).toBe('preset');
    expect(lookAt('Plant_settler_area')).toBe('preset');
  });

  it('leaves prices blank and out of Money', () => {
    const { all } = figuresOf(smallest);
    expect(
      all('Sowing_price')
        .slice(0, 2)
        .map((one) => one ?? ''),
    ).toEqual(['', '']);
    for (const name of ['Money_crop_year', 'Money_fish_year', 'Money_left', 'Money_costs'])
      expect(all(name)[0], name).toBe('');
    expect(String(all('Money_verdict')[0])).toMatch(/stays open: .* a price/);
  });

  it.each(
    few(2, [
      ['half', without('latitude', 'market')],
      ['US', US],
      ['metric', smallestWish],
    ] as const),
  )('comes back from its workbook with its presets and its gaps: %s', (_, json) => {
    const farm = farmOf(json);
    const book = openBook(writeXlsx(planWorkbook(farm, { formulas: 'plain' }), () => 0));
    const { farm: back, faults } = readBook(book);
    expect(faults).toEqual([]);
    expect(farmDifferences(farm, back as Farm)).toEqual([]);
    expect(back?.presets.length).toBe(farm.presets.length);
  });

  it('is preset no more where another figure was typed', () => {
    const file = fileOf(smallestWish) as { site: object };
    const typed = readFarm({ ...file, site: { ...file.site, altitude: 310 } });
    const model = planWorkbook(typed, { formulas: 'live' });
    const name = model.names.find((one) => one.name === 'Farm_altitude');
    const cell = model.sheets.find((one) => one.name === 'Site')?.rows[name?.area.row ?? 0]?.[
      name?.area.column ?? 0
    ];
    expect(cell).toMatchObject({ value: 310, look: 'input' });
  });

  it('orders fish in rows of the Fish log that can all be', () => {
    const farm = farmOf(smallestWish);
    const { rows } = fishLog(fishRowsOf(farm.fishLog), {
      tanks: farm.tanks.map(({ name, volume, species }) => ({
        name,
        volume,
        species: speciesTable.book.find(species) as Species,
      })),
      water: farm.months.map(({ water }) => water ?? NaN),
      asOf: farm.asOf,
    });
    expect(rows).toHaveLength(farm.tanks.length);
    expect(rows.filter(({ problem, doubt }) => problem ?? doubt)).toEqual([]);
  });
});

describe('the plan of a wish has no error in any cell, and the checks have no objection', () => {
  it.each(
    few(2, [
      ['with every answer', () => smallest],
      ['in American units, on gravel', () => planOf({ ...US, choices: { beds: 'gravel' } })],
      ['in American units', () => planOf(US)],
      ['on gravel', () => planOf({ ...smallestWish, choices: { beds: 'gravel' } })],
    ] as const),
  )('%s', (_, plan) => {
    expect(planFaults(plan())).toEqual([]);
  });

  // Each answer left out alone, and many more wishes: npm run soak:wishes.
  it.each(
    few(2, [
      ['without any answer', {}] as const,
      [
        'of tanks in water that nobody knows',
        { ...without('heated'), have: ['3 tanks of 2 m3'] },
      ] as const,
      ...['latitude', 'fish', 'market'].map(
        (answer) => [`without ${answer}`, without(answer)] as const,
      ),
    ]),
  )('%s', (_, json) => {
    const faults = planFaults(planOf(json)).filter((one) => !/no crop/.test(one));
    expect(faults).toEqual([]);
  });

  it('says what is missing, and what stays blank without it', () => {
    const model = planOf(without('latitude', 'market'));
    const { values } = figuresOf(model);
    const said = Array.from({ length: 20 }, (_, i) => String(values('Presets', 4 + i, 0) ?? ''));
    expect(
      said.filter((one) => /^Latitude: |^Market: |^Water of the months: /.test(one)),
    ).toHaveLength(3);
  });
});

describe('the farm as it runs', () => {
  it('is in balance by the Balance sheet, with no tank above its limit', () => {
    const file = fileOf(smallestWish) as Record<string, unknown> & {
      tanks: { name: string }[];
      beds: object[];
    };
    const { fish, remarks } = propose(readWish(smallestWish, DAY));
    // Half way between two harvests, beds full.
    const count = file.tanks.length;
    const grown = (age: number): number =>
      ((fish?.startWeight ?? 0) ** (1 / 3) +
        ((fish?.harvestWeight ?? 0) ** (1 / 3) - (fish?.startWeight ?? 0) ** (1 / 3)) * age) **
      3;
    const running = readFarm({
      ...file,
      fishLog: [],
      tanks: file.tanks.map((tank, i) => ({
        ...tank,
        fish: fish?.stocked,
        weight: grown((i + 0.5) / count),
      })),
      beds: file.beds.map((bed) => ({ ...bed, sown: '2026-10-01', planted: '2026-11-01' })),
    });
    const model = planWorkbook(running, { formulas: 'live' });
    const { all } = figuresOf(model);
    expect(String(all('Balance_verdict')[0])).toMatch(/^Feed and beds are in balance/);
    expect(Math.abs((all('Balance_share')[0] as number) - 1)).toBeLessThan(0.1);
    expect(String(all('Filter_verdict')[0])).toBe('Filter and beds take up all the ammonia.');
    // No wish says what is there in an outage, nor lamps: both are remarks of the proposal, and nothing else is found.
    const found = planFaults(model);
    expect(found).toEqual([
      expect.stringMatching(/^Beds: .+ of the least light that it wants/),
      expect.stringMatching(/^Money: Nothing is typed that gives \d+ W when the mains fail/),
    ]);
    const notes = remarks.flatMap(({ kind, says }) => (kind === 'note' ? [says] : []));
    expect(notes).toContainEqual(
      expect.stringMatching(/^Without lamps light .* lettuce in January, Nov/),
    );
    expect(notes).toContainEqual(expect.stringMatching(/battery or the generator .* mains fail/));
  });
});
