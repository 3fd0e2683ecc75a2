import { cropTable } from '../../functions/crop-table';
import type { LookupTable } from '../../functions/lookup';
import { speciesTable } from '../../functions/species-table';
import { bedKinds, marketUnits } from '../../plan/farm';
import type { QuantityId } from '../../plan/quantities';

/** What a field takes; `price` is money for a kg, or for a lb in US units. */
export type FieldKind =
  | { readonly kind: 'text' | 'date' | 'money' | 'price' }
  | { readonly kind: 'measured'; readonly quantity: QuantityId }
  | {
      readonly kind: 'name';
      readonly names: readonly string[];
      /** The table's own spelling of a name. */
      readonly spelled: (name: string) => string | undefined;
    }
  | { readonly kind: 'words'; readonly words: readonly (readonly [value: string, text: string])[] };

export interface FieldSpec {
  /** Path in the farm file, inside its row where it belongs to one. */
  readonly path: string;
  readonly label: string;
  readonly takes: FieldKind;
  readonly optional?: true;
  readonly hint?: string;
  /** What growers call it at the head of a column. */
  readonly headings?: readonly string[];
}

const measured = (quantity: QuantityId): FieldKind => ({ kind: 'measured', quantity });
const text: FieldKind = { kind: 'text' };
const date: FieldKind = { kind: 'date' };
const money: FieldKind = { kind: 'money' };
const price: FieldKind = { kind: 'price' };
const namesOf = <R>({ book, nameOf }: LookupTable<R>): FieldKind => ({
  kind: 'name',
  names: book.names,
  spelled: (name) => {
    const row = book.find(name);
    return row && nameOf(row);
  },
});
const species = namesOf(speciesTable);
const crop = namesOf(cropTable);
const words = (values: readonly string[], texts: Readonly<Record<string, string>>): FieldKind => ({
  kind: 'words',
  words: values.map((value) => [value, texts[value] ?? value] as const),
});

const field = (
  path: string,
  label: string,
  takes: FieldKind,
  rest: Partial<FieldSpec> = {},
): FieldSpec => ({ path, label, takes, ...rest });
const optional = { optional: true } as const;

export const siteFields: readonly FieldSpec[] = [
  field('name', 'Name of the farm', text),
  field('currency', 'Currency', text, { ...optional, hint: 'Left blank: EUR.' }),
  field('asOf', 'Day of the plan', date),
  field('site.place', 'Place', text),
  field('site.latitude', 'Latitude', measured('degrees'), { hint: 'South is negative.' }),
  field('site.altitude', 'Altitude', measured('altitude')),
  field('site.trellis', 'Trellis', measured('length'), {
    ...optional,
    hint: 'Height, for its shadow. Left blank: 2 m or 6.6 ft.',
  }),
  field('site.houseVolume', 'Air in the tunnel or house', measured('houseVolume'), {
    ...optional,
    hint: 'Floor times mean height. Left blank: venting is left out of the plan.',
  }),
];

export const waterFields: readonly FieldSpec[] = [
  field('water.total', 'All water that moves round', measured('volume'), {
    hint: 'Tanks, beds, sump and pipes together.',
  }),
  field('water.sump', 'Sump', measured('volume')),
  field('water.salinity', 'Salinity', measured('salinity'), {
    ...optional,
    hint: 'Left blank: 0, fresh water.',
  }),
  field('filter.media', 'Filter media', measured('volume'), {
    hint: '0 where the beds do all the filtering.',
  }),
  field('filter.specificSurface', 'Surface of the media', measured('specificSurface')),
];

export const fishFields: readonly FieldSpec[] = [
  field('stock.species', 'Main species', species),
  field('stock.wanted', 'Fish wanted to sell each month', measured('mass')),
  field('stock.startWeight', 'Weight of a fingerling', measured('fishWeight')),
  field('stock.harvestWeight', 'Weight at harvest', measured('fishWeight')),
  field('stock.survival', 'Survival from stocking to harvest', measured('share')),
  field('feed.protein', 'Protein in the feed', measured('share'), optional),
];

export const priceFields: readonly FieldSpec[] = [
  field('feed.price', 'Feed', price),
  field('stock.fingerlingPrice', 'One fingerling', money, { ...optional, hint: 'Left blank: 0.' }),
  field('stock.fishPrice', 'Fish sold', price, { ...optional, hint: 'Left blank: 0.' }),
];

export const monthFields: readonly FieldSpec[] = [
  field('water', 'Water', measured('temperature')),
  field('high', 'Air, high', measured('temperature')),
  field('low', 'Air, low', measured('temperature')),
  field('humidity', 'Humidity', measured('share')),
];

