import { type OwnRecord, SURE } from '../../experience/figures-of-registers';
import { svg } from '../dom';
import { withUnit } from './record-words';

const WIDTH = 300;
const HEIGHT = 46;
const MIDDLE = 20;
const SIDE = 8;

/**
 * On one line: the table's figure with its range, each batch as a stroke, the mean with its interval, and the figure
 * between both.
 */
export function recordPicture(record: OwnRecord): SVGElement {
  const { values, mean, interval, table, blend, unit } = record;
  const all = [
    ...values.map(({ value }) => value),
    ...(interval ?? []),
    ...(table === undefined ? [] : [table.usual, ...(table.range ?? [])]),
  ];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const span = most - least || Math.abs(most) || 1;
  const x = (value: number): string =>
    (SIDE + ((value - least) / span) * (WIDTH - 2 * SIDE)).toFixed(1);
  const said = [
    ...(table === undefined
      ? []
      : [
          `table ${withUnit(table.usual, unit)}${table.range ? ` (${withUnit(table.range[0], unit)} to ${withUnit(table.range[1], unit)})` : ''}`,
        ]),
    `batches from ${withUnit(record.range[0], unit)} to ${withUnit(record.range[1], unit)}, mean ${withUnit(mean, unit)}`,
    ...(interval
      ? [
          `their true mean from ${withUnit(interval[0], unit)} to ${withUnit(interval[1], unit)} with ${100 * SURE} % certainty`,
        ]
      : []),
    ...(table === undefined ? [] : [`between both ${withUnit(blend.figure, unit)}`]),
  ];
  const bar = (className: string, from: number, to: number, high: number): SVGElement =>
    svg('rect', {
      class: className,
      x: x(from),
      width: Math.max(1.5, Number(x(to)) - Number(x(from))).toFixed(1),
      y: MIDDLE - high / 2,
      height: high,
    });
  const mark = (className: string, value: number, high: number): SVGElement =>
    svg('line', {
      class: className,
      x1: x(value),
      x2: x(value),
      y1: MIDDLE - high,
      y2: MIDDLE + high,
    });
  return svg(
    'svg',
    {
      class: 'record-picture',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      role: 'img',
      'aria-label': `${said.join('; ')}.`,
    },
    ...(table?.range ? [bar('table-range', table.range[0], table.range[1], 18)] : []),
    ...(table ? [mark('table', table.usual, 14)] : []),
    ...values.map(({ value }) => mark('batch', value, 5)),
    ...(interval ? [bar('interval', interval[0], interval[1], 4)] : []),
    svg('circle', { class: 'mean', cx: x(mean), cy: MIDDLE, r: 4.5 }),
    ...(table
      ? [
          svg('path', {
            class: 'blend',
            d: `M ${x(blend.figure)} ${MIDDLE + 8} l 4 7 h -8 z`,
          }),
        ]
      : []),
    svg('text', { class: 'least', x: 0, y: HEIGHT - 2 }, withUnit(least, unit)),
    ...(most > least
      ? [svg('text', { class: 'most', x: WIDTH, y: HEIGHT - 2 }, withUnit(most, unit))]
      : []),
  );
}
