import type { Host } from '../host';
import type { Draft, Json } from './draft';
import {
  bedFields,
  costFields,
  fishFields,
  marketFields,
  priceFields,
  siteFields,
  tankFields,
  waterFields,
} from './form-fields';
import { monthsView } from './months-view';
import { rowsView, type RowsSpec } from './rows-view';
import { fieldsView, type Section, section } from './section-view';

const text = (value: Json | undefined): string =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : '';

const tanks: RowsSpec = {
  list: 'tanks',
  one: 'tank',
  fields: tankFields,
  blank: (n, draft) => ({
    name: `Tank ${n + 1}`,
    ...(typeof draft.get('stock.species') === 'string' && {
      species: draft.get('stock.species') as string,
    }),
  }),
  title: (row) =>
    [text(row['name']), row['fish'] ? `${text(row['fish'])} fish` : ''].filter(Boolean).join(', '),
};

const beds: RowsSpec = {
  list: 'beds',
  one: 'bed',
  fields: bedFields,
  blank: (n, draft) => {
    const [last] = draft.list('beds').slice(-1) as Record<string, Json>[];
    const { kind = 'raft', length, width, depth } = last ?? {};
    return {
      name: `Bed ${n + 1}`,
      kind,
      ...(length !== undefined && { length }),
      ...(width !== undefined && { width }),
      ...(depth !== undefined && { depth }),
    };
  },
  title: (row) => [text(row['name']), text(row['crop'])].filter(Boolean).join(', '),
};

const markets: RowsSpec = {
  list: 'markets',
  one: 'crop to sell',
  fields: marketFields,
  blank: () => ({ unit: 'piece', every: 7 }),
  title: (row) =>
    [text(row['crop']), row['perWeek'] ? `${text(row['perWeek'])} a week` : '']
      .filter(Boolean)
      .join(', '),
};

const costs: RowsSpec = {
  list: 'costs',
  one: 'cost',
  fields: costFields,
  blank: () => ({}),
  title: (row) => text(row['item']),
};

const many = (draft: Draft, list: string, singular: string): string => {
  const n = draft.list(list).length;
  return `${n} ${n === 1 ? singular : `${singular}s`}`;
};

/** The parts of the form, in the order in which a farm is thought of. */
export function planSections(
  draft: Draft,
  host: Host,
  renew: (list: string) => void,
): readonly Section[] {
  return [
    section(
      'Site',
      'Where the farm is and which day the plan speaks of.',
      [fieldsView(siteFields, draft)],
      { facts: () => text(draft.get('name')), dangers: ['law'] },
    ),
    section(
      'Through the year',
      'Usual water and air of each month, where fish and crops are.',
      [monthsView(draft)],
      { dangers: ['heater'] },
    ),
    section('Fish', 'What is raised and what is to be sold.', [fieldsView(fishFields, draft)], {
      facts: () => text(draft.get('stock.species')),
      dangers: ['permit', 'quarantine', 'medicines'],
    }),
    section('Tanks', 'Each tank as it stands today.', [rowsView(tanks, draft, host, renew)], {
      facts: () => many(draft, 'tanks', 'tank'),
      dangers: ['weight', 'air', 'electricity', 'wounds'],
    }),
    section('Beds', 'Each bed and what grows in it.', [rowsView(beds, draft, host, renew)], {
      facts: () => many(draft, 'beds', 'bed'),
      dangers: ['weight', 'sprays'],
    }),
    section(
      'Market',
      'What is wanted each week, and from when.',
      [rowsView(markets, draft, host, renew)],
      { facts: () => many(draft, 'markets', 'crop'), dangers: ['food', 'coli'] },
    ),
    section(
      'Water and filter',
      'What moves round and what cleans it.',
      [fieldsView(waterFields, draft)],
      { dangers: ['chlorine', 'weight', 'sulphide'] },
    ),
    section('Prices and costs', 'What feed and fish cost, and what runs every month.', [
      fieldsView(priceFields, draft),
      rowsView(costs, draft, undefined, renew),
    ]),
  ];
}
