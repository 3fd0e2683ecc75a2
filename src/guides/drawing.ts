import { escapeHtml } from '../reference/html';

/** Width of every drawing, in its own units: letters of 13 stay readable on a telephone. */
export const WIDTH = 480;

const at = (value: number): string => String(Math.round(value * 10) / 10);

export const words = (
  x: number,
  y: number,
  text: string,
  { anchor = 'start', look = '' }: { anchor?: 'start' | 'middle' | 'end'; look?: string } = {},
): string =>
  `<text x="${at(x)}" y="${at(y)}" text-anchor="${anchor}"${look && ` class="${look}"`}>${escapeHtml(text)}</text>`;

export const box = (x: number, y: number, width: number, height: number, look: string): string =>
  `<rect x="${at(x)}" y="${at(y)}" width="${at(width)}" height="${at(height)}" rx="2" class="${look}"/>`;

export const dot = (x: number, y: number, radius: number, look: string): string =>
  `<circle cx="${at(x)}" cy="${at(y)}" r="${at(radius)}" class="${look}"/>`;

export const path = (points: readonly (readonly [number, number])[], look: string): string =>
  `<polyline points="${points.map(([x, y]) => `${at(x)},${at(y)}`).join(' ')}" class="${look}"/>`;

/** An arrow to the right or downwards. */
export function arrow(x1: number, y1: number, x2: number, y2: number): string {
  const [dx, dy] = [Math.sign(x2 - x1) * 6, Math.sign(y2 - y1) * 6];
  const head =
    dx === 0
      ? [
          [x2 - 4, y2 - dy],
          [x2 + 4, y2 - dy],
        ]
      : [
          [x2 - dx, y2 - 4],
          [x2 - dx, y2 + 4],
        ];
  return (
    path(
      [
        [x1, y1],
        [x2, y2],
      ],
      'line',
    ) + path([head[0] as [number, number], [x2, y2], head[1] as [number, number]], 'line')
  );
}

/** Round steps for an axis: about four of 1, 2 or 5 times a power of ten. */
export function ticks(top: number): readonly number[] {
  const raw = top / 4;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((value) => value * power >= raw) ?? 10) * power;
  return Array.from({ length: Math.floor(top / step + 1e-9) + 1 }, (_, i) =>
    Number((i * step).toPrecision(12)),
  );
}

export interface Frame {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  /** Axes with their numbers and names. */
  readonly drawn: string;
}

interface FrameOptions {
  readonly height: number;
  readonly right: number;
  readonly top: number;
  readonly xName: string;
  readonly yName: string;
  /** Where the x axis has numbers; none where the drawing names its places itself. */
  readonly xTicks?: readonly number[];
}

/** Axes from 0 to `right` and from 0 to `top`. */
export function frame({ height, right, top, xName, yName, xTicks }: FrameOptions): Frame {
  const [left, end, roof, floor] = [44, WIDTH - 12, 26, height - 40];
  const x = (value: number): number => left + ((end - left) * value) / right;
  const y = (value: number): number => floor - ((floor - roof) * value) / top;
  const rows = ticks(top).map(
    (value) =>
      path(
        [
          [left, y(value)],
          [end, y(value)],
        ],
        'grid',
      ) + words(left - 6, y(value) + 4, String(value), { anchor: 'end' }),
  );
  const columns = (xTicks ?? ticks(right)).map((value) =>
    words(x(value), floor + 17, String(value), { anchor: 'middle' }),
  );
  return {
    x,
    y,
    drawn: `${rows.join('')}${columns.join('')}${words(4, 14, yName)}${words(end, height - 6, xName, { anchor: 'end' })}`,
  };
}
