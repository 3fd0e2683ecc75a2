import { MOULD_NIGHT, MOULD_WET, mouldMargin, wetHours } from '../core/leaf-wetness';
import { lampLight, lightInside, MICROMOL_PER_JOULE, USABLE_SHARE } from '../core/light';
import { card, type Source, type ValueCard } from './card';
import { airTemperature, coverLight, latitude, shadeCloth } from './climate-parameters';
import { choice, date, number } from './parameter';
import { fao56 } from './shared-sources';
import { radiationFormula, radiationSymbols } from './sun-cards';

const inside = card({
  id: 'LIGHT.INSIDE',
  subject: 'Sun and season',
  summary: 'Light of a day for the plants under a cover',
  searchWords: [
    'DLI',
    'daily light integral',
    'shade cloth',
    'winter light',
    'film',
    'transmission',
    'PAR',
    'too dark',
  ],
  parameters: [
    latitude,
    date('date', 'the day'),
    number('clearness', 'share of the sunshine above the air that reaches the ground', {
      unit: 'share',
      above: 0,
      max: 0.85,
      default: 0.5,
    }),
    coverLight,
    shadeCloth,
  ],
  result: { kind: 'number', unit: 'mol/m2/day', meaning: 'daily light (DLI)' },
  method: `Sunshine above the air (SUN.RADIATION) times clearness, ${USABLE_SHARE} of it light that plants use, ${MICROMOL_PER_JOULE} µmol a joule, through cover and shade.`,
  formula: {
    DLI: `Ra * clearness * ${USABLE_SHARE} * ${MICROMOL_PER_JOULE} * cover * (1 - shade)`,
    ...radiationFormula,
  },
  symbols: radiationSymbols,
  sources: [
    fao56('equations 21 to 25'),
    {
      author: 'Akitsu et al.',
      year: 2022,
      title: 'Share and quanta of photosynthetic light in sunshine',
      where: 'abstract: 0.41 to 0.48 of the energy, 4.55 to 4.57 µmol/J',
      evidence: 'read',
    },
    {
      author: 'Purdue University Extension',
      year: 'undated',
      title: 'High tunnels: light under film',
      where: 'new film takes 20 to 25 %, six-year film 40 %, condensation up to 15 %',
      evidence: 'read',
    },
  ],
  validity:
    'Means of a week or more. Clearness about 0.35 in dull winters, 0.5 over a temperate year, 0.65 in dry sun, 0.75 under a clear sky (recalled). Covers: new film 0.75, old 0.6, double 0.65, glass with its frame 0.7. Leafy crops and herbs want 12 at least, fruiting ones 20 to 25.',
  examples: [
    {
      args: [52, '2026-06-15', 0.48, 0.775],
      result: 31.84,
      tolerance: 0.005,
      says: 'Midsummer at 52 N under new film: 41 mol outside, 32 inside',
    },
    {
      args: [50, '2026-12-15', 0.35, 0.6],
      result: 3.24,
      tolerance: 0.005,
      says: 'December at 50 N under old film: lettuce stands still',
    },
  ],
  seeAlso: ['SUN.RADIATION', 'LIGHT.LAMPS', 'FACT.CROP'],
  compute: lightInside,
});

const lamps = card({
  id: 'LIGHT.LAMPS',
  subject: 'Sun and season',
  summary: 'Light of a day that lamps give',
  searchWords: ['grow lights', 'PPFD', 'DLI', 'supplemental light', 'LED', 'nursery light'],
  parameters: [
    number('ppfd', 'light at the leaves (PPFD)', { unit: 'umol/m2/s', min: 0, max: 3000 }),
    number('hours', 'hours a day', { unit: 'h', min: 0, max: 24 }),
  ],
  result: { kind: 'number', unit: 'mol/m2/day', meaning: 'daily light (DLI)' },
  method: 'Light a second times the seconds.',
  formula: { DLI: 'ppfd * hours * 3600 / 1000000' },
  sources: [
    {
      author: 'Definition',
      year: '',
      title: 'micromoles a second over the seconds of a day',
      evidence: 'definition',
    },
  ],
  validity: 'Light as measured at the leaves, as a mean over the bed.',
  dangers: ['electricity'],
  examples: [
    { args: [200, 16], result: 11.52, says: '200 µmol/m²/s for 16 hours' },
    { args: [120, 14], result: 6.048, says: 'A nursery shelf' },
  ],
  seeAlso: ['LIGHT.INSIDE'],
  compute: lampLight,
});

const yunis: Source = {
  author: 'Yunis, Shtienberg, Elad & Mahrer',
  year: 1994,
  title: 'Grey mould in unheated cucumber houses',
  where: 'more than 7 h wet a day and 9.5 h of the night at 9 to 21 °C',
  evidence: 'read',
};

