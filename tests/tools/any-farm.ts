import fc from 'fast-check';
import { fishEvents } from '../../src/core/fish-log';
import { isoText } from '../../src/core/serial-date';
import { crops } from '../../src/core/tables/crops';
import { type Species, species } from '../../src/core/tables/species';
import { cropFactNames } from '../../src/functions/crop-table';
import { fishFactNames, speciesTable } from '../../src/functions/species-table';
import { baseNames, bedKinds, marketUnits, planMarks } from '../../src/plan/farm';
import {
  acts,
  figureNameOf,
  figureUses,
  figureWords,
  isOfStage,
  type FigureWords,
  ownFigureNames,
  rowKey,
} from '../../src/plan/own-figure-rows';
import { presetNames, presetOf } from '../../src/plan/presets';
import {
  quantities,
  type QuantityId,
  shownIn,
  toShown,
  type UnitSystem,
} from '../../src/plan/quantities';
import { placeKey } from '../../src/plan/registers-of-farm';

/** Farm files that nobody would think of, with every field that a farm file can have. */

/** A figure as the farm's units have it, or now and then as text with its unit. */
function figure(system: UnitSystem, id: QuantityId, low: number, high: number, withUnit = true) {
  const number = fc.integer({ min: 0, max: 10_000 }).map((step) => {
    const metric = low + ((high - low) * step) / 10_000;
    return Number(toShown(metric, id, system).toPrecision(6));
  });
  const { reads } = quantities[id];
  if (!withUnit || reads === '' || !/^[a-zA-Z0-9/]+$/.test(reads)) return number;
  const text = number.map((value) => {
    const { factor, offset } = shownIn(id, system);
    return `${Number(((value - offset) * factor).toPrecision(7))} ${reads}`;
  });
  return fc.oneof({ weight: 4, arbitrary: number }, { weight: 1, arbitrary: text });
}

const whole = (min: number, max: number) => fc.integer({ min, max });
const day = whole(43_831, 47_847).map(isoText);
const ODD_WORDS = [
  '=1+1',
  "'Tank",
  '12',
  '007',
  '2026-03-01',
  'TRUE',
  '<b>&"x"',
  ' North ',
  '#A',
  'ä ₂ 池',
];
const words = (most: number) =>
  fc.oneof(
    fc.constantFrom(...ODD_WORDS.filter(({ length }) => length <= most)),
    fc
      .string({ minLength: 1, maxLength: most })
      .filter((text) => text.trim() !== '' && !/\p{Cc}/u.test(text)),
  );
const crop = fc.constantFrom(...crops.map(({ name }) => name));
const fish = fc.constantFrom(...species.map(({ name }) => name));

/** Some of the fields left out. */
const some = <T extends object, K extends keyof T>(
  fields: { [P in keyof T]: fc.Arbitrary<T[P]> },
  required: K[],
) => fc.record(fields, { requiredKeys: required });

const rows = <T>(row: fc.Arbitrary<T>, most: number, least = 0) =>
  fc.array(row, { minLength: least, maxLength: most });

/** Rows, each with a name of its own. */
const named = <T extends { readonly name?: string | undefined }>(
  row: fc.Arbitrary<T>,
  maxLength: number,
) => fc.uniqueArray(row, { minLength: 1, maxLength, selector: ({ name = '' }) => placeKey(name) });

const money = fc.integer({ min: 0, max: 99_999 }).map((cents) => cents / 100);

const rising = new Set(speciesTable.orders.flatMap(([low, high]) => [low, high]));

/** Own figures of species, within their ranges and in order. */
const ownSpecies = fc.dictionary(
  fish,
  fc.dictionary(
    fc.constantFrom(...fishFactNames),
    fc.oneof(
      fc.constant(null),
      whole(1, 900).map((n) => n / 901),
    ),
    { minKeys: 1, maxKeys: 3 },
  ),
  { maxKeys: 3 },
);
const figuresOfSpecies = ownSpecies.map((own) =>
  Object.fromEntries(
    Object.entries(own).map(([name, facts]) => {
      const kind = speciesTable.book.find(name) as Species;
      const figures = Object.entries(facts).map(([fact, share]) => {
        const column = speciesTable.columns.find((one) => one.fact === fact);
        const [least = 0, most = 0] = column?.range ?? [];
        const usual = Number(column?.of(kind));
        if (share === null) return [fact, null];
        // None of them is what the table says; those that rise stay beside it.
        const near = usual + (share / 16) * (fact === 'vital_high' ? 1 : -1);
        const value = rising.has(fact) ? near : least + (most - least) * share;
        return [fact, Number(value.toPrecision(12))];
      });
      return [name, Object.fromEntries(figures) as Record<string, number | null>];
    }),
  ),
);

/** Own figures of a table: some facts of some rows. */
const ownFigures = (names: readonly string[], facts: readonly string[]) =>
  fc.dictionary(
    fc.constantFrom(...names),
    fc.dictionary(
      fc.constantFrom(...facts),
      // None of them is what the table says.
      fc.oneof(
        fc.constant(null),
        whole(1, 900).map((n) => n + 0.0625),
      ),
      { minKeys: 1, maxKeys: 3 },
    ),
    { maxKeys: 3 },
  );

