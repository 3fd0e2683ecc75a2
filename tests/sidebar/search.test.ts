import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/list';
import { searchCards } from '../../src/sidebar/functions/search';

const first = (query: string): string | undefined => searchCards(cards, query)[0]?.id;
const ids = (query: string): string[] => searchCards(cards, query).map((card) => card.id);

describe('the search for a function', () => {
  it('shows all of them while nothing is asked', () => {
    expect(searchCards(cards, '  ')).toEqual(cards);
  });

  it.each([
    ['how many fish', 'STOCK.LIMIT'],
    ['How many fish?', 'STOCK.LIMIT'],
    ['stock.limit', 'STOCK.LIMIT'],
    ['sow date', 'SOW.DATE'],
    ['dew point', 'AIR.DEWPOINT'],
  ])('answers "%s" with %s first', (query, id) => {
    expect(first(query)).toBe(id);
  });

  it.each([
    ['ammonia', ['AMMONIA.SHARE', 'AMMONIA.UNIONISED', 'AMMONIA.CEILING', 'LOAD.TAN']],
    ['toxic', ['AMMONIA.UNIONISED']],
    ['sow', ['SOW.OFFSET', 'SOW.DATE', 'SOW.STAGE', 'SOW.SERIES']],
    ['sowing', ['SOW.OFFSET', 'SOW.DATE']],
    ['oxygen', ['OXYGEN.FULL', 'OXYGEN.PERCENT', 'LOAD.OXYGEN', 'FLOW.OXYGEN']],
  ])('finds the functions about "%s"', (query, wanted) => {
    expect(ids(query)).toEqual(expect.arrayContaining(wanted));
  });

  it('gives what fits most words where nothing fits them all', () => {
    expect(ids('ammonia qqqq')).toEqual(ids('ammonia'));
  });

  it('finds nothing for what no card speaks of', () => {
    expect(ids('qqqq')).toEqual([]);
  });

  it('finds every function by its own name', () => {
    for (const card of cards) expect(first(card.id), card.id).toBe(card.id);
  });
});
