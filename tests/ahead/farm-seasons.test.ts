import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CropOutlook, emptyBedWeeks, marketOutlook, planBeds } from '../../src/ahead/bed-plan';
import { aheadAsked } from '../../src/ahead/asked';
import { type BedReport, shareOfWeeksServed } from '../../src/ahead/bed-report';
import { planAhead } from '../../src/ahead/plan-ahead';
import { marketLines } from '../../src/ahead/report-lines';
import { farmOfProposal } from '../../src/size/farm-of-proposal';
import { propose } from '../../src/size/proposal';
import { readWish } from '../../src/size/wish';
import { smallestWish } from '../tools/smallest-wish';
import { fixedCadence } from '../../src/ahead/fixed-cadence';
import { choicesForBed } from '../../src/ahead/open-bed';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { unitsPerPlant } from '../../src/plan/units-per-plant';
import type { SeasonBed } from '../../src/ahead/season';
import { loadSolver } from '../../src/ahead/solver';
import { crops, usual } from '../../src/core/tables/crops';
import { readFarm } from '../../src/plan/farm';
import { heldTwice } from './beds-held-twice';

const solve = await loadSolver();
const sample = (name: string) =>
  readFarm(JSON.parse(readFileSync(`sample-workbooks/${name}.json`, 'utf8')));
const lettuce = crops.find(({ name }) => name === 'lettuce')!;

describe('the season of a farm', () => {
  it('sells more than sowing at a fixed interval', () => {
    const farm = sample('aldermoor-springs');
    const { season } = seasonOfFarm(farm, { weeks: 30 });
    const plan = planBeds(solve, season, { seconds: 90, gap: 0.02 });
    const cadence = fixedCadence(farm, season);
    expect(heldTwice(season, plan.plantings)).toEqual([]);
    expect(heldTwice(season, cadence.plantings)).toEqual([]);
    const income = (outlook: readonly CropOutlook[]): number =>
      outlook.reduce((sum, { short, weeks }, c) => {
        const wanted = weeks.reduce((units, week) => units + week.wanted, 0);
        return sum + (wanted - short) * (season.crops[c]?.price ?? 0);
      }, 0);
    const before = marketOutlook(season, cadence.plantings);
    expect(income(plan.outlook)).toBeGreaterThan(1.1 * income(before));
    expect(shareOfWeeksServed(plan)).toBeGreaterThan(shareOfWeeksServed({ outlook: before }));
    expect(emptyBedWeeks(season, plan.plantings)).toBeGreaterThanOrEqual(0);
  });

  it('counts crops already in the beds as supply, and keeps those beds until they are cleared', () => {
    const { season } = seasonOfFarm(sample('quillwater'), { weeks: 30 });
    const crop = season.crops.find(({ name }) => name === 'lettuce')!;
    // Twelve rafts of 170 heads stand uncut, four of them ready since last week; two more are planned.
    const standing = crop.standing.reduce((sum, units) => sum + units, 0);
    expect(standing).toBeCloseTo(14 * 170, 6);
    expect(season.beds.find(({ name }) => name === 'R01')?.freeFrom).toBeLessThan(season.from + 7);
    expect(season.beds.find(({ name }) => name === 'R11')?.freeFrom).toBeGreaterThan(season.from);
    expect(season.beds.find(({ name }) => name === 'R24')?.freeFrom).toBe(season.from);
  });

  it('uses the weights of the crop table where no yield is typed', () => {
    expect(unitsPerPlant(lettuce, { unit: 'kg' })).toBe(usual(lettuce, 'kg_per_plant'));
    expect(unitsPerPlant(lettuce, { unit: 'piece' })).toBeCloseTo(
      (1000 * usual(lettuce, 'kg_per_plant')) / usual(lettuce, 'piece_weight'),
      9,
    );
    expect(unitsPerPlant(lettuce, { unit: 'kg', perPlant: 3 })).toBe(3);
  });

  it('plans nothing for a bed with an unknown planting date, and says so', () => {
    const file = JSON.parse(readFileSync('sample-workbooks/aldermoor-springs.json', 'utf8'));
    const { name, kind, length, width } = file.beds[0];
    file.beds[0] = { name, kind, length, width, crop: 'lettuce', plants: 200 };
    file.plantings = file.plantings.filter(({ bed }: { bed?: string }) => bed !== name);
    const { season, notes } = seasonOfFarm(readFarm(file), { weeks: 12 });
    const [first] = season.beds as [SeasonBed];
    expect(notes.join()).toMatch(
      new RegExp(`^${first.name} holds .* without a date of sowing or planting`),
    );
    const { plantings } = planBeds(solve, season, { seconds: 20 });
    expect(plantings.filter(({ bed }) => bed === first.name)).toEqual([]);
  });

  it('plans the beds of a farm that was just sized: set aside for a crop, nothing sown', () => {
    const file = farmOfProposal(propose(readWish(smallestWish, 46388))) as object;
    const { season, notes } = seasonOfFarm(readFarm(file), { weeks: 16 });
    expect(notes.join()).toMatch(/set aside for a crop, with neither plants nor a date/);
    const { plantings } = planBeds(solve, season, { seconds: 20, gap: 0.05 });
    expect(plantings.length).toBeGreaterThan(0);
  });

  it('plans the beds alone of a farm that has no tanks', () => {
    const { fish, ...rest } = smallestWish;
    const file = farmOfProposal(propose(readWish(rest, 46388))) as object;
    const planned = planAhead(
      aheadAsked(readFarm(file), { part: 'both', weeks: 16, without: [], seconds: 20 }),
      solve,
    );
    expect(fish.species).toBe('Nile tilapia');
    expect(planned.fish).toBeUndefined();
    expect(planned.beds?.report.notes.join()).toMatch(/the farm has no tanks/);
    // Whole units of what is there and what is short come to what is wanted.
    for (const { wanted, served, short } of marketLines(planned.beds?.report as BedReport))
      expect(served + short).toBe(wanted);
  });

  it('names the crops that serve the market best in an empty bed, with reasons', () => {
    const { season } = seasonOfFarm(sample('quillwater'), { weeks: 30 });
    const bed = season.beds.find(({ name }) => name === 'R24')!;
    const choices = choicesForBed(season, bed, []);
    expect(choices.length).toBeGreaterThanOrEqual(3);
    expect(choices[0]?.valuePerWeek).toBeGreaterThanOrEqual(choices[1]?.valuePerWeek ?? 0);
    expect(choices[0]?.reasons[0]).toMatch(/^the market is short of .* from week 2026-W\d\d/);
    for (const { crop } of choices) {
      expect(season.crops.find(({ name }) => name === crop)?.kinds).toContain('raft');
    }
  });
});
