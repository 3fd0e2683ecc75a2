import { cautions } from '../functions/cautions';
import { presetOf } from '../plan/presets';
import { escapeHtml } from '../reference/html';
import type { BookSnapshot, CellPlace } from '../plan/book-snapshot';
import type { Paper } from '../plan/workbook-model';
import { findTyped } from '../plan/find-typed';
import { typedOfPlan } from '../plan/typed-of-plan';
import { cellWords } from '../why/cell-words';
import { leafOf, type TypedKind } from '../why/leaf';
import { keyOf } from '../why/traced-cells';
import { type DrawnFarm, farmDrawing } from './farm-drawing';
import { type DrawnFigure, type Quoted, ReportCells } from './report-cells';
import { reportStyle } from './report-style';
import { yearChart } from './year-chart';

export interface ReportOptions {
  readonly paper: Paper;
  /** For whom it is. */
  readonly client?: string;
  /** A picture as a data: address. */
  readonly logo?: string;
}

const section = (title: string, ...parts: readonly string[]): string =>
  `<section><h2>${escapeHtml(title)}</h2>\n${parts.filter(Boolean).join('\n')}\n</section>`;

const from = (sheet: string): string =>
  `<p class="from">Figures of the sheet ${escapeHtml(sheet)}, each in the cell it is named for when you point at it.</p>`;

/** "1 bed", though the unit of the line is "beds". */
const counted = (figure: string, unit: string): string =>
  figure.replace(/<[^>]*>/g, '') === '1' ? (ONE_OF[unit] ?? unit) : unit;

const ONE_OF: Readonly<Record<string, string>> = {
  tanks: 'tank',
  crops: 'crop',
  beds: 'bed',
  readings: 'reading',
};

const note = (text: string): string => `<p class="note">${escapeHtml(text)}</p>`;

/** Letters of a figure; what is longer are words, which take the room of a remark. */
const WIDEST_FIGURE = 24;

/** Lines of label, figure and unit, with what stands behind them. */
function linesTable(lines: readonly Quoted[]): string {
  if (lines.length === 0) return '';
  const rows = lines.map(({ label, figure, unit, remark }) =>
    label === ''
      ? `<tr><td colspan="3" class="verdict">${figure}</td></tr>`
      : unit === '' && remark === '' && figure.replace(/<[^>]*>/g, '').length > WIDEST_FIGURE
        ? `<tr><th scope="row">${escapeHtml(label)}</th><td colspan="2" class="verdict">${figure}</td></tr>`
        : `<tr><th scope="row">${escapeHtml(label)}</th><td class="figure">${figure || '–'} ${escapeHtml(counted(figure, unit))}</td><td class="remark">${escapeHtml(remark)}</td></tr>`,
  );
  return `<table class="lines"><tbody>${rows.join('\n')}</tbody></table>`;
}

function gridTable({
  heads,
  rows,
}: {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}): string {
  if (rows.length === 0) return '';
  const head = heads.map((text) => `<th scope="col">${escapeHtml(text)}</th>`).join('');
  const body = rows
    .map(
      ([first = '', ...rest]) =>
        `<tr><th scope="row">${first}</th>${rest.map((cell) => `<td>${cell}</td>`).join('')}</tr>`,
    )
    .join('\n');
  return `<table class="grid"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`;
}

/** What flows through each tank, and through all of them. */
function flowsOf(book: ReportCells): Pick<DrawnFarm, 'flows' | 'allFlow'> {
  const head = book.headOf(book.named('Pumps_turnover')?.sheet ?? '', 'Tank', 'Flow for turnover');
  if (head === undefined) return {};
  const unit = book.text(head).replace(/^.*, /, '');
  const drawn = (row: number): DrawnFigure | undefined => {
    const found = book.drawn({ ...head, row });
    return found && { ...found, unit };
  };
  return {
    flows: book.column('Tanks_name').map((_, i) => drawn(head.row + 1 + i)),
    allFlow: drawn(head.row - 1),
  };
}

