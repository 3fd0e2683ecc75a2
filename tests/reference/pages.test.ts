import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/list';
import { referencePage } from '../../src/functions/metadata';
import { questions } from '../../src/functions/questions';
import { formulaMathml } from '../../src/reference/mathematics';
import { referencePages } from '../../src/reference/pages';

const pages = referencePages(cards, questions);
const plainWords = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

describe('the written reference', () => {
  it('has one page for each function, and an index', () => {
    expect([...pages.keys()].sort()).toEqual(
      ['index.html', ...cards.map((card) => referencePage(card.id))].sort(),
    );
  });

  it.each(cards.map((card) => [card.id, card] as const))(
    '%s says all that its card says',
    (id, card) => {
      const text = plainWords(pages.get(referencePage(id)) ?? '');
      for (const said of [card.summary, card.method, card.validity, card.caution ?? '']) {
        expect(text).toContain(said);
      }
      for (const parameter of card.parameters) {
        expect(text).toContain(parameter.meaning);
        expect(text).toContain(parameter.takes);
      }
      for (const source of card.sources) expect(text).toContain(source.title);
      for (const example of card.examples) expect(text).toContain(example.says);
      expect(text).not.toMatch(/undefined|NaN|\[object/);
    },
  );

  it('leads nowhere that is not there', () => {
    const there = new Set([...pages.keys(), 'reference.css', 'reference-search.js']);
    const dead = [...pages].flatMap(([name, html]) =>
      [...html.matchAll(/(?:href|src)="([^"#]+)"/g)]
        .map((match) => match[1] ?? '')
        .filter((target) => !target.startsWith('../') && !there.has(target))
        .map((target) => `${name} leads to ${target}`),
    );
    expect(dead).toEqual([]);
  });

  it('asks nothing of any other address', () => {
    for (const html of pages.values()) expect(html).not.toMatch(/(?:href|src)="(?:https?:)?\/\//);
  });

  it('sets a formula as mathematics', () => {
    const mathml = formulaMathml('NH3 = TAN / (1 + 10^(pKa - pH))');
    expect(mathml).toMatch(/<math.*<mfrac>.*<msup>/s);
  });
});
