import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import { computedValues } from '../../src/engine/engine';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { ask } from '../../src/size/ask-functions';
import { farmOfProposal } from '../../src/size/farm-of-proposal';
import { propose } from '../../src/size/proposal';
import { partsOf } from '../../src/size/proposal-lines';
import { variantsOf } from '../../src/size/variants';
import { FIRST, variantsWorkbook } from '../../src/size/variants-sheet';
import { readWish } from '../../src/size/wish';
import { figuresOf } from '../plan/plan-figures';
import { smallestWish } from '../tools/smallest-wish';
import { DAY } from './wish-faults';

/**
 * Trout want 6 mg/L of oxygen at least, tilapia 4 (FAO Technical Paper 589, table 3.1, recalled; Kenya's manual on
 * tilapia); 5.5 for what wants less is common practice, no source.
 */
const cold = { ...smallestWish, coldest: 6, warmest: 18, heated: false };
const wish = readWish({ ...cold, fish: { species: 'rainbow trout', kgPerMonth: 100 } }, DAY);
const proposal = propose(wish);
const { fish, room, climate } = proposal;
const air = room?.air;

const bookOf = (model: WorkbookModel) => openBook(writeXlsx(model, computedValues(model)));

describe('a farm of trout', () => {
  const warmest = Math.max(...(climate.water as readonly number[]));
  const needs = (level: number, use = air?.use ?? NaN): number =>
    ask('AIR.DIFFUSED', use, 1, warmest, level, 0.03);

  it('is sized for 6 mg/L, with more air and a stronger blower than 5.5 would have', () => {
    expect(air?.level).toBe(6);
    // Rounded up to two digits.
    expect(air?.perTank).toBeGreaterThanOrEqual(needs(6));
    expect(air?.perTank).toBeLessThan(needs(6) * 1.1);
    expect(needs(6)).toBeGreaterThan(needs(5.5) * 1.05);
    expect(air?.blower).toBeGreaterThan(
      ask('AIR.BLOWER', needs(5.5) * (fish?.tanks.length ?? NaN), 1),
    );
    const says = partsOf(proposal)
      .flatMap(({ lines }) => lines)
      .find(({ what }) => what === 'Air');
    expect(says?.why).toContain('held at 6 mg/L of oxygen');
  });

  it.each(['live', 'plain'] as const)('has the same air among variants, %s', (mode) => {
    const rows = bookOf(variantsWorkbook(variantsOf(wish), mode)).sheets[0]?.values ?? [];
    const shows = (label: string) =>
      rows.find((cells) => cells[0] === label && cells.length > 1)?.[FIRST];
    expect(shows('Oxygen that the air holds')).toBe(6);
    expect(shows('Air for each tank')).toBeCloseTo(air?.perTank ?? NaN, 9);
    expect(shows('Power of the blower')).toBeCloseTo(air?.blower ?? NaN, 6);
  });

  it.each(['live', 'plain'] as const)('and in its plan, %s', (formulas) => {
    const file = farmOfProposal(proposal);
    const plan = figuresOf(
      planWorkbook(
        readFarm({
          ...file,
          asOf: '2026-07-15',
          fishLog: undefined,
          beds: [],
          markets: [],
          tanks: (file['tanks'] as object[]).map((tank) => ({
            ...tank,
            fish: fish?.harvested,
            weight: fish?.harvestWeight,
          })),
        }),
        { formulas },
      ),
    );
    expect(plan.number('Plant_oxygen')).toBe(6);
    expect(plan.number('Water_now')).toBeCloseTo(warmest, 9);
    const [use = NaN] = plan.numbers('Plant_use');
    expect(use).toBeCloseTo(air?.use ?? NaN, 6);
    const [needed = NaN] = plan.numbers('Plant_air');
    expect(needed).toBeCloseTo(needs(6), 6);
    expect(needed).toBeLessThanOrEqual(air?.perTank ?? NaN);
    const pumps = plan.numbers('Pumps_turnover').reduce((all, flow) => all + flow, 0);
    expect(plan.number('Plant_flow_brings')).toBeCloseTo(
      (pumps * (0.9 * plan.number('Pump_full') - 6)) / 1000,
      6,
    );
  });
});

describe('the oxygen that a plan holds', () => {
  const file = {
    name: 'Quillwater',
    units: 'metric',
    currency: 'EUR',
    asOf: '2026-04-08',
    months: Array.from({ length: 12 }, () => ({ water: 18 })),
    beds: [],
  };
  const tank = (species: string) => ({ name: species, volume: 5000, species });
  const modelOf = (...more: readonly object[]) =>
    planWorkbook(readFarm(Object.assign({}, file, ...more)), { formulas: 'plain' });
  const mixed = { tanks: [tank('Nile tilapia'), tank('rainbow trout')] };
  const usual = bookOf(modelOf(mixed));
  const typed = bookOf(modelOf(mixed, { figures: { Plant_oxygen: 5.5 } }));

  it('is the usual, or the most that one of the species needs at least', () => {
    const looksAt = ['Plant room', 'Site', 'Stock plan', 'Species', 'Tanks'];
    const holds = (...more: readonly object[]): number => {
      const plan = modelOf(...more);
      return figuresOf({
        ...plan,
        sheets: plan.sheets.filter(({ name }) => looksAt.includes(name)),
        names: plan.names.filter(({ sheet }) => looksAt.includes(sheet)),
      }).number('Plant_oxygen');
    };
    expect(holds({ tanks: [] })).toBe(5.5);
    expect(holds({ tanks: [tank('Nile tilapia')] })).toBe(5.5);
    expect(holds(mixed)).toBe(6);
    expect(holds(mixed, { species: { 'Nile tilapia': { oxygen_least: 6.5 } } })).toBe(6.5);
    expect(holds(mixed, { figures: { Plant_oxygen: 7 } })).toBe(7);
  });

  it('is named by the check where somebody typed less, with what would be right', () => {
    const found = (book: typeof usual) =>
      checkSheets(book.sheets).filter(({ what }) => what.includes('The air is sized'));
    expect(found(usual)).toEqual([]);
    expect(found(typed)).toMatchObject([
      {
        level: 'watch',
        sheet: 'Plant room',
        what: 'The air is sized to hold 5.5 mg/L of oxygen; the fish of tank rainbow trout need 6 at least.',
        remedy: 'Type 6 mg/L or more.',
      },
    ]);
  });

  it('is the grower’s own where 5.5 was typed, and nobody’s in a plan that brought it along', () => {
    expect(readBook(typed).file['figures']).toEqual({ Plant_oxygen: 5.5 });
    expect(readBook(usual).file['figures']).toBeUndefined();
    const names = typed.names.filter(({ name }) => name !== 'Plant_oxygen_least');
    expect(readBook({ ...typed, names }).file['figures']).toBeUndefined();
  });
});
