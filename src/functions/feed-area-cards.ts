import {
  areaFor,
  type BedKind,
  bedFeeds,
  feedFor,
  groupRatios,
  RATIO_PROTEIN,
  ratioOn,
} from '../core/feed-area';
import { nameKey } from '../core/nearest-name';
import { type CropGroup, usual } from '../core/tables/crops';
import { card, type Source, type ValueCard } from './card';
import { FEED_PROTEIN } from './common-parameters';
import { cropFigures } from './crop-sources';
import { cropTable } from './crop-table';
import { choiceBy } from './formula';
import { choice, type NameBook, nameOrNumber, number } from './parameter';
import { spellingsOf } from './plain-words';

/** Trade words for the groups. */
const groupWords: Readonly<Record<CropGroup, readonly string[]>> = {
  leafy: ['leaf', 'leaves', 'greens', 'leafy greens', 'leafy vegetables'],
  herb: ['herbs'],
  brassica: ['brassicas', 'heads', 'heading brassica', 'heading brassicas'],
  root: ['roots', 'root crops', 'root vegetables'],
  fruiting: ['fruit', 'fruits', 'fruiting crops', 'fruiting vegetables'],
  flower: ['flowers', 'edible flower', 'edible flowers'],
};
const groups = Object.keys(groupWords) as CropGroup[];

/** A crop or a group with its g of feed/m2/day. */
interface Fed {
  readonly ratio: number;
}

const groupOf = (name: string): CropGroup | undefined =>
  groups.find((group) =>
    [group, ...groupWords[group]].some((word) => nameKey(word) === nameKey(name)),
  );

const cropsAndGroups: NameBook<Fed> = {
  what: 'crop or group',
  listedBy: cropTable.book.listedBy,
  names: [...groups, ...cropTable.book.names],
  otherNames: [
    ...Object.values(groupWords).flat(),
    ...(cropTable.book.otherNames as readonly string[]),
  ],
  ...(cropTable.book.table && { table: cropTable.book.table }),
  find: (name) => {
    const group = groupOf(name);
    if (group) return { ratio: groupRatios[group] };
    const crop = cropTable.book.find(name);
    return crop && { ratio: usual(crop, 'feed_ratio') };
  },
};

const cropsWanted = nameOrNumber(
  'crops',
  `crop, group (${groups.join(', ')}), or g of feed on a m² a day`,
  cropsAndGroups,
  {
    unit: 'g/m2/day',
    above: 0,
    max: 1000,
    default: 'leafy',
    defaultText: 'leafy, 45 g/m²/day',
    words: groupWords,
    of: (fed): Fed => fed,
  },
);

const ratioOf = (crops: Fed | number): number => (typeof crops === 'number' ? crops : crops.ratio);

const bedWords = spellingsOf<BedKind>(bedFeeds);

const onBeds = [
  choice('bed', 'kind of bed, which turns a ratio on gravel into its own', bedWords, {
    default: 'gravel',
    defaultText: 'gravel, which takes the ratio as it is',
  }),
  number('protein', 'protein in the feed, as on the bag', {
    ...FEED_PROTEIN,
    default: RATIO_PROTEIN,
    defaultText: '0.32, for which the ratios were found',
  }),
] as const;

/** The band of each kind of bed to which ratios are held: its lower or its upper end. */
const bandEnds = (end: 0 | 1): Readonly<Record<string, number>> => {
  const { 'clean gravel': clean, raft, film } = bedFeeds;
  return { 'clean gravel': clean.band[end], raft: raft.band[end], film: film.band[end] };
};

/** The ratio of a crop, a group or a number, on a kind of bed with a feed of its own protein. */
const ratioSteps = {
  ratio: `held * ${RATIO_PROTEIN} / protein`,
  held: 'IF(bed = "gravel", on_gravel, MEDIAN(lowest, on_gravel * factor, highest))',
  lowest: choiceBy('bed', bandEnds(0)),
  factor: choiceBy('bed', { 'clean gravel': '4 / 3', raft: '16 / 9', film: '5 / 9' }),
  highest: choiceBy('bed', bandEnds(1)),
  on_gravel: `IF(ISNUMBER(crops), crops, ${choiceBy('crops', groupRatios).slice(0, -1)}, crops.feed_ratio))`,
} as const;
const ratioSymbols = {
  ratio: 'feed that a m² calls for, g/m²/day',
  held: `of it, what the kind of bed makes of the ratio; for a feed of ${100 * RATIO_PROTEIN} % protein`,
  lowest: 'lower end of the band in which published beds of the kind ran well, g/m²/day',
  highest: 'upper end of it',
  on_gravel: 'ratio of the crop on gravel that keeps its solids',
};

