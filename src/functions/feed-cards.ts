import { noAnswer } from '../core/errors';
import {
  FEED_CONVERSIONS,
  feedConversion,
  feedRate,
  MAX_MEASURED_CONVERSION,
} from '../core/feeding';
import { card, type ValueCard } from './card';
import { feedRate as feedRateSteps, feedRateSymbols } from './fish-formulas';
import { coefficient, conversion, fish, species, waterIfKnown, weight } from './fish-parameters';
import { fao589, goolishAdelman, haskell, plainArithmetic, speciesFigures } from './fish-sources';
import { formulaText } from './formula-text';
import { number, tableName } from './parameter';
import { speciesTable } from './species-table';

const namedSpecies = tableName('species', 'fish species', speciesTable.book, {});

const feedCoefficient = {
  ...coefficient,
  meaning:
    'growth coefficient of these fish (GROWTH.COEFFICIENT with its species): fish that grow faster eat more',
};

const practice =
  'The rates are usual practice: check them with your feed supplier, and go by what the fish eat in the time you give them.';

export const feedRateCard = card({
  id: 'FEED.RATE',
  subject: 'Feed',
  summary: 'Feed a day as a share of body weight, by species, fish weight and water temperature',
  searchWords: [
    'ration',
    'percent body weight',
    'feeding table',
    'feed chart',
    'not eating',
    'off their feed',
    'overfeeding',
    'uneaten feed',
    'cold snap',
    'appetite',
  ],
  parameters: [namedSpecies, weight, waterIfKnown, feedCoefficient, conversion],
  result: { kind: 'number', unit: 'share', meaning: 'feed a day as a share of body weight' },
  method:
    "The species' rate for the weight, read along straight lines between 1, 5, 20, 50, 100, 250, 500 and 1000 g; beyond them it goes with the inverse cube root of the weight, up to 20 % for fry. Away from the best temperatures it falls along a parabola, to nothing at the feeding limits, and in cool water at least in proportion to the temperature. Growth follows the same response (GROWTH.WEIGHT). Feed is growth times conversion: fish of another coefficient or conversion than the species' own eat in proportion to both.",
  formula: { rate: 'full * slowed', ...feedRateSteps },
  symbols: feedRateSymbols,
  sources: [speciesFigures, haskell, fao589, goolishAdelman],
  validity:
    'Fish in grow-out on a complete dry feed, from 1 g up. Fry are fed by eye; brood fish less.',
  caution: practice,
  examples: [
    {
      args: ['Nile tilapia', 180],
      result: 0.0292,
      says: 'Tilapia of 180 g in warm water: 2.92 % of their weight a day',
    },
    {
      args: ['Nile tilapia', 180, 22],
      result: 0.0219,
      says: 'The same fish at 22 °C, half way down to where they stop feeding: three quarters of it',
    },
    {
      args: ['Nile tilapia', 180, 17],
      result: 0,
      says: 'At 17 °C tilapia stop feeding (FAO Technical Paper 589): no feed',
    },
  ],
  seeAlso: ['FEED.DAY', 'FACT.FISH'],
  compute: feedRate,
});

interface RateTexts {
  readonly species: string;
  readonly weight: string;
  readonly water: string;
  readonly coefficient: string | undefined;
  readonly conversion: string | undefined;
}

/** Formula for the feed rate in water whose temperature is known. */
export function plainFeedRate(a: RateTexts): string {
  const places = { arguments: a };
  const slowed = formulaText(feedRateCard, places, 'appetite');
  return formulaText(feedRateCard, { ...places, steps: { slowed } });
}

/** Formula for the share of the full ration that a species takes at a water temperature. */
export const plainAppetite = (species: string, water: string): string =>
  formulaText(feedRateCard, { arguments: { species, water } }, 'appetite');

