import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import type { Finding } from '../../src/check/finding';
import type { OpenSheet, SheetValue } from '../../src/check/open-sheet';
import { serialOf } from '../../src/core/serial-date';

const sheet = (name: string, values: SheetValue[][], formulas = values): OpenSheet => ({
  name,
  from: 'A1',
  values,
  formulas,
});
const day = (month: number, date: number): number => serialOf({ year: 2026, month, day: date });
const one = (findings: readonly Finding[], part: RegExp): Finding => {
  const found = findings.filter((finding) => part.test(finding.what));
  expect(found.map((finding) => finding.what)).toHaveLength(1);
  return found[0] as Finding;
};

describe('cells typed over their formulas', () => {
  const typed = (fish: SheetValue) => {
    const values = [
      ['Tanks'],
      ['Tank', 'Volume, L', 'Fish'],
      ['North', 7800, 640],
      ['South', 7800, 12],
      ['', '', ''],
    ];
    const formulas = [
      values[0] as SheetValue[],
      values[1] as SheetValue[],
      ['North', '=2*3900', '=INDEX(Held_fish,1)'],
      ['South', 7800, fish],
      ['', '', '=INDEX(Held_fish,3)'],
    ];
    return checkSheets([sheet('Tanks', values, formulas)]).filter(({ what }) =>
      what.includes('typed over'),
    );
  };

  it('are reported on Tanks, while a grower’s own formula in a typed column is not', () => {
    expect(typed(12)).toMatchObject([
      { address: 'C4', level: 'watch', what: 'Tanks, line 4: "Fish" is typed over its formula.' },
    ]);
    expect(typed('=INDEX(Held_fish,2)')).toEqual([]);
  });
});

describe('tanks', () => {
  const heads = ['Tank', 'Litres', 'Fish', 'Mean weight (g)', 'Density limit'];
  const tanks = (...lines: SheetValue[][]): Finding[] =>
    checkSheets([sheet('Tanks', [['Our tanks'], [], heads, ...lines])]);

  it('finds nothing in a tank that has room: 60 kg/m3, the transfer density of the UVI system and of SRAC 454', () => {
    expect(tanks(['A', 10000, 1000, 599, 60])).toEqual([]);
  });

  it('names fish heavier than any of their species, in tanks and to be sold (FishBase: trout 25.4 kg)', () => {
    const weighs = (grams: number): Finding[] =>
      checkSheets([
        sheet('T', [
          ['Tank', 'Litres', 'Species', 'Mean weight (g)'],
          ['A', 5000, 'trout', grams],
        ]),
      ]);
    expect(weighs(25_400)).toEqual([]);
    expect(one(weighs(25_500), /tank A: a mean weight of 25.5 kg/)).toMatchObject({
      address: 'D2',
    });
    const sold = (weight: number, unit: string): Finding[] =>
      checkSheets([
        sheet('Stock plan', [
          ['Species', 'Nile tilapia'],
          ['Weight when sold', weight, unit],
        ]),
      ]);
    expect(sold(600, 'g')).toEqual([]);
    expect(one(sold(50_000, 'g'), /sold at 50 kg/).why).toContain('about 5 kg');
    expect(sold(10, 'lb')).toEqual([]);
    expect(sold(90, '%')).toEqual([]);
    expect(one(sold(12, 'lb'), /sold at 5.44 kg/)).toMatchObject({ address: 'B2' });
  });

  it('says how many fish are too many: 50 of 600 where 550 fit', () => {
    const found = one(tanks(['A', 5500, 600, 600, 60]), /tank A/);
    expect(found).toMatchObject({ sheet: 'Tanks', address: 'C4', level: 'watch' });
    expect(found.what).toContain('65.5');
    expect(found.remedy).toContain('50 fish');
  });

  it('uses the limit of the species where the table has none, and rates far above it as danger', () => {
    const found = checkSheets([
      sheet('T', [
        ['Tank', 'Volume (gal)', 'Species', 'Fish', 'Weight, lb'],
        ['B', 1000, 'tilapia', 600, 1.1],
      ]),
    ]);
    // 600 x 1.1 lb = 299.4 kg in 3785 L is 79.1 kg/m3.
    expect(one(found, /tank B/).what).toMatch(/79\.1.*Nile tilapia is 60/);
    expect(one(found, /tank B/).level).toBe('danger');
  });

  it('advises no netting in water in which handling kills: tilapia below 18.3 degC (text of SRAC 283)', () => {
    const remedy = (...site: SheetValue[][]): string =>
      one(
        checkSheets([
          sheet('S', site),
          sheet('T', [
            ['Tank', 'Litres', 'Species', 'Fish', 'Mean weight (g)'],
            ['B', 1000, 'tilapia', 200, 400],
          ]),
        ]),
        /tank B/,
      ).remedy;
    expect(remedy(['Water this month', 24, '°C'])).toMatch(/^Move or sell 50 fish; or give/);
    expect(remedy(['Water this month', 75, '°F'])).toMatch(/^Move or sell 50 fish; or give/);
    expect(remedy(['Water this month', 17, '°C'])).toMatch(/^More air and less feed until.*18\.3/);
    expect(remedy(['Water this month', 60, '°F'])).not.toMatch(/^Move/);
    expect(remedy([])).toContain('in water of 18.3 to 34 °C');
  });

  it('notices kilograms in place of grams and cubic metres in place of litres', () => {
    const found = tanks(['A', 7800, 640, 0.45, 60], ['B', 7.8, 640, 450, 60]);
    expect(one(found, /mean weight of 0\.45 g/).remedy).toContain('450');
    expect(one(found, /7\.8 L/).remedy).toContain('7800');
  });
});

