import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/**
 * The two collections of published figures, of fish growth, nutrients and plant room (131) and of crops in season
 * (161, called SEA-…). Each is asked somewhere, or stands in not-in-the-product.json with the reason.
 */
const folder = new URL('.', import.meta.url);
const dataOf = <T>(file: string): T => JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as T;

const reasons = dataOf<readonly { readonly why: string; readonly ids: readonly string[] }[]>(
  'not-in-the-product.json',
);
const notAsked = reasons.flatMap(({ ids }) => ids);

const asked = (...files: readonly string[]): string[] =>
  files.flatMap((file) => dataOf<readonly { readonly id: string }[]>(file).map(({ id }) => id));
const together = [
  ...new Set(asked('growth-nutrients.json', 'plant-room.json', 'crops-in-season.json')),
];

describe('the published figures of both collections', () => {
  it('are complete: 131 and 161, each either tested or excluded with its reason', () => {
    const all = [...together, ...notAsked];
    expect(new Set(all).size).toBe(all.length);
    expect(all.filter((id) => id.startsWith('SEA-'))).toHaveLength(161);
    expect(all.filter((id) => !id.startsWith('SEA-'))).toHaveLength(131);
  });

  it('give their reasons in words', () => {
    for (const { why, ids } of reasons) {
      expect(why.split(' ').length, why).toBeGreaterThan(4);
      expect(ids.length, why).toBeGreaterThan(0);
    }
  });
});
