import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm, readFarmSoFar, wholeFarm } from '../../src/plan/farm';
import { adviceOn } from '../../src/sidebar/plan/advice';
import { balanceOf } from '../../src/sidebar/plan/balance';
import { Draft, type Json } from '../../src/sidebar/plan/draft';
import {
  changeUnits,
  inPerCent,
  shownText,
  typedValue,
  unitText,
} from '../../src/sidebar/plan/entries';
import { parseFarmFile } from '../../src/sidebar/plan/farm-files';
import {
  cropsToSell,
  newFarm,
  suggestForCrops,
  suggestForSpecies,
} from '../../src/sidebar/plan/new-farm';

const demo = (): Draft => new Draft(structuredClone(demoFarm) as unknown as Json);

describe('a farm file that is being filled in', () => {
  it('reads and sets fields by their path', () => {
    const draft = demo();
    expect(draft.get('tanks[1].fish')).toBe(630);
    draft.set('tanks[1].fish', 10);
    draft.set('tanks[1].weight', undefined);
    expect(draft.list('tanks')[1]).toMatchObject({ fish: 10 });
    expect(draft.list('tanks')[1]).not.toHaveProperty('weight');
    expect(draft.get('nothing[3].here')).toBeUndefined();
  });

  it('says what is wrong, by field', () => {
    const draft = demo();
    draft.set('tanks[1].fish', -3);
    draft.set('site.latitude', 'north');
    draft.set('name', undefined);
    const { farm, wrong } = draft.check();
    expect(farm).toBeUndefined();
    expect(wrong.map((wrong) => wrong.path).sort()).toEqual([
      'name',
      'site.latitude',
      'tanks[1].fish',
    ]);
    expect(wrong.find((wrong) => wrong.path === 'name')?.missing).toBe(true);
    const fish = wrong.find((wrong) => wrong.path === 'tanks[1].fish');
    expect(fish?.missing).toBe(false);
    expect(fish?.sentence).toBe('Must be a whole number from 0 to 10,000,000 fish; got -3');
    draft.set('waterTests[0].ph', 72);
    const ph = draft.check().wrong.find((wrong) => wrong.path === 'waterTests[0].ph');
    expect(ph?.sentence).toBe('Must be a pH from 3 to 12; got 72');
  });

  it('asks of a new farm only what it cannot do without', () => {
    const { wrong } = new Draft(newFarm('2026-04-13')).check();
    expect(wrong.length).toBeGreaterThan(0);
    expect(wrong.filter((wrong) => !wrong.missing)).toEqual([]);
  });

  it('accepts the example farm', () => {
    expect(demo().check().wrong).toEqual([]);
  });

  it('refuses files that are no farm, with a sentence', () => {
    for (const text of ['', 'x', '[]', '"a"', '{"a":1}']) {
      expect(() => parseFarmFile(text)).toThrow('This is no farm file');
    }
    expect(parseFarmFile('{"units":"US"}')).toEqual({ units: 'US' });
  });
});

describe('what stands in a field', () => {
  const share = { kind: 'measured', quantity: 'share' } as const;
  const volume = { kind: 'measured', quantity: 'volume' } as const;
  it('shows shares as per cent and keeps them as shares', () => {
    expect(shownText(share, 0.07)).toBe('7');
    expect(typedValue(share, '7')).toBe(0.07);
    expect(typedValue(share, '7 %')).toBe('7 %');
    expect(inPerCent('Must be a number from 0.05 to 1 (1 is 100 %); got 1.2')).toBe(
      'Must be a number from 5 % to 100 %; got 120 %',
    );
    expect(inPerCent('Must be a number above 0 and up to 1 (1 is 100 %); got "x1"')).toBe(
      'Must be a number above 0 % and up to 100 %; got "x1"',
    );
  });
  it('takes figures as numbers and anything else as it is', () => {
    expect(typedValue(volume, '1,100')).toBe(1100);
    expect(typedValue(volume, '1100 gal')).toBe('1100 gal');
    expect(typedValue(volume, '7,5')).toBe('7,5');
    expect(typedValue(volume, ' ')).toBeUndefined();
    expect(typedValue({ kind: 'text' }, '12')).toBe('12');
  });
  it('has the unit of the farm beside it', () => {
    expect(unitText(volume, 'metric', 'EUR')).toBe('L');
    expect(unitText(volume, 'US', 'EUR')).toBe('gal');
    expect(unitText({ kind: 'price' }, 'US', 'USD')).toBe('USD/lb');
    expect(unitText({ kind: 'measured', quantity: 'temperature' }, 'US', '')).toBe('°F');
  });
});