describe('a forecast of fish and weights', () => {
  it('is not taken for a register of tanks: it may hold fractions of fish', () => {
    const heads = ['Week', 'Fish', 'Mean weight (g)', 'Density'];
    expect(checkSheets([sheet('Batch', [heads, [0, 576, 50, 4.5], [1, 574.6, 58, 5.2]])])).toEqual(
      [],
    );
  });

  it('stays one where a list of tanks stands far to the right on the same lines', () => {
    const values = [
      ['Week', 'Fish', 'Mean weight, g', 'Density, kg/m3', '', '', '', '', 'Tank', 'North'],
      [1, 121.5, 59, 61.2, '', '', '', '', 'Sold at, g', 600],
    ];
    expect(checkSheets([sheet('Forecast', values)])).toEqual([]);
    // Close by they are one table.
    const close = values.map((row) => row.filter((_, i) => i < 4 || i > 7));
    expect(checkSheets([sheet('Forecast', close)])).not.toEqual([]);
  });
});

describe('water tests', () => {
  const heads = ['Date', 'Temp (°C)', 'pH', 'TAN', 'Nitrite', 'Oxygen', 'Alkalinity'];
  const log = (...lines: SheetValue[][]): Finding[] =>
    checkSheets([sheet('Log', [heads, ...lines])]);

  it('finds nothing in good water', () => {
    expect(log([day(5, 1), 26, 7, 0.5, 0.2, 6.5, 80])).toEqual([]);
  });

  it('un-ionised ammonia: TAN 1.0 at pH 8.0 and 24 degC is 0.0502, at the limit of 0.05 (UF/IFAS FA16)', () => {
    const found = one(log([day(5, 1), 24, 8, 1, 0, 7, 80]), /un-ionised/);
    expect(found.what).toContain('0.05');
    expect(found.address).toBe('D2');
    expect(log([day(5, 1), 24, 8, 0.95, 0, 7, 80])).toEqual([]);
  });

  it('judges the water by the fish in the tanks, by the strictest on shared water, and by the limits of a plan', () => {
    const of = (fish: SheetValue[][], ...more: SheetValue[][]): string[] =>
      checkSheets([
        sheet('T', [['Tank', 'Litres', 'Species', 'Fish', 'Mean weight (g)'], ...fish]),
        sheet('Log', [heads, [day(5, 1), 14, 7.6, 1.4, 0.3, 5.5, 80]]),
        sheet('D', more),
      ]).map(({ what }) => what);
    const tilapia = ['A', 5000, 'tilapia', 100, 200];
    const trout = ['B', 5000, 'trout', 100, 200];
    expect(of([tilapia])).toEqual([]);
    // Emerson's pKa at 14 degC is 9.60: 1 % of 1.4 mg/L is un-ionised at pH 7.6.
    const found = of([tilapia, trout]);
    expect(found).toHaveLength(3);
    expect(found.join()).toMatch(
      /un-ionised.*oxygen.*nitrite|oxygen.*nitrite.*un-ionised|un-ionised.*nitrite/s,
    );
    const stated = of(
      [tilapia, trout],
      ['What', 'Last figure', 'Unit', 'From', 'To'],
      ['Un-ionised ammonia-N', 0.01, 'mg/L', '', 0.05],
      ['Nitrite-N', 0.3, 'mg/L', '', 1],
      ['Oxygen', 5.5, 'mg/L', 4, ''],
    );
    expect(stated).toEqual([]);
  });

  it('takes a pH of 72 and a temperature in Fahrenheit for slips, and computes no ammonia from them', () => {
    const found = log([day(5, 1), 26, 72, 5, 0, 7, 80], [day(5, 8), 79, 7, 5, 0, 7, 80]);
    expect(one(found, /pH of 72/).remedy).toContain('7.2');
    expect(one(found, /temperature of 79/).remedy).toContain('26.1');
    expect(found).toHaveLength(2);
  });

  it('reports low oxygen, nitrite and alkalinity separately, danger first', () => {
    const found = log([day(5, 1), 26, 7, 0.1, 1.5, 2.5, 20]);
    expect(found.map((finding) => finding.level)).toEqual(['danger', 'watch', 'watch']);
    expect(found.map((finding) => finding.address)).toEqual(['F2', 'E2', 'G2']);
  });
});

