import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cellOf } from '../../tools/card-value';

type Row = readonly [water: number, salinity: number, oxygen: number];

const { grid, examples } = JSON.parse(
  readFileSync(new URL('../../checks/oxygen-teos10.json', import.meta.url), 'utf8'),
) as { readonly grid: readonly Row[]; readonly examples: readonly Row[] };

const worstOf = (rows: readonly Row[]): number => {
  const water = rows.map(([degrees]) => [degrees]);
  const salinity = rows.map(([, salt]) => [salt]);
  const full = cellOf('OXYGEN.FULL', water, salinity) as number[][];
  return Math.max(...rows.map(([, , oxygen], i) => Math.abs(Number(full[i]?.[0]) / oxygen - 1)));
};

describe('OXYGEN.FULL against TEOS-10', () => {
  it('grid of 0.5 to 39 degC and 0.5 to 40 g/kg from python3-gsw 3.6.16: largest difference 0.030 %', () => {
    expect(grid.length).toBe(63);
    expect(worstOf(grid)).toBeLessThan(0.00031);
  });

  it('examples of the TEOS-10 manual, gsw_O2sol_SP_pt [read]: within 0.03 %', () => {
    expect(examples.length).toBe(3);
    expect(worstOf(examples)).toBeLessThan(0.0003);
  });
});
