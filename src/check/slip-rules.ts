/** Records that stand ten times off among their neighbours, and weighings that no fish could reach. */
import { isoText } from '../core/serial-date';
import { impossibleSteps, slipsOfTen } from '../core/typing-slips';
import { figure, type Finding } from './finding';
import type { FoundTable, TableLine } from './found-tables';
import type { Role } from './headings';

/** Columns of a log whose figures go on from line to line; the words stand in sentences. */
const series: Readonly<Partial<Record<Role, string>>> = {
  temperature: 'water',
  tan: 'ammonia',
  nitrite: 'nitrite',
  nitrate: 'nitrate',
  oxygen: 'oxygen',
  alkalinity: 'alkalinity',
  iron: 'iron',
  quantity: 'quantity',
  price: 'price',
};

/** Figures of different crops, units or places are no neighbours of each other. */
const keyOf = (line: TableLine): string =>
  (['crop', 'soldBy', 'tank'] as const)
    .map((role) => (line.text(role) ?? '').toLowerCase())
    .join('|');

function grouped<T>(list: readonly T[], key: (item: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of list) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return [...groups.values()];
}

interface Dated {
  readonly line: TableLine;
  readonly day: number;
  readonly value: number;
}

const dated = (table: FoundTable, role: Role): Dated[] =>
  table.lines.flatMap((line) => {
    const [day, value] = [line.number('date'), line.number(role)];
    return day === undefined || day <= 0 || value === undefined || value <= 0
      ? []
      : [{ line, day, value }];
  });

function columnSlips(table: FoundTable, role: Role, name: string): Finding[] {
  return grouped(dated(table, role), ({ line }) => keyOf(line)).flatMap((points) =>
    slipsOfTen(points).map(({ at, usual }): Finding => {
      const { line, day, value } = points[at] as Dated;
      const right = value > usual ? value / 10 : value * 10;
      return {
        level: 'watch',
        what: `${line.called}, ${isoText(day)}: ${name} of ${figure(value)} where ${figure(usual)} is usual.`,
        sheet: table.sheet,
        address: line.address(role),
        why: 'A point that slips while typing makes a figure ten times too large or too small, and everything that is computed from it.',
        remedy: `Type ${figure(right)} if that was meant; leave it where it was measured so.`,
      };
    }),
  );
}

interface Logged {
  readonly line: TableLine;
  readonly day: number;
  /** Whether fish came in from another tank. */
  readonly came: boolean;
}

/** Rows of a tank: its own, and those by which fish came into it. */
function rowsByTank(table: FoundTable): Logged[][] {
  const key = (line: TableLine, role: Role): string => (line.text(role) ?? '').toLowerCase();
  const tanks = new Map<string, Logged[]>();
  for (const line of table.lines) {
    const day = line.number('date');
    if (day === undefined || day <= 0 || line.text('planned') !== undefined) continue;
    const add = (tank: string, came: boolean): void => {
      if (tank !== '') tanks.set(tank, [...(tanks.get(tank) ?? []), { line, day, came }]);
    };
    add(key(line, 'tank'), false);
    add(key(line, 'toTank'), true);
  }
  return [...tanks.values()].map((rows) => [...rows].sort((a, b) => a.day - b.day));
}

/** Weights of the same fish, one list for each time that a tank kept them. */
function chainsOf(rows: readonly Logged[]): Dated[][] {
  const chains: Dated[][] = [[]];
  for (const { line, day, came } of rows) {
    const event = (line.text('event') ?? 'weighed').toLowerCase();
    const value = line.number('weight');
    if (came || event === 'stocked') chains.push([]);
    if (came) continue;
    if (/^(stocked|weighed|counted)$/.test(event)) {
      if (value !== undefined && value > 0) chains.at(-1)?.push({ line, day, value });
      // What was taken out by size leaves others behind than were weighed.
    } else if (value !== undefined) chains.push([]);
  }
  return chains;
}

const weighings = (table: FoundTable): Finding[] =>
  rowsByTank(table)
    .flatMap(chainsOf)
    .flatMap((chain) =>
      impossibleSteps(chain).flatMap((at): Finding[] => {
        const [before, now] = [chain[at - 1], chain[at]];
        if (before === undefined || now === undefined) return [];
        return [
          {
            level: 'watch',
            what: `${now.line.called}: ${figure(before.value)} g on ${isoText(before.day)}, ${figure(now.value)} g on ${isoText(now.day)}.`,
            sheet: table.sheet,
            address: now.line.address('weight'),
            why: 'No fish grows or shrinks like this: one of the two weights is mistyped, or others were weighed.',
            remedy: 'Look up both weighings and correct the wrong one.',
          },
        ];
      }),
    );

/** Typing slips in a log: a table with dates. */
export function slipRules(table: FoundTable): Finding[] {
  if (!table.roles.has('date')) return [];
  const columns = (Object.entries(series) as [Role, string][]).filter(([role]) =>
    table.roles.has(role),
  );
  return [
    ...columns.flatMap(([role, name]) => columnSlips(table, role, name)),
    ...(table.roles.has('weight') && table.roles.has('tank') ? weighings(table) : []),
  ];
}