describe('beds and sowing', () => {
  it('dates that run backwards, and beds without a crop', () => {
    const found = checkSheets([
      sheet('Beds', [
        ['Bed', 'Area (m2)', 'Crop', 'Sown on', 'Planted on', 'First cut'],
        ['B1', 12, 'lettuce', day(3, 1), day(2, 20), day(4, 20)],
        ['B2', 12, 'basil', day(3, 1), day(3, 22), day(4, 26)],
        ['B3', 12, '', '', '', ''],
      ]),
    ]);
    expect(one(found, /bed B1/)).toMatchObject({ address: 'E2' });
    expect(one(found, /1 of 3 beds has no crop: 12 of 36 m²/)).toMatchObject({ address: 'C4' });
    expect(found).toHaveLength(2);
  });

  it.each(['As-of date', 'Day of the plan', 'Day of the plan, changed on Site'])(
    'a gap in a succession of two weeks within the eight weeks after the "%s"',
    (label) => {
      const lines = [day(3, 2), day(3, 16), day(3, 30), day(5, 4), day(5, 18)].map(
        (date): SheetValue[] => ['lettuce', date, 300],
      );
      const found = checkSheets([
        sheet('Start', [[label, day(3, 10)]]),
        sheet('Sowing', [['Crop', 'Sow on', 'Plants'], ...lines]),
      ]);
      expect(one(found, /lettuce/).what).toMatch(/2026-03-30.*2026-05-04.*14 days/);
      expect(found).toHaveLength(1);
    },
  );
});

