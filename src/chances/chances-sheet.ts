/** Chances as a sheet of numbers that say of themselves how and when they were made. */
import { isoText } from '../core/serial-date';
import { VERSION } from '../functions/version';
import type { Farm } from '../plan/farm';
import { area, SheetBuilder } from '../plan/sheet-builder';
import type { FormatId, SheetModel, WorkbookModel } from '../plan/workbook-model';
import { type Result, results, resultWords } from './chance-year';
import type { Chances } from './chances';
import { inUnits, unitOfResult } from './chances-text';
import { PLAN_MARK, SHEET_MARK, sheetMark, WRITTEN } from './read-chances-sheet';
import { inputs, inputWords, spreadSource } from './spreads';

export const CHANCES = 'Chances';

/** Day and time of a clock on the wall, in words. */
export function momentInWords(at: Date): string {
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}

export interface PlayedChances {
  readonly farm: Farm;
  /** Of the plan that was played. */
  readonly mark: string;
  readonly found: Chances;
  /** Day and time of writing, in words. */
  readonly written: string;
}

const COLUMNS = 14;
const LEFT_CHART = 3;
const CHART_ROWS = 16;

const formatOf: Readonly<Record<Result, FormatId>> = {
  fish: 'one',
  weeks: 'percent',
  feed: 'two',
  income: 'whole',
};

/** In heads and under pictures, what a course shows. */
export const courseWords: Readonly<Record<Result, string>> = {
  fish: 'Fish sold so far',
  weeks: 'Market weeks served so far, share of all',
  feed: 'Feed given against feed called for, week by week',
  income: 'Income so far',
};

const BANDS = ['A year in ten is below', 'Half are below', 'Nine in ten are below'] as const;
const lines = ['tenth', 'half', 'ninetieth'] as const;

