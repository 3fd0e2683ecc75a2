import { isoText } from '../core/serial-date';
import { arrow, box, dot, frame, path, WIDTH, words } from './drawing';
import type { Drawing, SheetFigures } from './picture';

const MAX_AMMONIA = 0.05;

/** Harmful ammonia of three tests as bars, with the line at which damage begins. */
export function ammoniaTests(sheet: SheetFigures): Drawing {
  const height = 230;
  const rows = [2, 3, 4];
  const axes = frame({
    height,
    right: rows.length,
    top: 0.1,
    xName: '',
    yName: 'Un-ionised ammonia, mg/L as N',
    xTicks: [],
  });
  const bars = rows.map((row, i) => {
    const value = sheet.number(`E${row}`);
    const middle = axes.x(i + 0.5);
    return (
      box(
        middle - 32,
        axes.y(value),
        64,
        axes.y(0) - axes.y(value),
        value > MAX_AMMONIA ? 'bad' : 'good',
      ) +
      words(middle, axes.y(value) - 6, sheet.text(`E${row}`), {
        anchor: 'middle',
        look: 'strong',
      }) +
      words(middle, axes.y(0) + 16, sheet.text(`A${row}`), { anchor: 'middle' }) +
      words(middle, axes.y(0) + 32, `TAN ${sheet.text(`D${row}`)}, pH ${sheet.text(`C${row}`)}`, {
        anchor: 'middle',
      })
    );
  });
  const limit = axes.y(MAX_AMMONIA);
  return {
    height,
    inside:
      axes.drawn +
      bars.join('') +
      path(
        [
          [axes.x(0), limit],
          [axes.x(rows.length), limit],
        ],
        'limit',
      ) +
      words(axes.x(0) + 4, limit - 5, 'damage begins near here'),
  };
}

/** Density of a tank over the weeks of its forecast, with the limit and the week of the split. */
export function fillingTank(sheet: SheetFigures): Drawing {
  const height = 250;
  const weeks = sheet.block('D2').map((row) => ({ week: Number(row[0]), density: Number(row[4]) }));
  const last = weeks.at(-1) ?? { week: 1, density: 1 };
  const axes = frame({
    height,
    right: last.week,
    top: Math.ceil(last.density / 10) * 10,
    xName: 'weeks from now',
    yName: 'Density, kg/m³',
  });
  const [limit, split] = [sheet.number('B5'), sheet.number('B7')];
  const there = weeks[split];
  return {
    height,
    inside:
      axes.drawn +
      path(
        [
          [axes.x(0), axes.y(limit)],
          [axes.x(last.week), axes.y(limit)],
        ],
        'limit',
      ) +
      words(axes.x(last.week), axes.y(limit) + 16, `limit ${limit} kg/m³`, { anchor: 'end' }) +
      path(
        weeks.map(({ week, density }) => [axes.x(week), axes.y(density)]),
        'curve',
      ) +
      dot(axes.x(split), axes.y(there?.density ?? 0), 5, 'good') +
      words(axes.x(split) - 8, axes.y(there?.density ?? 0) - 10, `split by week ${split}`, {
        anchor: 'end',
        look: 'strong',
      }),
  };
}

const BATCHES = 8;
const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** The first batches of a succession as bars in time: nursery, bed, cutting. */
export function succession(sheet: SheetFigures): Drawing {
  const rows = sheet
    .block('D2')
    .slice(0, BATCHES)
    .map((row) => row.slice(0, 5).map(Number));
  const [first, last] = [rows[0]?.[1] ?? 0, rows.at(-1)?.[4] ?? 1];
  const x = (day: number): number => 62 + ((WIDTH - 74) * (day - first)) / (last - first);
  const lane = 20;
  const height = 58 + rows.length * lane;
  const bars = rows.map(([batch = 0, sow = 0, out = 0, cut = 0, free = 0], i) => {
    const y = 36 + i * lane;
    const bar = (from: number, to: number, look: string): string =>
      box(x(from), y, x(to) - x(from), lane - 6, look);
    return (
      words(54, y + 11, `Batch ${batch}`, { anchor: 'end' }) +
      bar(sow, out, 'early') +
      bar(out, cut, 'good') +
      bar(cut, free, 'late')
    );
  });
  const months = Array.from({ length: last - first + 1 }, (_, i) => first + i)
    .filter((day) => isoText(day).endsWith('-01') && x(day) < WIDTH - 40)
    .map(
      (day) =>
        path(
          [
            [x(day), 30],
            [x(day), height - 20],
          ],
          'grid',
        ) + words(x(day) + 3, height - 6, MONTHS[Number(isoText(day).slice(5, 7)) - 1] ?? ''),
    );
  const key = (place: number, look: string, text: string): string =>
    box(place, 6, 14, 12, look) + words(place + 19, 16, text);
  return {
    height,
    inside:
      key(62, 'early', 'nursery') +
      key(160, 'good', 'in the bed') +
      key(270, 'late', 'cut') +
      months.join('') +
      bars.join(''),
  };
}

