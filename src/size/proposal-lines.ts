import { isoText } from '../core/serial-date';
import { unitFor } from '../plan/market-words';
import type { UnitSystem } from '../plan/quantities';
import { presetReasons } from './preset-reasons';
import { ask } from './ask-functions';
import { type BedGroup, cropNamed, plantsPerWeek, sowEvery } from './bed-size';
import { FREEZING, waterOf } from './climate-of-wish';
import { counted, inWords, percent } from './figure-words';
import type { CropSize, Proposal } from './proposal';
import { LIFT, PIPE_LENGTH } from './water-size';

/** A proposal as a person reads it: what, how much, and why. */
export interface ProposalLine {
  readonly what: string;
  readonly says: string;
  readonly why: string;
}
export interface ProposalPart {
  readonly title: string;
  readonly lines: readonly ProposalLine[];
}

const bedWords: Readonly<Record<BedGroup['kind'], readonly [one: string, many: string]>> = {
  raft: ['raft', 'rafts'],
  gravel: ['gravel bed', 'gravel beds'],
  film: ['film channel', 'film channels'],
};

const reason = (field: string): string => presetReasons[field]?.why ?? '';

export function bedsInWords(bed: BedGroup, units: Proposal['units']): string {
  const [singular, many] = bedWords[bed.kind];
  const side = (metres: number): string => inWords(metres, 'length', units);
  return `${bed.count} ${bed.count === 1 ? singular : many} of ${side(bed.length)} × ${side(bed.width)}`;
}

/** "4 tanks of 7,800 L", "2 tanks of 900 L and 1 tank of 1,200 L". */
export function tanksInWords(tanks: readonly number[], units: Proposal['units']): string {
  const groups = new Map<number, number>();
  for (const litres of tanks) groups.set(litres, (groups.get(litres) ?? 0) + 1);
  return [...groups]
    .map(([litres, count]) => `${counted(count, 'tank')} of ${inWords(litres, 'volume', units)}`)
    .join(' and ');
}

export function sellsInWords({ unit, perWeek }: Pick<CropSize, 'unit' | 'perWeek'>): string {
  const shown = Number(perWeek >= 100 ? perWeek.toFixed(0) : perWeek.toPrecision(3));
  return `${shown.toLocaleString('en-GB')} ${unitFor(shown, unit)} a week`;
}

/** Weights that are listed one by one. */
const MAX_STAGES = 12;

function fishPart({ fish, units, room, wish }: Proposal): ProposalPart[] {
  if (fish === undefined) return [];
  const of = (value: number, id: Parameters<typeof inWords>[1]): string =>
    inWords(value, id, units);
  const weightAt = (age: number): string =>
    of(
      age === 0
        ? fish.startWeight
        : ask(
            'GROWTH.WEIGHT',
            fish.startWeight,
            fish.daysInTank * age,
            fish.water,
            fish.species,
            fish.coefficient ?? null,
          ),
      'fishWeight',
    );
  const count = fish.tanks.length;
  const shown = Math.min(count, MAX_STAGES);
  const stages = Array.from({ length: shown }, (_, i) => weightAt(i / count));
  const andMore = count > shown ? ` and so on up to ${weightAt((count - 1) / count)}` : '';
  return [
    {
      title: 'Fish and tanks',
      lines: [
        {
          what: 'Fish to sell',
          says: `${of(fish.kgPerMonth, 'massMonth')} of ${fish.species}, at ${of(fish.harvestWeight, 'fishWeight')}`,
          why: fish.kgPerMonth === wish.fish.kgPerMonth ? 'As you wish.' : reason('stock.wanted'),
        },
        {
          what: 'Tanks',
          says: tanksInWords(fish.tanks, units),
          why: `Each holds a batch at ${of(fish.density, 'density')} before it is sold, every ${of(fish.weeksBetween, 'weeks')} (STOCK.ROTATION).`,
        },
        {
          what: 'Stages',
          says: `${stages.join(', ')}${andMore} in the tanks just after one is stocked`,
          why: `${of(fish.daysInTank, 'days')} from ${weightAt(0)} to sale at ${of(fish.water, 'temperature')} (GROWTH.DAYS).`,
        },
        {
          what: 'Fish to order',
          says: `${fish.stocked.toLocaleString('en-GB')} of ${of(fish.startWeight, 'fishWeight')} for a tank, ${Math.round(fish.fingerlings).toLocaleString('en-GB')} a year`,
          why: `${percent(fish.survival)} live to be sold (STOCK.START); the first six weeks after the day of the plan, when the filter is ripe.`,
        },
        {
          what: 'Feed',
          says: `${of(fish.meanFeed, 'feedDay')} on average, ${of(fish.peakFeed, 'feedDay')} before a harvest`,
          why: 'By weight and water of all batches (STOCK.ROTATION).',
        },
        ...(room
          ? [
              {
                what: 'Air',
                says: room.air
                  ? `${of(room.air.perTank, 'airFlow')} to a tank, a blower of ${of(room.air.blower, 'power')}`
                  : 'not known',
                why: `A full tank after feeding in the warmest month${room.air ? `, held at ${of(room.air.level, 'concentration')} of oxygen` : ''} (OXYGEN.FISH, AIR.DIFFUSED).`,
              },
            ]
          : []),
      ],
    },
  ];
}

