import { describe, expect, it } from 'vitest';
import {
  conversionTrials,
  growthTrials,
  modelledConversion,
  modelledDays,
  modelledShare,
  temperatureTrials,
} from '../../src/reference/growth-trials';

interface Compared {
  readonly title: string;
  readonly ratio: number;
  readonly band: readonly [number, number];
  readonly outside?: true;
  readonly because?: string;
}

const compared = <
  T extends Omit<Compared, 'title' | 'ratio'> & { species: string; what: string; source: string },
>(
  trials: readonly T[],
  ratio: (trial: T) => number,
): Compared[] =>
  trials.map((trial) => ({
    ...trial,
    title: `${trial.species}, ${trial.what}: ${trial.source}`,
    ratio: ratio(trial),
  }));

const groups: readonly (readonly [string, Compared[]])[] = [
  ['days of growth', compared(growthTrials, (trial) => modelledDays(trial) / trial.days)],
  [
    'growth at one temperature against another',
    compared(temperatureTrials, (trial) => modelledShare(trial) / trial.share),
  ],
  [
    'feed conversion',
    compared(conversionTrials, (trial) => modelledConversion(trial) / trial.conversion),
  ],
];

describe.each(groups)('published %s', (_, trials) => {
  it.each(trials.filter((trial) => !trial.outside))(
    '$title: within its band',
    ({ ratio, band: [least, most] }) => {
      expect(ratio).toBeGreaterThanOrEqual(least);
      expect(ratio).toBeLessThanOrEqual(most);
    },
  );

  const outside = trials.filter((trial) => trial.outside);
  if (outside.length > 0) {
    it.each(outside)('$title: outside its band, and the reason is given', (trial) => {
      const [least, most] = trial.band;
      expect(trial.ratio < least || trial.ratio > most).toBe(true);
      expect(trial.because?.length ?? 0).toBeGreaterThan(30);
    });
  }
});
