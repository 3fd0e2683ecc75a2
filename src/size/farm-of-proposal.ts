import { calendarDate, isoText } from '../core/serial-date';
import type { QuantityId } from '../plan/quantities';
import { shownIn, toShown } from '../plan/quantities';
import { ask } from './ask-functions';
import { itemPrices, monthlyCosts } from './costs-of-proposal';
import { type BedGroup, type Kind, cropNamed, sowEvery } from './bed-size';
import { presetReasons } from './preset-reasons';
import type { CropSize, Proposal } from './proposal';
import { LIFT, MEDIA_SURFACE, PIPE_LENGTH } from './water-size';

/** The farm file of a proposal. What nobody said is marked as preset, what is missing is left out. */

/** Days until a filter carries its load. Common practice: some six weeks. */
const RIPENING = 42;
const TRELLIS = 2;
/** Cells of usual trays: for heads and herbs, and for large plants. */
const CELLS = 72;
const LARGE_CELLS = 50;

const letters: Readonly<Record<Kind, string>> = { raft: 'R', gravel: 'G', film: 'F' };

type Json = Readonly<Record<string, unknown>>;

/** Without what is undefined. */
const said = (fields: Json): Json =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

function bedRows(beds: readonly BedGroup[], length: (metres: number) => number): Json[] {
  const numbers = new Map<Kind, number>();
  const digits = String(beds.reduce((all, { count }) => all + count, 0)).length;
  return beds.flatMap((bed) =>
    Array.from({ length: bed.count }, () => {
      const number = (numbers.get(bed.kind) ?? 0) + 1;
      numbers.set(bed.kind, number);
      return said({
        name: `${letters[bed.kind]}${String(number).padStart(Math.max(2, digits), '0')}`,
        kind: bed.kind,
        length: length(bed.length),
        width: length(bed.width),
        depth: bed.depth && length(bed.depth),
        crop: bed.crop,
      });
    }),
  );
}

/** Sown on the day of the plan; where that harvest falls into a month that does not suit it, a week later and on. */
function firstHarvest(crop: CropSize, asOf: number): number {
  const first = asOf + ask('SOW.OFFSET', crop.crop, 'first cut');
  const { months } = crop;
  if (months === undefined || months.length === 0) return first;
  for (let day = first; day < first + 366; day += 7)
    if (months.includes(calendarDate(day).month - 1)) return day;
  return first;
}

/** Growth and conversion of the farm's own, as its Species sheet has them. */
function ownGrowth({ wish, species }: Proposal): Json | undefined {
  const { coefficient, conversion } = wish.choices;
  return species && (coefficient ?? conversion) !== undefined
    ? { [species.name]: said({ tgc: coefficient, fcr: conversion }) }
    : undefined;
}

/** As wished; where less is left of it, whole pieces and bunches, tenths of a weight; never more than feed and beds allow. */
export const soldWeekly = ({ unit, perWeek, wished }: CropSize): number => {
  if (perWeek === wished) return perWeek;
  const step = unit === 'piece' || unit === 'bunch' ? 1 : 10;
  const down = Math.floor(perWeek * step + 1e-6) / step;
  return down > 0 ? down : Number(perWeek.toPrecision(3));
};

export function farmOfProposal(proposal: Proposal): Json {
  const { wish, units, climate, fish, room, beds, crops } = proposal;
  const shown =
    (id: QuantityId) =>
    (value: number): number =>
      Number(toShown(value, id, units).toPrecision(shownIn(id, units).factor === 1 ? 10 : 6));
  const maybe = (id: QuantityId, value: number | undefined): number | undefined =>
    value === undefined ? undefined : shown(id)(value);
  const length = shown('length');
  const price = (value: number | undefined): number | undefined => maybe('pricePerMass', value);
  const asOf = isoText(wish.asOf);
  const tanks = (fish?.tanks ?? []).map((volume, i) =>
    said({
      name: `Tank ${i + 1}`,
      volume: shown('volume')(volume),
      species: fish?.species,
      bore: maybe('bore', room?.pump.bore),
      pipe: room && length(PIPE_LENGTH),
      lift: room && length(LIFT),
      air: maybe('airFlow', room?.air?.perTank),
    }),
  );
  const orders = fish
    ? fish.tanks.map((_, i) => ({
        date: isoText(wish.asOf + RIPENING + Math.round(7 * fish.weeksBetween * i)),
        tank: `Tank ${i + 1}`,
        what: 'stocked',
        fish: fish.stocked,
        weight: shown('fishWeight')(fish.startWeight),
        planned: 'planned',
      }))
    : [];
  const hasGravel = beds.some(({ kind }) => kind === 'gravel');
  const { media = 0, settler } = room?.filter ?? {};
  const file: Json = {
    name: wish.name ?? 'My farm',
    units,
    currency: wish.currency ?? 'EUR',
    asOf,
    site: said({
      place: wish.place,
      latitude: wish.latitude,
      altitude: shown('altitude')(wish.altitude ?? 0),
      trellis: length(TRELLIS),
    }),
    months: climate.months.map(({ high, low, humidity, water }) =>
      said({
        water: maybe('temperature', water),
        high: maybe('temperature', high),
        low: maybe('temperature', low),
        humidity,
      }),
    ),
    water: said({
      total: maybe('volume', room?.sump?.total),
      sump: maybe('volume', room?.sump?.sump),
      salinity: 0,
    }),
    filter: room
      ? said({
          media: shown('volume')(media),
          specificSurface: media > 0 ? shown('specificSurface')(MEDIA_SURFACE) : undefined,
        })
      : {},
    feed: said({ protein: wish.protein, price: price(wish.prices.feed) }),
    stock: said({
      species: wish.fish.species,
      wanted: maybe('massMonth', fish?.kgPerMonth),
      startWeight: maybe('fishWeight', fish?.startWeight),
      harvestWeight: maybe('fishWeight', fish?.harvestWeight),
      survival: fish?.survival,
      fishPrice: price(wish.prices.fish),
      fingerlingPrice: wish.prices.fingerling,
    }),
    species: ownGrowth(proposal),
    tanks,
    beds: bedRows(beds, length),
    markets: crops.map((crop) =>
      said({
        crop: crop.crop,
        unit: crop.unit,
        perWeek: soldWeekly(crop),
        perPlant: crop.perPlant,
        price: crop.price,
        every: sowEvery(cropNamed(crop.crop)),
        firstHarvest: isoText(firstHarvest(crop, wish.asOf)),
        cells: cropNamed(crop.crop).group === 'fruiting' ? LARGE_CELLS : CELLS,
      }),
    ),
    fishLog: orders,
    costs: monthlyCosts(proposal),
    figures: said({
      // The cell of the plan takes no more; whoever needs more has several.
      Plant_settler_area:
        settler === undefined ? undefined : maybe('area', Math.min(1000, settler)),
      Plant_drain_bore: maybe('bore', room?.pump.drain),
      Gravel_kind: hasGravel && !proposal.solidsStay ? 'clean gravel' : undefined,
      Plant_energy_price: wish.prices.power,
      ...itemPrices(proposal),
    }),
  };
  return { ...file, presets: presetsOf(file, proposal) };
}