describe('the balance of feed and area, sump and beds', () => {
  const balance = (feed: number, wanted: number, sump: number, flood: number): Finding[] =>
    checkSheets([
      sheet('Balance', [
        ['Feed given', feed, 'g/day'],
        ['Feed the beds call for', wanted, 'g/day'],
        ['Sump', sump, 'L'],
        ['Flood volume', flood, 'L'],
      ]),
    ]);

  it('has no finding where both are even', () => {
    expect(balance(1000, 1050, 900, 800)).toEqual([]);
    // Lettuce on rafts did as well at 100 g of feed on a m2 a day as at 80 (Rakocy 2007: 60 to 100); FAO 589's
    // gravel ratio of 45 has 25 as its lower end in practice.
    expect(balance(1249, 1000, 900, 800)).toEqual([]);
    expect(balance(561, 1000, 900, 800)).toEqual([]);
    expect(balance(1251, 1000, 900, 800)).toHaveLength(1);
    expect(balance(559, 1000, 900, 800)).toHaveLength(1);
  });
  it('uses the bounds that the plan states for its kinds of bed', () => {
    const stated = (feed: number): Finding[] =>
      checkSheets([
        sheet('Balance', [
          ['Feed given', feed, 'g/day'],
          ['Feed the beds call for', 1000, 'g/day'],
          ['Such beds ran well from', 500, 'g/day'],
          ['Such beds ran well up to', 1100, 'g/day'],
        ]),
      ]);
    expect(stated(500)).toEqual([]);
    expect(stated(1100)).toEqual([]);
    expect(one(stated(1210), /10 % above/).level).toBe('watch');
    expect(one(stated(450), /10 % below/).level).toBe('watch');
  });
  it('says by how much, and what to do', () => {
    expect(one(balance(2500, 1000, 900, 800), /100 % above/).address).toBe('B1');
    expect(one(balance(280, 1000, 900, 800), /50 % below/).level).toBe('watch');
    const sump = one(balance(1000, 1000, 500, 800), /flooded/);
    expect(sump.what).toContain('take 800 L when flooded together; the sump holds 500 L');
    expect(sump.remedy).toContain('300 L more');
  });
  it('includes what pipes and pump ask of the sump, where a sheet says so', () => {
    const asked = (needed: number): Finding[] =>
      checkSheets([
        sheet('Balance', [
          ['Sump', 900, 'L'],
          ['Flood volume', 800, 'L'],
          ['Water that the sump must hold', needed, 'L'],
        ]),
      ]);
    expect(asked(900)).toEqual([]);
    const found = one(asked(1100), /ask the sump for 1,?100 L/);
    expect(found).toMatchObject({ level: 'watch', address: 'B1' });
    expect(found.remedy).toContain('200 L more');
  });
});

describe('how long tanks last in an outage', () => {
  const heads = ['Tank', 'Air that it has, m³/h', 'Minutes when all stops'];
  const tanks = (minutes: number): Finding[] =>
    checkSheets([sheet('Plant room', [heads, ['A', 12, minutes]])]);

  it('is a finding below the half hour in which somebody can be there (common practice, no source), and none above', () => {
    expect(tanks(30)).toEqual([]);
    expect(tanks(29.9)).toHaveLength(1);
    const found = one(tanks(7.4), /tank A: 7\.4 minutes/);
    expect(found).toMatchObject({ level: 'watch', sheet: 'Plant room', address: 'C2' });
  });
});

describe('tanks in their fullest week', () => {
  const heads = ['Tank', 'Minutes when all stops', 'Minutes, all stops, fullest week'];
  const tanks = (now: number, then: number): Finding[] =>
    checkSheets([sheet('Plant room', [heads, ['A', now, then]])]);

  it('are a finding below half an hour, unless already reported', () => {
    expect(one(tanks(45, 12), /tank A: 12 minutes of oxygen in its fullest week/).address).toBe(
      'C2',
    );
    expect(tanks(45, 30)).toEqual([]);
    expect(one(tanks(12, 9), /12 minutes of oxygen when/).address).toBe('B2');
  });
});

describe('the air of a tank', () => {
  const tanks = (has: number, needs: number, unit = 'm³/h'): Finding[] =>
    checkSheets([
      sheet('Plant room', [
        [
          'Tank',
          `Air that it has, ${unit}`,
          'Minutes when all stops',
          `Air that it needs, ${unit}`,
        ],
        ['A', has, 45, needs],
      ]),
    ]);

  it('is a finding where it falls short of the peak demand of the fish', () => {
    expect(tanks(70, 69.2)).toEqual([]);
    expect(one(tanks(60, 69.2), /tank A: 60 m³\/h of air, and its fish need 69\.2/).address).toBe(
      'B2',
    );
    // 1 ft3/min is 1.699 m3/h.
    expect(one(tanks(10, 20, 'cfm'), /tank A: 17 m³\/h of air, and its fish need 34/).level).toBe(
      'watch',
    );
  });
});

