import { escapeHtml } from '../reference/html';
import type { DrawnFigure } from './report-cells';

/** The farm seen from above, to scale, from its figures alone: where things stand is not known. */

export interface DrawnTank {
  readonly name: string;
  /** m3 */
  readonly volume: number;
}

export interface DrawnBed {
  readonly name: string;
  readonly kind: string;
  /** m */
  readonly length: number;
  readonly width: number;
}

export interface DrawnFarm {
  readonly tanks: readonly DrawnTank[];
  readonly beds: readonly DrawnBed[];
  /** m3; 0 for none. */
  readonly sump: number;
  /** Depth of tanks and sump, m. */
  readonly depth: number;
  readonly units: 'metric' | 'US';
  /** Through each tank, in their order; through all of them; what the sump holds. */
  readonly flows?: readonly (DrawnFigure | undefined)[] | undefined;
  readonly allFlow?: DrawnFigure | undefined;
  readonly sumpHolds?: DrawnFigure | undefined;
}

/** A figure in the drawing, with the cell that it quotes. */
const figure = ({ text, unit, where }: DrawnFigure): string =>
  `<tspan data-cell="${escapeHtml(where)}">${escapeHtml(text)}</tspan> ${escapeHtml(unit)}`;

interface Box {
  readonly name: string;
  readonly kind: 'tank' | 'bed' | 'sump';
  readonly wide: number;
  readonly high: number;
  /** Below its name. */
  readonly says?: DrawnFigure | undefined;
  x: number;
  y: number;
}

/** Way between things, m. */
const GAP = 0.6;
/** Width of the picture, mm, and the most it is high. */
const WIDTH = 176;
const HEIGHT = 112;
const MARGIN = 9;
const FOOT = 0.3048;
/** Of what is written in it, mm. */
const LETTER = 1.5;
const LINE = 2.7;
/** Of an amount against a name. */
const SMALLER = 0.75;

/** A round tank as wide as its water asks at that depth, m. */
export const tankWidth = (volume: number, depth: number): number =>
  2 * Math.sqrt(volume / depth / Math.PI);

/** Sets boxes side by side in rows of this width, from `top` on; returns where the next row begins. */
function shelve(boxes: readonly Box[], width: number, top: number): number {
  let [x, y, high] = [0, top, 0];
  for (const box of boxes) {
    if (x > 0 && x + box.wide > width) {
      [x, y, high] = [0, y + high + GAP, 0];
    }
    [box.x, box.y] = [x, y];
    x += box.wide + GAP;
    high = Math.max(high, box.high);
  }
  return boxes.length === 0 ? top : y + high + 3 * GAP;
}

/** Boxes of the farm, set out in a picture of the paper's shape. */
function setOut({ tanks, beds, sump, depth, flows = [], sumpHolds }: DrawnFarm): {
  boxes: Box[];
  wide: number;
  high: number;
} {
  const round = (name: string, volume: number, { kind, says }: Pick<Box, 'kind' | 'says'>): Box => {
    const size = tankWidth(volume, depth);
    return { name, kind, says, wide: size, high: size, x: 0, y: 0 };
  };
  const drawnTanks = tanks.map(({ name, volume }, i) =>
    round(name, volume, { kind: 'tank', says: flows[i] }),
  );
  const drawnBeds = beds.map(({ name, length, width }): Box => ({
    name,
    kind: 'bed',
    wide: length,
    high: width,
    x: 0,
    y: 0,
  }));
  const sumps = sump > 0 ? [round('Sump', sump, { kind: 'sump', says: sumpHolds })] : [];
  const boxes = [...drawnTanks, ...drawnBeds, ...sumps];
  const ground = boxes.reduce((sum, { wide, high }) => sum + (wide + GAP) * (high + GAP), 0);
  const wide = Math.max(
    ...boxes.map((box) => box.wide),
    Math.sqrt((ground * WIDTH) / HEIGHT) * 1.1,
  );
  let top = shelve(drawnTanks, wide, 0);
  top = shelve(drawnBeds, wide, top);
  top = shelve(sumps, wide, top);
  return { boxes, wide, high: Math.max(top - 3 * GAP, 0.1) };
}

const fixed = (value: number): string => String(Number(value.toFixed(2)));

/** The drawing as SVG; empty where there is nothing to draw. */
export function farmDrawing(farm: DrawnFarm): string {
  if (farm.tanks.length + farm.beds.length === 0) return '';
  const { boxes, wide, high } = setOut(farm);
  const scale = Math.min((WIDTH - 2 * MARGIN) / wide, (HEIGHT - 14) / high);
  const shapes = boxes.map(({ name, kind, says, wide: w, high: h, x, y }) => {
    const [left, top] = [MARGIN + x * scale, y * scale + 3];
    const [width, height] = [w * scale, h * scale];
    const at = (down: number): string =>
      `x="${fixed(left + width / 2)}" y="${fixed(top + height / 2 + down)}"`;
    const fits = (letters: number, lines: number): boolean =>
      Math.min(width, kind === 'bed' ? width : height) > letters * LETTER &&
      height > lines * LINE - 0.3;
    const below = says && `${says.text} ${says.unit}`;
    const both = below !== undefined && fits(Math.max(name.length, below.length * SMALLER), 2);
    const label = both
      ? `<text ${at(-0.4)}>${escapeHtml(name)}</text><text class="amount" ${at(LINE - 0.6)}>${figure(says as DrawnFigure)}</text>`
      : fits(name.length, 1)
        ? `<text ${at(0.9)}>${escapeHtml(name)}</text>`
        : '';
    const shape =
      kind === 'bed'
        ? `<rect class="bed" x="${fixed(left)}" y="${fixed(top)}" width="${fixed(width)}" height="${fixed(height)}"/>`
        : `<circle class="${kind}" cx="${fixed(left + width / 2)}" cy="${fixed(top + height / 2)}" r="${fixed(width / 2)}"/>`;
    return `${shape}${label}`;
  });
  const bottom = high * scale + 3;
  const [bar, words] = farm.units === 'US' ? [20 * FOOT, '20 ft'] : [5, '5 m'];
  const right = WIDTH - 3;
  const hasSump = farm.sump > 0;
  const through = farm.allFlow === undefined ? '' : `: ${figure(farm.allFlow)}`;
  const total = bottom + 9;
  return `<svg class="drawing" viewBox="0 0 ${WIDTH} ${fixed(total)}" role="img" aria-label="The farm from above, to scale">
<defs><marker id="tip" viewBox="0 0 6 6" refX="5" refY="3" markerWidth="4" markerHeight="4" orient="auto"><path d="M0 0 L6 3 L0 6 z"/></marker></defs>
${shapes.join('\n')}
<path class="flow" d="M${right} 4 V${fixed(bottom - 1)}" marker-end="url(#tip)"/>
<text class="way" transform="translate(${right - 1.5} ${fixed(bottom / 2)}) rotate(-90)">tanks, filter, beds${hasSump ? ', sump' : ''}${through}</text>
<path class="flow" d="M3 ${fixed(bottom - 1)} V4" marker-end="url(#tip)"/>
<text class="way" transform="translate(6 ${fixed(bottom / 2)}) rotate(-90)">pump, back to the tanks${through}</text>
<path class="bar" d="M${MARGIN} ${fixed(bottom + 5)} h${fixed(bar * scale)}"/>
<text class="scale" x="${fixed(MARGIN + bar * scale + 1.5)}" y="${fixed(bottom + 5.8)}">${words}</text>
</svg>`;
}