/** A square metre of bed at each of two spacings, every plant a dot. */
export function twoBeds(sheet: SheetFigures): Drawing {
  const side = 190;
  const height = side + 66;
  const bed = (column: 'B' | 'C', left: number): string => {
    const spacing = sheet.number(`${column}2`);
    const step = (side * spacing) / 100;
    const rise = step * Math.sqrt(0.75);
    const plants: string[] = [];
    for (let row = 0; row * rise < side; row++) {
      for (let x = row % 2 === 0 ? 0 : step / 2; x < side; x += step) {
        plants.push(dot(left + x, 30 + row * rise, step * 0.42, 'plant'));
      }
    }
    const clip = `bed-${column}`;
    return (
      `<clipPath id="${clip}"><rect x="${left}" y="30" width="${side}" height="${side}"/></clipPath>` +
      words(left, 18, `${sheet.text(`${column}1`)}: ${spacing} cm`, { look: 'strong' }) +
      `<g clip-path="url(#${clip})">${plants.join('')}</g>` +
      `<rect x="${left}" y="30" width="${side}" height="${side}" class="edge"/>` +
      words(left, side + 47, `${sheet.text(`${column}6`)} plants on a m²`) +
      words(left, side + 63, `leave ${sheet.text(`${column}8`)} a week`)
    );
  };
  return { height, inside: bed('B', 20) + bed('C', 266) };
}

/** From what is sold to what must be there, a box for each part of the farm. */
export function farmChain(sheet: SheetFigures): Drawing {
  const parts: readonly (readonly [string, readonly string[]])[] = [
    ['Market, a week', [`${sheet.text('B1')} heads`, `${sheet.text('B2')} bunches`]],
    ['Beds', [`${sheet.text('B4')} m² lettuce`, `${sheet.text('B5')} m² basil`]],
    ['Feed', [`${sheet.text('B6')} g a day`, 'for those beds']],
    ['Fish', [`${sheet.text('B7')} kg a month`, `${sheet.text('E7')} kg at most`]],
    ['Water', [`4 tanks of ${sheet.text('E6')} L`, `${sheet.text('B9')} L of media`]],
    ['Air', [`${sheet.text('B10')} g of oxygen`, 'a day']],
  ];
  const [wide, high, gap] = [139, 74, 30];
  const inside = parts.map(([title, lines], i) => {
    const [column, row] = [i % 3, Math.floor(i / 3)];
    const [x, y] = [1 + column * (wide + gap), 4 + row * (high + 40)];
    const next =
      i === parts.length - 1
        ? ''
        : column < 2
          ? arrow(x + wide + 3, y + high / 2, x + wide + gap - 3, y + high / 2)
          : path(
              [
                [x + wide / 2, y + high],
                [x + wide / 2, y + high + 20],
                [wide / 2, y + high + 20],
              ],
              'line',
            ) + arrow(wide / 2, y + high + 20, wide / 2, y + high + 38);
    return (
      box(x, y, wide, high, 'part') +
      words(x + 9, y + 21, title, { look: 'strong' }) +
      lines.map((line, k) => words(x + 9, y + 41 + k * 18, line)).join('') +
      next
    );
  });
  return { height: 2 * high + 50, inside: inside.join('') };
}

/** Growth of the farm's own fish beside that of the table, up to the weight of sale. */
export function ownGrowth(sheet: SheetFigures): Drawing {
  const height = 250;
  const [own, table] = [sheet.number('B11'), sheet.number('B12')];
  const target = 680;
  const right = Math.ceil(Math.max(own, table) / 20) * 20;
  const axes = frame({ height, right, top: 800, xName: 'days', yName: 'Mean weight, g' });
  // Days to each weight, asked of the very formulas of the sheet with another weight at the end.
  const weights = Array.from({ length: 31 }, (_, i) => 60.001 + ((target - 60.001) * i) / 30);
  const curve = (address: string, look: string): string =>
    path(
      weights.map((grams) => [axes.x(sheet.changed(address, { 1: grams })), axes.y(grams)]),
      look,
    );
  return {
    height,
    inside:
      axes.drawn +
      path(
        [
          [axes.x(0), axes.y(target)],
          [axes.x(right), axes.y(target)],
        ],
        'limit',
      ) +
      words(axes.x(0) + 4, axes.y(target) - 6, `${target} g, to be sold`) +
      curve('B12', 'curve second') +
      curve('B11', 'curve') +
      words(axes.x(table) - 70, axes.y(target) + 34, `table: ${table} days`, { anchor: 'end' }) +
      words(axes.x(own) - 4, axes.y(170), `your fish: ${own} days`, {
        anchor: 'end',
        look: 'strong',
      }),
  };
}

/** A message to the add-in and back for each formula, or one for all. */
export function messages(sheet: SheetFigures): Drawing {
  const rows = [2, 3, 5, 6];
  const lane = 30;
  const height = 40 + rows.length * lane;
  const side = (left: number, title: string, column: 'D' | 'E', single: boolean): string => {
    const cells = rows.map((row, i) => {
      const y = 30 + i * lane;
      return (
        box(left, y, 78, lane - 6, 'part') +
        words(left + 70, y + 17, sheet.text(`${column}${row}`), { anchor: 'end' }) +
        (single
          ? ''
          : arrow(left + 80, y + 8, left + 124, y + 8) +
            arrow(left + 124, y + 16, left + 80, y + 16))
      );
    });
    const middle = 30 + (rows.length * lane - 6) / 2;
    return (
      words(left, 18, title, { look: 'strong' }) +
      cells.join('') +
      (single
        ? arrow(left + 80, middle - 4, left + 124, middle - 4) +
          arrow(left + 124, middle + 4, left + 80, middle + 4)
        : '') +
      box(left + 128, 30, 70, rows.length * lane - 6, 'early') +
      words(left + 163, middle + 4, 'Gillbed', { anchor: 'middle' })
    );
  };
  return {
    height,
    inside: side(0, 'A formula a row', 'D', false) + side(270, 'One for all rows', 'E', true),
  };
}
