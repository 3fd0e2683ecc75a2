import { MONTH_NAMES } from '../../core/month-names';
import { isoText } from '../../core/serial-date';
import { numberText } from '../../plan/shown-figure';
import { h, svg } from '../dom';
import { folded, wideTable } from '../ahead/words';

export interface Course {
  /** What the figures are, in words. */
  readonly title: string;
  readonly unit: string;
  /** As a grower reads a figure of it. */
  readonly shown: (value: number) => string;
  /** Days, one for each week. */
  readonly days: readonly number[];
  readonly tenth: readonly number[];
  readonly half: readonly number[];
  readonly ninetieth: readonly number[];
}

const WIDTH = 300;
const HEIGHT = 112;
const TOP = 14;
const FLOOR = 94;

export const figureOf = (value: number): string => numberText(Number(value.toPrecision(3)));

/** Every so many weeks a line of the table. */
const TABLE_STEP = 4;

const isKnown = ({ half }: Course, week: number): boolean => Number.isFinite(half[week]);

function monthMarks(days: readonly number[], x: (week: number) => number): SVGElement[] {
  const month = (week: number): number => Number(isoText(days[week] ?? 0).split('-')[1]);
  return days.flatMap((_, week) =>
    week === 0 || month(week) === month(week - 1)
      ? []
      : [
          svg(
            'text',
            { class: 'month', x: x(week).toFixed(1), y: FLOOR + 13 },
            MONTH_NAMES[month(week) - 1]?.charAt(0) ?? '',
          ),
        ],
  );
}

/** Between a year in ten and nine in ten as a band, half as a line on it; the same in words and as a table. */
export function coursePicture(course: Course): HTMLElement {
  const { title, unit, shown, days, tenth, half, ninetieth } = course;
  const weeks = half.length;
  const known = half.flatMap((_, week) => (isKnown(course, week) ? [week] : []));
  const most = Math.max(1e-9, ...known.map((week) => ninetieth[week] as number));
  const x = (week: number): number => (week / Math.max(1, weeks - 1)) * WIDTH;
  const y = (value: number): number => FLOOR - (value / most) * (FLOOR - TOP);
  const point = (line: readonly number[]) => (week: number) =>
    `${x(week).toFixed(1)},${y(line[week] as number).toFixed(1)}`;
  const last = known.at(-1) ?? 0;
  const says = `${title}, ${weeks} weeks from ${isoText(days[0] ?? 0)}: in the last of them half of the years are below ${shown(half[last] as number)}, eight in ten between ${shown(tenth[last] as number)} and ${shown(ninetieth[last] as number)}.`;
  const withUnit = unit === '' ? '' : `, ${unit}`;
  return h(
    'figure',
    { class: 'course' },
    h('figcaption', {}, `${title}${withUnit}`),
    svg(
      'svg',
      { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', 'aria-label': says },
      svg('line', { class: 'grid', x1: 0, x2: WIDTH, y1: TOP, y2: TOP }),
      svg('polygon', {
        class: 'band',
        points: [...known.map(point(ninetieth)), ...[...known].reverse().map(point(tenth))].join(
          ' ',
        ),
      }),
      svg('polyline', { class: 'half', points: known.map(point(half)).join(' ') }),
      svg('line', { class: 'floor', x1: 0, x2: WIDTH, y1: FLOOR, y2: FLOOR }),
      svg('text', { x: 0, y: TOP - 4 }, shown(most)),
      ...monthMarks(days, x),
    ),
    folded(
      'As a table',
      false,
      wideTable(
        `${title}${withUnit}`,
        ['Week from', 'A year in ten below', 'Half below', 'Nine in ten below'],
        known
          .filter((week, at) => week % TABLE_STEP === 0 || at === known.length - 1)
          .map((week) => [
            isoText(days[week] ?? 0),
            shown(tenth[week] as number),
            shown(half[week] as number),
            shown(ninetieth[week] as number),
          ]),
      ),
    ),
  );
}