function drawing(book: ReportCells, units: 'metric' | 'US'): string {
  const depth = book.number('Plant_tank_depth') ?? 1;
  const volumes = book.column('Tanks_volume');
  const tanks = book.column('Tanks_name').flatMap((name, i) => {
    const volume = volumes[i];
    return typeof volume === 'number' && name !== ''
      ? [{ name: String(name), volume: volume / 1000 }]
      : [];
  });
  const [kinds, lengths, widths] = ['Beds_kind', 'Beds_length', 'Beds_width'].map((name) =>
    book.column(name),
  ) as [(number | string)[], (number | string)[], (number | string)[]];
  const beds = book.column('Beds_name').flatMap((name, i) => {
    const [length, width] = [lengths[i], widths[i]];
    return typeof length === 'number' && typeof width === 'number' && name !== ''
      ? [{ name: String(name), kind: String(kinds[i] ?? ''), length, width }]
      : [];
  });
  const sump = (book.number('Sump_volume') ?? 0) / 1000;
  const sumpCell = book.named('Sump_volume');
  const picture = farmDrawing({
    tanks,
    beds,
    sump,
    depth,
    units,
    ...flowsOf(book),
    // In other units the named cell is the metric one; the one that shows is the second of its line.
    sumpHolds: sumpCell && book.drawn({ ...sumpCell, column: 1 }),
  });
  return picture === ''
    ? note('Nothing is drawn: the plan lists no tank and no bed with its measures.')
    : `${picture}${note('Drawn to scale from the volumes of the tanks, taken as round and as deep as the Plant room sheet says, and from the length and width of the beds. Where things stand on the ground is not known: this is no building plan.')}`;
}

/** Every fourth week of the year ahead. */
const WEEKS_APART = 4;

function yearAhead(book: ReportCells): string {
  const heads = ['Feed given', 'Beds as sown', 'All beds full', 'Given, of all full'];
  const table = book.table('Balance', 'Week of', heads);
  const [, given = '', sown = '', full = ''] = table.heads;
  if (table.rows.length === 0) return '';
  const plain = (cell: string): number =>
    Number(/>([^<]*)</.exec(cell)?.[1]?.replaceAll(',', '') ?? 0) || 0;
  const line = (name: string, column: number, look: 'solid' | 'dashed' | 'dotted') => ({
    name: name.replace(/,.*$/, ''),
    values: table.rows.map((row) => plain(row[column] ?? '')),
    look,
  });
  const unit = given.replace(/^[^,]*,\s*/, '');
  const day = (row: readonly string[] | undefined): string =>
    /data-cell="[^"]*">([^<]*)</.exec(row?.[0] ?? '')?.[1] ?? '';
  const chart = yearChart(
    [line(given, 1, 'solid'), line(sown, 2, 'dashed'), line(full, 3, 'dotted')],
    unit,
    `week of ${day(table.rows[0])}`,
    `week of ${day(table.rows.at(-1))}`,
  );
  return `<div class="year"><h3>Through the year</h3><p class="note">${escapeHtml(unit)}</p>${chart}</div>${gridTable(
    {
      heads: table.heads,
      rows: table.rows.filter((_, i) => i % WEEKS_APART === 0),
    },
  )}`;
}

/** What was typed, and what the plan brings along, with where it comes from. */
function assumptions(book: ReportCells, units: 'metric' | 'US'): string {
  const { cells } = book;
  const typed = new Map<string, TypedKind>();
  const { figures } = findTyped(cells, typedOfPlan(units), '');
  const lines = figures.flatMap(({ typed: declared, cell }): Quoted[] => {
    if (!cell || cell.value === '') return [];
    const preset = 'preset' in declared.to ? presetOf(declared.to.preset) : undefined;
    const kind: TypedKind = {
      isPreset: preset !== undefined,
      ...(preset?.usual !== undefined && { usual: preset.usual }),
    };
    typed.set(keyOf(cell), kind);
    const place: CellPlace = cell;
    const { unit, remark, label } = cellWords(place, cells);
    const says =
      cell.formula !== undefined
        ? 'follows from other cells'
        : preset && units === 'US'
          ? 'brought along by the plan, or typed over it'
          : leafOf(cell, cells, typed).says.replace(/:.*$/s, '');
    return [
      {
        label: label || declared.label,
        figure: book.quote(place),
        unit,
        remark: [says, remark].filter((text) => text.length > 4).join('; '),
      },
    ];
  });
  return linesTable(lines);
}

