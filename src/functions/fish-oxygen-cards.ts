import {
  minutesToCritical,
  oxygenOfFish,
  RESTING_EXPONENT,
  RESTING_OXYGEN,
  RESTING_Q10,
  RESTING_WATER,
  RESTING_WEIGHT,
} from '../core/fish-oxygen';
import { FISH_OXYGEN_PER_FEED } from '../core/load';
import { card, type Source, type ValueCard } from './card';
import { waterVolume } from './common-parameters';
import { usualFeedRate, usualFeedRateSymbols } from './fish-formulas';
import { fish, species, waterIfKnown, weight } from './fish-parameters';
import { speciesFigures } from './fish-sources';
import { nameOrNumber, number } from './parameter';
import { speciesTable } from './species-table';
import { timmonsEbeling, volumeBalance } from './water-sources';

const subject = 'Oxygen and carbon dioxide';

const cutthroat: Source = {
  author: 'Density study of cutthroat trout',
  year: '',
  title: 'library record',
  where: '274 g of oxygen a kg of feed at 1.3 % a day',
  evidence: 'read',
};
const tilapiaEquation: Source = {
  author: 'Dissolved-oxygen model of a recirculating tank',
  year: '',
  title: 'article on recirculating systems, section on the fish',
  where: 'Nile tilapia of 100 g at 28 °C: 227 mg/kg/h (the unit is inferred)',
  evidence: 'read',
};
const aguilar: Source = {
  author: 'Aguilar et al.',
  year: 2017,
  title: 'Oxygen use of pacu from 19 to 33 °C',
  where: 'abstract: Q10 2.06, mass exponent 0.788',
  evidence: 'read',
};
const gasping: Source = {
  author: 'Usage of the trade',
  year: '',
  title:
    'growers see fish gasp some ten minutes after a stop in dense tanks; critical levels by species; bacteria in the water use 1 to 3 mg/L an hour',
  evidence: 'common practice',
};

const ofFish = card({
  id: 'OXYGEN.FISH',
  subject,
  summary: 'Oxygen that the fish of a tank take from the water in an hour',
  searchWords: [
    'respiration',
    'oxygen demand',
    'oxygen consumption',
    'breathing',
    'aeration',
    'air pump size',
  ],
  parameters: [
    fish,
    weight,
    species,
    waterIfKnown,
    number('feed', 'feed given a day to the whole group', {
      unit: 'g/day',
      min: 0,
      max: 1e9,
      optional: true,
      defaultText: "what the species' table gives for weight and water (FEED.DAY)",
    }),
    number('per_feed', 'oxygen that the fish use for each weight of feed', {
      unit: 'g/g',
      above: 0,
      max: 2,
      default: FISH_OXYGEN_PER_FEED,
    }),
  ],
  result: { kind: 'number', unit: 'g/h', meaning: 'oxygen, as the mean of a day' },
  method:
    'Feed a day times 0.35, over 24 hours, and at least what unfed fish use: 227 mg a kg and hour at 100 g and 28 °C, less in large fish (weight to the power of -0.2) and in cool water (2.06 times for each 10 degrees).',
  formula: {
    oxygen: 'IF(OR(warmth < species.vital_low, warmth > species.vital_high), NO_ANSWER(), used)',
    used: 'MAX(eaten * per_feed / 24, fish * weight * resting / 1000000)',
    eaten: 'IF(feed = "", fish * weight * full * slowed, feed)',
    resting: `${RESTING_OXYGEN} * (weight / ${RESTING_WEIGHT})^(0 - ${-RESTING_EXPONENT}) * ${RESTING_Q10}^((warmth - ${RESTING_WATER}) / 10)`,
    warmth: 'IF(water = "", (species.best_low + species.best_high) / 2, water)',
    ...usualFeedRate,
  },
  symbols: {
    ...usualFeedRateSymbols,
    used: 'oxygen by the feed, and at least that of unfed fish, g/h',
    eaten: 'feed a day, g',
    resting: 'oxygen of unfed fish, mg for each kg an hour',
    warmth: 'the water, or the middle of the best range, °C',
  },
  sources: [
    timmonsEbeling('0.25 to 0.40 kg of oxygen a kg of feed for the fish'),
    cutthroat,
    tilapiaEquation,
    aguilar,
    speciesFigures,
  ],
  validity:
    'The mean of a day: 1.3 to 1.5 times as much in the hours after feeding (common practice), and more when fish are netted. The floor is one curve for all species, within a third of what was measured in some. Air breathers (African catfish) take part of it from the air. The filter and the solids come on top: LOAD.OXYGEN has fish and filter together. Water in which the species dies is #NUM!.',
  caution: 'Size air for the peak after feeding, with the warmest water of the year.',
  dangers: ['air'],
  examples: [
    {
      args: [640, 235],
      result: 56.807,
      tolerance: 0.001,
      says: '640 tilapia of 235 g on full feed: 57 g an hour, 0.35 of 3.9 kg of feed a day',
    },
    {
      args: [25, 40, 'rainbow trout', 12, 13, 0.274],
      result: 0.149,
      tolerance: 0.0015,
      says: 'A kilogram of trout of 40 g at 1.3 % a day and 274 g of oxygen a kg of feed: 149 mg an hour (density study of cutthroat trout)',
    },
    {
      args: [10, 100, 'Nile tilapia', 28, 0.01],
      result: 0.227,
      says: 'A kilogram of tilapia of 100 g without feed at 28 °C: 227 mg an hour',
    },
  ],
  seeAlso: ['LOAD.OXYGEN', 'OXYGEN.MINUTES', 'AIR.DIFFUSED'],
  compute: (heads, grams, kind, warmth, feed, perFeed) =>
    oxygenOfFish({ fish: heads, weight: grams, species: kind }, warmth, feed, perFeed),
});

