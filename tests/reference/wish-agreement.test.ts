import { describe, expect, it } from 'vitest';
import type { FarmRecord } from '../../src/reference/agreement/farm-record';
import { wishReason } from '../../src/reference/agreement/reasons';
import { wishAnswers, wishBands } from '../../src/reference/agreement/wish-of-record';
import { agreementPage, publishedRecords } from '../../src/reference/agreement-page';

const answers = wishAnswers(publishedRecords);
const figures = answers.flatMap((answer) => answer.rows.map((row) => ({ answer, row })));

describe('published systems entered by their wish', () => {
  it('are ten at least, most with tanks or feed as well as beds', () => {
    expect(answers.length).toBeGreaterThanOrEqual(10);
    expect(answers.filter(({ rows }) => rows.length >= 2).length).toBeGreaterThanOrEqual(8);
    for (const what of ['tanks', 'feed', 'beds'])
      expect(figures.filter(({ row }) => row.what === what).length).toBeGreaterThanOrEqual(8);
  });

  it.each(figures.map((one) => ({ title: `${one.answer.record.id}, ${one.row.what}`, ...one })))(
    '$title: within its band, or outside with the reason',
    ({ answer, row }) => {
      const [low, high] = wishBands[row.what];
      expect(row.ratio).toBeCloseTo(row.model / row.published, 12);
      expect(row.inside).toBe(row.ratio >= low && row.ratio <= high);
      const reason = wishReason(answer, row);
      if (row.inside) expect(reason).toBeUndefined();
      else expect(reason?.length ?? 0).toBeGreaterThan(60);
      expect(reason ?? '').not.toMatch(/NaN|undefined|Infinity/);
    },
  );

  it('agree more often than not', () => {
    const inside = figures.filter(({ row }) => row.inside).length;
    expect(inside / figures.length).toBeGreaterThan(0.6);
  });

  it('are known by no name', () => {
    // What another record gives as its place goes with the name.
    const renamed = publishedRecords.map((record, i) => ({
      ...record,
      id: `record ${i}`,
      location: record.location.replace(
        /^as (.*)$/,
        (_, id) => `as record ${publishedRecords.findIndex((one) => one.id === id)}`,
      ),
    }));
    expect(wishAnswers(renamed).map(({ wish }) => wish)).toEqual(answers.map(({ wish }) => wish));
  });

  it('are given neither the feed nor the area that is to be matched', () => {
    const withOther = (name: string): readonly FarmRecord[] =>
      publishedRecords.map((record) => ({
        ...record,
        figures: doubled(record.figures, name),
        treatments: (record.treatments ?? []).map((one) => ({
          ...one,
          figures: doubled(one.figures, name),
        })),
      }));
    for (const name of ['feed_kg_per_day', 'feed_kg_per_day_57', 'feed_g_per_m2_day', 'fcr'])
      expect(wishAnswers(withOther(name)).map(({ proposal }) => proposal)).toEqual(
        answers.map(({ proposal }) => proposal),
      );
  });

  it('do not depend on their location where they do not state it', () => {
    const silent = publishedRecords.filter(
      ({ figures: own = {} }) => own['latitude_deg'] === undefined,
    );
    const there = (latitude: number): readonly number[] =>
      wishAnswers(
        silent.map((record) => ({
          ...record,
          figures: { ...record.figures, latitude_deg: { value: latitude, mark: 'memory' } },
        })),
      ).flatMap(({ rows }) => rows.map(({ model }) => model));
    expect(there(5).length).toBeGreaterThan(0);
    expect(there(5)).toEqual(there(-60));
  });

  it('stand on the page with their ratios', () => {
    const page = agreementPage();
    const section = page.slice(page.indexOf('id="wishes"'), page.indexOf('id="growth"'));
    for (const { row } of figures) expect(section).toContain(`>${row.ratio.toFixed(2)}<`);
    for (const { answer } of figures) expect(section).toContain(answer.record.system.slice(0, 20));
  });
});

function doubled(
  own: FarmRecord['figures'] = {},
  name: string,
): NonNullable<FarmRecord['figures']> {
  const stated = own[name];
  return typeof stated?.value === 'number'
    ? { ...own, [name]: { ...stated, value: 2 * stated.value } }
    : own;
}
