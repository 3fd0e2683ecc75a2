import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { howMany } from '../tools/how-many';
import { figuresOf } from './plan-figures';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const species = fc.constantFrom('Nile tilapia', 'rainbow trout', 'channel catfish', 'common carp');

/** °C: water in which each of the species lives; what they use is an error in any other. */
const ALL_LIVE = 18;

const farms = fc.record({
  tanks: fc.array(
    fc.record(
      {
        volume: between(300, 40000),
        species,
        fish: fc.integer({ min: 1, max: 2000 }),
        weight: between(5, 900),
        bore: between(20, 160),
        pipe: between(0, 60),
        lift: between(0.2, 4),
        air: between(0, 80),
      },
      { requiredKeys: ['volume', 'species', 'fish', 'weight'] },
    ),
    { minLength: 1, maxLength: 3 },
  ),
  beds: fc.array(
    fc.record({
      kind: fc.constantFrom('raft', 'gravel', 'film'),
      length: between(1, 12),
      width: between(0.5, 2),
      depth: between(0.1, 0.5),
    }),
    { minLength: 1, maxLength: 5 },
  ),
  houseVolume: fc.option(between(100, 4000), { nil: undefined }),
  figures: fc.record({
    Plant_discharge: between(0, 0.1),
    Plant_source_sodium: between(0, 200),
    Plant_source_chlorine: between(0, 4),
    Plant_drain_length: between(0, 50),
    Plant_drain_bore: between(40, 200),
    Plant_bed_flow: between(100, 20000),
    Plant_bed_bore: between(20, 60),
    Plant_bed_drop: between(0.05, 1),
    Plant_watts_fans: between(0, 2000),
    Plant_hours_fans: between(0, 24),
    Flood_together: between(0.05, 1),
  }),
});

const close = (ours: number, theirs: number): void =>
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(0.001 * Math.abs(theirs) + 1e-6);
const total = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0);

describe('the balances of Plant room and Money, on random farms, within 0.1 %', () => {
  // Drawn once and looked at one by one: a plan is too large to shrink.
  it.each(
    fc
      .sample(farms, { numRuns: howMany(3, 6), seed: 20261127 })
      .map((farm, i) => [i + 1, farm] as const),
  )(
    'close for water, salt, oxygen, flooded beds, pipes and power, and no cell shows an error: farm %d',
    (_, { tanks, beds, houseVolume, figures }) => {
      const { place, latitude, altitude } = demoFarm.site;
      const site = { place, latitude, altitude };
      const farm = readFarm({
        ...demoFarm,
        site: { ...site, ...(houseVolume !== undefined && { houseVolume }) },
        months: demoFarm.months.map((month) => ({ ...month, water: ALL_LIVE })),
        tanks: tanks.map((tank, i) => ({ ...tank, name: `Tank ${i + 1}` })),
        beds: beds.map((bed, i) => ({ ...bed, name: `B${i + 1}` })),
        markets: [],
        fishLog: [],
        plantings: [],
        treatments: [],
        harvests: [],
        figures,
      });
      const model = planWorkbook(farm, { formulas: 'live' });
      const { number, numbers, all, values } = figuresOf(model);

      // Water, and a salt that only leaves with the discharge: by small steps.
      const [makeup, water] = [number('Plant_makeup'), number('Water_total')];
      const out = figures.Plant_discharge * water;
      close(makeup, number('Plant_crop_water') + number('Plant_evaporation') + out);
      let [salt, left] = [figures.Plant_source_sodium * water, 0];
      const came = makeup * figures.Plant_source_sodium;
      for (let i = 0; i < 36500; i++) {
        const middle = salt + (came - (out * salt) / water) / 200;
        left += (out * middle) / water / 100;
        salt += (came - (out * middle) / water) / 100;
      }
      close(number('Plant_sodium') * water, salt);
      close(salt + left, figures.Plant_source_sodium * water + 365 * came);

      // Oxygen: what stood in the tank is what fish and bacteria used meanwhile.
      const [use, minutes] = [all('Plant_use'), all('Plant_all_stops')];
      // Trout want 6 mg/L, the others less than the usual 5.5.
      const held = tanks.some(({ species: kind }) => kind === 'rainbow trout') ? 6 : 5.5;
      tanks.forEach(({ volume, species: kind }, i) => {
        const critical = { 'rainbow trout': 5, 'channel catfish': 2.5 }[kind as string] ?? 2;
        const used = ((Number(use[i]) + (2 * volume) / 1000) * Number(minutes[i])) / 60;
        close(used, ((held - critical) * volume) / 1000);
      });

      // Flooded beds: what the pump brings in a round is what they hold.
      const fill = all('Plant_bed_fill')[0];
      if (typeof fill === 'number') {
        const held = number('Gravel_area') * number('Flood_depth') * number('Flood_voids') * 1000;
        const each = held / number('Plant_beds');
        const pumped = (fill / 60) * figures.Plant_bed_flow;
        close(pumped, each * number('Plant_bed_together'));
        const sump = number('Plant_sump');
        const pipes = total(numbers('Plant_pipe_water'));
        close(sump, pipes + number('Flood_volume') + 100 + number('Plant_evaporation'));
      }

      // Pipes: every metre is in one line of the list.
      const list = model.sheets.find(({ name }) => name === 'Money');
      const metres = (list?.rows ?? []).flatMap((row, r) =>
        String(row[0]?.value ?? '').startsWith('Pipe ') ? [Number(values('Money', r, 1))] : [],
      );
      expect(metres).toHaveLength(6);
      const returns = figures.Plant_drain_length * Math.max(1, number('Plant_drain_pipes'));
      close(total(metres), total(tanks.map(({ pipe }) => pipe ?? 0)) + returns);

      // Power: what runs, for as long as it runs.
      const watts = total(numbers('Pumps_power')) + number('Plant_blower');
      const fans = figures.Plant_watts_fans * figures.Plant_hours_fans;
      close(number('Plant_energy'), 0.365 * (24 * watts + fans));

      for (const { name, rows } of model.sheets) {
        if (name !== 'Plant room' && name !== 'Money') continue;
        rows.forEach((row, r) =>
          row.forEach((cell, c) => {
            if (!cell?.formula) return;
            const value = values(name, r, c);
            expect(`${name} ${r + 1} ${c + 1} ${JSON.stringify(value)}`).not.toMatch(
              /#[A-Z/0]+[!?]|code/,
            );
          }),
        );
      }
    },
  );
});
