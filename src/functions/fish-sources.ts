import type { Source } from './card';

/** Publications on fish that more than one card rests on. */
export const fao589: Source = {
  author: 'Somerville, Cohen, Pantanella, Stankus & Lovatelli',
  year: 2014,
  title: 'Small-scale aquaponic food production, FAO Fish. Aquac. Tech. Pap. 589',
  where: 'chapter 7: feeding 1-2 % of body weight a day in grow-out; feeding limits of tilapia',
  evidence: 'read',
};

/** The species table as a whole: most of its figures are usage of the trade. */
export const speciesFigures: Source = {
  author: 'Usage of the trade',
  year: '',
  title: 'species table: limits, feed and growth of ten farmed species',
  where: 'GILL.FACT.FISH(species, "… source") names the source of each figure',
  evidence: 'common practice',
};

export const haskell: Source = {
  author: 'Haskell',
  year: 1959,
  title: 'Trout growth in hatcheries',
  where: 'feed as conversion times growth: the rule behind the rates by weight',
  evidence: 'memory',
};

export const goolishAdelman: Source = {
  author: 'Goolish & Adelman',
  year: 1984,
  title: 'Growth of common carp against ration and temperature, Aquaculture 36:27-35',
  where: 'growth and maintenance at 12, 18, 24 and 30 °C: the shape of the fall in cool water',
  evidence: 'read',
};

export const iwamaTautz: Source = {
  author: 'Iwama & Tautz; Cho',
  year: '1981; 1992',
  title: 'Thermal-unit growth of fish',
  where: 'cube root of weight against temperature times days, coefficient x1000',
  evidence: 'read',
};

export const jobling: Source = {
  author: 'Jobling',
  year: 2003,
  title: 'The thermal growth coefficient model of fish growth, Aquaculture Research 34:581-584',
  where: 'limits of the method',
  evidence: 'read',
};

export const uviTrial: Source = {
  author: 'Rakocy, Bailey, Shultz & Thoman',
  year: 2004,
  title: 'Update on tilapia and vegetable production in the UVI aquaponic system',
  where: 'abstract: stocking, survival, harvest density',
  evidence: 'read',
};

export const plainArithmetic: Source = {
  author: 'Definition',
  year: '',
  title: 'plain arithmetic',
  evidence: 'definition',
};
