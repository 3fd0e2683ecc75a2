import type { OwnFigures } from './own-figures';
import * as v from 'valibot';
import { fishEvents } from '../core/fish-log';
import { nearestName } from '../core/nearest-name';
import { type BaseName, bases } from '../core/tables/bases';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import { day, known, measured, oneOf, rowsOf, text, wordOf } from './farm-fields';
import { figuresField, headsField, ownFiguresField } from './own-fields';
import type { Figures } from './presets';
import type { QuantityId, UnitSystem } from './quantities';
import {
  type Acted,
  actedOn,
  allFigureWords,
  figureUses,
  wrongOwnFigures,
} from './own-figure-rows';
import { placeKey, withRegisters } from './registers-of-farm';
import { pathText, type WrongField, wrongField, WrongFieldsError } from './wrong-field';

export const bedKinds = ['raft', 'gravel', 'film'] as const;
/** What of a row that was planned has become: still to do, done in another way (in a row of its own), or not done. */
export const planMarks = ['planned', 'otherwise', 'not done'] as const;
/** Bases by the names that the Water log takes. */
export const baseNames = Object.keys(bases) as [BaseName, ...BaseName[]];
/** What the market is counted in. */
export const marketUnits = ['piece', 'bunch', 'kg', 'lb'] as const;

const crop = () => known(cropTable.book, cropTable.nameOf);
const species = () => known(speciesTable.book, speciesTable.nameOf);
const ownCrops = ownFiguresField(cropTable);
const ownSpecies = ownFiguresField(speciesTable);
const ownFeedWeights = headsField(speciesTable.matrices[0]?.heads.values.length ?? 0);

