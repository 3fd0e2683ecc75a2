import type { Farm } from '../plan/farm';
import type { OwnFigures } from '../plan/own-figures';
import { presetValue } from '../plan/presets';
import { type QuantityId, toShown, type UnitSystem } from '../plan/quantities';
import { unitsPerPlant } from '../plan/units-per-plant';
import { type AlternativeId, alternativesTo } from './alternatives';
import { bedKindOf, cropNamed, type Kind } from './bed-size';
import { soldWeekly } from './farm-of-proposal';
import { EVEN, propose, type Proposal } from './proposal';
import { inWords } from './figure-words';
import { sellsInWords } from './proposal-lines';
import { cropIds, MAX_CROPS, type WishRemarks } from './variant-line';
import { readWish, type Wish } from './wish';

/** Farms to be weighed against each other. */

export interface Variant {
  readonly name: string;
  /** What is typed, by the line of the sheet; in metric units. */
  readonly typed: ReadonlyMap<string, number | string>;
}

export interface Variants {
  /** Of the farm, where it has one. */
  readonly name: string | undefined;
  readonly units: UnitSystem;
  readonly currency: string;
  readonly asOf: number;
  readonly latitude: number | undefined;
  readonly altitude: number;
  readonly months: readonly {
    readonly high?: number;
    readonly low?: number;
    readonly humidity?: number;
  }[];
  readonly list: readonly Variant[];
  /** Crops that the sheet has room for. */
  readonly crops: number;
  /** What was wished where something else is typed. */
  readonly remarks: WishRemarks;
}

/** Short enough for the head of a column. */
const shortNames: Readonly<Record<AlternativeId, string>> = {
  'fewer-tanks': 'Fewer tanks',
  gravel: 'Gravel beds',
  rafts: 'Rafts',
};

type Cell = readonly [id: string, value: number | string | undefined];

function typedOf(proposal: Proposal): ReadonlyMap<string, number | string> {
  const { wish, fish, crops, climate } = proposal;
  const { prices, work } = wish;
  const own = wish.have.find((group) => group.what === 'tanks');
  const cells: Cell[] = [
    ['species', wish.fish.species],
    ['wanted', wantedOf(proposal)],
    ['start', fish?.startWeight ?? wish.choices.startWeight],
    ['harvest', fish?.harvestWeight ?? wish.choices.harvestWeight],
    ['protein', wish.protein],
    ['survival', wish.choices.survival],
    ['coefficient', wish.choices.coefficient],
    ['conversion', wish.choices.conversion],
    ['tanks', fish?.tanks.length ?? wish.choices.tanks],
    ['own', own?.what === 'tanks' && fish ? meanOfTanks(fish.tanks) : undefined],
    ['heat', climate.heatedTo],
    ...cropIds(crops.length).flatMap((id, i): Cell[] => {
      const crop = crops[i] as Proposal['crops'][number];
      return [
        [id, crop.crop],
        [`${id}_bed`, crop.kind],
        [`${id}_week`, soldWeekly(crop)],
        [`${id}_unit`, crop.unit],
        [`${id}_gives`, crop.perPlant],
        [`${id}_price`, crop.price],
      ];
    }),
    ['fishPrice', prices.fish],
    ['feedPrice', prices.feed],
    ['fingerlingPrice', prices.fingerling],
    ['powerPrice', prices.power],
    ['heatPrice', prices.heat],
    ['workPrice', prices.work],
    ['workTank', work.tank],
    ['workBed', work.bed],
    ['otherCosts', wish.otherCosts],
    ['buildTank', prices.tanks],
    ['buildRaft', prices.raft],
    ['buildGravel', prices.gravel],
    ['buildFilm', prices.film],
    ['buildMedia', prices.media],
    ['buildSump', prices.sump],
    ['buildRest', prices.rest],
    ['years', wish.years],
    ...(wish.months ?? []).map(({ water }, i): Cell => [`w${i + 1}`, water]),
  ];
  return new Map(cells.filter((cell): cell is [string, number | string] => cell[1] !== undefined));
}

const meanOfTanks = (tanks: readonly number[]): number =>
  tanks.reduce((all, litres) => all + litres, 0) / tanks.length;