function figures(system: UnitSystem) {
  const entries = presetNames.map((name) => {
    const preset = presetOf(name);
    if (!('quantity' in preset))
      return [
        name,
        preset.words
          ? fc.constantFrom(...preset.words.filter((w) => w !== preset.usual))
          : crop.filter((c) => c !== preset.usual),
      ] as const;
    const { quantity, min, max, usual } = preset;
    const range = max - min;
    const own = preset.whole
      ? whole(min, max).filter((n) => n !== usual)
      : figure(system, quantity, min + range / 900, max - range / 900, false).filter(
          (n) =>
            usual === undefined || Math.abs(Number(n) - toShown(usual, quantity, system)) > 1e-6,
        );
    const mayBeCleared = usual !== undefined || preset.follows === true;
    return [
      name,
      mayBeCleared
        ? fc.oneof({ weight: 5, arbitrary: own }, { weight: 1, arbitrary: fc.constant(null) })
        : own,
    ] as const;
  });
  return fc.record(Object.fromEntries(entries), { requiredKeys: [] });
}

const feedWeights = speciesTable.matrices[0]?.heads.values ?? [];

/** Farm files in metric or US units. */
export function anyFarm(system: UnitSystem) {
  const of = (id: QuantityId, low: number, high: number) => figure(system, id, low, high);
  const share = (low: number, high: number) => figure(system, 'share', low, high, false);
  const month = fc.record({
    water: of('temperature', 0, 44),
    high: of('temperature', -30, 55),
    low: of('temperature', -45, 45),
    humidity: share(0, 1),
  });
  const tank = some(
    {
      name: words(40),
      volume: of('volume', 50, 1e6),
      species: fish,
      fish: whole(0, 90_000),
      weight: of('fishWeight', 0.5, 9000),
      stocked: day,
      density: of('density', 1, 400),
      bore: of('bore', 5, 900),
      pipe: of('length', 0, 1900),
      lift: of('length', 0, 90),
      air: of('airFlow', 0, 900),
    },
    ['name', 'volume', 'species'],
  );
  const bed = some(
    {
      name: words(40),
      kind: fc.constantFrom(...bedKinds),
      length: of('length', 0.2, 900),
      width: of('length', 0.2, 900),
      depth: of('length', 0.05, 2.9),
      crop,
      plants: whole(0, 90_000),
      sown: day,
      planted: day,
    },
    ['name', 'kind', 'length', 'width'],
    // What stands in a bed is a crop.
  ).map((made) => {
    const empty = { ...made };
    if (made.crop === undefined) {
      delete empty.plants;
      delete empty.sown;
      delete empty.planted;
    }
    return empty;
  });
  const market = some(
    {
      crop,
      unit: fc.constantFrom(...marketUnits),
      perWeek: whole(0, 9000),
      price: money,
      perPlant: share(0.1, 90),
      every: whole(1, 364),
      firstHarvest: day,
      cells: whole(1, 2000),
      germination: share(0.05, 1),
      losses: share(0, 0.9),
    },
    ['crop', 'unit', 'perWeek', 'price', 'every', 'firstHarvest'],
  );
  const mgPerLitre = (most: number) => figure(system, 'concentration', 0, most, false);
  const waterTest = some(
    {
      date: day,
      temperature: of('temperature', 0, 44),
      ph: figure(system, 'ph', 3, 12, false),
      tan: mgPerLitre(900),
      nitrite: mgPerLitre(900),
      nitrate: mgPerLitre(4900),
      oxygen: mgPerLitre(39),
      alkalinity: figure(system, 'alkalinity', 0, 4900, false),
      iron: mgPerLitre(90),
      added: of('volume', 0, 1e6),
      baseGiven: of('dose', 0, 9e5),
      base: fc.constantFrom(...baseNames),
    },
    ['date'],
  );
  const harvest = some(
    {
      date: day,
      crop: fc.oneof(crop, fish),
      bed: words(40),
      quantity: whole(0, 9000),
      unit: fc.constantFrom(...marketUnits),
      price: money,
      buyer: words(60),
    },
    ['date', 'crop', 'quantity', 'unit', 'price'],
  );
  const fishRow = some(
    {
      date: day,
      tank: words(40),
      what: fc.constantFrom(...fishEvents),
      fish: whole(0, 90_000),
      weight: of('fishWeight', 0.5, 9000),
      spread: share(0, 0.8),
      toTank: words(40),
      lot: words(60),
      planned: fc.constantFrom(...planMarks),
      remark: words(200),
    },
    ['date', 'tank', 'what'],
  );
  const feeding = some(
    {
      date: day,
      tank: words(40),
      given: of('mass', 0, 9e4),
      feed: words(60),
      remark: words(200),
    },
    ['date', 'tank', 'given'],
  );
  const planting = some(
    {
      batch: words(40),
      crop,
      seeds: whole(0, 90_000),
      sown: day,
      up: day,
      cameUp: whole(0, 90_000),
      bed: words(40),
      plants: whole(0, 90_000),
      planted: day,
      firstCut: day,
      cleared: day,
      planned: fc.constantFrom(...planMarks),
      remark: words(200),
    },
    ['crop'],
  );
  const treatment = some(
    {
      date: day,
      where: words(40),
      what: words(80),
      amount: words(40),
      wait: whole(0, 999),
      remark: words(200),
    },
    ['date', 'where', 'what'],
  );
  const mean = whole(1, 90_000).map((n) => n / 100);
  const ownFigure = (words: FigureWords, of: fc.Arbitrary<string | undefined>) =>
    some(
      {
        figure: fc.constant(words),
        of,
        unit: fc.constantFrom('day', 'share', 'EUR a piece'),
        batches: whole(1, 90),
        mean,
        lowest: mean,
        highest: mean,
        low: mean,
        high: mean,
        weight: share(0, 1),
        upTo: day,
        use: fc.constantFrom(...figureUses),
        few: fc.constant('yes' as const),
      },
      ['figure', 'of', 'batches', 'mean', 'few'],
    );
  const ofFarm = fc.constant(undefined);
  const nameOf = {
    survival: ofFarm,
    fry_survival: ofFarm,
    fingerling_survival: ofFarm,
    growout_survival: ofFarm,
    alkalinity_per_feed: ofFarm,
    water_a_day: ofFarm,
    tgc: fish,
    feed_conversion: fish,
    weight_spread: fish,
  };
  const ownFigureRows = fc
    .uniqueArray(
      fc.oneof(
        ...ownFigureNames.map((name) =>
          ownFigure(figureWords[name], name in nameOf ? nameOf[name as 'tgc'] : crop),
        ),
      ),
      { maxLength: 4, selector: ({ figure, of }) => rowKey({ figure, of }) },
    )
    .map((made) => {
      const isUsed = (words: FigureWords, crop: string | undefined): boolean =>
        made.some(({ figure, of, use }) => figure === words && of === crop && use !== 'table');
      return made.map(({ of, use, ...row }) => ({
        ...row,
        ...(of !== undefined && { of }),
        ...(use !== undefined &&
          acts(figureNameOf(row.figure)) &&
          !(row.figure === figureWords.germination && isUsed(figureWords.plants_per_seed, of)) &&
          !(isOfStage(figureNameOf(row.figure)) && isUsed(figureWords.survival, of)) && {
            use,
          }),
      }));
    });
  return fc.record(
    {
      name: words(80),
      units: fc.constant(system),
      currency: words(8),
      asOf: day,
      site: some(
        {
          place: words(80),
          latitude: figure(system, 'degrees', -89, 89, false),
          altitude: of('altitude', -400, 4900),
          trellis: of('length', 0.2, 19),
          houseVolume: of('houseVolume', 10, 1e6),
        },
        ['place', 'latitude', 'altitude'],
      ),
      months: rows(month, 12, 12),
      water: some(
        {
          total: of('volume', 100, 1e8),
          sump: of('volume', 0, 1e7),
          salinity: figure(system, 'salinity', 0, 39, false),
        },
        ['total', 'sump'],
      ),
      filter: fc.record({
        media: of('volume', 0, 1e6),
        specificSurface: figure(system, 'specificSurface', 20, 4900, false),
      }),
      feed: some({ protein: share(0.12, 0.68), price: of('pricePerMass', 0, 90) }, ['price']),
      stock: some(
        {
          species: fish,
          wanted: figure(system, 'massMonth', 1, 9e5, false),
          startWeight: of('fishWeight', 1, 19_000),
          harvestWeight: of('fishWeight', 1, 49_000),
          survival: share(0.06, 1),
          fingerlingPrice: money,
          fishPrice: figure(system, 'pricePerMass', 0, 90, false),
        },
        ['species', 'wanted', 'startWeight', 'harvestWeight', 'survival'],
      ),
      tanks: named(tank, 4),
      beds: named(bed, 5),
      markets: rows(market, 3),
      fishLog: rows(fishRow, 6),
      feedLog: rows(feeding, 4),
      plantings: rows(planting, 6),
      treatments: rows(treatment, 3),
      waterTests: rows(waterTest, 3),
      harvests: rows(harvest, 3),
      costs: rows(fc.record({ item: words(60), perMonth: money }), 3),
      figures: figures(system),
      crops: ownFigures(
        crops.map(({ name }) => name),
        cropFactNames,
      ),
      species: figuresOfSpecies,
      ownFigures: ownFigureRows,
      feedWeights: fc.constant(feedWeights.map((weight) => weight * 1.5)),
    },
    {
      requiredKeys: [
        'name',
        'units',
        'asOf',
        'site',
        'months',
        'water',
        'filter',
        'feed',
        'stock',
        'tanks',
        'beds',
      ],
    },
  );
}