/** Labels and marks that are no figure of anybody's. */
const labels: ReadonlySet<string> = new Set([
  'units',
  'asOf',
  'tanks[].name',
  'beds[].name',
  'fishLog[].tank',
  'fishLog[].what',
  'fishLog[].planned',
]);

/** Whether somebody said what stands in a field. */
function wasSaid(path: string, value: unknown, { wish, crops }: Proposal): boolean {
  const { choices, have } = wish;
  const own = (what: 'tanks' | 'beds'): boolean => have.some((group) => group.what === what);
  switch (path) {
    case 'name':
      return wish.name !== undefined;
    case 'currency':
      return wish.currency !== undefined;
    case 'site.place':
    case 'site.latitude':
    case 'stock.species':
    case 'tanks[].species':
    case 'beds[].crop':
      return true;
    case 'feed.protein':
    case 'feed.price':
    case 'stock.fishPrice':
    case 'stock.fingerlingPrice':
    case 'markets[].price':
    case 'markets[].perPlant':
    case 'costs[].item':
    case 'costs[].perMonth':
    case 'figures.Plant_energy_price':
      return true;
    case 'months[].high':
    case 'months[].low':
      return wish.months !== undefined;
    case 'months[].humidity':
      return wish.months?.every(({ humidity }) => humidity !== undefined) ?? false;
    case 'months[].water':
      return wish.months?.every(({ water }) => water !== undefined) ?? false;
    case 'site.altitude':
      return wish.altitude !== undefined;
    case 'stock.wanted':
      return (
        wish.fish.kgPerMonth !== undefined &&
        Math.abs(toKg(value, wish) / wish.fish.kgPerMonth - 1) < 1e-4
      );
    case 'stock.survival':
      return choices.survival !== undefined;
    case 'stock.startWeight':
    case 'fishLog[].weight':
      return choices.startWeight !== undefined;
    case 'stock.harvestWeight':
      return choices.harvestWeight !== undefined;
    case 'tanks[].volume':
      return own('tanks');
    case 'beds[].kind':
      return own('beds') || choices.beds === value || wish.market.some(({ bed }) => bed === value);
    case 'beds[].length':
    case 'beds[].width':
      return own('beds');
    case 'markets[].crop':
      return wish.market.some(({ crop }) => crop === value);
    case 'markets[].unit':
      return wish.market.length > 0;
    case 'markets[].perWeek':
      return (
        crops.some(
          (sized) =>
            sized.perWeek === sized.wished && Math.abs(sized.wished - Number(value)) < 1e-9,
        ) && wish.market.some(({ perWeek }) => perWeek === value)
      );
    default:
      return path.startsWith('figures.Plant_price_') || path.startsWith('species.');
  }
}

const toKg = (value: unknown, { units }: Proposal['wish']): number =>
  units === 'US' ? Number(value) / toShown(1, 'massMonth', 'US') : Number(value);

/** Every figure of the file that nobody said, with its reason: one row for each value of a column. */
export function presetsOf(
  file: Json,
  proposal: Proposal,
): { field: string; what: string; figure: string | number; why: string }[] {
  const rows = new Map<string, { field: string; figure: string | number }>();
  const look = (path: string, value: unknown): void => {
    if (Array.isArray(value)) {
      for (const item of value) look(`${path}[]`, item);
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, field] of Object.entries(value))
        look(path === '' ? key : `${path}.${key}`, field);
    } else if (
      (typeof value === 'string' || typeof value === 'number') &&
      !labels.has(path) &&
      !wasSaid(path, value, proposal)
    ) {
      rows.set(`${path} ${value}`, { field: path, figure: value });
    }
  };
  look('', file);
  return [...rows.values()].map(({ field, figure }) => {
    const reason = presetReasons[field];
    if (reason === undefined) throw new Error(`${field} has no reason why it is preset`);
    return { field, what: reason.what, figure, why: reason.why };
  });
}
