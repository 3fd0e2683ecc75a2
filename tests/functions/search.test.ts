import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/card-list';
import { questions } from '../../src/functions/questions';
import { searchEntry, searchIds } from '../../src/functions/search';

const entries = cards.map((card) => searchEntry(card, questions));
const ids = (query: string): readonly string[] => searchIds(entries, query);
const first = (query: string): string | undefined => ids(query)[0];

describe('the search for a function', () => {
  it('shows all functions while nothing is asked', () => {
    expect(ids('  ')).toEqual(cards.map((card) => card.id));
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

  it.each([
    ['fish gasping', 'OXYGEN.PERCENT'],
    ['gasping', 'AMMONIA.UNIONISED'],
    ['algae', 'OXYGEN.PERCENT'],
    ['brown gills', 'DOSE.SALT'],
    ['yellow leaves', 'DOSE.IRON'],
    ['my fish are not eating', 'FEED.RATE'],
    ['cloudy water', 'LOAD.SOLIDS'],
    ['pH crash', 'DOSE.BASE'],
    ['mold', 'AIR.VPD'],
    ['mould', 'AIR.VPD'],
    ['power outage', 'LOAD.OXYGEN'],
    ['hoop house', 'HEAT.COVER'],
    ['evaporation', 'WATER.USE'],
  ])('finds by what is seen on the farm: "%s"', (query, id) => {
    expect(ids(query)).toContain(id);
  });

  it.each([
    ['how much do I feed 500 tilapia', 'FEED.DAY'],
    ['how many tilapia in a 1000 litre IBC', 'STOCK.LIMIT'],
    ['how many tilapia in a 1000 liter IBC', 'STOCK.LIMIT'],
    ['fish dying', 'AMMONIA.UNIONISED'],
    ['nitrate too high', 'FEED.AREA'],
    ['pH too low', 'LOAD.ALKALINITY'],
    ['how big a pump', 'FLOW.TURNOVER'],
    ['head loss', 'FLOW.HEADLOSS'],
    ['settling tank', 'SOLIDS.SETTLED'],
    ['tipburn lettuce', 'AIR.VPD'],
    ['when to plant tomatoes', 'SOW.DATE'],
    ['germinate', 'SEED.COUNT'],
    ['Swiss chard spacing', 'FACT.CROP'],
    ['water temperature for trout', 'FACT.FISH'],
    ['hoop house heat', 'HEAT.COVER'],
  ])('answers a grower’s "%s" with %s first', (query, id) => {
    expect(first(query)).toBe(id);
  });

  it.each([
    ['blossom end rot', 'STOCK.ROTATION'],
    ['waterfall', 'WATER.USE'],
    ['bell pepper', 'FLOOD.VOLUME'],
    ['fish dying', 'FEED.AREA'],
  ])('does not match part of a word, or a word of every card: "%s"', (query, id) => {
    expect(ids(query)).not.toContain(id);
  });

  it('reads British and American spelling alike', () => {
    expect(ids('grey mould')).toEqual(ids('gray mold'));
    expect(ids('fertiliser')).toEqual(ids('fertilizer'));
    expect(ids('odour')).toEqual(ids('odor'));
    expect(ids('vapour')).toEqual(ids('vapor'));
    expect(ids('mouldy')).toEqual(ids('moldy'));
  });

  it('looks for the words of a question that tell something', () => {
    expect(ids('how could I keep fish from the cold')).toEqual(ids('keep fish from the cold'));
    expect(ids('what would seed trays be')).toEqual(ids('seed trays'));
  });

  it.each([
    ['could', 'cold'],
    ['four', 'for'],
    ['hour', 'hor'],
    ['flour', 'flor'],
    ['would', 'wold'],
  ])('takes no other word for a spelling: "%s" is not "%s"', (word, other) => {
    expect(ids(word)).not.toEqual(ids(other));
    expect(ids(word).length).toBeLessThan(cards.length / 4);
  });

  it.each([
    ['cilantro', 'coriander'],
    ['zucchini', 'courgette'],
    ['arugula', 'rocket'],
    ['eggplant', 'aubergine'],
    ['bell pepper', 'sweet pepper'],
    ['chard', 'silverbeet'],
    ['bok choy', 'pak choi'],
    ['scallion', 'spring onion'],
    ['green onion', 'spring onion'],
    ['capsicum', 'sweet pepper'],
  ])('finds a crop alike by either of its names: %s, %s', (one, other) => {
    const own = (query: string): string[] =>
      ids(query).filter((id) => /^(?:SOW|BED|FEED\.(?:RATE|DAY)|FACT)\b/.test(id));
    expect(own(one).length).toBeGreaterThan(1);
    expect(own(other)).toEqual(expect.arrayContaining(own(one)));
    expect(ids(`when do I sow ${one}`)).toEqual(ids(`when do I sow ${other}`));
  });

  it('finds a fish by either of its names', () => {
    expect(first('how much to feed steelhead')).toBe(first('how much to feed rainbow trout'));
  });

  it('gives what fits most words where nothing fits them all', () => {
    expect(ids('ammonia qqqq')).toEqual(ids('ammonia'));
  });

  it('finds nothing for what no card mentions', () => {
    expect(ids('qqqq')).toEqual([]);
  });

  it('finds every function by its own name', () => {
    for (const card of cards) expect(first(card.id), card.id).toBe(card.id);
  });
});