/** The crops of the plan with the figures that count most, each with its source. */
function cropSources(book: ReportCells): string {
  const names = book.column('Crop_name');
  const grown = new Set(
    [...book.column('Beds_line'), ...book.column('Sowing_line')].filter(
      (line): line is number => typeof line === 'number' && line > 0,
    ),
  );
  const facts = ['feed_ratio', 'kg_per_plant', 'bed_days'] as const;
  const rows = [...grown]
    .sort((a, b) => a - b)
    .flatMap((line) =>
      facts.flatMap((fact) => {
        const place = book.named(`Crop_${fact}`, line - 1);
        const source = book.named(`Crop_${fact}_source`, line - 1);
        if (!place || !source || book.text(place) === '') return [];
        const { label, unit } = cellWords(place, book.cells);
        return [
          {
            label: label || String(names[line - 1] ?? ''),
            figure: book.quote(place),
            unit,
            remark: book.text(source),
          },
        ];
      }),
    );
  return linesTable(rows);
}

const licensed: readonly string[] = [
  'Structure: floors, slopes, stands, roofs, tunnels and tanks under their load, by a licensed engineer to local codes.',
  'Electricity: circuits, residual-current devices (GFCI), stand-by power and alarms, by a licensed electrician.',
  'Heating and fuel: heaters, flues, gas and air for combustion, by a licensed fitter.',
  'Water: taking it, letting it out, and the connection to drinking water, by the authority and a licensed plumber.',
  'Fish: the permit to keep, move and sell the species, and every treatment, by the authority and a veterinarian.',
  'Food: hygiene when cutting, cooling and selling, by the food authority.',
  'Building and land: whether and where it may be built, by the building authority.',
  'Money: taxes, loans and insurance, by whoever answers for them.',
];

const list = (items: readonly string[]): string =>
  `<ul>${items.map((text) => `<li>${escapeHtml(text)}</li>`).join('\n')}</ul>`;

const unitsIn = (book: ReportCells): 'metric' | 'US' => {
  const altitude = book.named('Farm_altitude');
  return altitude && book.cells.at(altitude).formula !== undefined ? 'US' : 'metric';
};

/** The units of the plan that a workbook holds. Throws NoReport with a sentence. */
export const unitsOfBook = (snapshot: BookSnapshot): 'metric' | 'US' =>
  unitsIn(new ReportCells(snapshot));