const raftRatios: Source = {
  author: 'Rakocy; Rakocy, Bailey, Shultz & Thoman',
  year: '2007; 2004',
  title: 'Ten guidelines for aquaponic systems; the UVI raft system',
  where: 'rafts 60 to 100 g/m²/day; 82 and 96 fed for years on 214 m²',
  evidence: 'read',
};
const troughs: Source = {
  author: 'Endut, Jusoh, Ali, Wan Nik & Hassan',
  year: 2010,
  title: 'Optimal hydraulic loading rate and plant ratios, Bioresource Technology 101:1511-1517',
  where: 'water spinach in troughs: 15 to 42 g/m²/day',
  evidence: 'read',
};
const faoRatios: Source = {
  author: 'Somerville, Cohen, Pantanella, Stankus & Lovatelli',
  year: 2014,
  title: 'Small-scale aquaponic food production, FAO Fish. Aquac. Tech. Pap. 589',
  where: 'sections 2.1.4 and 8: leafy plants 40 to 50 g/m²/day, fruiting plants 50 to 80',
  evidence: 'read',
};
const basilTrial: Source = {
  author: 'Rakocy, Shultz, Bailey & Thoman',
  year: 2004,
  title:
    'Aquaponic production of tilapia and basil: comparing a batch and staggered cropping system',
  where: 'basil: 81.4 g/m²/day left it short of nutrients, 99.6 did not',
  evidence: 'read',
};
const sources = [faoRatios, raftRatios, troughs, basilTrial, cropFigures];
const method =
  'Leafy crops count as 45 and fruiting crops as 65 g of feed on a m² a day, the middle of the published ranges; herbs, flowers and legumes as leafy, heading brassicas as 55, basil as 80. On rafts the ratio is 16/9 of that (leafy 80), held between 40 and 100; on gravel whose solids are taken out before it 4/3; in film channels 5/9, between 15 and 42. A feed with more protein than 32 % supplies more bed in proportion.';
const validity =
  'A planning figure for a running system. Published farms ran well on rafts anywhere between 40 and 100: the lower end leaves the plants less to spare, at the higher end nitrate gathers. A ratio of your own needs no kind of bed. A balance of nitrogen alone would allow ten times the area: the ratio also covers the scarcer nutrients.';

const area = card({
  id: 'FEED.AREA',
  subject: 'Feed',
  summary: 'Grow-area that a daily amount of fish feed can supply',
  searchWords: [
    'feed rate ratio',
    'plant area',
    'how many beds',
    'balance fish and plants',
    'nutrients',
    'fertiliser',
    'algae',
    'nitrate',
    'nitrate too high',
    'how many plants',
    'plants short of nutrients',
  ],
  parameters: [
    number('feed', 'fish feed given a day', { unit: 'g/day', min: 0, max: 1e9 }),
    cropsWanted,
    ...onBeds,
  ],
  result: { kind: 'number', unit: 'm2', meaning: 'bed area that the feed supplies' },
  method: `The feed divided by what a m² calls for. ${method}`,
  formula: { area: 'feed / ratio', ...ratioSteps },
  symbols: ratioSymbols,
  sources,
  validity,
  examples: [
    {
      args: [1000, 50],
      result: 20,
      says: '1 kg of feed a day at the high end for leafy crops (FAO Technical Paper 589)',
    },
    {
      args: [1000, 80],
      result: 12.5,
      says: 'The same feed at the high end for fruiting crops (FAO Technical Paper 589)',
    },
    { args: [900], result: 20, says: 'Left out, leafy crops are taken: 45 g/m²/day' },
    { args: [1300, 'tomatoes'], result: 20, says: 'A crop by its name: tomato takes 65 g/m²/day' },
    {
      args: [17490, 'leafy', 'raft'],
      result: 218.625,
      says: 'The published raft system (Rakocy and others 2004) fed 17.5 kg a day on 214 m²',
    },
  ],
  seeAlso: ['FEED.WANTED', 'FEED.DAY', 'FACT.CROP'],
  compute: (feed, crops, bed, protein) => areaFor(feed, ratioOn(ratioOf(crops), bed, protein)),
});

const wanted = card({
  id: 'FEED.WANTED',
  subject: 'Feed',
  summary: 'Fish feed a day that a grow-area calls for',
  searchWords: [
    'feed rate ratio',
    'enough nutrients',
    'how much fish',
    'pale plants',
    'fertiliser',
    'plants short of nutrients',
    'nutrient deficiency',
    'nitrate too low',
  ],
  parameters: [
    number('area', 'bed area under the crop', { unit: 'm2', min: 0, max: 1e7 }),
    cropsWanted,
    ...onBeds,
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'fish feed for the whole area' },
  method: `The area times what a m² calls for; add up the beds of different crops. ${method}`,
  formula: { feed: 'area * ratio', ...ratioSteps },
  symbols: ratioSymbols,
  sources,
  validity,
  examples: [
    { args: [20, 'leafy'], result: 900, says: '20 m² of leafy crops' },
    {
      args: [10, 'fruiting'],
      result: 650,
      says: '10 m² of fruiting crops: with the leafy beds above 1550 g/day',
    },
    {
      args: [10, 'basil'],
      result: 800,
      says: 'Basil wants more than other herbs (Rakocy and others 2004)',
    },
    {
      args: [10, 60, 'gravel', 0.42],
      result: 457.14285714285717,
      says: 'A ratio of 60 with a feed of 42 % protein: 45.7 g/m²/day',
    },
  ],
  seeAlso: ['FEED.AREA', 'BED.AREA', 'FACT.CROP'],
  compute: (planted, crops, bed, protein) =>
    feedFor(planted, ratioOn(ratioOf(crops), bed, protein)),
});

export const feedAreaCards: readonly ValueCard[] = [area, wanted];