const minutes = card({
  id: 'OXYGEN.MINUTES',
  subject,
  summary: 'Minutes until a tank is short of oxygen when the pump or the air stops',
  searchWords: [
    'power cut',
    'outage',
    'blackout',
    'power failure',
    'how long will my fish live',
    'pump failure',
    'air pump failed',
    'blower failure',
    'emergency',
    'alarm',
    'back-up',
    'fish gasping',
  ],
  parameters: [
    waterVolume,
    number('oxygen', 'oxygen in the tank when the supply stops', {
      unit: 'mg/L',
      min: 0,
      max: 60,
    }),
    nameOrNumber(
      'critical',
      'oxygen at which the fish are in danger; a species stands for its own',
      speciesTable.book,
      { unit: 'mg/L', above: 0, max: 20, of: (row) => row.facts.oxygen_critical[0] },
    ),
    number('use', 'oxygen that the fish use an hour (OXYGEN.FISH), at the peak', {
      unit: 'g/h',
      above: 0,
      max: 1e9,
    }),
    number('supply', 'oxygen that still comes in an hour, such as from a bottle', {
      unit: 'g/h',
      min: 0,
      max: 1e9,
      default: 0,
    }),
    number('bacteria', 'oxygen that bacteria in the water use', {
      unit: 'mg/L/h',
      min: 0,
      max: 100,
      default: 0,
    }),
    number('flow', 'water that still runs through the tank', {
      unit: 'L/h',
      min: 0,
      max: 1e8,
      default: 0,
    }),
    number('inlet', 'oxygen in that water as it enters', {
      unit: 'mg/L',
      min: 0,
      max: 60,
      optional: true,
      defaultText: 'no flow',
    }),
  ],
  result: {
    kind: 'number',
    unit: 'min',
    meaning: 'time until the critical level; 0 where it is reached',
  },
  method:
    'What lies between the level and the critical one, over what is used an hour less what still comes in. Where water still runs through the tank, what it brings grows as the tank falls, and the level follows an exponential: volume x dC/dt = flow x (inlet - C) + supply - use.',
  formula: {
    minutes: 'IF(oxygen <= danger, 0, IF(flow = 0, still, moving))',
    danger: 'IF(ISNUMBER(critical), critical, critical.oxygen_critical)',
    still: 'IF(net <= 0, NO_ANSWER(), 60 * volume / 1000 * ((oxygen - danger) / net))',
    moving:
      'IF(inlet = "", VALUE("inlet is missing"), IF(settles >= danger, NO_ANSWER(), 60 * volume / flow * LN((oxygen - settles) / (danger - settles))))',
    settles: 'inlet - 1000 * net / flow',
    net: 'use + volume * bacteria / 1000 - supply',
  },
  symbols: {
    danger: 'critical oxygen, mg/L',
    still: 'time in a tank without flow, min',
    moving: 'time in a tank with flow, min',
    settles: 'level at which flow and use would balance, mg/L',
    net: 'oxygen used less what still comes in, g/h',
  },
  sources: [volumeBalance, gasping],
  validity:
    'A mixed tank whose fish use as much as before: near the bottom and in corners trouble comes sooner. Air that still bubbles when the pump stands counts as a flow of saturated water: litres an hour are a million times the kg/h that the stones would bring at 1 mg/L below saturation. #NUM! where the level never falls so far.',
  caution:
    'A number of minutes is no alarm. Do not feed before or during an outage, and look at the fish, not at the clock.',
  dangers: ['air', 'electricity'],
  examples: [
    {
      args: [1000, 6, 2, 12.5],
      result: 19.2,
      says: '1000 L with 50 kg of fish that use 250 mg a kg and hour, from 6 to 2 mg/L: 19 minutes',
    },
    {
      args: [3000, 9, 'rainbow trout', 12],
      result: 60,
      says: '60 kg of trout in 3000 L, from 9 to 5 mg/L: an hour',
    },
    {
      args: [7800, 6, 'Nile tilapia', 80, 0, 2, 7800, 7],
      result: 26.34,
      tolerance: 0.05,
      says: 'The air stops in a tank of 7800 L and the pump runs on: 26 minutes',
    },
  ],
  seeAlso: ['OXYGEN.FISH', 'OXYGEN.PERCENT', 'FLOW.OXYGEN'],
  compute: (volume, oxygen, critical, use, supply, bacteria, flow, inlet) =>
    minutesToCritical({ volume, oxygen, critical, use, supply, bacteria, flow, inlet }),
});

export const fishOxygenCards: readonly ValueCard[] = [ofFish, minutes];