function bedPart({ beds, crops, units, feed, wish, fish }: Proposal): ProposalPart[] {
  if (beds.length === 0 && crops.length === 0) return [];
  const own = wish.have.some(({ what }) => what === 'beds');
  const lines: ProposalLine[] = beds.map((bed) => ({
    what: bed.crop ?? 'Beds without a crop',
    says: `${bedsInWords(bed, units)}, ${inWords(bed.area, 'area', units)}`,
    why: own
      ? 'As you have them.'
      : bed.crop === undefined
        ? 'What the feed supplies of leafy crops (FEED.AREA).'
        : 'Bed area for a steady weekly cut, a bed for each batch that stands (BED.AREA).',
  }));
  const sells = crops.map((crop) => ({
    what: `Sells ${crop.crop}`,
    says: sellsInWords(crop),
    why:
      own || wish.market.length === 0
        ? crop.perWeek < crop.wished
          ? `The beds could give ${sellsInWords({ ...crop, perWeek: crop.wished })}; the feed is enough for this.`
          : 'What the beds give when they are always full (BED.AREA).'
        : crop.perWeek < crop.wished
          ? `Wished: ${sellsInWords({ ...crop, perWeek: crop.wished })}; feed and beds come out even at this.`
          : 'As you wish.',
  }));
  const even =
    feed && fish
      ? [
          {
            what: 'Feed against beds',
            says: `${inWords(feed.given, 'feedDay', units)} given, ${inWords(feed.wanted, 'feedDay', units)} called for: ${percent(feed.share)}`,
            why: 'Within 10 % is even (FEED.WANTED).',
          },
        ]
      : [];
  return [{ title: 'Beds and market', lines: [...lines, ...sells, ...even] }];
}

/** Seedlings, with the losses that the Sowing sheet presets. */
const LOSSES = 0.1;
const CELLS = 72;

function nurseryPart({ crops }: Proposal): ProposalPart[] {
  const lines = crops.flatMap((crop): ProposalLine[] => {
    const kind = cropNamed(crop.crop);
    if (kind.start === 'in place') return [];
    const every = sowEvery(kind);
    const plants = Math.ceil((plantsPerWeek(crop) * every) / 7 - 1e-6);
    const seeds = ask('SEED.COUNT', plants, ask('FACT.CROP', kind.name, 'germination'), LOSSES);
    const trays = ask('SEED.TRAYS', seeds, CELLS);
    const standing = Math.ceil(ask('SOW.OFFSET', kind.name, 'transplant') / every);
    return [
      {
        what: `Sow ${kind.name}`,
        says: `${seeds.toLocaleString('en-GB')} seeds every ${every} days, ${counted(trays * standing, 'tray')} of ${CELLS} cells in the nursery`,
        why: 'Germination of the Crops sheet and a tenth lost on the way (SEED.COUNT, SEED.TRAYS).',
      },
    ];
  });
  return lines.length > 0 ? [{ title: 'Nursery', lines }] : [];
}

