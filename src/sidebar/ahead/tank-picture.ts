import { isoText } from '../../core/serial-date';
import { h, svg } from '../dom';

export interface TankCourse {
  readonly name: string;
  /** In the unit of the densities; undefined where none is known. */
  readonly limit: number | undefined;
  /** Week after week. */
  readonly density: readonly (number | undefined)[];
}

const WIDTH = 300;
const HEIGHT = 46;
const FLOOR = 42;
const TOP = 6;
/** As on the Tank year sheet. */
const NEARLY_FULL = 0.9;
const HAIR = 1e-6;

const shownFigure = (value: number): string => String(Number(value.toPrecision(3)));

/** What a tank does, in a sentence. */
function courseInWords(
  { name, limit, density }: TankCourse,
  days: readonly number[],
  unit: string,
) {
  const known = density.flatMap((value, week) =>
    value === undefined ? [] : [{ value, day: days[week] ?? 0 }],
  );
  const first = known[0];
  if (!first) return { says: `${name}: nothing is known`, state: '' };
  const fullest = known.reduce((most, day) => (day.value > most.value ? day : most), first);
  if (fullest.value === 0) return { says: `${name}: empty all the time`, state: '' };
  const over = known.filter(({ value }) => limit !== undefined && value > limit * (1 + HAIR));
  const at = `fullest ${shownFigure(fullest.value)} ${unit} on ${isoText(fullest.day)}`;
  const against = limit === undefined ? 'no limit is known' : `limit ${shownFigure(limit)}`;
  const passed =
    over.length === 0
      ? ''
      : `; over it in ${over.length} ${over.length === 1 ? 'week' : 'weeks'}, first on ${isoText(over[0]?.day ?? 0)}`;
  const state =
    over.length > 0
      ? 'over'
      : limit !== undefined && fullest.value > limit * NEARLY_FULL
        ? 'near'
        : '';
  return { says: `${name}: ${at}, ${against}${passed}`, state };
}

function strip(course: TankCourse, days: readonly number[], unit: string, most: number) {
  const { limit, density } = course;
  const weeks = Math.max(1, density.length);
  const step = WIDTH / weeks;
  const y = (value: number): number => FLOOR - (value / most) * (FLOOR - TOP);
  const { says, state } = courseInWords(course, days, unit);
  const bars = density.flatMap((value, week) => {
    if (value === undefined || value <= 0) return [];
    const full =
      limit === undefined
        ? ''
        : value > limit * (1 + HAIR)
          ? ' over'
          : value > limit * NEARLY_FULL
            ? ' near'
            : '';
    return [
      svg(
        'rect',
        {
          class: `water${full}`,
          x: (week * step).toFixed(2),
          width: Math.max(0.5, step - 0.6).toFixed(2),
          y: y(value).toFixed(1),
          height: (FLOOR - y(value)).toFixed(1),
        },
        svg('title', {}, `${isoText(days[week] ?? 0)}: ${shownFigure(value)} ${unit}`),
      ),
    ];
  });
  const line =
    limit === undefined
      ? []
      : [svg('line', { class: 'limit', x1: 0, x2: WIDTH, y1: y(limit), y2: y(limit) })];
  return h(
    'figure',
    { class: `tank-year ${state}` },
    h('figcaption', {}, says),
    svg(
      'svg',
      { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, 'aria-hidden': 'true', preserveAspectRatio: 'none' },
      ...bars,
      ...line,
      svg('line', { class: 'floor', x1: 0, x2: WIDTH, y1: FLOOR, y2: FLOOR }),
    ),
  );
}

/** Where the months begin, under all strips alike. */
function months(days: readonly number[]): HTMLElement {
  const names = ['J', 'F', 'M', 'A', 'M', 'J', 'J', 'A', 'S', 'O', 'N', 'D'];
  const weeks = Math.max(1, days.length);
  const marks = days.flatMap((day, week) => {
    const [, month = ''] = isoText(day).split('-');
    const [, before = ''] = week === 0 ? [] : isoText(days[week - 1] ?? 0).split('-');
    return month === before || week === 0
      ? []
      : [
          svg(
            'text',
            { class: 'month', x: ((week * WIDTH) / weeks).toFixed(1), y: 11 },
            names[Number(month) - 1] ?? '',
          ),
        ];
  });
  return h(
    'div',
    { class: 'tank-months' },
    svg('svg', { viewBox: `0 0 ${WIDTH} 14`, 'aria-hidden': 'true' }, ...marks),
  );
}

/** Density against limit, a strip a tank. */
export function tankPicture(
  courses: readonly TankCourse[],
  days: readonly number[],
  unit: string,
): HTMLElement {
  const most = Math.max(
    1e-9,
    ...courses.flatMap(({ limit = 0, density }) => [
      limit * 1.05,
      ...density.map((value) => value ?? 0),
    ]),
  );
  return h(
    'div',
    { class: 'tank-years', role: 'group', 'aria-label': 'Density of each tank, week by week' },
    h(
      'p',
      { class: 'hint' },
      `Density in ${unit}, week by week; the line is the limit. Over it is red, nearly full amber; the words above each strip say it, too.`,
    ),
    ...courses.map((course) => strip(course, days, unit, most)),
    months(days),
  );
}
