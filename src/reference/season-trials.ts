/**
 * Crops under cover as published, beside what the crop table and the degree days give. Publications that the
 * table takes its figure from are not among them.
 */
import { cycleDays, type CatalogueModel } from './agreement/farm-estimates';

export interface SeasonTrial {
  readonly what: string;
  readonly source: string;
  readonly evidence: 'read' | 'derived' | 'memory';
  readonly unit: 'kg/m²' | 'kg/m² a year' | 'day' | '°C day';
  readonly published: number;
  /** Least and most of model / published that counts as agreement. */
  readonly band: readonly [number, number];
  readonly answer: (model: CatalogueModel) => number;
  /** Why it may lie outside the band, or what was assumed. */
  readonly because?: string;
  /** The ratio lies outside the band, for the reason in `because`. */
  readonly outside?: true;
}

const leafy: readonly [number, number] = [0.6, 1.4];
const fruiting: readonly [number, number] = [0.5, 1.5];
const days: readonly [number, number] = [0.7, 1.4];

const areaYield =
  (crop: string) =>
  (model: CatalogueModel): number =>
    model.ask('FACT.CROP', crop, 'kg per m2');

/** Warmth of a day above the base of a crop, heat beyond its cap not counted. */
const warmth = (model: CatalogueModel, crop: string, mean: number): number =>
  model.ask(
    'DEGREE.DAYS',
    mean,
    mean,
    model.ask('FACT.CROP', crop, 'base temp'),
    model.ask('FACT.CROP', crop, 'cap temp'),
  );

/** Days from sowing to the first cut at a mean temperature, the nursery warm. */
const daysFromSowing =
  (crop: string, mean: number) =>
  (model: CatalogueModel): number =>
    model.ask('FACT.CROP', crop, 'transplant days') +
    model.ask('FACT.CROP', crop, 'degree days') / warmth(model, crop, mean);

const tunnelCucumber =
  'production over area of greenhouse cucumber, Hortic. Sci. Technol. 2023 41:666';
const lightAndHeat =
  'SARE project FNE11-718, New Hampshire 2011: degree days times hours of light, one farm';

export const seasonTrials: readonly SeasonTrial[] = [
  {
    what: 'lettuce of a year, a lit and heated house as modelled',
    source: 'Barbosa et al. 2015, IJERPH 12:6879',
    evidence: 'read',
    unit: 'kg/m² a year',
    published: 41,
    band: leafy,
    answer: (model) =>
      (model.ask('FACT.CROP', 'lettuce', 'kg per m2') * 365) / cycleDays(model, 'lettuce'),
  },
  {
    what: 'romaine lettuce at 20 plants/m², hydroponic, September at 42° north',
    source: 'University of Tuscia rafts, hydroponic control',
    evidence: 'read',
    unit: 'kg/m²',
    published: 6.02,
    band: leafy,
    answer: areaYield('lettuce'),
    because: 'heads of 300 g in full light; the table holds market heads of 180 g',
    outside: true,
  },
  {
    what: 'the same in August, in shade',
    source: 'University of Tuscia rafts, hydroponic control',
    evidence: 'read',
    unit: 'kg/m²',
    published: 2.84,
    band: leafy,
    answer: areaYield('lettuce'),
  },
  {
    what: 'pak choi on rafts, small heads at 63 plants/m²',
    source: 'Gobilik et al. 2021, Trans. Sci. Technol. 8',
    evidence: 'read',
    unit: 'kg/m²',
    published: 5.1,
    band: leafy,
    answer: areaYield('pak choi'),
    because: 'the table holds large heads, 11 on a m²',
  },
  {
    what: 'heirloom tomato in tunnels',
    source: "O'Connell et al. 2012, HortScience 47:1283",
    evidence: 'read',
    unit: 'kg/m²',
    published: 10,
    band: fruiting,
    answer: areaYield('tomato'),
  },
  {
    what: 'cucumber, national mean of Korea',
    source: tunnelCucumber,
    evidence: 'read',
    unit: 'kg/m²',
    published: 7.96,
    band: fruiting,
    answer: areaYield('cucumber'),
  },
  {
    what: 'cucumber, national mean of Spain',
    source: tunnelCucumber,
    evidence: 'read',
    unit: 'kg/m²',
    published: 9.66,
    band: fruiting,
    answer: areaYield('cucumber'),
  },
  {
    what: 'sweet pepper, total fruit at 2.6 to 3.9 plants/m²',
    source: 'Monge-Pérez 2016, Tecnología en Marcha',
    evidence: 'read',
    unit: 'kg/m²',
    published: 7.6,
    band: fruiting,
    answer: areaYield('sweet pepper'),
  },
  {
    what: 'lettuce, sowing to full head at 23.9 °C and 16 h of light',
    source: lightAndHeat,
    evidence: 'read',
    unit: 'day',
    published: 50,
    band: days,
    answer: daysFromSowing('lettuce', 23.9),
  },
  {
    what: 'lettuce, sowing to full head at 18.3 °C and 16 h of light',
    source: lightAndHeat,
    evidence: 'read',
    unit: 'day',
    published: 70,
    band: days,
    answer: daysFromSowing('lettuce', 18.3),
  },
  {
    what: 'broccoli, sowing to harvest at 15.6 °C and 14 h of light',
    source: lightAndHeat,
    evidence: 'derived',
    unit: 'day',
    published: 121.4,
    band: days,
    answer: daysFromSowing('broccoli', 15.6),
  },
  {
    what: 'sugar snap pea, warmth from sowing to harvest above 3 °C',
    source: 'trial in the Ebro valley, Scientia Agricola',
    evidence: 'read',
    unit: '°C day',
    published: 960,
    band: [0.8, 1.25],
    answer: (model) =>
      model.ask('FACT.CROP', 'peas', 'degree days') +
      model.ask('FACT.CROP', 'peas', 'transplant days') *
        warmth(model, 'peas', model.ask('FACT.CROP', 'peas', 'air')),
  },
];