/** As many fish as the beds call for, in tanks of their own; where feed and beds are not even as they are. */
function evenFarm({ wish, feed, fish }: Proposal): { name: string; proposal: Proposal }[] {
  if (feed === undefined || fish === undefined || Math.abs(feed.share - 1) <= EVEN) return [];
  const { species } = wish.fish;
  const proposal = propose({
    ...wish,
    fish: { ...(species !== undefined && { species }) },
    have: wish.have.filter(({ what }) => what !== 'tanks'),
    choices: { ...wish.choices, tanks: fish.tanks.length },
  });
  return [{ name: 'Fish for the beds', proposal }];
}

/** Fish to sell as the sheet has it; blank where what is there says it. */
function wantedOf({ wish, fish }: Proposal): number | undefined {
  const { kgPerMonth } = wish.fish;
  if (wish.have.some(({ what }) => what === 'tanks')) return kgPerMonth;
  if (kgPerMonth === undefined && wish.have.length > 0) return undefined;
  return fish?.kgPerMonth ?? kgPerMonth;
}

/** What was wished where the sheet has something else. */
function wishedOf(proposal: Proposal): WishRemarks {
  const { wish, crops, units } = proposal;
  const { kgPerMonth } = wish.fish;
  const others = wish.market.some(
    ({ crop, unit, perWeek }) =>
      !crops.some(
        (sized) => sized.crop === crop && sized.unit === unit && sized.perWeek === perWeek,
      ),
  );
  const below = 'Below stands what comes out of it.';
  return {
    ...(kgPerMonth !== undefined &&
      kgPerMonth !== wantedOf(proposal) && {
        fish: `Wished: ${inWords(kgPerMonth, 'massMonth', units)}. ${below}`,
      }),
    ...(others && {
      crops: `Wished: ${wish.market.map((sale) => `${sale.crop} ${sellsInWords(sale)}`).join(', ')}. ${below}`,
    }),
  };
}

/** A wish and the other ways to it, side by side. Columns that are left are blank. */
export function variantsOf(wish: Wish, firstName?: string): Variants {
  const proposal = propose(wish);
  const remarks = wishedOf(proposal);
  const isWhole = Object.keys(remarks).length === 0;
  const { climate } = proposal;
  const others = [
    ...alternativesTo(proposal).map(({ id, proposal: other }) => ({
      name: shortNames[id],
      proposal: other,
    })),
    ...evenFarm(proposal),
  ];
  const most = Math.max(
    3,
    ...[proposal, ...others.map((variant) => variant.proposal)].map(
      (sized) => sized.crops.length + 1,
    ),
  );
  return {
    name: wish.name,
    units: wish.units,
    currency: wish.currency ?? 'EUR',
    asOf: wish.asOf,
    latitude: wish.latitude,
    altitude: wish.altitude ?? 0,
    months: climate.months,
    crops: Math.min(MAX_CROPS, most),
    remarks,
    list: [
      { name: firstName ?? (isWhole ? 'As wished' : 'From the wish'), typed: typedOf(proposal) },
      ...others.map(({ name, proposal: other }) => ({ name, typed: typedOf(other) })),
    ],
  };
}

