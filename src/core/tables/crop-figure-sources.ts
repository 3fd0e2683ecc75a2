import type { FactSource } from './evidence';

/** Where the figures of the crop table come from, each listed once. */

const read = (text: string): FactSource => ({ text, evidence: 'read' });
const derived = (text: string): FactSource => ({ text, evidence: 'derived' });

const paper589 = 'Somerville et al. 2014, FAO Fish. Aquac. Tech. Pap. 589';
export const fao = read(`${paper589}, Appendix 1`);
export const faoQuoted = read(`${paper589}, Appendix 1, as quoted second-hand`);
export const faoRecalled: FactSource = { text: `${paper589}, Appendix 1`, evidence: 'memory' };
export const spacingMiddle = derived(`middle of the range in ${paper589}, Appendix 1`);

export const recalled: FactSource = {
  text: 'recalled from the trade literature',
  evidence: 'memory',
};
export const practice: FactSource = {
  text: 'common practice, no source',
  evidence: 'common practice',
};
export const baseList: FactSource = {
  text: 'list of base temperatures reprinted in extension sheets on degree days',
  evidence: 'memory',
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
export const fao56Recalled: FactSource = { text: fao56.text, evidence: 'memory' };

/** Warmth, light. */
export const warmest = derived('the highest air temperature of this table');
export const tanBroccoli = read(
  'Tan, Birch, Wearing & Rickert 2000, Scientia Hort. 84:227: base 0, best 20 °C',
);
export const ebroPea = read(
  'sugar snap pea in the Ebro valley, Scientia Agricola: 960 °C day above 3 °C',
);
export const basilCap = read('extension article on herbs: best near 28 °C');
export const corianderHeat = read('teaching note (weak): bolts at 12 h of day and about 24 °C');
export const cucumberHeat = read('Hochmuth, UF/IFAS HS790: not below 18.3, not long above 35 °C');
export const tomatoHeat = read(
  'Purdue Vegetable Crops Hotline: fruit set fails after hours above 37.8 °C or nights above 23.9 °C',
);
export const peaHeat = read('NSW Agfact H8.1.35: best 15 to 18 °C, less yield above 30 °C');
export const bothLight = read(
  'Both et al., 35 treatments of 8 to 22 mol/m²/day, in Horticulturae 2020 6:7: best at 17; least of 12 as for leafy greens',
);
export const leafyLight: FactSource = {
  text: 'Jayalath, van Iersel & Ferrarezi 2024, Plants 13:652: at least 12; the wanted light is recalled',
  evidence: 'memory',
};
export const fruitLight = read('Gomez, Univ. of Florida: fruiting vegetables 20 to 25 mol/m²/day');
export const tomatoLight = read(
  'Gagne & Mattson 2019, Cornell: tomato at least 20, better 30 mol/m²/day',
);

/** Rhythm of sowing, harvest and store. */
export const intervalChart = read('seed-trade chart of sowing intervals, reprinted (weak)');
export const gardenAdvice = read('garden advice on sowing intervals (weak)');
export const chardPicking = read(
  'South African advice on hydroponic chard (weak): about 80 days of picking',
);
export const handbook66 = read('USDA Handbook 66, as reprinted');
export const davisStore = read('Univ. of California Davis, fresh culinary herbs');
export const ashraeStore = read('ASHRAE 1998, in J. Food Sci. Technol. 2011 50:429');

/** Density and yield of a whole crop. */
export const feltrim = read('Feltrim, Reghin & van der Vinne 2003, density trial of pak choi');
export const chungBetween = derived(
  'Chung 1985, Austr. J. Exp. Agric. 25:959, yields at 2.8, 8.3 and 16.7 plants/m²',
);
export const cucumberDensity = read(
  'Agronomy 2022 12:1441, density trial of greenhouse cucumber: no loss at 2.25; FAO 589, Appendix 1: 2 to 5',
);
export const courgetteJournal = read('trade journal on trained greenhouse courgettes');
export const paranjpe = read('Paranjpe, Cantliffe et al., density trial of greenhouse strawberry');
export const uviOkra = read('Rakocy, Bailey, Shultz & Thoman 2004, UVI system');
export const okraPlant = derived('3.04 kg/m² at 4.0 plants/m² (Rakocy et al. 2004)');
export const oregonDill = read(
  'Oregon State Univ., Oregon Vegetables (2010), dill: 6 to 10 inches apart, 14,000 seeds an ounce',
);
export const radishDensity = read(
  'Iowa State Univ. Extension 2013: 2 by 12 inches; Jakše 2018, Acta Hortic. 1209:41, floating trays: 264 and 554',
);
export const papayaNotes = read('lecture notes on protected papaya (weak)');

export const petrea = read('Petrea et al. 2013, spinach with trout: 39, 48 and 59 plants/m²');
export const basilCuts = derived('two cuts of 1.8 kg/m² (Rakocy et al. 2004) at 20 plants/m²');
const li = 'Li, Martin, Carver, Armstrong, Givens & Walters, Univ. of Tennessee, seeds in a cell';
export const liParsley = derived(
  `${li}: 78 g at the first of four cuts, later ones taken as smaller`,
);
export const liCoriander = derived(`${li}: 25 g at each of two cuts`);
export const currey = derived(
  'Currey, Walters & Flax 2019, Agronomy 9:389: 7 g at 7 and 24 g at 18 mol/m²/day, two cuts',
);
export const dryThyme = derived(
  'Indian university course: 0.11 to 0.22 kg/m² of dry herb a year, nearly four times that fresh',
);
export const pakChoiYield = read(
  'Feltrim, Reghin & van der Vinne 2003; Univ. of Hawaii trials 2012 to 2017: 75 to 500 g',
);
export const heyduck = derived(
  'Heyduck, VanLeeuwen & Guldan 2020, HortTechnology 30:570: winter tunnel, 5.6 kg/m² in four cuts',
);
const newEngland = 'New England Vegetable Management Guide, Table 15';
export const newEnglandHeads = derived(`${newEngland}: yield of good and excellent fields`);
export const tomatoDensity: FactSource = {
  text: 'trained plants under cover at 2.5; FAO 589, Appendix 1: 3 to 5',
  evidence: 'memory',
};
export const hodge = derived(
  'Hodge et al., Univ. of Wisconsin 2014 to 2016: tunnel, up to 8.5 kg; usual figure of a shorter season',
);
export const pepperDensity = read(
  'Monge-Pérez 2016: 2.6 to 3.9 plants/m²; FAO 589, Appendix 1: 3 to 4',
);
export const tunnelPepper = derived(
  'Sideman 2020, HortTechnology 30:456: tunnels, 1.19 to 2.36 kg of coloured fruit',
);
const sideman = 'Sideman, Bryant & Saunders 2024, HortTechnology 34:331: tunnels';
export const aubergineDensity = derived(`${sideman}, 2.5 kg/m² over 0.925 kg a plant`);
export const tunnelAubergine = derived(`${sideman}, 0.925 to 3.269 kg in 14 to 15 weeks`);
export const tunnelCourgette = derived(
  'Mississippi State Univ. 2011, spring tunnel: just under 1.36 kg; trained plants up to 3.5 kg',
);
export const tunnelBeans = derived(
  'Rader & Karlsson 2006, HortScience 41:1074: 1.7 and 3.5 kg/m² in a tunnel',
);
export const strawberryPlant = derived(
  '4.8 kg/m² (Durner 1999, HortScience 34:615) at 12 plants/m²; best everbearers 1.35 kg (Horticulturae 2022 8:249)',
);
const huesoText = 'Hueso, Salinas, Pinillos & Cuevas 2019, Acta Hortic. 1250:1';
export const huesoDensity = read(`${huesoText}: 1600 to 2700 plants/ha`);
export const hueso = derived(`${huesoText}: up to 20 kg/m² in about 15 months`);
const martinText = 'Martin & Deo 2000, NZ J. Crop Hort. Sci. 28:37';
export const martin = read(`${martinText}: 0.5 kg/m² in six weeks at 9 plants/m²`);
export const benko = read(
  'Benko et al. 2016, Acta Hortic. 1142:111: three cuts in 60 days, 3.07 kg/m²',
);
export const bari = read('Univ. of Bari 2024, Horticulturae 10:274: 3 to 5 seeds/cm²');

/** Weight of what is sold. */
export const celeryHead = read('note of the produce trade (weak): 350 to 700 g');
export const onionBunch = derived('five to ten onions in a bunch (packer standard) of 12 to 20 g');
export const radishBunch = derived('six to nine roots in a bunch (trade note, weak) of 10 to 25 g');
export const hawaiiPakChoi = read('Univ. of Hawaii trials 2012 to 2017: 75 to 500 g a plant');
export const newEnglandBunch = derived(`${newEngland}: 24 bunches in 20 lb`);
export const newEnglandHead = derived(`${newEngland}: 24 heads in 20 lb are 378 g each`);
export const exportBunch = read('export bunches of 50 to 100 g (trade note, weak)');
export const herbPacket = read(
  'packets of a quarter and three quarters of an ounce (US trade press, weak)',
);
export const parsleyBunch = read('consumer note (weak): 30 to 60 g');
export const cucumberFruit = read(
  'UNECE FFV-15 classes as traded in Spain: 200 to 600 g; Florida about 1 lb (UF/IFAS HS790)',
);
export const pepperFruit = read('Monge-Pérez 2016: 164 and 180 g');
export const martinFlower = derived(`${martinText}: 164 flowers from 0.5 kg, 650 from 1.4 kg`);

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