/** A print-ready page for a client, from the cells of a plan as they show. Throws NoReport with a sentence. */
export function clientReport(
  snapshot: BookSnapshot,
  { paper, client, logo }: ReportOptions,
): string {
  const book = new ReportCells(snapshot);
  const units = unitsIn(book);
  const named = (name: string): string => {
    const place = book.named(name);
    return place ? book.quote(place) : '';
  };
  const pumps = book.named('Pumps_turnover')?.sheet ?? '';
  const [weeksAhead, fishTable, bedTable] = [
    yearAhead(book),
    book.table('Stock plan', 'Tank', [
      'Fish now',
      'Mean weight now',
      'Ready to sell on',
      'Fish then',
      'Limit reached on',
      'Restock in the week of',
      'Fish to stock',
    ]),
    book.table('Beds', 'Bed', ['Kind', 'Crop', 'Plant out', 'First cut', 'Clear', 'State']),
  ];
  // On sheets of their own in older workbooks.
  const water = book.named('Doses_verdict')?.sheet ?? 'Balance';
  const buying = book.named('Plant_price_all')?.sheet ?? 'Money';
  const sections = [
    section(
      'The farm on one page',
      linesTable(book.block('Start', 'The farm at a glance')),
      drawing(book, units),
    ),
    section(
      'What was wished, and what comes out',
      from('Stock plan'),
      linesTable(book.block('Stock plan', 'What is wanted')),
      linesTable(book.block('Stock plan', 'The rotation that gives it')),
      linesTable(book.block('Stock plan', 'Does it come out?')),
      from('Sowing'),
      gridTable(
        book.table('Sowing', 'Crop', [
          'Unit of sale',
          'Sold by the',
          'Wanted a week',
          'Beds needed',
          'Beds with this crop',
          'Verdict',
        ]),
      ),
      linesTable(book.block('Start', 'What to change', { gaps: true })),
    ),
    section(
      'Balance of fish, beds and filter',
      '<h3>Flow through the tanks</h3>',
      from(pumps),
      gridTable(
        book.table(pumps, 'Tank', ['Water in the tank', 'Flow for turnover', 'Power at the wall']),
      ),
      from('Balance'),
      ...[
        'Feed and beds',
        'What the feed leaves in the water, a day',
        'Filter',
        'Sump and flooded beds',
      ].map(
        (heading) => `<h3>${escapeHtml(heading)}</h3>${linesTable(book.block('Balance', heading))}`,
      ),
      weeksAhead,
    ),
    section('Calendar of the fish', from('Stock plan'), gridTable(fishTable)),
    section('Calendar of the beds', from('Beds'), gridTable(bedTable)),
    section(
      'Water targets',
      from(water),
      gridTable(
        book.table(water, 'What', [
          'Last figure',
          'Unit',
          'Tested on',
          'From',
          'To',
          'Verdict',
          'Where the limits come from',
        ]),
      ),
    ),
    section(
      'What to buy',
      from(buying),
      gridTable(book.table(buying, 'Item', ['How many', 'Unit', 'Price each', 'Cost'])),
      note('Prices are those that were typed; a blank one was not known.'),
    ),
    section(
      'Money',
      note(
        `All in ${book.text(book.named('Farm_currency') ?? { sheet: '', row: 0, column: 0 })}. It rests on the prices below, on the costs that were typed, and on the market taking what was agreed in the months in which the crops grow.`,
      ),
      from('Money'),
      linesTable(book.block('Money', 'Prices')),
      gridTable(book.table('Money', 'What', ['A month'])),
      linesTable(book.block('Money', 'Does it pay?')),
    ),
    section(
      'What it rests on',
      note(
        'Typed figures, and those that the plan brings along, each with where it comes from. Formulas, methods and their publications stand on the sheet Sources of the workbook; behind every figure “Why this number?” in the pane, or “why” in the terminal, leads there.',
      ),
      assumptions(book, units),
      '<h3>Crops</h3>',
      cropSources(book),
    ),
    section('Cautions', list(Object.values(cautions))),
    section(
      'What a licensed person must decide',
      note(
        'This report reckons with figures. It takes no decision that the law or common sense leaves to others:',
      ),
      list(licensed),
    ),
  ];
  const title = book.text(book.named('Farm_name') ?? { sheet: '', row: 0, column: 0 });
  return `<!doctype html>
<html lang="${units === 'US' ? 'en-US' : 'en-GB'}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${escapeHtml(title)}: report</title>
<style>${reportStyle(paper)}</style>
</head>
<body>
<header>${logo === undefined ? '' : `<img class="logo" alt="" src="${escapeHtml(logo)}">`}
<h1>${named('Farm_name')}</h1>
<p>${named('Farm_place')}. As of ${named('Farm_date')}.${client === undefined ? '' : ` For ${escapeHtml(client)}.`}</p>
</header>
${sections.join('\n')}
</body>
</html>
`;
}