/** The kind of bed that most of a crop stands in. */
function bedOf(farm: Farm, crop: string): Kind | undefined {
  const areas = new Map<Kind, number>();
  for (const { crop: stands, kind, length, width } of farm.beds)
    if (stands === crop) areas.set(kind, (areas.get(kind) ?? 0) + length * width);
  return [...areas].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/**
 * What a plan wants, as a wish: its fish, its market with the beds that it stands in, its tanks, months and
 * prices. Its tanks count as of one size.
 */
export function wishOfFarm(farm: Farm): Wish {
  const { units, stock, feed, site } = farm;
  const shown = (value: number | undefined, id: QuantityId): number | undefined =>
    value === undefined ? undefined : toShown(value, id, units);
  const volumes = farm.tanks.map(({ volume }) => volume);
  const whole = farm.months.every(({ high, low }) => high !== undefined && low !== undefined);
  const own = stock.species === undefined ? undefined : farm.species?.[stock.species];
  const others = farm.costs.reduce((all, { perMonth }) => all + perMonth, 0);
  const file = {
    name: farm.name,
    units,
    currency: farm.currency,
    latitude: site.latitude,
    altitude: shown(site.altitude, 'altitude'),
    protein: feed.protein,
    ...(whole && {
      months: farm.months.map(({ high, low, humidity, water }) => ({
        high: shown(high, 'temperature'),
        low: shown(low, 'temperature'),
        humidity,
        water: shown(water, 'temperature'),
      })),
    }),
    fish: {
      species: stock.species,
      [units === 'US' ? 'lbPerMonth' : 'kgPerMonth']: shown(stock.wanted, 'massMonth'),
    },
    market: farm.markets
      .slice(0, MAX_CROPS - 1)
      .map(({ crop, unit, perWeek, perPlant, price }) => ({
        crop,
        unit,
        perWeek,
        bed: bedKindOf(cropNamed(crop), bedOf(farm, crop)),
        perPlant: perPlant ?? ownYield(farm, crop, unit),
        price,
      })),
    have:
      volumes.length === 0
        ? []
        : [`${Math.min(52, volumes.length)} tanks of ${shown(meanOfTanks(volumes), 'volume')}`],
    choices: {
      excess: 'stays',
      startWeight: shown(stock.startWeight, 'fishWeight'),
      harvestWeight: shown(stock.harvestWeight, 'fishWeight'),
      survival: stock.survival,
      coefficient: numberOf(own?.['tgc']),
      conversion: numberOf(own?.['fcr']),
    },
    prices: {
      feed: shown(feed.price, 'pricePerMass'),
      fish: shown(stock.fishPrice, 'pricePerMass'),
      fingerling: stock.fingerlingPrice,
      power: numberOf(presetValue('Plant_energy_price', farm.figures)),
    },
    otherCosts: others > 0 ? others : undefined,
  };
  return readWish(withoutBlanks(file), farm.asOf);
}

/** Own figures that a wish carries, or that no variant asks for. */
const carried: ReadonlySet<string> = new Set([
  ...['tgc', 'fcr'],
  ...['kg_per_plant', 'piece_weight', 'bunch_weight'],
]);

const hasOthers = (own: OwnFigures[string] | undefined): boolean =>
  Object.keys(own ?? {}).some((fact) => !carried.has(fact));

/** What a plan wants and the other ways to it; it says which of the plan's own figures do not count here. */
export function variantsOfFarm(farm: Farm): Variants {
  const variants = variantsOf(wishOfFarm(farm), 'As planned');
  const { species } = farm.stock;
  const crops = [...new Set(farm.markets.map(({ crop }) => crop))].filter((crop) =>
    hasOthers(farm.crops?.[crop]),
  );
  const both = (...says: readonly (string | undefined | false)[]): string | undefined =>
    says.filter(Boolean).join(' ') || undefined;
  const { remarks } = variants;
  return {
    ...variants,
    remarks: {
      fish: both(
        remarks.fish,
        species !== undefined &&
          hasOthers(farm.species?.[species]) &&
          `The plan's own limits and feed rates of ${species} do not count here, those of the table do.`,
      ),
      crops: both(
        remarks.crops,
        crops.length > 0 &&
          `The plan's own days, spacings and losses of ${crops.join(', ')} do not count here, those of the table do.`,
      ),
    },
  };
}

const numberOf = (value: unknown): number | undefined =>
  typeof value === 'number' ? value : undefined;

/** Units of a plant where the farm knows a weight of its own. */
function ownYield(
  farm: Farm,
  crop: string,
  unit: Farm['markets'][number]['unit'],
): number | undefined {
  const own = farm.crops?.[cropNamed(crop).name];
  if (own === undefined) return undefined;
  const kilos = numberOf(own['kg_per_plant']) ?? unitsPerPlant(cropNamed(crop), { unit: 'kg' });
  const weight = numberOf(own[unit === 'bunch' ? 'bunch_weight' : 'piece_weight']);
  if (unit === 'kg') return kilos;
  if (unit === 'lb')
    return (
      (kilos * unitsPerPlant(cropNamed(crop), { unit: 'lb' })) /
      unitsPerPlant(cropNamed(crop), { unit: 'kg' })
    );
  return weight === undefined ? undefined : (1000 * kilos) / weight;
}

function withoutBlanks(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutBlanks);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .map(([key, field]) => [key, withoutBlanks(field)]),
  );
}
