import { heaviestFish } from '../core/heaviest-fish';
import type { Species } from '../core/tables/species';
import { growingAir } from '../core/season-limits';
import { calendarDate } from '../core/serial-date';
import { speciesTable } from '../functions/species-table';
import type { FedFarm } from '../plan/bed-feed';
import type { UnitSystem } from '../plan/quantities';
import {
  areaFor,
  BED_DEPTH,
  type BedGroup,
  bedKindOf,
  bedsOf,
  cropNamed,
  cutFrom,
  feedOn,
  groupOf,
  type Kind,
  monthsThatFit,
  MAX_BEDS,
  usualUnit,
} from './bed-size';
import { type ClimateOfWish, climateOf } from './climate-of-wish';
import { counted, inWords, percent } from './figure-words';
import {
  feedByMonth,
  fishForFeed,
  fishInTanks,
  type FishMonths,
  type FishSize,
  fishSize,
  type FishWish,
  harmIn,
  sentenceOf,
  usualWeights,
} from './fish-size';
import { lightShort } from './light-of-crops';
import { MONTH_NAMES } from '../core/month-names';
import { type PlantRoomSize, plantRoomSize } from './water-size';
import type { Wish, WishedCrop } from './wish';

/** A farm for a wish: what is proposed, and where the wish cannot be had, by how much. */

/** Feed within this part of what the beds call for is even. */
export const EVEN = 0.1;
/** How a remark begins that fish and beds are left as they are. */
const NOT_EVEN = 'Both wishes stay, and are not even';

/**
 * gives way: a wish that is cut. missing: an answer without which something stays blank. note: what the
 * reader should know.
 */
export interface Remark {
  readonly kind: 'gives way' | 'missing' | 'note';
  readonly says: string;
}

/** A crop of the market as it is proposed. */
export interface CropSize extends WishedCrop {
  readonly kind: Kind;
  /** As it was wished; `perWeek` may be less. */
  readonly wished: number;
  /** From 0; undefined where the months are not known. */
  readonly months?: readonly number[];
}

export interface Proposal {
  readonly wish: Wish;
  readonly units: UnitSystem;
  readonly climate: ClimateOfWish;
  readonly species?: Species;
  readonly fish?: FishSize;
  readonly fishMonths?: FishMonths;
  readonly crops: readonly CropSize[];
  readonly beds: readonly BedGroup[];
  readonly feed?: { readonly given: number; readonly wanted: number; readonly share: number };
  readonly room?: PlantRoomSize;
  readonly protein?: number;
  /** Whether solids stay in gravel beds: nothing takes them out before. */
  readonly solidsStay: boolean;
  readonly remarks: readonly Remark[];
}

