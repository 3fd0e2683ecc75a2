/** What can be noted down: each with the register that it belongs to and the few figures that it takes. */
import type { QuantityId } from '../plan/quantities';
import type { RegisterList } from './register-row';

export type HappeningId =
  | 'weighed'
  | 'died'
  | 'moved'
  | 'sold'
  | 'fed'
  | 'stocked'
  | 'counted'
  | 'tested'
  | 'added'
  | 'sown'
  | 'planted'
  | 'cut'
  | 'cleared'
  | 'treated';

export interface NoteField {
  /** Name of the field in the register's rows; `batch` of planting out chooses a row that is there. */
  readonly id: string;
  readonly label: string;
  /** Names are chosen from those of the farm, words from their own list, the rest is typed. */
  readonly takes:
    | { readonly names: 'tanks' | 'beds' | 'places' | 'everywhere' | 'crops' | 'nursery' }
    | { readonly words: 'units' | 'bases' }
    | { readonly figure: QuantityId }
    | { readonly text: true };
  readonly optional?: true;
  /** The last value of such a row stands in the field at once: what does not change from one time to the next. */
  readonly stays?: true;
}

export interface Happening {
  readonly id: HappeningId;
  readonly title: string;
  readonly group: 'Fish' | 'Plants' | 'Water and all';
  readonly list: RegisterList;
  readonly fields: readonly NoteField[];
}

const tank: NoteField = { id: 'tank', label: 'Tank', takes: { names: 'tanks' } };
const heads = (label: string, rest: Partial<NoteField> = {}): NoteField => ({
  id: 'fish',
  label,
  takes: { figure: 'count' },
  ...rest,
});
const weight = (rest: Partial<NoteField> = {}): NoteField => ({
  id: 'weight',
  label: 'Mean weight',
  takes: { figure: 'fishWeight' },
  ...rest,
});
const optional = { optional: true } as const;
const test = (id: string, label: string, figure: QuantityId): NoteField => ({
  id,
  label,
  takes: { figure },
  optional: true,
});
const remark: NoteField = { id: 'remark', label: 'Remark', takes: { text: true }, optional: true };

export const happenings: readonly Happening[] = [
  {
    id: 'weighed',
    title: 'Weighed',
    group: 'Fish',
    list: 'fishLog',
    fields: [tank, weight(), heads('Fish weighed', { ...optional, stays: true }), remark],
  },
  {
    id: 'died',
    title: 'Died',
    group: 'Fish',
    list: 'fishLog',
    fields: [tank, heads('Fish'), remark],
  },
  {
    id: 'moved',
    title: 'Moved',
    group: 'Fish',
    list: 'fishLog',
    fields: [
      tank,
      { id: 'toTank', label: 'To tank', takes: { names: 'tanks' } },
      heads('Fish'),
      weight(optional),
      remark,
    ],
  },
  {
    id: 'sold',
    title: 'Fish sold',
    group: 'Fish',
    list: 'fishLog',
    fields: [tank, heads('Fish'), weight(optional), remark],
  },
  {
    id: 'fed',
    title: 'Fed',
    group: 'Fish',
    list: 'feedLog',
    fields: [
      tank,
      { id: 'given', label: 'How much', takes: { figure: 'mass' }, stays: true },
      { id: 'feed', label: 'Which feed', takes: { text: true }, optional: true, stays: true },
      remark,
    ],
  },
  {
    id: 'stocked',
    title: 'Stocked',
    group: 'Fish',
    list: 'fishLog',
    fields: [
      tank,
      heads('Fish'),
      weight(),
      { id: 'lot', label: 'Lot', takes: { text: true }, optional: true },
      { ...remark, label: 'From whom' },
    ],
  },
  {
    id: 'counted',
    title: 'Counted',
    group: 'Fish',
    list: 'fishLog',
    fields: [tank, heads('Fish'), weight(optional), remark],
  },
  {
    id: 'sown',
    title: 'Sown',
    group: 'Plants',
    list: 'plantings',
    fields: [
      { id: 'crop', label: 'Crop', takes: { names: 'crops' } },
      { id: 'seeds', label: 'Seeds', takes: { figure: 'plants' }, optional: true },
      { id: 'batch', label: 'Batch', takes: { text: true }, optional: true },
      { id: 'bed', label: 'Bed, if it is known', takes: { names: 'beds' }, optional: true },
      remark,
    ],
  },
  {
    id: 'planted',
    title: 'Planted out',
    group: 'Plants',
    list: 'plantings',
    fields: [
      { id: 'batch', label: 'What', takes: { names: 'nursery' } },
      { id: 'bed', label: 'Bed', takes: { names: 'beds' } },
      { id: 'plants', label: 'Plants', takes: { figure: 'plants' }, optional: true },
    ],
  },
  {
    id: 'cut',
    title: 'Cut, sold',
    group: 'Plants',
    list: 'harvests',
    fields: [
      { id: 'bed', label: 'Bed or tank', takes: { names: 'places' } },
      { id: 'quantity', label: 'How many', takes: { figure: 'number' } },
      { id: 'unit', label: 'Sold by', takes: { words: 'units' }, stays: true },
      { id: 'price', label: 'Price of one', takes: { figure: 'number' }, stays: true },
      { id: 'buyer', label: 'Sold to', takes: { text: true }, optional: true, stays: true },
    ],
  },
  {
    id: 'cleared',
    title: 'Cleared',
    group: 'Plants',
    list: 'plantings',
    fields: [{ id: 'bed', label: 'Bed', takes: { names: 'beds' } }],
  },
  {
    id: 'tested',
    title: 'Water tested',
    group: 'Water and all',
    list: 'waterTests',
    fields: [
      test('temperature', 'Water', 'temperature'),
      test('ph', 'pH', 'ph'),
      test('tan', 'Total ammonia-N', 'concentration'),
      test('nitrite', 'Nitrite-N', 'concentration'),
      test('nitrate', 'Nitrate-N', 'concentration'),
      test('oxygen', 'Oxygen', 'concentration'),
      test('alkalinity', 'Alkalinity', 'alkalinity'),
      test('iron', 'Iron', 'concentration'),
    ],
  },
  {
    id: 'added',
    title: 'Water or base added',
    group: 'Water and all',
    list: 'waterTests',
    fields: [
      {
        id: 'added',
        label: 'Water added since the last time',
        takes: { figure: 'volume' },
        optional: true,
      },
      { id: 'baseGiven', label: 'Base given', takes: { figure: 'dose' }, optional: true },
      { id: 'base', label: 'Which base', takes: { words: 'bases' }, optional: true, stays: true },
    ],
  },
  {
    id: 'treated',
    title: 'Treated',
    group: 'Water and all',
    list: 'treatments',
    fields: [
      { id: 'where', label: 'Where', takes: { names: 'everywhere' } },
      { id: 'what', label: 'With what', takes: { text: true } },
      { id: 'amount', label: 'How much', takes: { text: true }, optional: true },
      { id: 'wait', label: 'Days to wait', takes: { figure: 'days' } },
      remark,
    ],
  },
];

export const happeningOf = (id: HappeningId): Happening =>
  happenings.find((happening) => happening.id === id) as Happening;