describe('the change of units', () => {
  it('leaves the farm the same after a round trip', () => {
    const draft = demo();
    const before = readFarm(JSON.parse(draft.file()) as Json);
    changeUnits(draft, 'US');
    expect(draft.get('units')).toBe('US');
    // 1 US gallon is 3.785411784 L, 1 lb 453.59237 g, by definition.
    expect(draft.get('tanks[0].volume')).toBeCloseTo(7800 / 3.785411784, 1);
    expect(draft.get('tanks[0].weight')).toBeCloseTo(640 / 453.59237, 4);
    expect(draft.get('months[0].water')).toBeCloseTo(77.9, 6);
    expect(draft.get('feed.price')).toBeCloseTo(1.65 * 0.45359237, 5);
    expect(draft.get('stock.survival')).toBe(0.95);
    const after = readFarm(JSON.parse(draft.file()) as Json);
    const figures = (value: unknown): number[] =>
      typeof value === 'number'
        ? [value]
        : typeof value === 'object' && value !== null
          ? Object.values(value).flatMap(figures)
          : [];
    const metric = ({ months, tanks, beds, water, waterTests, site }: typeof before): number[] =>
      figures({ months, tanks, beds, water, waterTests, site });
    const [old, now] = [metric(before), metric(after)];
    expect(now).toHaveLength(old.length);
    old.forEach((value, i) =>
      expect(Math.abs((now[i] ?? NaN) - value)).toBeLessThan(1e-5 * Math.abs(value) + 1e-9),
    );
    changeUnits(draft, 'metric');
    expect(draft.get('tanks[0].volume')).toBeCloseTo(7800, 1);
  });
});

describe('what the species table suggests', () => {
  it('fills what is empty, and follows a change of species', () => {
    const draft = new Draft(newFarm('2026-04-13'));
    draft.set('stock.species', 'Nile tilapia');
    suggestForSpecies(draft, undefined);
    const first = draft.get('stock.harvestWeight');
    expect(first).toBeGreaterThan(100);
    expect(draft.get('tanks[0].species')).toBe('Nile tilapia');
    draft.set('stock.species', 'rainbow trout');
    suggestForSpecies(draft, 'Nile tilapia');
    expect(draft.get('stock.harvestWeight')).not.toBe(first);
    expect(draft.get('tanks[0].species')).toBe('rainbow trout');
  });
  it('leaves what the grower entered', () => {
    const draft = new Draft(newFarm('2026-04-13'));
    draft.set('stock.harvestWeight', 432);
    draft.set('stock.species', 'Nile tilapia');
    suggestForSpecies(draft, undefined);
    expect(draft.get('stock.harvestWeight')).toBe(432);
  });
});

/** A whole farm as the form has it. */
describe('what the crop table suggests', () => {
  it('gives the first day on which a crop that is sown today can be cut', () => {
    const draft = new Draft(newFarm('2026-04-13'));
    draft.add('markets', { unit: 'piece', every: 7 });
    const before = cropsToSell(draft);
    draft.set('markets[0].crop', 'lettuce');
    suggestForCrops(draft, before);
    // FAO Technical Paper 589: lettuce is transplanted after 21 days and cut from 30 days after that.
    expect(draft.get('markets[0].firstHarvest')).toBe('2026-06-03');
    const lettuce = cropsToSell(draft);
    draft.set('markets[0].crop', 'basil');
    suggestForCrops(draft, lettuce);
    expect(draft.get('markets[0].firstHarvest')).not.toBe('2026-06-03');
    draft.set('markets[0].firstHarvest', '2026-09-01');
    const basil = cropsToSell(draft);
    draft.set('markets[0].crop', 'lettuce');
    suggestForCrops(draft, basil);
    expect(draft.get('markets[0].firstHarvest')).toBe('2026-09-01');
  });
});

describe('the balance', () => {
  const whole = readFarm(demoFarm);
  const farm = wholeFarm(whole);
  it('counts beds and fish', () => {
    const balance = balanceOf(farm);
    const area = whole.beds.reduce((sum, bed) => sum + bed.length * bed.width, 0);
    expect(balance.area).toBeCloseTo(area, 9);
    expect(balance.planted).toBeLessThan(area);
    // 620 x 640 g + 630 x 430 g + 640 x 235 g + 655 x 95 g
    expect(balance.biomass).toBeCloseTo(880.325, 6);
    expect(balance.month).toBe(4);
    expect(balance.feed).toHaveLength(12);
  });
  it('is undecided without fish, short with few, over with many', () => {
    const fish = (factor: number) =>
      balanceOf({
        ...farm,
        tanks: whole.tanks.map((tank) => ({ ...tank, fish: tank.fish * factor })),
      });
    expect(fish(0).verdict).toBe('open');
    expect(fish(0.3).verdict).toBe('short');
    expect(fish(1).verdict).toBe('even');
    expect(fish(2).verdict).toBe('over');
  });
});

