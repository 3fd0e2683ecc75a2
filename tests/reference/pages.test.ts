import { parse } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type Card, cautionsOf } from '../../src/functions/card';
import { expressionOf, namesIn } from '../../src/functions/expression';
import { factName } from '../../src/functions/formula';
import { cards } from '../../src/functions/card-list';
import { lookupTables } from '../../src/functions/lookup-tables';
import { referencePage } from '../../src/functions/metadata';
import { questionGroups } from '../../src/functions/questions';
import { readable } from '../../src/functions/unit-word';
import { formulaMathml } from '../../src/reference/mathematics';
import { callText } from '../../src/reference/function-page';
import { referencePages } from '../../src/reference/reference-pages';

const pages = referencePages(cards, questionGroups);
const plainWords = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** Symbols of one side of an equation in mathjs syntax, names of functions apart. */
const symbolsIn = (side: string): string[] =>
  parse(side)
    .filter((node, path) => 'isSymbolNode' in node && path !== 'fn')
    .map(String);

/** The left side of each equation of a card, and the names on its right side. */
const equations = ({ formula = {} }: Card): (readonly [string, readonly string[]])[] =>
  typeof formula === 'string'
    ? formula.split(';').map((equation) => {
        const [left = '', right = ''] = equation.split('=');
        return [symbolsIn(left).join(), symbolsIn(right)];
      })
    : Object.entries(formula).map(([name, text]) => [name, namesIn(expressionOf(text))]);

/** What the table calls a fact of an argument: `crop.bed_days`. */
function factLabel(card: Card, name: string): string | undefined {
  const [owner, fact] = factName(name) ?? [];
  const prefix = card.parameters.find((parameter) => parameter.name === owner)?.table?.prefix;
  const table = lookupTables.find((lookup) => lookup.prefix === prefix);
  return [
    ...(table?.columns ?? []),
    ...(table?.matrices ?? []),
    ...(table?.matrices.map(({ heads }) => heads) ?? []),
  ].find((column) => column.fact === fact)?.label;
}

/** What a card says and its page does not. */
const unsaid = (card: Card, page: string): string[] => {
  const text = plainWords(page);
  return [
    card.summary,
    card.method,
    card.validity,
    ...cautionsOf(card),
    ...Object.values(card.symbols ?? {}),
    ...card.parameters.flatMap((parameter) => [
      parameter.meaning,
      parameter.defaultText ?? '',
      readable(parameter.takes),
    ]),
    ...card.sources.flatMap((source) => [source.title, source.author, source.where ?? '']),
    ...card.examples.flatMap((example) => [example.says, callText(card, example.args)]),
  ].filter((said) => !text.includes(said));
};

describe('the written reference', () => {
  it('has one page for each function, an index, and what agrees and what changed', () => {
    expect([...pages.keys()].sort()).toEqual(
      [
        'agreement.html',
        'changes.html',
        'index.html',
        ...cards.map((card) => referencePage(card.id)),
      ].sort(),
    );
  });

  it.each(cards.map((card) => [card.id, card] as const))(
    '%s says all that its card says',
    (id, card) => {
      const page = pages.get(referencePage(id)) ?? '';
      expect(unsaid(card, page)).toEqual([]);
      expect(plainWords(page)).not.toMatch(/undefined|NaN|\[object/);
    },
  );

  // Each plants a page that has fallen behind its card.
  it.each<readonly [string, (card: Card) => Partial<Card>]>([
    ['summary', () => ({ summary: 'planted' })],
    ['method', () => ({ method: 'planted' })],
    ['validity', () => ({ validity: 'planted' })],
    ['caution', () => ({ caution: 'planted' })],
    ['symbols', () => ({ symbols: { k: 'planted' } })],
    [
      'parameter',
      ({ parameters: [one, ...rest] }) =>
        ({ parameters: [{ ...one, meaning: 'planted' }, ...rest] }) as Partial<Card>,
    ],
    [
      'range',
      ({ parameters: [one, ...rest] }) =>
        ({ parameters: [{ ...one, takes: 'planted' }, ...rest] }) as Partial<Card>,
    ],
    [
      'source',
      ({ sources: [one] }) => ({ sources: [{ ...one, where: 'planted' }] }) as Partial<Card>,
    ],
    [
      'example',
      ({ examples: [one, ...rest] }) =>
        ({ examples: [{ ...one, says: 'planted' }, ...rest] }) as Partial<Card>,
    ],
  ])('would notice a page without its %s', (_, change) => {
    const card = cards.find(({ id }) => id === 'FEED.DAY') as Card;
    const page = pages.get(referencePage(card.id)) ?? '';
    expect(unsaid({ ...card, ...change(card) } as Card, page)).toEqual(['planted']);
  });

  it('has no dead links', () => {
    const there = new Set([...pages.keys(), 'reference.css', 'reference-search.js']);
    const dead = [...pages].flatMap(([name, html]) =>
      [...html.matchAll(/(?:href|src)="([^"#]+)"/g)]
        .map((match) => match[1] ?? '')
        .filter((target) => !target.startsWith('../') && !there.has(target))
        .map((target) => `${name} leads to ${target}`),
    );
    expect(dead).toEqual([]);
  });

  it('requests nothing from any other address', () => {
    for (const html of pages.values()) expect(html).not.toMatch(/(?:href|src)="(?:https?:)?\/\//);
  });

  it('explains every symbol of a formula', () => {
    const unknown = cards.flatMap((card) => {
      if (card.formula === undefined) return [];
      const page = plainWords(pages.get(referencePage(card.id)) ?? '');
      const known = new Set([
        'pi',
        ...card.parameters.map((parameter) => parameter.name.toLowerCase()),
        ...Object.keys(card.symbols ?? {}),
        ...equations(card).map(([left]) => left),
      ]);
      return equations(card)
        .flatMap(([, right]) => right)
        .filter((name) => !known.has(name) && !known.has(name.toLowerCase()))
        .filter((name) => !page.includes(factLabel(card, name) ?? 'no such fact'))
        .map((name) => `${card.id}: ${name}`);
    });
    expect(unknown).toEqual([]);
  });

  it('writes units as they are written by hand', () => {
    for (const [name, html] of pages) {
      const read = plainWords(html.replace(/<(code|pre)[^>]*>.*?<\/\1>/gs, '')).replace(
        // Quoted, or the name of a fact: typed as it stands.
        /"[^"]*"|\bper m2\b/g,
        '',
      );
      expect(read, name).not.toMatch(/\bdeg[CF]\b|\bm[23]\b/);
    }
  });

  it('sets a formula as mathematics', () => {
    const mathml = formulaMathml({ NH3: 'tan / (1 + 10^(pKa - ph))' });
    expect(mathml).toMatch(/<math.*<msub>.*<mfrac>.*<msup>/s);
    expect(plainWords(mathml)).toContain('TAN');
  });
});