/** What is collected on the way. */
class Remarks {
  readonly all: Remark[] = [];
  private add(kind: Remark['kind'], says: string): void {
    if (!this.all.some((remark) => remark.says === says)) this.all.push({ kind, says });
  }
  readonly givesWay = (says: string): void => this.add('gives way', says);
  readonly missing = (says: string): void => this.add('missing', says);
  readonly note = (says: string): void => this.add('note', says);
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const monthNames = (months: readonly number[]): string =>
  months.map((month) => MONTH_NAMES[month]).join(', ');

/** Crops of the market that the months and the beds allow, each with its kind of bed. */
function cropsOf(wish: Wish, climate: ClimateOfWish, remarks: Remarks): CropSize[] {
  const degrees = (value: number): string => inWords(value, 'temperature', wish.units);
  return wish.market.flatMap((wished): CropSize[] => {
    const crop = cropNamed(wished.crop);
    const { name } = crop;
    const chosen = wished.bed ?? wish.choices.beds;
    const kind = bedKindOf(crop, chosen);
    if (kind === undefined) {
      remarks.givesWay(
        `${capital(name)} is left out: it grows in ${crop.beds}, and only rafts, gravel and film channels are sized.`,
      );
      return [];
    }
    if (chosen !== undefined && kind !== chosen)
      remarks.note(`${capital(name)} stays on ${kind}: it is not usually grown on ${chosen}.`);
    const own = { ...wished, kind, wished: wished.perWeek };
    const { air } = climate;
    if (air === undefined) return [own];
    const [low, high] = growingAir(crop);
    const months = monthsThatFit(crop, air);
    const bounds = `${Number.isFinite(high) ? `${degrees(low)} to ${degrees(high)}` : `at least ${degrees(low)}`} of mean air`;
    if (months.length === 0) {
      const [coldest, warmest] = [Math.min(...air), Math.max(...air)];
      remarks.givesWay(
        `${capital(name)} is left out: it takes ${bounds}, and no month of yours lies there (${degrees(coldest)} to ${degrees(warmest)}).`,
      );
      return [];
    }
    if (months.length < 12) {
      const without = air.flatMap((_, month) => (months.includes(month) ? [] : [month]));
      remarks.note(
        `${capital(name)} takes ${bounds}: sell it in ${counted(months.length, 'month')} of the year, not in ${monthNames(without)}.`,
      );
    }
    return [{ ...own, months }];
  });
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

/** Feed that crops call for on their bare areas, g/day. */
const feedOfCrops = (crops: readonly CropSize[], fed: FedFarm): number =>
  sum(crops.map((crop) => feedOn(crop.kind, areaFor(crop), crop.crop, fed)));

/** How the fish of a wish would grow; undefined, with the reason said, where they cannot. */
function fishWishOf(
  wish: Wish,
  climate: ClimateOfWish,
  species: Species | undefined,
  remarks: Remarks,
): FishWish | undefined {
  const degrees = (value: number): string => inWords(value, 'temperature', wish.units);
  if (species === undefined) {
    remarks.missing('Which fish? Tanks, feed and everything in the plant room stay blank without.');
    return undefined;
  }
  const { water } = climate;
  if (water === undefined) {
    const open = [
      wish.latitude === undefined && 'the latitude',
      (wish.coldest === undefined || wish.warmest === undefined) &&
        'how warm the coldest and the warmest month are',
      wish.heated === undefined && 'whether the water is heated',
    ].filter((question): question is string => question !== false);
    remarks.missing(
      `The fish stay blank until the water of the months is known: say ${open.join(', and ')}.`,
    );
    return undefined;
  }
  const harm = harmIn(species, water, degrees);
  if (harm !== undefined) {
    remarks.givesWay(
      `The fish are left out: ${harm.says}. ${harm.from === 'heat' ? 'Keep house and water cooler, or take another species.' : 'Heat the water, or take another species.'}`,
    );
    return undefined;
  }
  const weights = usualWeights(species);
  const { startWeight = weights.startWeight, harvestWeight = weights.harvestWeight } = wish.choices;
  if (startWeight >= harvestWeight) {
    remarks.givesWay(
      `The fish are left out: stocked with ${inWords(startWeight, 'fishWeight', wish.units)} they weigh as much already as they are sold with.`,
    );
    return undefined;
  }
  const heaviest = heaviestFish.get(species.name)?.[0] ?? Infinity;
  if (harvestWeight > heaviest)
    remarks.note(
      `No ${species.name} of ${inWords(harvestWeight, 'fishWeight', wish.units)} is known: the heaviest published weigh about ${inWords(heaviest, 'fishWeight', wish.units)}. Days, feed and tanks up to such a weight hold for no fish: sell them lighter (usual: ${inWords(weights.harvestWeight, 'fishWeight', wish.units)}).`,
    );
  return {
    species,
    startWeight,
    harvestWeight,
    water: sum(water) / 12,
    survival: wish.choices.survival,
    coefficient: wish.choices.coefficient,
    conversion: wish.choices.conversion,
    tanks: wish.choices.tanks,
    units: wish.units,
  };
}

/** kg a month: as it is wished, and never more than tanks that are there can hold. */
function fishAsked(
  wish: Wish,
  growing: FishWish,
  tanks: readonly number[],
  remarks: Remarks,
): number | undefined {
  const { kgPerMonth } = wish.fish;
  if (tanks.length === 0) return kgPerMonth;
  const most = fishInTanks(growing, tanks).kgPerMonth;
  const words = inWords(most, 'massMonth', wish.units);
  if (kgPerMonth !== undefined && kgPerMonth <= most) return kgPerMonth;
  if (kgPerMonth === undefined) remarks.note(`Your tanks hold fish for ${words}.`);
  else
    remarks.givesWay(
      `The fish give way: your tanks hold fish for ${words}, not for ${inWords(kgPerMonth, 'massMonth', wish.units)}.`,
    );
  return most;
}

/** Fish and crops whose feed is even, the wish that is too large giving way. */
function evened(
  wish: Wish,
  growing: FishWish | undefined,
  {
    crops,
    beds,
    tanks,
  }: {
    readonly crops: readonly CropSize[];
    /** Of a farm that is there: its beds, and the litres of its tanks. */
    readonly beds: readonly BedGroup[];
    readonly tanks: readonly number[];
  },
  fed: FedFarm,
  remarks: Remarks,
): { kg?: number; crops: readonly CropSize[] } {
  const { units } = wish;
  if (growing === undefined) return { crops };
  const wanted = beds.length > 0 ? sum(beds.map(({ feed = 0 }) => feed)) : feedOfCrops(crops, fed);
  const kg = fishAsked(wish, growing, tanks, remarks);
  if (kg === undefined) {
    if (wanted === 0) {
      remarks.missing(
        'How much fish a month, or what does the market want? One of the two says how large the tanks are.',
      );
      return { crops };
    }
    const own = fishForFeed(growing, wanted);
    remarks.note(
      `The beds say how much fish: ${inWords(own, 'massMonth', units)} feed them (${inWords(wanted, 'feedDay', units)} of feed).`,
    );
    return { kg: own, crops };
  }
  if (wanted === 0) {
    remarks.missing(
      wish.market.length === 0
        ? 'What does the market want a week? The feed says how much bed there must be; what grows in it stays blank.'
        : 'No crop of the market is left; the feed says how much bed there must be, and what grows in it stays blank.',
    );
    return { kg, crops };
  }
  const fits = fishForFeed(growing, wanted);
  const over = kg / fits;
  if (Math.abs(over - 1) <= EVEN) return { kg, crops };
  const feeds = `the fish give ${inWords((kg / fits) * wanted, 'feedDay', units)} of feed, the beds for the market call for ${inWords(wanted, 'feedDay', units)}`;
  if (wish.choices.excess === 'stays') {
    remarks.note(
      over > 1
        ? `${NOT_EVEN}: ${feeds}. ${percent(over - 1)} of it more than they take up: nitrate gathers.`
        : `${NOT_EVEN}: ${feeds}. ${percent(1 - over)} is missing: the plants are short of nutrients.`,
    );
    return { kg, crops };
  }
  if (over > 1) {
    remarks.givesWay(
      `The fish give way: ${inWords(fits, 'massMonth', units)} instead of ${inWords(kg, 'massMonth', units)} (${percent(1 - 1 / over)} less), since ${feeds}. All the fish would feed ${percent(over - 1)} more of each crop.`,
    );
    return { kg: fits, crops };
  }
  remarks.givesWay(
    `The market gives way: ${percent(1 - over)} less of each crop, since ${feeds}. All of it would take ${inWords(fits, 'massMonth', units)} of fish.`,
  );
  return { kg, crops: crops.map((crop) => ({ ...crop, perWeek: crop.perWeek * over })) };
}

/** Beds that are there: those that name no crop share what the market wants, as far as it grows in them. */
function ownBeds(wish: Wish, fed: FedFarm | undefined): BedGroup[] {
  return wish.have.flatMap((own) => {
    if (own.what !== 'beds') return [];
    const { count, kind, length, width, crop } = own;
    const depth = BED_DEPTH[kind];
    return [
      groupOf({ count, kind, length, width, ...(depth && { depth }), ...(crop && { crop }) }, fed),
    ];
  });
}

/** What the beds that are there can give a week. */
function soldFrom(
  beds: readonly BedGroup[],
  wished: readonly CropSize[],
  { climate, units }: { readonly climate: ClimateOfWish; readonly units: UnitSystem },
): CropSize[] {
  const own = beds.flatMap((bed): CropSize[] => {
    if (bed.crop === undefined) return [];
    const crop = cropNamed(bed.crop);
    const asked = wished.find((wish) => wish.crop === bed.crop);
    const sold = { ...asked, crop: bed.crop, unit: asked?.unit ?? usualUnit(crop, units) };
    const perWeek = cutFrom(bed.area, sold);
    const months = climate.air && monthsThatFit(crop, climate.air);
    return [{ ...sold, kind: bed.kind, perWeek, wished: perWeek, ...(months && { months }) }];
  });
  const together = new Map<string, CropSize>();
  for (const crop of own) {
    const before = together.get(crop.crop);
    const perWeek = crop.perWeek + (before?.perWeek ?? 0);
    together.set(crop.crop, { ...crop, perWeek, wished: perWeek });
  }
  const free = sum(beds.map((bed) => (bed.crop === undefined ? bed.area : 0)));
  const rest = wished.filter(({ crop }) => !together.has(crop));
  const asked = sum(rest.map(areaFor));
  const shared = rest.map((crop) => {
    const perWeek = (crop.perWeek * free) / asked;
    return { ...crop, perWeek, wished: perWeek };
  });
  return [...together.values(), ...(free > 0 ? shared : [])];
}

/** Beds for each crop, or for the feed alone. */
function bedGroups(
  wish: Wish,
  crops: readonly CropSize[],
  feed: number | undefined,
  fed: FedFarm | undefined,
): BedGroup[] {
  const { units } = wish;
  const own = ownBeds(wish, fed);
  if (own.length > 0) return own;
  if (crops.length > 0) {
    const most = Math.floor(MAX_BEDS / crops.length);
    return crops.map((crop) =>
      bedsOf(areaFor(crop), { kind: crop.kind, crop: crop.crop, units, most }, fed),
    );
  }
  if (feed === undefined || fed === undefined) return [];
  const kind = wish.choices.beds ?? 'raft';
  return [bedsOf(feed / feedOn(kind, 1, undefined, fed), { kind, units }, fed)];
}

/** The proposal for a wish. It throws nothing: what cannot be had is a remark. */
export function propose(wish: Wish): Proposal {
  const { units } = wish;
  const remarks = new Remarks();
  const species =
    wish.fish.species === undefined ? undefined : speciesTable.book.find(wish.fish.species);
  const climate = climateOf(wish, species);
  if (wish.latitude === undefined)
    remarks.missing('Where? Without the latitude the months, the sun and the sump stay blank.');
  else if (climate.air === undefined)
    remarks.missing(
      'How warm are the coldest and the warmest month under cover? The months stay blank without.',
    );
  const asked = cropsOf(wish, climate, remarks);
  const growing = fishWishOf(wish, climate, species, remarks);
  const protein = wish.protein ?? species?.facts.protein[0];
  const ownKinds = wish.have.flatMap((group) => (group.what === 'beds' ? [group.kind] : []));
  const kinds = new Set<Kind>(
    ownKinds.length > 0
      ? ownKinds
      : asked.length > 0
        ? asked.map(({ kind }) => kind)
        : [wish.choices.beds ?? 'raft'],
  );
  const solidsStay = kinds.size === 1 && kinds.has('gravel');
  const fed: FedFarm | undefined =
    protein === undefined
      ? undefined
      : { protein, figures: solidsStay ? {} : { Gravel_kind: 'clean gravel' } };
  const there = ownBeds(wish, fed);
  const wished = there.length > 0 ? soldFrom(there, asked, { climate, units }) : asked;
  const tanks = wish.have.flatMap((group) =>
    group.what === 'tanks' ? Array.from({ length: group.count }, () => group.volume) : [],
  );
  const { kg, crops } = fed
    ? evened(wish, growing, { crops: wished, beds: there, tanks }, fed, remarks)
    : { kg: undefined, crops: wished };
  const fish =
    growing !== undefined && kg !== undefined ? sizeFish(growing, kg, tanks, remarks) : undefined;
  const beds = bedGroups(wish, crops, fish?.meanFeed, fed);
  const dark =
    wish.latitude === undefined
      ? undefined
      : lightShort(crops, wish.latitude, calendarDate(wish.asOf).year);
  if (dark !== undefined) remarks.note(dark);
  if (wish.market.length === 0 && crops.length === 0 && fish === undefined)
    remarks.missing('What does the market want a week? Without it no crop is sown.');
  const base = {
    wish,
    units,
    climate,
    crops,
    beds,
    solidsStay,
    ...(species && { species }),
    ...(protein !== undefined && { protein }),
  };
  if (fish === undefined || fed === undefined || climate.water === undefined)
    return { ...base, remarks: remarks.all };
  const fishMonths = feedByMonth(fish, climate.water);
  return {
    ...base,
    fish,
    fishMonths,
    ...withFish(base, fish, fishMonths, remarks),
    remarks: remarks.all,
  };
}

function sizeFish(
  growing: FishWish,
  kg: number,
  tanks: readonly number[],
  remarks: Remarks,
): FishSize | undefined {
  try {
    return tanks.length > 0 ? fishInTanks(growing, tanks, kg) : fishSize(growing, kg);
  } catch (thrown) {
    remarks.givesWay(`The fish are left out: ${sentenceOf(thrown)}.`);
    return undefined;
  }
}

type Base = Pick<
  Proposal,
  'wish' | 'units' | 'climate' | 'species' | 'beds' | 'crops' | 'protein' | 'solidsStay'
>;

/** Evenness as it was built, and the plant room. */
export function withFish(
  { wish, units, climate, species, beds, crops, protein, solidsStay }: Base,
  fish: FishSize,
  { shares, fasting }: FishMonths,
  remarks: Pick<Remarks, 'all' | 'missing' | 'note' | 'givesWay'>,
): Pick<Proposal, 'feed' | 'room'> {
  const wanted = sum(beds.map(({ feed = 0 }) => feed));
  const given = fish.meanFeed;
  const share = wanted > 0 ? given / wanted : NaN;
  if (fasting > 0)
    remarks.note(
      `The fish eat nothing in ${counted(fasting, 'month')} of the year: the beds then live on what is in the water.`,
    );
  else if (Math.min(...shares) < 0.5)
    remarks.note(
      `In the coldest month the fish eat ${percent(Math.min(...shares))} of what they eat in the mean of the year.`,
    );
  if (fish.daysInTank > 730)
    remarks.note(
      `${fish.species} takes ${inWords(fish.daysInTank / 365.25, 'number', units)} years to grow in such water.`,
    );
  const isSaid = remarks.all.some(({ says }) => says.includes(NOT_EVEN));
  if (wanted > 0 && Math.abs(share - 1) > EVEN && !isSaid)
    remarks.note(
      `Feed and beds stay ${percent(Math.abs(share - 1))} apart: ${wish.have.length > 0 ? 'tanks and beds that are there do not come out even' : 'fish and beds come in whole pieces, and the farm is small for them'}.`,
    );
  const cycles = fish.harvested < 10;
  if (cycles)
    remarks.note(
      `A batch is ${inWords(fish.harvested, 'count', units)}: too few for a steady sale; common practice has some dozens.`,
    );
  if (crops.length === 0 && beds.length === 0)
    remarks.missing('Without beds what the fish leave in the water gathers.');
  const room = plantRoomSize(
    {
      fish,
      beds,
      feedShares: shares,
      water: climate.water as readonly number[],
      protein: protein as number,
      tanMost: (species as Species).facts.tan_most[0],
      oxygenLeast: (species as Species).facts.oxygen_least[0],
      months: climate.months,
      latitude: wish.latitude,
      altitude: wish.altitude ?? 0,
      solidsStay,
      year: calendarDate(wish.asOf).year,
      units,
    },
    sentenceOf,
  );
  for (const gap of room.gaps) remarks.missing(gap);
  if (beds.some(({ kind }) => kind === 'gravel'))
    remarks.note(
      'Let the gravel beds flood one after the other: the returns do not take all of them at once.',
    );
  if (room.air)
    remarks.note(
      `When pump and air stop, a full tank lasts about ${Math.round(room.air.minutes)} minutes: air on a battery that starts by itself, and an alarm that was tried out. No wish says what is there for it: type the battery or the generator on the sheet Money, which says how much must run when the mains fail.`,
    );
  return { ...(wanted > 0 && { feed: { given, wanted, share } }), room };
}