function farmSchema(system: UnitSystem) {
  const figure = (id: QuantityId, range: Parameters<typeof measured>[1]) =>
    measured(id, range, system);
  const above0 = (id: QuantityId, max: number) => figure(id, { positive: true, max });
  const from0 = (id: QuantityId, max: number) => figure(id, { min: 0, max });
  const share = () => figure('share', { min: 0, max: 1 });
  const money = () => figure('number', { min: 0, max: 1e9 });
  const heads = () => figure('count', { min: 0, max: 1e7, whole: true });
  const plants = () => figure('plants', { min: 0, max: 1e7, whole: true });

  const month = v.strictObject({
    /** Mean water temperature, degC. */
    water: v.optional(figure('temperature', { min: -2, max: 45 })),
    /** Mean daily highest and lowest air temperature where the crops stand, degC. */
    high: v.optional(figure('temperature', { min: -40, max: 60 })),
    low: v.optional(figure('temperature', { min: -50, max: 50 })),
    /** Mean relative humidity where the crops stand, 0 to 1. */
    humidity: v.optional(share()),
  });
  const tank = v.strictObject({
    name: text(40),
    volume: above0('volume', 1e7),
    species: species(),
    /** Short for a row of the Fish log: so many, of so much, counted on the day of the plan. */
    fish: v.optional(heads()),
    weight: v.optional(above0('fishWeight', 200000)),
    stocked: v.optional(day()),
    /** Most fish that the grower wants in the tank, kg/m3; left out: the Species sheet's figure. */
    density: v.optional(above0('density', 500)),
    /** Bore and length of the pipe to the tank, and how high the water is lifted. */
    bore: v.optional(above0('bore', 1000)),
    pipe: v.optional(from0('length', 2000)),
    lift: v.optional(from0('length', 100)),
    /** Air that its stones get. */
    air: v.optional(from0('airFlow', 1e5)),
  });
  const bed = v.strictObject({
    name: text(40),
    kind: oneOf(bedKinds),
    length: above0('length', 1000),
    width: above0('length', 1000),
    depth: v.optional(above0('length', 3)),
    /** Short for a row of the Plantings: what stands in the bed, or is sown for it. */
    crop: v.optional(crop()),
    plants: v.optional(plants()),
    sown: v.optional(day()),
    planted: v.optional(day()),
  });
  const market = v.strictObject({
    crop: crop(),
    unit: oneOf(marketUnits),
    perWeek: from0('number', 1e7),
    price: v.optional(money()),
    /** Units that one plant gives in its whole life; left out: by the yield and the weights of the Crops sheet. */
    perPlant: v.optional(above0('number', 1e5)),
    /** Days between sowings. */
    every: v.optional(figure('days', { min: 1, max: 364, whole: true })),
    firstHarvest: v.optional(day()),
    cells: v.optional(figure('number', { min: 1, max: 2000, whole: true })),
    germination: v.optional(above0('share', 1)),
    losses: v.optional(figure('share', { min: 0, max: 0.9 })),
  });
  const waterTest = v.strictObject({
    date: day(),
    temperature: v.optional(figure('temperature', { min: -2, max: 45 })),
    ph: v.optional(figure('ph', { min: 3, max: 12 })),
    tan: v.optional(from0('concentration', 1000)),
    nitrite: v.optional(from0('concentration', 1000)),
    nitrate: v.optional(from0('concentration', 5000)),
    oxygen: v.optional(from0('concentration', 40)),
    alkalinity: v.optional(from0('alkalinity', 5000)),
    iron: v.optional(from0('concentration', 100)),
    /** Fresh water added since the row before that says how much. */
    added: v.optional(from0('volume', 1e8)),
    /** Base given on the day, and which. */
    baseGiven: v.optional(from0('dose', 1e7)),
    base: v.optional(oneOf(baseNames)),
  });
  const feeding = v.strictObject({
    date: day(),
    tank: text(40),
    /** Feed given on the day; 0 where none was. */
    given: from0('mass', 1e5),
    feed: v.optional(text(60)),
    remark: v.optional(text(200)),
  });
  const fishRow = v.strictObject({
    date: day(),
    tank: text(40),
    what: wordOf(fishEvents),
    fish: v.optional(heads()),
    weight: v.optional(above0('fishWeight', 200000)),
    /** Of fish weighed one by one: standard deviation over mean. */
    spread: v.optional(figure('share', { min: 0, max: 0.8 })),
    toTank: v.optional(text(40)),
    lot: v.optional(text(60)),
    planned: v.optional(oneOf(planMarks)),
    remark: v.optional(text(200)),
  });
  const planting = v.strictObject({
    batch: v.optional(text(40)),
    crop: crop(),
    seeds: v.optional(plants()),
    sown: v.optional(day()),
    up: v.optional(day()),
    /** Seedlings that came up. */
    cameUp: v.optional(plants()),
    bed: v.optional(text(40)),
    plants: v.optional(plants()),
    planted: v.optional(day()),
    firstCut: v.optional(day()),
    cleared: v.optional(day()),
    planned: v.optional(oneOf(planMarks)),
    remark: v.optional(text(200)),
  });
  const treatment = v.strictObject({
    date: day(),
    /** A tank, a bed, or all of the water. */
    where: text(40),
    what: text(80),
    amount: v.optional(text(40)),
    /** Days until what stands there may be cut or sold. */
    wait: v.optional(figure('days', { min: 0, max: 1000, whole: true })),
    remark: v.optional(text(200)),
  });
  const preset = v.strictObject({
    /** Where it stands in the farm file, the rows of a list as one: "months[].water". */
    field: text(60),
    /** As a person calls it. */
    what: text(60),
    /** What stands there, as the file has it; once somebody types another, it is preset no more. */
    figure: v.union(
      [v.number(), text(80)],
      (issue) => `must be a number or text; got ${JSON.stringify(issue.input)}`,
    ),
    why: text(200),
  });
  const count = (max: number) => figure('number', { min: 0, max, whole: true });
  const counted = () => figure('number', { min: -1e9, max: 1e9 });
  /** In the units of the Crops and Species sheets; what is sold, in the unit in which it is sold. */
  const ownFigure = v.strictObject({
    figure: oneOf(allFigureWords),
    /** A species or a crop; left out: the farm as a whole. */
    of: v.optional(text(40)),
    /** Batches of this season or month alone. */
    part: v.optional(text(40)),
    unit: v.optional(text(20)),
    batches: count(1e6),
    mean: counted(),
    lowest: v.optional(counted()),
    highest: v.optional(counted()),
    /** Between which the true mean lies, nine times in ten. */
    low: v.optional(counted()),
    high: v.optional(counted()),
    /** How much of the own mean stands in the figure between it and the table's. */
    weight: v.optional(share()),
    /** The day up to which the registers were counted. */
    upTo: v.optional(day()),
    use: v.optional(oneOf(figureUses)),
    /** Few batches are enough: the grower's word. */
    few: v.optional(oneOf(['yes'])),
  });
  const harvest = v.strictObject({
    date: day(),
    crop: v.union([crop(), species()], (issue) => {
      const near = nearestName(String(issue.input), [
        ...cropTable.book.names,
        ...speciesTable.book.names,
      ]);
      return `must be the name of a crop or fish species, such as "${near}"; got ${JSON.stringify(issue.input)}`;
    }),
    bed: v.optional(text(40)),
    quantity: from0('number', 1e7),
    unit: oneOf(marketUnits),
    price: money(),
    /** Who got it. */
    buyer: v.optional(text(60)),
  });

  const farm = v.strictObject({
    name: text(80),
    units: oneOf(['metric', 'US']),
    currency: v.optional(text(8), 'EUR'),
    /** The day the plan speaks of; it is a cell in the workbook, to be changed there. */
    asOf: day(),
    site: v.optional(
      v.strictObject({
        place: v.optional(text(80)),
        latitude: v.optional(figure('degrees', { min: -90, max: 90 })),
        altitude: v.optional(figure('altitude', { min: -430, max: 5000 })),
        /** Height of the trellis or tallest crop row, for its shadow. */
        trellis: v.optional(above0('length', 20), 2),
        /** Air in the tunnel or house, for venting. */
        houseVolume: v.optional(above0('houseVolume', 1e7)),
      }),
      {},
    ),
    months: rowsOf(month, 12, 12),
    water: v.optional(
      v.strictObject({
        /** All the water that moves round: tanks, beds, sump, pipes. */
        total: v.optional(above0('volume', 1e9)),
        sump: v.optional(from0('volume', 1e8)),
        salinity: v.optional(from0('salinity', 40), 0),
      }),
      {},
    ),
    filter: v.optional(
      v.strictObject({
        /** Filter media (in litres or gallons) and its surface; 0 where the beds do all the work. */
        media: v.optional(from0('volume', 1e7)),
        specificSurface: v.optional(above0('specificSurface', 5000)),
      }),
      {},
    ),
    feed: v.optional(
      v.strictObject({
        protein: v.optional(figure('share', { min: 0.1, max: 0.7 })),
        /** Of a kg, or of a lb in US units. */
        price: v.optional(figure('pricePerMass', { min: 0, max: 1e9 })),
      }),
      {},
    ),
    stock: v.optional(
      v.strictObject({
        species: v.optional(species()),
        /** Fish wanted to sell each month. */
        wanted: v.optional(above0('massMonth', 1e6)),
        startWeight: v.optional(above0('fishWeight', 20000)),
        harvestWeight: v.optional(above0('fishWeight', 50000)),
        survival: v.optional(figure('share', { min: 0.05, max: 1 })),
        /** Price of one fingerling. */
        fingerlingPrice: v.optional(money()),
        /** Of a kg of fish sold, or of a lb in US units. */
        fishPrice: v.optional(figure('pricePerMass', { min: 0, max: 1e9 })),
      }),
      {},
    ),
    tanks: rowsOf(tank, 0, 200),
    beds: rowsOf(bed, 0, 1000),
    markets: v.optional(rowsOf(market, 0, 60), []),
    fishLog: v.optional(rowsOf(fishRow, 0, 20000), []),
    plantings: v.optional(rowsOf(planting, 0, 20000), []),
    treatments: v.optional(rowsOf(treatment, 0, 5000), []),
    feedLog: v.optional(rowsOf(feeding, 0, 100000), []),
    waterTests: v.optional(rowsOf(waterTest, 0, 5000), []),
    harvests: v.optional(rowsOf(harvest, 0, 50000), []),
    costs: v.optional(rowsOf(v.strictObject({ item: text(60), perMonth: money() }), 0, 40), []),
    /** Fields that nobody has typed yet: what was put there, and why. */
    presets: v.optional(rowsOf(preset, 0, 5000), []),
    /** Figures that the plan brings along and the grower changed, by the names of their cells. */
    figures: v.optional(figuresField(system)),
    /** Figures of the Crops and Species sheets that the grower knows better, in the units of those sheets. */
    crops: v.optional(ownCrops),
    species: v.optional(ownSpecies),
    /** Head weights of the feed table on Species, g. */
    feedWeights: v.optional(ownFeedWeights),
    /** What the registers came to, figure by figure, and which of them count in place of the tables'. */
    ownFigures: v.optional(rowsOf(ownFigure, 0, 2000), []),
  });
  return { farm, month, tank, bed };
}

