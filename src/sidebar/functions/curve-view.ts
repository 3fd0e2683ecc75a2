import type { Card } from '../../functions/card';
import { neighbourhood, type CurvePoint, variedArguments } from '../../functions/neighbourhood';
import type { Argument } from '../../functions/parameter';
import { unitWord } from '../../functions/unit-word';
import { numberText } from '../../plan/shown-figure';
import { button } from '../button';
import { freshId, h, svg } from '../dom';

const WIDTH = 288;
const HEIGHT = 128;
const LEFT = 4;
const RIGHT = 284;
const TOP = 18;
const FLOOR = 104;

const figure = (value: number): string => numberText(Number(value.toPrecision(3)));
const withUnit = (text: string, unit: string): string =>
  unit === '' ? text : `${text} ${unitWord(unit)}`;

interface Known {
  readonly x: number;
  readonly y: number;
}
const isKnown = (point: CurvePoint): point is Known => point.y !== undefined;

function drawing(
  card: Card,
  which: number,
  points: readonly CurvePoint[],
  present: CurvePoint,
): Node {
  const { name, unit } = card.parameters[which] as Card['parameters'][number];
  const known = points.filter(isKnown);
  const [first, last] = [known[0], known.at(-1)];
  if (first === undefined || last === undefined || known.length < 2) {
    return h('p', { class: 'quiet' }, 'Beside this value the function gives no number.');
  }
  const all = [...known, ...(isKnown(present) ? [present] : [])].map(({ y }) => y);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const height = most - least || Math.abs(most) || 1;
  const x = (value: number): string =>
    (LEFT + ((value - first.x) / (last.x - first.x || 1)) * (RIGHT - LEFT)).toFixed(1);
  const y = (value: number): string =>
    (FLOOR - ((value - least) / height) * (FLOOR - TOP)).toFixed(1);
  // A line is broken where the function gives an error between two values.
  const runs: Known[][] = [[]];
  for (const point of points) {
    if (isKnown(point)) runs.at(-1)?.push(point);
    else runs.push([]);
  }
  const result = card.columns === undefined ? card.result.unit : '';
  return svg(
    'svg',
    {
      class: 'curve-chart',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      role: 'img',
      'aria-label': `With ${name} from ${withUnit(figure(first.x), unit)} to ${withUnit(figure(last.x), unit)} the result goes from ${withUnit(figure(first.y), result)} to ${withUnit(figure(last.y), result)}${isKnown(present) ? `; now it is ${withUnit(figure(present.y), result)} at ${withUnit(figure(present.x), unit)}` : ''}.`,
    },
    svg('line', { class: 'floor', x1: LEFT, x2: RIGHT, y1: FLOOR, y2: FLOOR }),
    ...runs
      .filter((run) => run.length > 1)
      .map((run) =>
        svg('polyline', {
          class: 'curve',
          points: run.map((point) => `${x(point.x)},${y(point.y)}`).join(' '),
        }),
      ),
    ...(isKnown(present)
      ? [svg('circle', { class: 'present', cx: x(present.x), cy: y(present.y), r: 4 })]
      : []),
    svg(
      'text',
      { class: 'least', x: LEFT, y: TOP - 6 },
      `${figure(Math.abs(least) < height / 1e4 ? 0 : least)} to ${withUnit(figure(most), result)}`,
    ),
    svg('text', { class: 'from', x: LEFT, y: FLOOR + 15 }, figure(first.x)),
    svg('text', { class: 'to', x: RIGHT, y: FLOOR + 15 }, withUnit(figure(last.x), unit)),
  );
}

export interface CurveView {
  readonly element: HTMLElement;
  /** The arguments as they are now; undefined where there is no result. */
  readonly show: (args: readonly Argument[] | undefined) => void;
}

/** A table that stands in the sheet now. */
export interface PutTable {
  readonly says: string;
  /** Throws a sentence where it cannot be taken out. */
  readonly takeOut: () => Promise<void>;
}

/** The result over one argument while the others stay, with the present value on it. */
export function curveView(
  card: Card,
  put: (which: number, values: readonly number[]) => Promise<PutTable | undefined>,
): CurveView {
  const id = freshId('over');
  const choice = h('select', { id });
  const chart = h('div', { class: 'curve' });
  const below = h('div', {});
  const showPut = ({ says, takeOut }: PutTable): void => {
    const said = h('p', { class: 'done', role: 'status', tabindex: '-1' }, says);
    const actions = h(
      'div',
      { class: 'actions' },
      button(
        'Take the table out again',
        () =>
          void takeOut()
            .then(() => {
              said.textContent = 'The table is out again.';
              actions.remove();
            })
            .catch((fault: Error) => {
              said.className = 'problem';
              said.textContent = fault.message;
            })
            .then(() => said.focus()),
        { small: true, look: 'subtle' },
      ),
    );
    below.replaceChildren(said, actions);
    said.focus();
  };
  const body = h(
    'div',
    {},
    h('label', { for: id }, 'Result over'),
    h('div', { class: 'entry' }, choice),
    chart,
    h(
      'div',
      { class: 'actions' },
      button('Put a table of it below the selected cell', () => {
        if (args === undefined) return;
        const which = Number(choice.value);
        const { points } = neighbourhood(card, args, which, 11);
        void put(
          which,
          points.map((point) => point.x),
        ).then((table) => table && showPut(table));
      }),
    ),
    below,
  );
  const element = h(
    'details',
    { class: 'what-if', hidden: true },
    h('summary', {}, 'What if it were otherwise?'),
    body,
  );
  let args: readonly Argument[] | undefined;
  const draw = (): void => {
    if (args === undefined || !element.open) return;
    const which = Number(choice.value);
    const { points, present } = neighbourhood(card, args, which);
    chart.replaceChildren(drawing(card, which, points, present));
  };
  choice.addEventListener('change', draw);
  element.addEventListener('toggle', draw);
  return {
    element,
    show: (now) => {
      args = now;
      const varied = now === undefined ? [] : variedArguments(card, now);
      element.hidden = varied.length === 0;
      if (varied.length === 0) return;
      const before = choice.value;
      choice.replaceChildren(
        ...varied.map((i) =>
          h('option', { value: i }, (card.parameters[i] as Card['parameters'][number]).name),
        ),
      );
      if (varied.includes(Number(before)) && before !== '') choice.value = before;
      draw();
    },
  };
}