const day = card({
  id: 'FEED.DAY',
  subject: 'Feed',
  summary: 'Feed a day for a group of fish',
  searchWords: [
    'ration',
    'daily feed',
    'how much to feed',
    'not eating',
    'overfeeding',
    'uneaten feed',
    'cold snap',
    'how much do I feed',
  ],
  parameters: [
    fish,
    weight,
    species,
    waterIfKnown,
    number(
      'rate',
      'feed a day as a share of body weight, in place of the table; then species and water change nothing',
      {
        unit: 'share',
        above: 0,
        max: 0.5,
        optional: true,
        defaultText: "the species' rate for weight and water, as in FEED.RATE",
      },
    ),
    feedCoefficient,
    conversion,
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'feed for the whole group' },
  method:
    'Fish times mean weight times the feed rate of the species for that weight and water (FEED.RATE), or times your own rate.',
  formula: {
    feed: 'fish * weight * IF(rate = "", rate_of_table, rate)',
    rate_of_table: 'full * slowed',
    ...feedRateSteps,
  },
  symbols: feedRateSymbols,
  sources: [speciesFigures, haskell, fao589, goolishAdelman],
  validity: 'As FEED.RATE: fish in grow-out on a complete dry feed, from 1 g up.',
  caution: practice,
  examples: [
    {
      args: [640, 235],
      result: 3895.36,
      says: '640 tilapia of 235 g in warm water: about 3.9 kg a day',
    },
    {
      args: [100, 200, null, null, 0.01],
      result: 200,
      says: '20 kg of fish at 1 % a day, the worked example of FAO Technical Paper 589: 200 g a day',
    },
    {
      args: [640, 235, 'rainbow trout', 9],
      result: 1305.26,
      tolerance: 0.01,
      says: 'Trout in water of 9 °C, nine fourteenths of what they take from 14 °C on',
    },
  ],
  seeAlso: ['FEED.RATE', 'FEED.AREA', 'STOCK.FORECAST'],
  compute: (fishCount, grams, kind, water, own, growth, converts) =>
    fishCount * grams * (own ?? feedRate(kind, grams, water, growth, converts)),
});

const DECIMALS = 4;

/** A conversion that dry feed can give; throws a sentence about units and records where it cannot. */
function measuredConversion(feed: number, gain: number): number {
  const ratio = feedConversion(feed, gain);
  const shown = Number(ratio.toPrecision(DECIMALS));
  if (ratio < FEED_CONVERSIONS[0]) {
    throw noAnswer(
      `${feed} of feed for ${gain} of gain would be ${shown} for each; fish on dry feed take at least ${FEED_CONVERSIONS[0]}: give both in the same unit, all the feed, and a gain without fish that were added`,
    );
  }
  if (ratio > MAX_MEASURED_CONVERSION) {
    throw noAnswer(
      `${feed} of feed for ${gain} of gain would be ${shown} for each; give both in the same unit, or weigh again when the fish have gained more`,
    );
  }
  return ratio;
}

const ofFeed = card({
  id: 'FEED.CONVERSION',
  subject: 'Feed',
  summary: 'Feed conversion ratio: feed given for each unit of weight gained',
  searchWords: ['FCR', 'feed efficiency'],
  parameters: [
    number('feed', 'feed given over a time', { unit: 'kg', min: 0, max: 1e9 }),
    number('gain', 'weight that the fish gained in that time, in the same unit', {
      unit: 'kg',
      above: 0,
      max: 1e9,
    }),
  ],
  result: { kind: 'number', unit: '', meaning: 'feed for each unit of gain' },
  method:
    'Feed divided by gain. The gain is harvest and stock at the end less stock at the beginning.',
  formula: {
    conversion: `IF(OR(ratio < ${FEED_CONVERSIONS[0]}, ratio > ${MAX_MEASURED_CONVERSION}), NO_ANSWER(), ratio)`,
    ratio: 'feed / gain',
  },
  symbols: { ratio: 'feed for each unit of gain, whatever it comes to' },
  sources: [{ ...fao589, where: 'chapter 7: conversion is feed over gain' }, plainArithmetic],
  validity: `Any time over which feed and fish were weighed and the fish gained. Below ${FEED_CONVERSIONS[0]} more would have become fish than dry feed gives (the best that is published are 0.6 to 0.7 of small fish), above ${MAX_MEASURED_CONVERSION} the fish did not gain: #NUM! with what to look at.`,
  examples: [
    { args: [34, 20], result: 1.7, says: '34 kg of feed for 20 kg of growth' },
    {
      args: ['75 lb', '50 lb'],
      result: 1.5,
      says: '75 lb of feed for 50 lb of growth: the ratio is the same in any unit',
    },
  ],
  seeAlso: ['FEED.DAY', 'GROWTH.COEFFICIENT'],
  compute: measuredConversion,
});

export const feedCards: readonly ValueCard[] = [feedRateCard, day, ofFeed];
