import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import type { PlanModel } from '../../src/plan/workbook-model';
import { figuresOf } from './plan-figures';

/** The demo farm with every figure that has a unit written out, so that both systems read the same. */
const withUnits = (units: 'metric' | 'US'): unknown => ({
  ...demoFarm,
  units,
  site: { ...demoFarm.site, altitude: '85 m', trellis: '2.2 m', houseVolume: '2400 m3' },
  months: demoFarm.months.map(({ water, high, low, humidity }) => ({
    water: `${water} degC`,
    high: `${high} degC`,
    low: `${low} degC`,
    humidity,
  })),
  water: { total: '118000 L', sump: '18000 L', salinity: 0 },
  filter: { media: '1500 L', specificSurface: units === 'US' ? 500 * 0.3048 : 500 },
  feed: { protein: 0.34, price: units === 'US' ? 1.65 * 0.45359237 : 1.65 },
  stock: {
    ...demoFarm.stock,
    wanted: units === 'US' ? 330 / 0.45359237 : 330,
    startWeight: '50 g',
    harvestWeight: '700 g',
    fishPrice: units === 'US' ? 7.5 * 0.45359237 : 7.5,
  },
  tanks: demoFarm.tanks.map((tank) => ({
    ...tank,
    volume: `${tank.volume} L`,
    ...('weight' in tank && { weight: `${String(tank.weight)} g` }),
    bore: '63 mm',
    pipe: '18 m',
    lift: '1.6 m',
    air: '60 m3/h',
  })),
  beds: demoFarm.beds.map((bed) => ({
    ...bed,
    length: `${bed.length} m`,
    width: `${bed.width} m`,
    depth: '0.3 m',
  })),
  fishLog: demoFarm.fishLog.map((row) => ({
    ...row,
    ...('weight' in row && { weight: `${String(row.weight)} g` }),
  })),
  waterTests: demoFarm.waterTests.map((test) => ({
    ...test,
    temperature: `${String(test.temperature)} degC`,
    ...('added' in test && { added: `${String(test.added)} L` }),
    ...('baseGiven' in test && { baseGiven: `${String(test.baseGiven)} g` }),
  })),
  feedLog: demoFarm.feedLog.map((row) => ({ ...row, given: `${row.given} kg` })),
});

type WithModel = ReturnType<typeof figuresOf> & { readonly model: PlanModel };

describe('the same farm in metric and in US units', () => {
  const [metric, US] = (['metric', 'US'] as const).map((units) => {
    const model = planWorkbook(readFarm(withUnits(units)), { formulas: 'live' });
    return { model, ...figuresOf(model) };
  }) as [WithModel, WithModel];

  it('uses the local paper size: Letter on every sheet of a US plan', () => {
    const papers = ({ model }: WithModel) => new Set(model.sheets.map(({ print }) => print.paper));
    expect(papers(US)).toEqual(new Set(['Letter']));
    expect(papers(metric)).toEqual(new Set([undefined]));
  });

  // Names hold metric figures in both; words that name a unit differ.
  const names = (
    metric as unknown as { model: { names: { name: string; sheet: string }[] } }
  ).model.names
    .filter(({ sheet }) => sheet !== 'Crops' && sheet !== 'Species')
    .map(({ name }) => name);

  it('has the same figure under every name', () => {
    expect(names.length).toBeGreaterThan(100);
    const different = names.flatMap((name) => {
      const there = US.all(name);
      return metric.all(name).flatMap((value, i) => {
        const other = there[i];
        if (typeof value !== 'number') return typeof other === 'number' ? [`${name} ${i}`] : [];
        const same =
          typeof other === 'number' &&
          Math.abs(other - value) <= 1e-8 * Math.max(1, Math.abs(value));
        return same ? [] : [`${name} ${i}: ${String(other)}, not ${value}`];
      });
    });
    expect(different).toEqual([]);
  });
});