const called = (...headings: readonly string[]): Partial<FieldSpec> => ({ headings });

export const tankFields: readonly FieldSpec[] = [
  field('name', 'Name', text, called('tank', 'tank name', 'no', 'number of tank')),
  field('volume', 'Volume', measured('volume'), called('litres', 'liters', 'gallons', 'capacity')),
  field('species', 'Species', species, called('fish species', 'kind of fish')),
  field('fish', 'Fish', measured('count'), {
    ...optional,
    hint: 'Left blank: empty tank.',
    ...called('number of fish', 'count', 'head', 'heads'),
  }),
  field('weight', 'Mean weight', measured('fishWeight'), {
    ...optional,
    ...called('average weight', 'weight each', 'size'),
  }),
  field('stocked', 'Stocked on', date, { ...optional, ...called('stocked', 'stocking date') }),
  field('density', 'Most fish in it', measured('density'), {
    ...optional,
    hint: "Left blank: the species table's figure.",
    ...called('density limit', 'most density'),
  }),
  field('bore', 'Bore of its pipe', measured('bore'), {
    ...optional,
    hint: 'Bore, length and lift: for the pumps.',
    ...called('pipe bore', 'pipe diameter', 'inner width'),
  }),
  field('pipe', 'Length of its pipe', measured('length'), {
    ...optional,
    ...called('pipe length', 'run of pipe'),
  }),
  field('lift', 'Lift', measured('length'), {
    ...optional,
    hint: 'How high the pump lifts its water.',
    ...called('height of lift'),
  }),
  field('air', 'Air of its stones', measured('airFlow'), {
    ...optional,
    hint: 'What a blower or air pump gives this tank.',
    ...called('air flow', 'blower air', 'air stones'),
  }),
];

export const bedFields: readonly FieldSpec[] = [
  field('name', 'Name', text, called('bed', 'bed name', 'raft', 'no')),
  field(
    'kind',
    'Kind',
    words(bedKinds, {
      raft: 'raft on water',
      gravel: 'flooded gravel',
      film: 'channel with a film of water',
    }),
    called('type', 'system'),
  ),
  field('length', 'Length', measured('length'), called('long')),
  field('width', 'Width', measured('length'), called('wide', 'breadth')),
  field('depth', 'Depth', measured('length'), { ...optional, ...called('deep') }),
  field('crop', 'Crop', crop, { ...optional, ...called('plant', 'grown now') }),
  field('plants', 'Plants', measured('plants'), {
    ...optional,
    ...called('number of plants', 'plant count'),
  }),
  field('sown', 'Sown on', date, { ...optional, ...called('sowing date', 'seeded') }),
  field('planted', 'Planted on', date, {
    ...optional,
    ...called('planting date', 'transplanted', 'transplant date'),
  }),
];

export const marketFields: readonly FieldSpec[] = [
  field('crop', 'Crop', crop),
  field('unit', 'Sold by', words(marketUnits, {})),
  field('perWeek', 'Wanted each week', measured('number')),
  field('price', 'Price of one unit', money),
  field('firstHarvest', 'First harvest on', date),
  field('every', 'Sow again after', measured('days')),
  field('perPlant', 'Units from one plant', measured('number'), {
    ...optional,
    hint: "Left blank: by the crop table's yield and weights.",
  }),
  field('cells', 'Cells in a seed tray', measured('number'), optional),
  field('germination', 'Germination', measured('share'), {
    ...optional,
    hint: "Left blank: the crop table's figure.",
  }),
  field('losses', 'Losses in the nursery', measured('share'), {
    ...optional,
    hint: 'Left blank: as the Sowing sheet says for all crops.',
  }),
];

export const costFields: readonly FieldSpec[] = [
  field('item', 'What', text),
  field('perMonth', 'A month', money),
];

/** Every field with a figure that changes with the units, its path with [] for each row. */
export const figures: readonly FieldSpec[] = [
  ...siteFields,
  ...waterFields,
  ...fishFields,
  ...priceFields,
  ...rows('months', monthFields),
  ...rows('tanks', tankFields),
  ...rows('beds', bedFields),
  ...rows('fishLog', [field('weight', '', measured('fishWeight'))]),
  ...rows('feedLog', [field('given', '', measured('mass'))]),
  ...rows('waterTests', [
    field('temperature', '', measured('temperature')),
    field('added', '', measured('volume')),
    field('baseGiven', '', measured('dose')),
  ]),
];

function rows(list: string, fields: readonly FieldSpec[]): readonly FieldSpec[] {
  return fields.map((field) => ({ ...field, path: `${list}[].${field.path}` }));
}
