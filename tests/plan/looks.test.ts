import { describe, expect, it } from 'vitest';
import { looks, marks, seriesLooks } from '../../src/plan/looks';

/** Relative luminance and contrast as WCAG 2.2 (W3C 2023) defines them. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const WHITE = '#FFFFFF';

describe('looks', () => {
  it.each(Object.entries(looks))(
    '%s is legible on its fill (WCAG 2.2: at least 4.5)',
    (_, look) => {
      expect(contrast(look.colour, look.fill ?? WHITE)).toBeGreaterThanOrEqual(4.5);
    },
  );

  it.each(Object.entries(marks))('the mark %s is legible (at least 4.5)', (_, mark) => {
    expect(contrast(mark.colour, mark.fill)).toBeGreaterThanOrEqual(4.5);
  });

  it('marks differ in weight, slant or edge, and in lightness, not in colour alone', () => {
    const kinds = Object.values(marks).map(({ bold, italic, edge }) =>
      JSON.stringify([bold, italic, edge?.style]),
    );
    expect(new Set(kinds).size).toBe(kinds.length);
    expect(contrast(marks.good.fill, marks.watch.fill)).toBeGreaterThan(1.4);
    expect(contrast(marks.watch.fill, marks.bad.fill)).toBeGreaterThan(3);
  });

  it('kinds of cells that a grower must tell apart differ without colour', () => {
    const kinds = (['input', 'preset', 'computed', 'result'] as const).map((id) => {
      const { bold, italic, edges } = looks[id];
      return JSON.stringify([
        bold,
        italic,
        Object.entries(edges ?? {}).map(([side, edge]) => [side, edge?.style]),
      ]);
    });
    expect(new Set(kinds).size).toBe(kinds.length);
  });

  it('series of a chart stand out from the page (WCAG 2.2: at least 3) or are hatched, and differ', () => {
    for (const { colour, hatch } of seriesLooks.slice(0, 2)) {
      expect(contrast(colour, WHITE)).toBeGreaterThanOrEqual(hatch ? 2.5 : 3);
    }
    expect(new Set(seriesLooks.map(({ dash }) => dash)).size).toBe(seriesLooks.length);
    expect(new Set(seriesLooks.map(({ symbol }) => symbol)).size).toBe(seriesLooks.length);
    const neighbours = seriesLooks
      .slice(1)
      .map((look, i) => contrast(look.colour, seriesLooks[i]?.colour ?? WHITE));
    for (const ratio of neighbours) expect(ratio).toBeGreaterThan(1.25);
  });
});