describe('light of the beds', () => {
  const beds = (...shares: number[]): Finding[] =>
    checkSheets([
      sheet('Beds', [
        ['Bed', 'Crop', 'Area, m²', 'Light, of the least it wants'],
        ...shares.map((share, i) => [`R${i + 1}`, 'lettuce', 9, share]),
      ]),
    ]);

  it('is one finding for all beds below the least light, darkest first', () => {
    expect(beds(1, 1.4)).toEqual([]);
    const found = one(beds(0.9, 1.2, 0.62, 0.7), /light/);
    expect(found.what).toMatch(/^bed R3 \(lettuce\) gets 62 % .*; 2 more beds get less/);
    expect(found).toMatchObject({ address: 'D4', level: 'note' });
  });
});

describe('power, heat and their cost', () => {
  const room = (...rows: (string | number)[][]): Finding[] =>
    checkSheets([sheet('What to buy', [['What to buy'], ...rows])]);
  const outage = (...rows: (string | number)[][]): Finding[] =>
    room(
      ['Must run when the mains fail', 1500, 'W'],
      ['Outage to last through', 12, 'h'],
      ['Battery for it', 26.5, 'kWh'],
      ['Or a generator', 3000, 'W'],
      ...rows,
    );

  it('reports a battery that does not last the outage, and what would', () => {
    const battery = (lasts: number): Finding[] =>
      outage(['Battery that is there', 2 * lasts, 'kWh'], ['It lasts', lasts, 'h']);
    expect(battery(12)).toEqual([]);
    const found = one(battery(11.5), /battery lasts 11\.5 of the 12 hours/);
    expect(found).toMatchObject({ level: 'watch', address: 'B6' });
    expect(found.remedy).toContain('a battery of 26.5 kWh or a generator of 3000 W');
  });

  it('reports a generator that cannot start what must run, and accepts one that can', () => {
    expect(outage(['Generator that is there', 3000, 'W'])).toEqual([]);
    expect(
      one(outage(['Generator that is there', 2500, 'W']), /generator gives 2500 W/).level,
    ).toBe('watch');
    // A battery that is short does no harm beside a generator that starts all.
    expect(
      outage(
        ['Battery that is there', 2, 'kWh'],
        ['It lasts', 1, 'h'],
        ['Generator that is there', 3000, 'W'],
      ),
    ).toEqual([]);
  });

  it('asks for stand-by power where none is typed, unless nothing must run', () => {
    expect(one(outage(), /Nothing is typed that gives 1500 W/).level).toBe('note');
    expect(room(['Must run when the mains fail', 0, 'W'])).toEqual([]);
  });

  it('compares the heater with the coldest month', () => {
    const heater = (...there: (string | number)[][]): Finding[] =>
      room(['Heater for the coldest month’s nights', 30000, 'W'], ...there);
    expect(heater(['Heater that is there', 30000, 'W'])).toEqual([]);
    expect(one(heater(['Heater that is there', 29000, 'W']), /heater gives 29000 W/).level).toBe(
      'watch',
    );
    expect(one(heater(), /none is typed/).level).toBe('note');
    expect(room(['Heater for the coldest month’s nights', 0, 'W'])).toEqual([]);
  });

  it('asks for the heat or the consumers behind a price', () => {
    expect(one(room(['Price of the fuel, for a L', 0.9]), /no heat is reckoned/).level).toBe(
      'watch',
    );
    expect(
      room(['Price of the fuel, for a L', 0.9], ['Cost of the house’s heat, a year', 0]),
    ).toEqual([]);
    expect(
      one(room(['Energy a year', 0, 'kWh'], ['Price of a kWh', 0.3]), /nothing is said to run/)
        .address,
    ).toBe('B3');
    expect(room(['Energy a year', 9000, 'kWh'], ['Price of a kWh', 0.3])).toEqual([]);
  });

  it('compares typed monthly costs with what runs', () => {
    const both = (month: number): Finding[] => room(['Electricity', month], ['Cost a year', 6000]);
    expect(both(520)).toEqual([]);
    expect(both(340)).toEqual([]);
    expect(one(both(300), /Electricity: 3600 a year by the costs a month, 6000/).level).toBe(
      'note',
    );
    expect(both(760)).toHaveLength(1);
  });
});