type Contents = v.InferOutput<ReturnType<typeof farmSchema>['farm']>;

/** A tank with what stands in it on the day of the plan. */
export type TankEntry = Contents['tanks'][number] & { readonly fish: number };

/**
 * A farm that was read: every figure metric, dates as sheet serials. What its tanks and beds hold on the day of
 * the plan follows from the Fish log and the Plantings; what the file said of it in short stands there as rows.
 */
export interface Farm extends Omit<Contents, 'tanks'> {
  readonly tanks: readonly TankEntry[];
  /** What was typed where own figures count; left out where none does. */
  readonly typed?: Pick<Contents, keyof Acted>;
  /** The farm file itself as JSON text, to be kept inside the workbook. */
  readonly file: string;
}

export type BedEntry = Contents['beds'][number];
export type MarketEntry = Contents['markets'][number];
export type WaterTestEntry = Contents['waterTests'][number];
export type FeedLogEntry = Contents['feedLog'][number];
export type HarvestEntry = Contents['harvests'][number];
export type FishLogEntry = Contents['fishLog'][number];
export type PlantingEntry = Contents['plantings'][number];
export type PresetEntry = Contents['presets'][number];
export type OwnFigureEntry = Contents['ownFigures'][number];
export type TreatmentEntry = Contents['treatments'][number];

