import type { FactSource } from './standing';

/** Where the figures of the crop table come from, each listed once. */

const read = (text: string): FactSource => ({ text, standing: 'read' });
const derived = (text: string): FactSource => ({ text, standing: 'derived' });

const paper589 = 'Somerville et al. 2014, FAO Fish. Aquac. Tech. Pap. 589';
export const fao = read(`${paper589}, Appendix 1`);
export const faoQuoted = read(`${paper589}, Appendix 1, as quoted second-hand`);
export const faoRecalled: FactSource = { text: `${paper589}, Appendix 1`, standing: 'memory' };
export const spacingMiddle = derived(`middle of the range in ${paper589}, Appendix 1`);

export const recalled: FactSource = {
  text: 'recalled from the trade literature',
  standing: 'memory',
};
export const practice: FactSource = {
  text: 'common practice, no source',
  standing: 'common practice',
};
export const baseList: FactSource = {
  text: 'list of base temperatures reprinted in extension sheets on degree days',
  standing: 'memory',
};

/** Emergence and germination. */
const handbook = "Maynard & Hochmuth 1997, Knott's Handbook for Vegetable Growers";
export const harrington = read(
  `Harrington & Minges 1954, days to emergence by soil temperature, in ${handbook}`,
);
export const soilChart = read('university chart of soil temperature and days to emergence');
export const seedAct = read('7 CFR 201.31, least germination of vegetable seed in US trade');
export const texas = read('Texas A&M Extension, seeds per ounce (middle of a printed range)');

/** Nursery and bed time. */
const delawareText =
  'Ernest, Univ. of Delaware Extension, after Table A-4 of the Mid-Atlantic vegetable recommendations';
export const delaware = read(delawareText);
export const delawareUtah = read(`${delawareText}; upper end Utah State Univ. Extension`);
export const lettuceNursery = read(
  `12 days in rockwool (Rutgers Univ.), three weeks (FAO 589), up to six weeks (Univ. of Delaware)`,
);
export const michigan = read('Michigan State Univ. work on culinary herbs, in a grower magazine');
export const cucumberDays = derived(
  'between 21 days (Bailey et al. 2011, UVI trials) and 65 (FAO 589)',
);
export const radishDays = derived(
  'three to five weeks from sowing (Iowa State Univ. Extension 2013), less four days to come up',
);

/** Climate. */
export const knott = read(`${handbook}, temperatures for best growth and quality`);
export const fao56 = read('Allen et al. 1998, FAO Irrig. Drain. Pap. 56, Table 12');

/** Table 12 prints green onions and radish among the small vegetables. */
export const fao56Recalled: FactSource = { text: fao56.text, standing: 'memory' };

/** Density and yield. */
export const cornell = read(
  'Brechner & Both, Cornell lettuce handbook: 142 g at 35 days; upper end recalled',
);
export const kansas = derived('yield of a row (Marr, Kansas State Univ. MF315) times the spacing');
export const feltrim = read('Feltrim, Reghin & van der Vinne 2003, density trial of pak choi');
export const chungBetween = derived(
  'Chung 1985, Austr. J. Exp. Agric. 25:959, yields at 2.8, 8.3 and 16.7 plants/m²',
);
export const uviCucumber = read('Bailey et al. 2011, cucumber trials in the UVI system');
export const uviCucumberPlant = derived('6.2 kg/m² at 8 plants/m² (Bailey et al. 2011)');
export const cucumberDensity = read(
  'FAO 589, Appendix 1: 2 to 5; UVI trials, Bailey et al. 2011: 8',
);
export const jovicich = read('Jovicich et al. 2005, HortTechnology 15:355');
export const pepperPlant = derived('13 kg/m² (Jovicich et al. 2005) at 3 to 4 plants/m²');
export const courgetteJournal = read('trade journal on trained greenhouse courgettes');
export const courgettePlant = derived('6.7 to 7.8 kg/m² at 1.8 to 2.0 plants/m² (trade journal)');
export const durner = read('Durner 1999, HortScience 34:615');
export const paranjpe = read('Paranjpe, Cantliffe et al., density trial of greenhouse strawberry');
export const uviOkra = read('Rakocy, Bailey, Shultz & Thoman 2004, UVI system');
export const okraPlant = derived('3.04 kg/m² at 4.0 plants/m² (Rakocy et al. 2004)');
export const uviBasil = read('Rakocy, Shultz, Bailey & Thoman 2004, tilapia and basil');
const oregon = 'Oregon State Univ., Oregon Vegetables (2010), dill';
export const oregonDill = read(`${oregon}: 6 to 10 inches apart, 14,000 seeds an ounce`);
export const oregonDillYield = derived(`5,000 lb fresh on an acre (${oregon})`);
export const radishDensity = read(
  'Iowa State Univ. Extension 2013: 2 by 12 inches; Jakše 2018, Acta Hortic. 1209:41, floating trays: 264 and 554',
);
export const papayaNotes = read('lecture notes on protected papaya (weak)');

/** Feed per area. */
const ratios = `${paper589}, sections 2.1.4 and 8`;
export const feedLeafy = read(`${ratios}: leafy plants 40 to 50`);
export const feedFruiting = read(`${ratios}: fruiting plants 50 to 80`);
export const feedBasil = read(
  'FAO 589 (40 to 50) and Rakocy et al. 2004 (81 deficient, 100 enough)',
);
export const feedHeading = derived(`heads taken between leafy and fruiting plants (${ratios})`);
export const feedLegume = derived(`legumes taken as leafy plants (${ratios})`);
export const feedFlower = derived(`flowers taken as leafy plants (${ratios})`);
export const feedPapaya = derived(`papaya taken as a fruiting plant (${ratios})`);
export const feedRoot = derived(`roots taken as leafy plants (${ratios})`);