describe('the plant room', () => {
  const room = (...rows: (string | number)[][]): Finding[] =>
    checkSheets([sheet('Plant room', [['Plant room'], ...rows])]);

  it('reports pumps that give less than the tanks need, in one unit', () => {
    const pumps = (gives: number, unit = 'L', label = 'Flow that the tanks ask for'): Finding[] =>
      room([label, 9000, 'L'], ['The pumps really give', gives, unit]);
    expect(one(pumps(8000), /give 8,?000 L; the tanks ask for 9,?000 L/).address).toBe('B3');
    expect(pumps(9000)).toEqual([]);
    expect(pumps(2000, 'gal')).toEqual([]);
    // As older plans have it.
    expect(pumps(8000, 'L', 'Flow that the Pumps sheet asks for')).toHaveLength(1);
  });

  it('reports more beds draining at once than the returns take', () => {
    const beds = (together: number): Finding[] =>
      room(
        ['Of them fill together', together],
        ['Beds that the returns take while they drain at once', 4],
      );
    expect(one(beds(5), /5 beds drain at once; the returns take 4/).level).toBe('watch');
    expect(beds(4)).toEqual([]);
  });

  it('reports what the make-up water brings', () => {
    expect(room(['Sodium after a year', 50, 'mg/L'])).toEqual([]);
    expect(one(room(['Sodium after a year', 51, 'mg/L']), /Sodium comes to 51/).address).toBe('B2');
    const water = (chlorine: number, ammonia: number): Finding[] =>
      room(
        ['Chlorine in the source water, in all', chlorine, 'mg/L'],
        ['Ammonia nitrogen set free in the make-up', ammonia, 'mg/L'],
      );
    expect(water(0, 0)).toEqual([]);
    expect(one(water(1, 0), /holds 1 mg\/L of chlorine/).address).toBe('B2');
    expect(one(water(1, 0.2), /Chloramine .* 0\.2 mg\/L/).address).toBe('B3');
  });

  it('warns of grey mould above its limits, and not at them (Yunis et al. 1994, read)', () => {
    expect(room(['Above the limits of grey mould by', 0, 'h'])).toEqual([]);
    expect(one(room(['Above the limits of grey mould by', 0.1, 'h']), /grey mould/).address).toBe(
      'B2',
    );
  });
});

describe('cells that show an error', () => {
  it('are reported with the sentence of the function', () => {
    const found = checkSheets([
      sheet(
        'Any',
        [
          [78, 1, '#VALUE!'],
          ['lettuce', '', '#NAME?'],
        ],
        [
          [78, 1, '=GILL.AMMONIA.UNIONISED(B1,A1,25)'],
          ['lettuce', '', '=GILL.SOW.OFFSET(A2,"first cut")'],
        ],
      ),
    ]);
    expect(one(found, /ph must be between 0 and 14; got 78/).address).toBe('C1');
    expect(one(found, /#NAME\?/).remedy).toContain('Repair');
  });
});

describe('sheets that the checks do not know', () => {
  it('are left alone', () => {
    expect(
      checkSheets([
        sheet('Letters', [['Dear all'], ['pH is 72 today'], [1, 2, 3]]),
        sheet('Empty', []),
        sheet('Money', [
          ['Item', 'Price', 'Paid'],
          ['rope', 12, true],
        ]),
      ]),
    ).toEqual([]);
  });
});