export { pathText };
export type { WrongField };

/** The farm file is not right; the message lists every wrong field, `wrong` holds them one by one. */
export class FarmFileError extends WrongFieldsError {
  constructor(fields: readonly WrongField[]) {
    super(fields, 'farm file');
    this.name = 'FarmFileError';
  }
}

/** Rows of the registers name tanks and beds, so that each has its own name. */
function namesTwice({ tanks, beds }: Contents): WrongField[] {
  return Object.entries({ tanks, beds }).flatMap(([list, rows]) => {
    const taken = new Map<string, number>();
    return rows.flatMap(({ name }, i): WrongField[] => {
      const first = taken.get(placeKey(name));
      if (first !== undefined) {
        const says = `must be a name of its own; got "${name}", which is the name of ${list}[${first}]`;
        return [{ path: [list, i, 'name'], missing: false, says }];
      }
      taken.set(placeKey(name), i);
      return [];
    });
  });
}

/** A batch in a bed is a crop: what else is said of it would have no row to stand in. */
function batchesWithoutCrop({ beds }: Contents): WrongField[] {
  return beds.flatMap(({ name, crop, plants, sown, planted }, i): WrongField[] => {
    const said = Object.entries({ plants, sown, planted }).find(([, value]) => value !== undefined);
    if (crop !== undefined || said === undefined) return [];
    const says = `must name the crop in "${name}", since the file says "${said[0]}" of it; leave both out for an empty bed`;
    return [{ path: ['beds', i, 'crop'], missing: false, says }];
  });
}

const unitsOf = (json: unknown): UnitSystem =>
  typeof json === 'object' && json !== null && 'units' in json && json.units === 'US'
    ? 'US'
    : 'metric';

/**
 * Reads a farm file. Bare numbers are in the units that the farm names (metric or US customary), text may
 * carry any fitting unit. Throws a FarmFileError that lists every wrong field with its path and what would
 * be right.
 */
