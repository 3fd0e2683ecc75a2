import { describe, expect, it } from 'vitest';
import { bestForBed } from '../../src/ahead/open-bed';
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { readFarm } from '../../src/plan/farm';
import { sampleFarm } from '../tools/farms';

const farm = sampleFarm('quillwater');

/** The farm on another day, its rows as they are. */
const on = (day: string) =>
  readFarm({ ...(JSON.parse(farm.file) as object), asOf: isoText(serialFromIsoText(day) ?? 0) });

const reasonsOn = (day: string): string =>
  bestForBed(on(day), 'r24', { weeks: 30 })
    .choices.flatMap(({ reasons }) => reasons)
    .join('\n');

describe('a bed that stands empty', () => {
  it('is offered at most three crops, best first, each with its reasons', () => {
    const { bed, choices } = bestForBed(farm, ' r24', { weeks: 30 });
    expect(bed).toBe('R24');
    expect(choices).toHaveLength(3);
    const worth = choices.map(({ valuePerWeek }) => valuePerWeek);
    expect(worth).toEqual([...worth].sort((a, b) => b - a));
    for (const { reasons } of choices) expect(reasons[0]).toMatch(/the market is (short|served)/);
  });

  it('is warned of short days in autumn, but not in spring', () => {
    expect(reasonsOn('2026-10-05')).toMatch(/days are shorter than 10 hours/);
    expect(reasonsOn('2026-04-13')).not.toMatch(/shorter than/);
  });

  it('is told how feed and beds compare', () => {
    const fed = { ...farm, fishLog: [], tanks: farm.tanks.map((tank) => ({ ...tank, fish: 0 })) };
    const hungry = bestForBed(fed, 'R24', { weeks: 30 }).choices.flatMap(({ reasons }) => reasons);
    expect(hungry).toContain('the beds call for more feed than is given already');
  });

  it('must be one of the farm’s beds', () => {
    expect(() => bestForBed(farm, 'Q24', { weeks: 30 })).toThrow(
      /there is no bed "Q24"; the nearest name is "\w24"/,
    );
  });
});