function chancesSheet({ farm, mark, found, written }: PlayedChances): SheetModel {
  const { weeks, years, seed, bands, courses, spreads, notes } = found;
  const sheet = new SheetBuilder(CHANCES, {
    title: 'Chances',
    question: `In which band may the ${weeks} weeks from ${isoText(farm.asOf)} end?`,
    widths: [38, ...Array.from({ length: COLUMNS - 1 }, () => 14)],
    landscape: true,
  });
  const known = results.filter((result) => bands[result] !== undefined);
  const inWords = (result: Result, words: string): string =>
    [words, unitOfResult(result, farm)].filter(Boolean).join(', ');

  sheet.wide(2, 0, 7, {
    value: `Numbers, not formulas: the plan was played ${years} times by chance, and what came out was written here once. Nothing on this sheet follows when the plan changes. Play again for that; the check says when it is due.`,
    look: 'caution',
  });
  let row = 4;
  const heading = (words: string): void => {
    sheet.heading(row, 0, 7, words);
    row += 1;
  };
  heading('How they were made');
  const made: readonly (readonly [string, string | number, FormatId, string?])[] = [
    [WRITTEN, written, 'text'],
    ['By', `Gillbed ${VERSION}`, 'text'],
    ['From the day', farm.asOf, 'date'],
    ['Weeks', weeks, 'whole'],
    ['Years played', years, 'whole'],
    ['Seed', seed, 'general', 'The same seed on the same plan gives the same numbers.'],
    [
      PLAN_MARK,
      mark,
      'text',
      'A mark of the typed cells that were played. The check makes it anew and says when it differs.',
    ],
  ];
  for (const [label, value, format, note] of made) {
    sheet.text(row, 0, label, 'label');
    sheet.wide(row, 1, 2, { value, look: 'once', format, ...(note !== undefined && { note }) });
    row += 1;
  }
  const markRow = row;
  row += 2;

  heading(`In which band the ${weeks} weeks end`);
  sheet.heads(row, 0, ['Written once, not computed', 'Unit', ...BANDS]);
  row += 1;
  for (const result of known) {
    const band = bands[result];
    if (band === undefined) continue;
    sheet.text(row, 0, resultWords[result], 'label');
    sheet.text(row, 1, unitOfResult(result, farm), 'unit');
    lines.forEach((line, i) =>
      sheet.put(row, 2 + i, {
        value: inUnits(result, band[line], farm.units),
        look: 'once',
        format: formatOf[result],
        ...(i === 0 && { note: `A number written on ${written}, no formula.` }),
      }),
    );
    row += 1;
  }
  row += 1;

  heading('What moves them most');
  sheet.heads(row, 0, [
    'Share of the differences that follow it',
    ...known.map((result) => resultWords[result]),
  ]);
  const moversAt = row + 1;
  inputs.forEach((input, i) => {
    sheet.text(moversAt + i, 0, inputWords[input], 'label');
    known.forEach((result, c) => {
      const share = bands[result]?.movers.find((mover) => mover.input === input)?.share ?? 0;
      sheet.put(moversAt + i, 1 + c, { value: share, look: 'once', format: 'percent' });
    });
  });
  row = moversAt + inputs.length;
  sheet.text(
    row,
    0,
    'Square of the correlation with the year’s mean of each: what is left is chance from batch to batch, or bends.',
    'source',
  );
  row += 2;

  heading('What it rests on: spreads, as shares of each figure');
  sheet.heads(row, 0, ['Figure', 'From batch to batch', 'From year to year', 'Source']);
  row += 1;
  for (const input of inputs) {
    const { batch, year } = spreads[input];
    sheet.text(row, 0, inputWords[input], 'label');
    sheet.put(row, 1, { value: batch, look: 'once', format: 'percent' });
    sheet.put(row, 2, { value: year, look: 'once', format: 'percent' });
    sheet.text(row, 3, spreadSource(spreads[input]), 'source');
    row += 1;
  }
  if (notes.length > 0) {
    row += 1;
    heading('To be known');
    for (const note of notes) {
      sheet.wide(row, 0, 7, { value: note, look: 'verdict' });
      row += 1;
    }
  }
  row += 1;

  const chartsAt = row;
  const chartRows = Math.ceil((known.length + 1) / 2) * (CHART_ROWS + 1);
  const tableAt = chartsAt + chartRows;
  row = tableAt;
  heading('Week by week');
  sheet.heads(row, 0, [
    'Week from',
    ...known.flatMap((result) =>
      BANDS.map((band) => `${inWords(result, courseWords[result])}: ${band.toLowerCase()}`),
    ),
  ]);
  const first = row + 1;
  for (let week = 0; week < weeks; week++) {
    sheet.put(first + week, 0, { value: farm.asOf + 7 * week, look: 'once', format: 'date' });
    known.forEach((result, c) =>
      lines.forEach((line, i) => {
        const value = courses[result]?.[line][week];
        if (value === undefined || !Number.isFinite(value)) return;
        sheet.put(first + week, 1 + 3 * c + i, {
          value: inUnits(result, value, farm.units),
          look: 'once',
          format: formatOf[result],
        });
      }),
    );
  }

  const place = (n: number) =>
    n % 2 === 0
      ? area(chartsAt + Math.floor(n / 2) * (CHART_ROWS + 1), 0, CHART_ROWS, LEFT_CHART)
      : area(chartsAt + Math.floor(n / 2) * (CHART_ROWS + 1), LEFT_CHART, CHART_ROWS, 5);
  known.forEach((result, c) => {
    const length = courses[result]?.half.length ?? 0;
    sheet.chart({
      kind: 'line',
      title: inWords(result, courseWords[result]),
      place: place(c),
      categories: { sheet: CHANCES, area: area(first, 0, length) },
      series: BANDS.map((name, i) => ({
        name,
        sheet: CHANCES,
        area: area(first, 1 + 3 * c + i, length),
      })),
      categoryTitle: 'Week from',
    });
  });
  sheet.chart({
    kind: 'column',
    title: 'What moves them most, share of the differences',
    place: place(known.length),
    categories: { sheet: CHANCES, area: area(moversAt, 0, inputs.length) },
    series: known.map((result, c) => ({
      name: resultWords[result],
      sheet: CHANCES,
      area: area(moversAt, 1 + c, inputs.length),
    })),
  });

  sheet.text(markRow, 0, SHEET_MARK, 'label');
  sheet.wide(markRow, 1, 2, {
    value: sheetMark(sheet.model().rows.map((cells) => cells.map((cell) => cell?.value ?? ''))),
    look: 'once',
    format: 'text',
    note: 'A mark of all other cells of this sheet: by it Gillbed knows whether somebody typed here before it takes the sheet out again.',
  });
  const model = sheet.model();
  const areas = [
    area(0, 0, chartsAt, 8),
    area(chartsAt, 0, chartRows, 8),
    area(tableAt, 0, first + weeks - tableAt, 1 + 3 * known.length),
  ];
  return { ...model, print: { ...model.print, areas } };
}

/** One sheet, for a workbook that holds the plan already. */
export const chancesWorkbook = (played: PlayedChances): WorkbookModel => ({
  title: `${played.farm.name}: chances`,
  formulas: 'plain',
  made: isoText(played.farm.asOf),
  sheets: [chancesSheet(played)],
  names: [],
});