const wetness = card({
  id: 'LEAF.WETNESS',
  subject: 'Air',
  summary: 'Hours of wet leaf after which downy mildew or grey mould infects',
  searchWords: ['mould', 'mildew', 'botrytis', 'leaf wetness', 'condensation', 'disease', 'mold'],
  parameters: [
    choice('disease', 'the disease', {
      'downy mildew': ['downy', 'cucumber downy mildew'],
      'grey mould': ['gray mold', 'botrytis', 'grey mold', 'gray mould'],
    }),
    airTemperature('air', 'temperature while the leaves are wet'),
  ],
  result: { kind: 'number', unit: 'h', meaning: 'hours of wet leaf' },
  method:
    'Read from published bands of temperature: downy mildew of cucumber 12 h at 10 to 15 °C, 6 h to 20, 2 h to 28; grey mould 5 h at 18 to 24, 7 h from 9 on and up to 28.',
  formula: {
    hours: 'SWITCH(disease, "downy mildew", downy, "grey mould", grey)',
    downy: 'IF(OR(air < 10, air > 28), NO_ANSWER(), IF(air < 15, 12, IF(air < 20, 6, 2)))',
    grey: 'IF(OR(air < 9, air > 28), NO_ANSWER(), IF(OR(air < 18, air > 24), 7, 5))',
  },
  symbols: { downy: 'hours for downy mildew', grey: 'hours for grey mould' },
  sources: [
    {
      author: 'Trial of temperature and wetness, and a producer article',
      year: '',
      title: 'cucurbit downy mildew',
      where: '12 h at 10 to 15 °C, 6 h at 15 to 19, 2 h at 20; none above 25 to 28',
      evidence: 'read',
    },
    yunis,
    {
      author: 'Disease note on tomato',
      year: '',
      title: 'grey mould: 18 to 24 °C, infects within 5 h, suppressed above 28',
      evidence: 'read',
    },
  ],
  validity:
    'A leaf is wet while it is at or below the dew point, and until the drops have dried. Powdery mildew needs no wet leaf: it likes 50 to 70 % humidity near 20 °C, so that dry air that stops grey mould suits it. #NUM! where neither is known to infect.',
  dangers: ['sprays'],
  examples: [
    { args: ['downy mildew', 12.5], result: 12, says: 'A cool night: 12 h' },
    { args: ['downy mildew', 20], result: 2, says: 'A warm one: 2 h' },
    { args: ['grey mould', 20], result: 5, says: 'Grey mould at 20 °C' },
  ],
  seeAlso: ['AIR.DEWPOINT', 'AIR.COVER', 'LEAF.WARNING'],
  compute: wetHours,
});

export const lightCards: readonly ValueCard[] = [inside, lamps];
const warning = card({
  id: 'LEAF.WARNING',
  subject: 'Air',
  summary: 'Hours by which a week of wet leaves and mild nights passes the limits of grey mould',
  searchWords: ['mould', 'botrytis', 'disease warning', 'outbreak', 'wet leaves', 'mold'],
  parameters: [
    number('wet', 'hours a day that leaves were wet, mean of the week', {
      unit: 'h',
      min: 0,
      max: 24,
    }),
    number('night', 'hours between 18:00 and 08:00 at 9 to 21 °C, mean of the week', {
      unit: 'h',
      min: 0,
      max: 14,
    }),
  ],
  result: { kind: 'number', unit: 'h', meaning: 'hours above the limits; above 0 is a warning' },
  method: `The smaller of what the wet hours are above ${MOULD_WET} and what the mild night hours are above ${MOULD_NIGHT}: both must be passed.`,
  formula: { margin: `MIN(wet - ${MOULD_WET}, night - ${MOULD_NIGHT})` },
  sources: [yunis],
  validity:
    'Cucumber in unheated houses. Above 0 it is to be expected, at 0 and below it is not; in heated houses and other crops take it as a hint.',
  caution:
    'Air and dry leaves come first: vent at dusk and at sunrise, water early, take leaves off that touch.',
  dangers: ['sprays'],
  examples: [
    { args: [7.5, 10.5], result: 0.5, says: 'A wet, mild week: half an hour above both limits' },
    { args: [7.5, 9], result: -0.5, says: 'Wet, but the nights were cold: no warning' },
  ],
  seeAlso: ['LEAF.WETNESS', 'AIR.DEWPOINT', 'VENT.DRYING'],
  compute: mouldMargin,
});

export const leafCards: readonly ValueCard[] = [wetness, warning];