export function readFarm(json: unknown): Farm {
  const result = v.safeParse(farmSchema(unitsOf(json)).farm, json);
  if (!result.success)
    throw new FarmFileError(result.issues.map((issue) => wrongField(issue, 'farm file')));
  const typed = result.output;
  const wrong = [...namesTwice(typed), ...batchesWithoutCrop(typed), ...wrongOwnFigures(typed)];
  if (wrong.length > 0) throw new FarmFileError(wrong);
  const file = JSON.stringify(json);
  const acted = actedOn(typed);
  if (acted === undefined) return { ...withRegisters(typed), file };
  const { crops, species, stock, markets } = typed;
  return {
    ...withRegisters({ ...typed, ...acted }),
    typed: { crops, species, stock, markets },
    file,
  };
}

/** The farm with what was typed in place of what own figures come to. */
export const asTyped = ({ typed, ...farm }: Farm): Farm => ({ ...farm, ...typed });

/** What of a farm file that is still being filled in can be reckoned with; undefined where it cannot yet. */
export interface FarmSoFar {
  readonly units: UnitSystem;
  readonly asOf: number | undefined;
  /** The main species. */
  readonly species: string | undefined;
  /** Water of the twelve months, degC. */
  readonly water: readonly (number | undefined)[];
  /** Protein of the feed, and figures of the plan that were changed. */
  readonly protein: number | undefined;
  readonly figures?: Figures | undefined;
  /** What the grower knows better than the tables of crops and species. */
  readonly ownCrops?: OwnFigures | undefined;
  readonly ownSpecies?: OwnFigures | undefined;
  readonly tanks: readonly (TankEntry | undefined)[];
  readonly beds: readonly (BedEntry | undefined)[];
}

type Fields = Readonly<Record<string, unknown>>;
const fieldsOf = (json: unknown): Fields =>
  typeof json === 'object' && json !== null ? (json as Fields) : {};
const listOf = (json: unknown): readonly unknown[] => (Array.isArray(json) ? json : []);

/** What of a whole farm can be reckoned with: all of it. */
export const wholeFarm = (farm: Farm): FarmSoFar => ({
  ...farm,
  ownCrops: farm.crops,
  ownSpecies: farm.species,
  species: farm.stock.species,
  water: farm.months.map(({ water }) => water),
  protein: farm.feed.protein,
});

/** Reads what is complete in a farm file. */
export function readFarmSoFar(json: unknown): FarmSoFar {
  const units = unitsOf(json);
  const schemas = farmSchema(units);
  const file = fieldsOf(json);
  const read = <S extends v.GenericSchema>(
    schema: S,
    given: unknown,
  ): v.InferOutput<S> | undefined => {
    const result = v.safeParse(schema, given);
    return result.success ? result.output : undefined;
  };
  const months = listOf(file['months']);
  const entries = schemas.farm.entries;
  const typed = {
    ownFigures: read(entries.ownFigures, file['ownFigures']) ?? [],
    figures: read(entries.figures, file['figures']),
    crops: read(entries.crops, file['crops']),
    species: read(entries.species, file['species']),
    stock: {},
    markets: read(entries.markets, file['markets']) ?? [],
  };
  const { crops, species: kinds } =
    wrongOwnFigures(typed).length > 0 ? typed : (actedOn(typed) ?? typed);
  return {
    units,
    asOf: read(day(), file['asOf']),
    species: read(species(), fieldsOf(file['stock'])['species']),
    water: Array.from({ length: 12 }, (_, i) =>
      read(schemas.month.entries.water, fieldsOf(months[i])['water']),
    ),
    figures: typed.figures,
    ownCrops: crops,
    ownSpecies: kinds,
    protein: read(entries.feed.wrapped.entries.protein, fieldsOf(file['feed'])['protein']),
    tanks: listOf(file['tanks']).map((tankFields) => {
      const tank = read(schemas.tank, tankFields);
      return tank && { ...tank, fish: tank.fish ?? 0 };
    }),
    beds: listOf(file['beds']).map((bedFields) => read(schemas.bed, bedFields)),
  };
}