describe('a farm with much still open', () => {
  const half = (): Draft => {
    const draft = new Draft(newFarm('2026-04-13'));
    draft.set('stock.species', 'Nile tilapia');
    draft.set('tanks', [
      { name: 'North', species: 'Nile tilapia', volume: 7800, fish: 2000, weight: 640 },
      { name: 'South', species: 'Nile tilapia', fish: 100, weight: 640 },
    ]);
    draft.set('beds', [
      {
        name: 'R1',
        kind: 'raft',
        length: 20,
        width: 2,
        crop: 'lettuce',
        planted: '2026-04-06',
      },
      { name: 'R2', kind: 'raft', length: 10, width: 2, crop: 'lettuce', sown: '2026-04-10' },
    ]);
    return draft;
  };
  it('reckons with the tanks and beds that are complete, and says how many are not', () => {
    const draft = half();
    const open = balanceOf(draft.check().soFar);
    // 2000 x 640 g; the other tank has no volume yet.
    expect(open.biomass).toBeCloseTo(1280, 9);
    expect(open.leftOut).toBe(1);
    expect(open.planted).toBe(40);
    expect(open.waiting).toBe(20);
    expect(open.verdict).toBe('open');
    expect(open.feed).toEqual(Array.from({ length: 12 }, () => undefined));
    draft.set('months[3].water', 27);
    const balance = balanceOf(draft.check().soFar);
    expect(balance.verdict).toBe('over');
    expect(balance.feed.filter((one) => one !== undefined)).toHaveLength(1);
  });
  it('warns of crowding and cold before the rest is filled in', () => {
    const draft = half();
    draft.set('months[0].water', 10);
    const { farm, soFar } = draft.check();
    expect(farm).toBeUndefined();
    expect(adviceOn(soFar, farm).map((advice) => advice.path)).toEqual([
      'tanks[0].fish',
      'months[0].water',
    ]);
  });
  it('is the same as the whole farm once nothing is open', () => {
    const farm = readFarm(demoFarm);
    expect(balanceOf(readFarmSoFar(demoFarm))).toEqual(balanceOf(wholeFarm(farm)));
  });
});

describe('advice beside the fields', () => {
  const farm = readFarm(demoFarm);
  const adviceFor = (farm: Farm) => adviceOn(wholeFarm(farm), farm);
  const at = (path: string, changed: Partial<typeof farm>): string | undefined =>
    adviceFor({ ...farm, ...changed }).find((advice) => advice.path === path)?.sentence;

  it('warns of crowded tanks, with the number that would fit', () => {
    const tanks = farm.tanks.map((tank, i) => (i === 0 ? { ...tank, fish: 2000 } : tank));
    // 2000 x 640 g in 7800 L is 164 kg/m3; 60 kg/m3 of 640 g in 7800 L are 731 fish.
    expect(at('tanks[0].fish', { tanks })).toMatch(/164 kg\/m³.*60 kg\/m³, 731 fish/);
    expect(at('tanks[0].fish', {})).toBeUndefined();
  });
  it('warns of fish without a weight', () => {
    const tanks = farm.tanks.map((tank) => ({ ...tank, weight: undefined }));
    expect(at('tanks[0].weight', { tanks })).toContain('neither for feed nor for density');
  });
  it('warns of water in which the fish cannot live or feed', () => {
    const cold = (water: number) => ({
      months: farm.months.map((month, i) => (i === 0 ? { ...month, water } : month)),
    });
    expect(at('months[0].water', cold(2))).toContain('does not survive');
    expect(at('months[0].water', cold(15))).toContain('does not feed');
    expect(at('months[0].water', cold(44))).toContain('does not survive above');
    expect(at('months[0].water', cold(27))).toBeUndefined();
  });
  it('warns of highs below lows, of too little water, of small harvests', () => {
    const months = farm.months.map((month) => ({ ...month, high: 1, low: 2 }));
    expect(at('months[3].high', { months })).toContain('below the low');
    expect(at('water.total', { water: { ...farm.water, total: 100 } })).toContain('Tanks and sump');
    expect(at('stock.harvestWeight', { stock: { ...farm.stock, harvestWeight: 50 } })).toContain(
      'already',
    );
  });
  it('warns of crops that no bed grows and of harvests that come too soon', () => {
    const markets = farm.markets.map((market) => ({
      ...market,
      crop: 'celery',
      firstHarvest: farm.asOf + 3,
    }));
    expect(at('markets[0].crop', { markets })).toContain('No bed grows');
    expect(at('markets[0].firstHarvest', { markets })).toContain("before the plan's day");
  });
  it('warns of rafts without media', () => {
    const beds = farm.beds.filter((bed) => bed.kind === 'raft');
    expect(at('filter.media', { beds, filter: { ...farm.filter, media: 0 } })).toContain('rafts');
  });
});
