import {
  alkalinityUsed,
  CO2_PER_FEED,
  loadFromFeed,
  OXYGEN_PER_FEED,
  SOLIDS_PER_FEED,
  TAN_PER_PROTEIN,
  tanFromFeed,
  USUAL_PROTEIN,
} from '../core/load';
import { wrongValue } from '../core/errors';
import { GRAMS_PER_EQUIVALENT_CACO3, molarMass } from '../core/molar-mass';
import { card, type ValueCard } from './card';
import { FEED_PROTEIN, tanPerDay } from './common-parameters';
import { number } from './parameter';
import { faoFeedProtein, stoichiometry, timmonsEbeling, wiesmann } from './water-sources';

const subject = 'Waste and oxygen load';
const feed = number('feed', 'feed given a day', { unit: 'g/day', min: 0, max: 1e9 });

const tan = card({
  id: 'LOAD.TAN',
  subject,
  summary: "Ammonia nitrogen that a day's feed puts into the water",
  searchWords: ['waste', 'excretion', 'nitrogen'],
  parameters: [
    feed,
    number('protein', 'protein in the feed, as on the bag', {
      ...FEED_PROTEIN,
      default: USUAL_PROTEIN,
      defaultText: '0.32, a usual feed for tilapia and carp',
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'total ammonia, as N' },
  method:
    'Feed times protein times 0.092: the nitrogen in protein (16 %), of which 80 % is taken up, 80 % of that given off and 90 % of that as ammonia.',
  formula: { TAN: `feed * protein * ${TAN_PER_PROTEIN}` },
  sources: [timmonsEbeling('ammonia from feed: 0.092 x protein'), faoFeedProtein],
  validity:
    'The factor 0.092 is usual practice, good to about 10 %; fish that grow slowly or waste feed give off more. Check it against your own tests.',
  examples: [
    {
      args: [1000, 0.35],
      result: 32.2,
      tolerance: 1e-9,
      says: '1 kg of feed with 35 % protein',
    },
    {
      args: [3008],
      result: 88.55552,
      says: '640 fish of 235 g at 2 % a day, feed of 32 % protein',
    },
  ],
  seeAlso: ['FILTER.SURFACE', 'LOAD.ALKALINITY', 'FEED.DAY'],
  compute: tanFromFeed,
});

const oxygen = card({
  id: 'LOAD.OXYGEN',
  subject,
  summary: "Oxygen that fish and nitrifying bacteria use up on a day's feed",
  searchWords: [
    'aeration',
    'O2',
    'demand',
    'respiration',
    'aerator',
    'air pump',
    'blower',
    'power cut',
    'outage',
    'air stone',
    'blackout',
    'back-up power',
  ],
  parameters: [
    feed,
    number('per_feed', 'oxygen used for each weight of feed', {
      unit: 'g/g',
      above: 0,
      max: 2,
      default: OXYGEN_PER_FEED,
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'oxygen' },
  method:
    'Feed times a factor. The 0.5 taken when it is left out is 0.35 for the fish and 0.13 for nitrifying their ammonia (4.57 g a g of nitrogen), rounded up.',
  formula: { O2: 'feed * per_feed' },
  sources: [timmonsEbeling('0.25 to 0.40 for fish, 0.4 to 1.0 for the whole tank'), wiesmann],
  validity:
    'The factor is usual practice, 0.4 to 1.0 for a whole tank: take 0.7 or more where solids stay in the water. A daily mean; the hours after feeding need up to twice as much.',
  caution: 'Size aeration for the peak, which comes some hours after feeding.',
  dangers: ['air'],
  examples: [
    { args: [1000], result: 500, says: '1 kg of feed a day' },
    { args: [3008, 0.7], result: 2105.6, says: '3008 g a day where the solids stay in the water' },
  ],
  seeAlso: ['FLOW.OXYGEN', 'OXYGEN.FULL', 'LOAD.CO2'],
  compute: loadFromFeed,
});

const solids = card({
  id: 'LOAD.SOLIDS',
  subject,
  summary: "Dry solids that a day's feed leaves in the water",
  searchWords: [
    'faeces',
    'sludge',
    'waste',
    'TSS',
    'cloudy water',
    'foam',
    'uneaten feed',
    'smell',
    'odour',
    'clogged',
    'settling tank',
    'clarifier',
    'swirl filter',
    'drum filter',
  ],
  parameters: [
    feed,
    number('share', 'dry solids for each weight of feed', {
      unit: 'g/g',
      above: 0,
      max: 1,
      default: SOLIDS_PER_FEED,
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'dry solids' },
  method: 'Feed times the share of it that ends as solids, 0.25 unless you say otherwise.',
  formula: { solids: 'feed * share' },
  sources: [timmonsEbeling('0.2 to 0.3 kg of dry solids a kg of feed')],
  validity:
    'The share is usual practice, 0.2 to 0.3; check with your supplier. Wet sludge is ten to fifty times as heavy.',
  dangers: ['sulphide'],
  examples: [
    { args: [1000], result: 250, says: '1 kg of feed a day' },
    { args: [3008, 0.3], result: 902.4, says: '3008 g a day of a coarse feed' },
  ],
  seeAlso: ['LOAD.OXYGEN', 'LOAD.TAN'],
  compute: loadFromFeed,
});

const alkalinity = card({
  id: 'LOAD.ALKALINITY',
  subject,
  summary: 'Alkalinity that nitrifying a day of ammonia uses up',
  searchWords: [
    'buffer',
    'KH',
    'carbonate hardness',
    'pH drop',
    'pH crash',
    'pH falls',
    'lower pH',
    'low pH',
    'pH too low',
  ],
  parameters: [
    tanPerDay,
    number('uptake', 'share of that nitrogen which plants take up as nitrate', {
      unit: 'share',
      min: 0,
      max: 1,
      default: 0,
      defaultText: '0: the most that can be used up',
    }),
    number('denitrified', 'share of it that is lost as gas from places without oxygen', {
      unit: 'share',
      min: 0,
      max: 1,
      default: 0,
      defaultText: '0: the most that can be used up',
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'alkalinity, as CaCO3' },
  method:
    'Two equivalents for each mole of nitrogen: 7.145 g CaCO3 a g. Plants that take up nitrate, and denitrification, give one of the two back: 3.57 g a g.',
  formula: {
    alkalinity:
      'IF(uptake + denitrified > 1, VALUE("uptake and denitrified together must be at most 1"), per_nitrogen * tan * (1 - (uptake + denitrified) / 2))',
    per_nitrogen: `2 * ${GRAMS_PER_EQUIVALENT_CACO3} / ${molarMass('N')}`,
  },
  symbols: {
    per_nitrogen:
      'two equivalents of CaCO3 for each mole of nitrogen, g/g; from the molar masses, 7.145',
  },
  sources: [stoichiometry],
  validity:
    'The balance of nitrogen alone: subtract the alkalinity of make-up water. Published farms dosed far less than the upper bound that stands where both shares are left out: 16 to 36 g CaCO3 for each kg of feed, where the bound is about 210. Your own record of base and feed is the best guide.',
  dangers: ['base', 'steps'],
  examples: [
    { args: [1], result: 7.14, tolerance: 0.01, says: '1 g of ammonia nitrogen' },
    { args: [88.56], result: 632.8, tolerance: 0.05, says: 'The ammonia of 3008 g of feed' },
    {
      args: [300, 0.3, 0.3],
      result: 1500.54,
      tolerance: 0.01,
      says: '300 g nitrified, 90 taken up by plants and 90 lost as gas: 1.5 kg a day and not 2.1',
    },
  ],
  seeAlso: ['DOSE.BASE', 'LOAD.TAN'],
  compute: (tan, uptake, denitrified) => {
    if (uptake + denitrified > 1) {
      throw wrongValue(
        `uptake and denitrified together must be at most 1; got ${uptake} and ${denitrified}`,
      );
    }
    return alkalinityUsed(tan, uptake, denitrified);
  },
});

const carbonDioxide = card({
  id: 'LOAD.CO2',
  subject,
  summary: "Carbon dioxide that fish and bacteria give off on a day's feed",
  searchWords: ['degassing', 'stripping', 'off-gassing'],
  parameters: [
    feed,
    number('per_feed', 'carbon dioxide for each weight of feed', {
      unit: 'g/g',
      above: 0,
      max: 3,
      default: CO2_PER_FEED,
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'carbon dioxide' },
  method:
    'Feed times a factor. The 0.6875 taken when it is left out is 1.375 g for each g of oxygen at 0.5 g oxygen a g of feed.',
  formula: { CO2: 'feed * per_feed' },
  sources: [
    stoichiometry,
    timmonsEbeling('as many molecules of carbon dioxide out as of oxygen in: 1.375 by weight'),
  ],
  validity:
    'Usual practice, as sure as the oxygen factor behind it (0.4 to 1.0 g oxygen a g of feed).',
  examples: [
    { args: [1000], result: 687.5, says: '1 kg of feed a day' },
    { args: [3008, 0.9625], result: 2895.2, says: '3008 g a day at 0.7 g oxygen a g of feed' },
  ],
  seeAlso: ['CARBON.DIOXIDE', 'LOAD.OXYGEN'],
  compute: loadFromFeed,
});

export const loadCards: readonly ValueCard[] = [tan, oxygen, solids, alkalinity, carbonDioxide];
