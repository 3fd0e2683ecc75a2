import { type UnitSystem, toShown } from '../../plan/quantities';
import { h, svg } from '../dom';
import type { Balance } from './balance';
import { figureText } from '../../plan/shown-figure';
import { monthName, monthNames } from './months';

const WIDTH = 288;
const HEIGHT = 104;
const FLOOR = 84;
const TOP = 14;
const STEP = WIDTH / 12;

/** Columns: the area that each month's feed can supply. Line: the planted area. */
function chart({ served, planted, month }: Balance, system: UnitSystem): SVGElement {
  const known = served.filter((value) => value !== undefined);
  const most = Math.max(...known, planted, 1e-9) * 1.05;
  const y = (value: number): number => FLOOR - (value / most) * (FLOOR - TOP);
  const columns = served.flatMap((value, i) =>
    value === undefined
      ? []
      : [
          svg(
            'rect',
            {
              class: i + 1 === month ? 'column now' : 'column',
              x: (i * STEP + 3).toFixed(1),
              width: (STEP - 6).toFixed(1),
              y: y(value).toFixed(1),
              height: (FLOOR - y(value)).toFixed(1),
              rx: 2,
            },
            svg('title', {}, `${monthNames[i]}: ${figureText(value, 'area', system)}`),
          ),
        ],
  );
  const letters = monthNames.map((name, i) =>
    svg('text', { class: 'month', x: (i * STEP + STEP / 2).toFixed(1), y: FLOOR + 14 }, name[0]),
  );
  const level = y(planted).toFixed(1);
  const label = `${figureText(planted, 'area', system)} with plants`;
  return svg(
    'svg',
    {
      class: 'balance-chart',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      role: 'img',
      'aria-label': `Grow-area that the feed can supply: from ${figureText(Math.min(...known), 'area', system)} to ${figureText(Math.max(...known), 'area', system)} through the ${known.length === 12 ? 'year' : `${known.length} months whose water is known`}; ${label}.`,
    },
    ...columns,
    svg('line', { class: 'floor', x1: 0, x2: WIDTH, y1: FLOOR, y2: FLOOR }),
    svg('line', { class: 'planted', x1: 0, x2: WIDTH, y1: level, y2: level }),
    svg('text', { class: 'level', x: WIDTH, y: Math.max(10, Number(level) - 4) }, label),
    ...letters,
  );
}

function verdict({ verdict: found, served, planted, month }: Balance, system: UnitSystem): string {
  const now = (month !== undefined && served[month - 1]) || 0;
  const gap = figureText(Math.abs(now - planted), 'area', system);
  switch (found) {
    case 'short':
      return `The fish feed ${gap} less than the beds with plants in them call for: more feed, or fewer or less hungry beds.`;
    case 'over':
      return `The feed could supply ${gap} more than the beds with plants in them: plant more, or keep fewer fish.`;
    case 'even':
      return 'Feed and the beds with plants in them are in balance: such beds ran well anywhere about it.';
    case 'open':
      return 'The balance shows once a tank has fish with a weight, a bed has plants in it on the day of the plan, and the water of this month is known.';
  }
}

const fact = (term: string, value: string): Node =>
  h('div', {}, h('dt', {}, term), h('dd', {}, value));

/** The farm in a few figures, and feed against beds as a drawing. */
export function balanceView(balance: Balance, system: UnitSystem): Node[] {
  const { month, feed, served, area, planted, waiting, biomass } = balance;
  const mark = { short: 'watch', over: 'watch', even: 'good', open: 'quiet' }[balance.verdict];
  const unplanted = area - planted - waiting;
  const inMonth = (values: Balance['feed'], id: 'feedDay' | 'area'): string => {
    const value = month === undefined ? undefined : values[month - 1];
    return value === undefined ? '–' : figureText(value, id, system);
  };
  return [
    h(
      'dl',
      { class: 'figures' },
      fact('Fish', figureText(biomass, 'mass', system)),
      fact(month === undefined ? 'Feed' : `Feed in ${monthName(month)}`, inMonth(feed, 'feedDay')),
      fact('This feeds beds of', inMonth(served, 'area')),
      fact('Beds with plants', figureText(planted, 'area', system)),
    ),
    h('p', { class: `verdict ${mark}` }, verdict(balance, system)),
    ...(balance.verdict === 'open' ? [] : [chart(balance, system)]),
    ...(balance.leftOut > 0 && biomass + planted > 0
      ? [
          h(
            'p',
            { class: 'quiet' },
            `Without ${balance.leftOut} ${balance.leftOut === 1 ? 'tank or bed' : 'tanks and beds'} that still ${balance.leftOut === 1 ? 'wants' : 'want'} a figure.`,
          ),
        ]
      : []),
    ...(toShown(waiting, 'area', system) >= 0.05
      ? [
          h(
            'p',
            { class: 'quiet' },
            `${figureText(waiting, 'area', system)} wait for their plants, which are in the nursery or have no date yet.`,
          ),
        ]
      : []),
    ...(toShown(unplanted, 'area', system) >= 0.05
      ? [
          h(
            'p',
            { class: 'quiet' },
            `${figureText(unplanted, 'area', system)} of beds have no crop.`,
          ),
        ]
      : []),
  ];
}