function roomPart({ room, fish, units, solidsStay }: Proposal): ProposalPart[] {
  if (room === undefined || fish === undefined) return [];
  const { filter, pump, sump } = room;
  const of = (value: number, id: Parameters<typeof inWords>[1]): string =>
    inWords(value, id, units);
  return [
    {
      title: 'Plant room',
      lines: [
        {
          what: 'Filter',
          says:
            filter.media === 0 ? 'none beside the beds' : `${of(filter.media, 'volume')} of media`,
          why: `${of(filter.ammonia, 'number')} g of ammonia nitrogen a day at most, of which the beds take up ${of(filter.byBeds, 'number')} g (FILTER.BEDS, FILTER.MEDIA).`,
        },
        {
          what: 'Solids',
          says:
            filter.settler === undefined
              ? 'stay in the gravel'
              : `settlers of ${of(filter.settler, 'area')} before the beds`,
          why: solidsStay
            ? 'Gravel alone takes them in; the feed ratio counts on it.'
            : reason('figures.Plant_settler_area'),
        },
        {
          what: 'Pump',
          says: `${of(pump.allFlow, 'flow')} against ${of(LIFT + pump.loss, 'length')}, ${of(pump.watts, 'power')}`,
          why: 'Each tank once an hour (FLOW.TURNOVER, FLOW.HEADLOSS, FLOW.WATTS).',
        },
        {
          what: 'Pipe',
          says: `${of(pump.bore, 'bore')} to each tank, ${counted(pump.drains, 'return')} of ${of(pump.drain, 'bore')}`,
          why: `${of(PIPE_LENGTH, 'length')} to a tank with less than ${of(0.5, 'length')} of head lost; the return at half of what it carries clean (FLOW.DRAIN).`,
        },
        {
          what: 'Sump',
          says: sump
            ? `${of(sump.sump, 'volume')}; ${of(sump.total, 'volume')} of water in all`
            : 'not known',
          why: reason('water.sump'),
        },
      ],
    },
  ];
}

/** Water of the months beside the air: typed or reckoned, it may be held at a temperature all the same. */
function waterInWords(
  water: readonly number[],
  air: readonly number[],
  heatedTo: number | undefined,
  units: UnitSystem,
): string {
  const [coldest, warmest] = [Math.min(...water), Math.max(...water)];
  const heldAt = (least: number): boolean =>
    water.every((degrees, i) => Math.abs(degrees - waterOf(air[i] as number, least)) < 0.05);
  if (heatedTo === undefined && heldAt(FREEZING)) return 'as warm as the mean air';
  const least = heatedTo ?? coldest;
  return heldAt(least)
    ? `held at ${inWords(least, 'temperature', units)} or warmer`
    : `${inWords(coldest, 'temperature', units)} to ${inWords(warmest, 'temperature', units)}`;
}

export function partsOf(proposal: Proposal): readonly ProposalPart[] {
  const { wish, units, climate } = proposal;
  const { air, heatedTo } = climate;
  const place: ProposalLine[] = air
    ? [
        {
          what: 'Months',
          says: `mean air ${inWords(Math.min(...air), 'temperature', units)} to ${inWords(Math.max(...air), 'temperature', units)}, warmest in ${(wish.latitude ?? 0) < 0 ? 'January' : 'July'}`,
          why: 'A curve through your two months, shifted for the side of the equator (common practice).',
        },
        ...(climate.water
          ? [
              {
                what: 'Water',
                says: waterInWords(climate.water, air, heatedTo, units),
                why: wish.months?.every(({ water }) => water !== undefined)
                  ? 'As typed for each month.'
                  : reason('months[].water'),
              },
            ]
          : []),
      ]
    : [];
  return [
    ...fishPart(proposal),
    ...bedPart(proposal),
    ...nurseryPart(proposal),
    ...roomPart(proposal),
    ...(place.length > 0 ? [{ title: 'Climate', lines: place }] : []),
  ];
}

/** What an alternative changes, in one line. */
export function summaryOf({ fish, beds, feed, room, units }: Proposal): string {
  const area = beds.reduce((sum, bed) => sum + bed.area, 0);
  return [
    fish && tanksInWords(fish.tanks, units),
    area > 0 && `${inWords(area, 'area', units)} of beds`,
    fish && `${inWords(fish.kgPerMonth, 'massMonth', units)} of fish`,
    feed && `feed ${percent(feed.share)} of what the beds call for`,
    room &&
      (room.filter.media === 0
        ? 'no filter'
        : `${inWords(room.filter.media, 'volume', units)} of filter media`),
    room?.sump && `a sump of ${inWords(room.sump.sump, 'volume', units)}`,
  ]
    .filter((line): line is string => typeof line === 'string')
    .join(', ');
}

export const dayOf = ({ wish }: Proposal): string => isoText(wish.asOf);
