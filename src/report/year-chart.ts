/** Lines over the weeks of a year, as SVG; what the lines show stands in a table beside it. */

export interface Line {
  readonly name: string;
  readonly values: readonly number[];
  readonly look: 'solid' | 'dashed' | 'dotted';
}

const WIDTH = 176;
const HEIGHT = 62;
const LEFT = 16;
const BOTTOM = 9;

const dashes = {
  solid: '',
  dashed: ' stroke-dasharray="3 1.5"',
  dotted: ' stroke-dasharray="0.8 1.2"',
};

/** A round figure at or above a value, for the top of the scale. */
function roundTop(value: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(value, 1e-9)));
  return ([1, 2, 2.5, 5, 10].find((step) => step * power >= value) ?? 10) * power;
}

/** `first` and `last` are the words under both ends. */
export function yearChart(
  lines: readonly Line[],
  unit: string,
  first: string,
  last: string,
): string {
  const top = roundTop(Math.max(...lines.flatMap(({ values }) => values), 0));
  const most = Math.max(...lines.map(({ values }) => values.length));
  if (most < 2 || !(top > 0)) return '';
  const x = (i: number): number => LEFT + ((WIDTH - LEFT - 2) * i) / (most - 1);
  const y = (value: number): number => HEIGHT - BOTTOM - ((HEIGHT - BOTTOM - 8) * value) / top;
  const paths = lines.map(({ values, look }) => {
    const points = values.map((value, i) => `${x(i).toFixed(1)},${y(value).toFixed(1)}`).join(' ');
    return `<polyline class="line" points="${points}"${dashes[look]}/>`;
  });
  const marks = [0, 0.5, 1].map((share) => {
    const text = (top * share).toLocaleString('en-GB');
    const at = y(top * share).toFixed(1);
    return `<path class="grid" d="M${LEFT} ${at} H${WIDTH - 2}"/><text x="${LEFT - 1.5}" y="${Number(at) + 1}" class="end">${text}</text>`;
  });
  const keys = lines.map(
    ({ name, look }, i) =>
      `<path class="line" d="M${LEFT + i * 52} 3 h8"${dashes[look]}/><text x="${LEFT + 10 + i * 52}" y="4">${name}</text>`,
  );
  return `<svg class="chart" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${lines.map(({ name }) => name).join(', ')} through the year, ${unit}">
${marks.join('')}${paths.join('')}${keys.join('')}
<text x="${LEFT}" y="${HEIGHT - 3}">${first}</text><text x="${WIDTH - 2}" y="${HEIGHT - 3}" class="end">${last}</text>
</svg>`;
}
