import { describe, expect, it } from 'vitest';
import { findCard } from '../../src/functions/card-list';
import { type SearchEntry, searchEntry, searchIds } from '../../src/functions/search';

const PLACES = 7;
/** An entry with words in some of its fields (by place, most telling first). */
const entry = (
  id: string,
  words: Readonly<Record<number, string>>,
  more: Partial<SearchEntry> = {},
): SearchEntry => ({
  id,
  phrases: [],
  names: [],
  fields: Array.from({ length: PLACES }, (_, i) => words[i]?.split(' ') ?? []),
  ...more,
});

describe('the order of what is found', () => {
  it('ranks by where a word stands, and drops results that are far behind', () => {
    const entries = Array.from({ length: PLACES }, (_, i) => entry(`IN.${i}`, { [i]: 'pump' }));
    // Parameters (place 4) and methods (6) are below a third of an id; names of crops (5) are not.
    const found = ['IN.0', 'IN.1', 'IN.2', 'IN.3', 'IN.5'];
    expect(searchIds(entries, 'pump')).toEqual(found);
    expect(searchIds([...entries].reverse(), 'pump')).toEqual([
      'IN.0',
      'IN.1',
      'IN.2',
      'IN.5',
      'IN.3',
    ]);
    expect(searchIds(entries.slice(6), 'pump')).toEqual(['IN.6']);
    expect(searchIds(entries, 'pipe')).toEqual([]);
  });

  it('counts the best place of a word, not all of them', () => {
    const twice = entry('TWICE', { 1: 'pump', 2: 'pump', 3: 'pump' });
    expect(searchIds([twice, entry('ONCE', { 0: 'pump' })], 'pump')).toEqual(['ONCE', 'TWICE']);
  });

  it('takes a whole word before one of its root', () => {
    const root = entry('ROOT', { 0: 'germination' });
    expect(searchIds([root, entry('WHOLE', { 1: 'germinate' })], 'germinate')).toEqual([
      'WHOLE',
      'ROOT',
    ]);
    expect(searchIds([root, entry('LOWER', { 2: 'germinate' })], 'germinate')).toEqual([
      'ROOT',
      'LOWER',
    ]);
  });

  it('treats words as related by six letters, or by all of the shorter but its last', () => {
    const found = (query: string, word: string): boolean =>
      // Something after it, so that the word is not one still being typed.
      searchIds([entry('IT', { 0: word })], `${query} zzzz`).length === 1;
    expect(found('carbon', 'carbonate')).toBe(true);
    expect(found('salin', 'salinity')).toBe(false);
    expect(found('alkaline', 'alkalinity')).toBe(true);
    expect(found('alkalosis', 'alkalinity')).toBe(false);
    expect(found('carbonate', 'carbon')).toBe(true);
    expect(found('feed', 'feeder')).toBe(false);
  });

  it('takes the beginning of the last word, which may still be typed', () => {
    const entries = [entry('IT', { 0: 'salinity' })];
    expect(searchIds(entries, 'sal')).toEqual(['IT']);
    expect(searchIds(entries, 'zzzz sal')).toEqual(['IT']);
    expect(searchIds(entries, 'sal zzzz')).toEqual([]);
    expect(searchIds(entries, 'linity')).toEqual([]);
  });

  it('gives a rare word more weight', () => {
    const common = ['A', 'B', 'C', 'D', 'E'].map((id) => entry(id, { 0: 'fish' }));
    expect(searchIds([...common, entry('RARE', { 0: 'pump' })], 'fish pump')[0]).toBe('RARE');
    expect(searchIds([...common, entry('BOTH', { 1: 'pump', 2: 'fish' })], 'fish pump')[0]).toBe(
      'BOTH',
    );
  });

  it('puts a phrase of its own, or its name, before words', () => {
    const words = entry('WORDS', { 1: 'head loss pump' });
    const phrase = entry('PHRASE', {}, { phrases: ['head loss'] });
    expect(searchIds([words, phrase], 'head loss')).toEqual(['PHRASE', 'WORDS']);
    expect(searchIds([words, phrase], ' Head loss?! ')).toEqual(['PHRASE', 'WORDS']);
    expect(searchIds([words, phrase], 'the head loss of a thing')[0]).toBe('PHRASE');
    expect(
      searchIds([words, entry('LONGER', {}, { phrases: ['my head loss here'] })], 'head loss')[0],
    ).toBe('LONGER');
    // One word is no phrase, on either side.
    expect(searchIds([words, entry('ONE', {}, { phrases: ['pump'] })], 'a pump')).toEqual([
      'WORDS',
    ]);
    expect(searchIds([words, entry('PART', {}, { phrases: ['a pump here'] })], 'pump')).toEqual([
      'WORDS',
    ]);
    expect(searchIds([words, entry('PUMP', {})], ' pump ')).toEqual(['PUMP', 'WORDS']);
  });

  it('takes a name of several words whole, the longest first, where more than one function knows it', () => {
    const crop = (id: string, ...names: string[]): SearchEntry =>
      entry(id, { 5: 'bell pepper sweet' }, { names });
    const bell = entry('FLOOD', { 0: 'bell siphon' });
    const crops = [crop('SOW', 'bell pepper'), crop('BED', 'bell pepper')];
    expect(searchIds([bell, ...crops], 'bell pepper')).toEqual(['SOW', 'BED']);
    expect(searchIds([bell, ...crops], 'bell')).toEqual(['FLOOD', 'SOW', 'BED']);
    // Known to one alone, it is words like any other.
    expect(searchIds([bell, crop('SOW', 'bell pepper')], 'bell pepper')).toContain('FLOOD');
    const longer = [crop('A', 'sweet bell pepper'), crop('B', 'sweet bell pepper')];
    expect(searchIds([...crops, ...longer], 'sweet bell pepper')).toEqual(['A', 'B']);
    expect(searchIds([bell, ...crops], 'bell pepper siphon')[0]).toBe('FLOOD');
  });

  it('ignores stop words and bare numbers, and gives all where nothing is left', () => {
    const entries = [entry('A', { 0: 'how 500' }), entry('B', { 0: 'pump' })];
    expect(searchIds(entries, 'how many 500')).toEqual(['A', 'B']);
    expect(searchIds(entries, 'how big is my pump, 500')).toEqual(['B']);
  });

  it.each([
    ['pumps', 'pump'],
    ['sowing', 'sow'],
    ['stocked', 'stock'],
    ['fishes', 'fish'],
    ['boxes', 'box'],
    ['tomatoes', 'tomato'],
    ['mass', 'mass'],
    ['glass', 'glass'],
    ['status', 'status'],
    ['beds', 'beds'],
    ['litres', 'liter'],
    ['colour', 'color'],
    ['colours', 'color'],
    ['mould', 'mold'],
    ['fertilise', 'fertilize'],
    ['sulphate', 'sulfate'],
    ['grey', 'gray'],
  ])('reads %s as %s', (typed, kept) => {
    // Only a whole word of the first place outweighs one of the second.
    const entries = [entry('SECOND', { 1: `${typed}x` }), entry('FIRST', { 0: kept })];
    expect(searchIds(entries, `${typed} ${typed}`)[0]).toBe('FIRST');
  });

  it('is made of what a card says, search words or none', () => {
    const card = findCard('STOCK.DENSITY');
    if (!card) throw new Error('no card');
    const { searchWords: own = [], ...rest } = card;
    const asked = [
      { question: 'Do my fish have room?', ids: [card.id] },
      { question: 'How much to feed?', ids: ['FEED.DAY'] },
    ];
    const full = searchEntry(card, asked);
    const without = searchEntry(rest as typeof card, asked);
    expect(full.phrases).toEqual(
      [card.summary, ...own, 'Do my fish have room?'].map((text) =>
        text.toLowerCase().replace('metre', 'meter'),
      ),
    );
    expect(without.phrases).toEqual([
      card.summary.toLowerCase().replace('metre', 'meter'),
      'do my fish have room?',
    ]);
    expect(full.fields[0]).toEqual(['stock', 'density']);
    expect(full.fields[1]).toContain('overcrowd');
    expect(without.fields[1]).toEqual([]);
    expect(full.fields[3]).toEqual(['fish', 'room']);
    expect(full.names).toEqual([]);
  });

  it('holds the names of several words that an argument takes, each once', () => {
    const card = findCard('STOCK.LIMIT');
    if (!card) throw new Error('no card');
    const { names, fields } = searchEntry(card, []);
    expect(names).toContain('nile tilapia');
    expect(names.every((name) => name.includes(' '))).toBe(true);
    expect(new Set(names).size).toBe(names.length);
    expect(fields[5]).toContain('tilapia');
  });
});
