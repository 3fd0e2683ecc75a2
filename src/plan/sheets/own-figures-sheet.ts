import type { PlanContext } from '../context';
import type { OwnFigureEntry } from '../farm';
import {
  all,
  any,
  blankIf,
  blankUnless,
  blankWithout,
  call,
  type Condition,
  type Formula,
  isoDate,
  joined,
  part,
  when,
} from '../formula-parts';
import { named, nth } from '../names';
import {
  acts,
  factOf,
  FEWEST_BATCHES,
  figureNameOf,
  type OwnFigureName,
  figureUses,
  isOfStage,
  stageOfFigure,
  tableFigure,
} from '../own-figure-rows';
import { lossesThatCount, survivalOfStage } from '../own-figure-formulas';
import { type At, type Columns, type Register, register } from '../register';
import { area, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';
import type { ChartModel, LookId, SheetModel } from '../workbook-model';

export const OWN_FIGURES = 'Own figures';

/** Place of the heads: title, question, and two lines of remarks stand above. */
const HEAD = 5;

type AtOwn = At<'Own'>;
const number = {
  rule: { kind: 'number' },
  message: 'Counted from the registers: leave it as it is.',
} as const;
const whole = {
  rule: { kind: 'whole', min: 1 },
  message: 'Counted from the registers: leave it as it is.',
} as const;

const isWhole = ({ part: season }: OwnFigureEntry): boolean => season === undefined;

const switched = (at: AtOwn): Condition => any(at('use').is('own'), at('use').is('blend'));
const tooFew = (at: AtOwn): Condition =>
  all(at('batches').below(FEWEST_BATCHES), at('few').isNot('yes'));

/** Figures whose table's figure stands in cells that somebody types. */
const isOfCells = (figure: OwnFigureName): boolean =>
  isOfStage(figure) || ['survival', 'price', 'plants_per_seed'].includes(figure);

/** The table's figure where it stands in cells that somebody types. */
function tableFormula(
  ctx: PlanContext,
  at: AtOwn,
  figure: OwnFigureName,
  of: string,
): Formula | undefined {
  if (isOfStage(figure)) return survivalOfStage(stageOfFigure[figure]);
  switch (figure) {
    case 'survival':
      return blankWithout([named('Stock_survival')], named('Stock_survival'));
    case 'price': {
      if (ctx.farm.markets.every(({ crop }) => crop !== of)) return undefined;
      const price = nth('Sowing_price', call('MATCH', at('of'), named('Sowing_crop'), 0));
      return blankWithout([price], price);
    }
    case 'plants_per_seed': {
      const up = tableFigure(
        { ...ctx.farm, figures: { Sowing_losses: 0 }, markets: [] },
        figure,
        of,
      );
      return up && part(up.usual).times(part(1).minus(lossesThatCount(ctx.farm, of)));
    }
    default:
      return undefined;
  }
}

/** Where another figure was typed, which counts before the switch. */
function typedElsewhere(ctx: PlanContext, at: AtOwn, figure: OwnFigureName, of: string): Formula {
  const differs = (cell: Formula, counts = at('counts')): Condition =>
    call('ABS', cell.minus(counts)).above(call('ABS', counts).times(1e-6));
  const onSowing = (column: 'Sowing_gives' | 'Sowing_own_germination'): Formula =>
    nth(column, call('MATCH', at('of'), named('Sowing_crop'), 0));
  const sold = ctx.farm.markets.some(({ crop }) => crop === of);
  const says = (where: string): string => `another figure is typed on ${where} and counts`;
  const fact = factOf(figure);
  switch (figure) {
    case 'survival':
    case 'fry_survival':
    case 'fingerling_survival':
    case 'growout_survival':
    case 'price':
      return part('');
    case 'tgc':
    case 'feed_conversion':
      return blankUnless(
        differs(
          nth(
            figure === 'tgc' ? 'Fish_tgc' : 'Fish_fcr',
            call('MATCH', at('of'), named('Fish_name'), 0),
          ),
        ),
        says('Species'),
      );
    case 'units_per_plant':
      return sold
        ? blankUnless(differs(onSowing('Sowing_gives')), says('Sowing or Crops'))
        : part('');
    case 'germination':
    case 'plants_per_seed':
      return sold
        ? blankUnless(onSowing('Sowing_own_germination').isFilled, says('Sowing'))
        : part('');
    default:
      return fact === undefined || fact === 'tgc' || fact === 'fcr'
        ? part('')
        : blankUnless(
            differs(nth(`Crop_${fact}`, call('MATCH', at('of'), named('Crop_name'), 0))),
            says('Crops'),
          );
  }
}

/** Why the figure of a season or a month is shown and cannot be chosen, as short as its column is narrow. */
const notChosen = (figure: OwnFigureName): string =>
  figure === 'price'
    ? 'shown only: the plan has one price for the year'
    : 'shown only: the plan has its own seasons';

/** Rows of a picture and of the space below it, and how many pictures a printed page has on top of each other. */
const PICTURE_ROWS = 15;
const PICTURES_DOWN = 2;

/**
 * One picture of each figure: the table's, the own and the one between, side by side; its seasons beside it. Returns
 * the rows in which a printed page of them begins, and the row after the last.
 */
function pictures(
  sheet: SheetBuilder,
  rows: readonly OwnFigureEntry[],
  { firstRow, column, rows: count }: Register<'Own'>,
): { readonly begins: readonly number[]; readonly end: number } {
  const WIDE = [2, 5, 5] as const;
  const begin = firstRow + count + 2;
  let drawn = 0;
  const draw = (chart: Omit<ChartModel, 'place'>): void => {
    const across = drawn % WIDE.length;
    const from = WIDE.slice(0, across).reduce((sum: number, width) => sum + width, 0);
    const row = begin + Math.floor(drawn / WIDE.length) * PICTURE_ROWS;
    sheet.chart({ ...chart, place: area(row, from, PICTURE_ROWS - 1, WIDE[across] as number) });
    drawn += 1;
  };
  const cells = (id: 'of' | 'part' | 'table' | 'mean' | 'blend', from: number, many: number) => ({
    sheet: OWN_FIGURES,
    area: area(firstRow + from, column(id), many),
  });
  const run = (from: number, same: (row: OwnFigureEntry) => boolean): number => {
    let to = from;
    while (rows[to] !== undefined && same(rows[to] as OwnFigureEntry)) to++;
    return to - from;
  };
  for (let from = 0; from < rows.length;) {
    const first = rows[from] as OwnFigureEntry;
    const ofFarm = isWhole(first);
    const many = run(
      from,
      (row) =>
        row.figure === first.figure && isWhole(row) === ofFarm && (ofFarm || row.of === first.of),
    );
    const unit = first.unit ?? '';
    draw(
      ofFarm
        ? {
            kind: 'column',
            title: first.figure,
            categories: cells('of', from, many),
            series: [
              { name: 'Table', ...cells('table', from, many) },
              { name: 'Own', ...cells('mean', from, many) },
              { name: 'Between both', ...cells('blend', from, many) },
            ],
            valueTitle: unit,
          }
        : {
            kind: 'column',
            title: `${first.figure}: ${first.of ?? ''}`,
            categories: cells('part', from, many),
            series: [{ name: 'Own', ...cells('mean', from, many) }],
            valueTitle: unit,
          },
    );
    from += many;
  }
  const down = Math.ceil(drawn / WIDE.length);
  const page = PICTURES_DOWN * PICTURE_ROWS;
  const pages = Math.ceil(down / PICTURES_DOWN);
  return {
    begins: Array.from({ length: pages }, (_, i) => begin + i * page),
    end: begin + down * PICTURE_ROWS,
  };
}

type OwnColumns = Columns<OwnFigureEntry, 'Own'>;

/** What the columns ask of a row of the farm file. */
function askedOfRows(ctx: PlanContext) {
  const rows = ctx.farm.ownFigures;
  const entry = (row: number): OwnFigureEntry => rows[row] as OwnFigureEntry;
  const nameAt = (row: number): OwnFigureName => figureNameOf(entry(row).figure);
  const ofYear =
    (formula: (at: AtOwn, row: number) => Formula | undefined) =>
    (at: AtOwn, row: number): Formula | undefined =>
      isWhole(entry(row)) ? formula(at, row) : undefined;
  const acting = (formula: (at: AtOwn, row: number) => Formula | undefined) =>
    ofYear((at, row) => (acts(nameAt(row)) ? formula(at, row) : undefined));
  /** Where the plan computes with nothing of the row, nothing is to be chosen. */
  const lookOf = (row: OwnFigureEntry): LookId =>
    isWhole(row) && acts(figureNameOf(row.figure)) ? 'input' : 'source';
  return { ofYear, nameAt, entry, lookOf, acting, rows };
}
type AskedOfRows = ReturnType<typeof askedOfRows>;

/** Which figure it is, and from how much. */
const figureColumns = {
  figure: { head: 'Figure', width: LABELS, look: 'label', field: 'figure' },
  of: { head: 'Of', width: 16, look: 'source', field: 'of' },
  part: { head: 'In', width: 32, look: 'source', field: 'part' },
  unit: { head: 'Unit', width: 14, look: 'source', field: 'unit' },
  batches: {
    head: 'Batches',
    width: 8,
    look: 'source',
    format: 'whole',
    field: 'batches',
    rule: whole,
  },
} satisfies Partial<OwnColumns>;

/** Table and own figure side by side, and which counts. */
const choiceColumns = ({ ofYear, nameAt, entry, lookOf, acting }: AskedOfRows, ctx: PlanContext) =>
  ({
    table: {
      head: 'Table',
      width: 10,
      look: 'computed',
      format: 'three',
      always: true,
      given: (row) =>
        isWhole(row) && !isOfCells(figureNameOf(row.figure))
          ? tableFigure(ctx.farm, figureNameOf(row.figure), row.of)?.usual
          : undefined,
      formula: ofYear((at, row) => tableFormula(ctx, at, nameAt(row), entry(row).of ?? '')),
      note: 'What the plan takes without records: the tables of crops and fish, or what is typed on Stock plan and Sowing.',
    },
    mean: {
      head: 'Own',
      width: 10,
      look: 'source',
      format: 'three',
      field: 'mean',
      rule: number,
      note: 'Mean of the batches.',
    },
    blend: {
      head: 'Between both',
      width: 10,
      look: 'computed',
      format: 'three',
      formula: ofYear((at) =>
        blankWithout(
          [at('table'), at('weight')],
          at('table').plus(at('weight').times(at('mean').minus(at('table')))),
        ),
      ),
      note: 'Blank where the tables have no figure to set the own one against.',
    },
    differs: {
      head: 'Own against table',
      width: 9,
      look: 'computed',
      format: 'percent',
      formula: ofYear((at) =>
        blankIf(at('table').orZero.is(0), at('mean').over(at('table')).minus(1)),
      ),
    },
    use: {
      head: 'Which counts',
      width: 10,
      look: 'input',
      field: 'use',
      lookOf,
      rule: { rule: { kind: 'words', words: figureUses }, message: 'Choose table, own or blend.' },
      note: 'table: as the tables have it. own: the mean of your batches. blend: between both. Blank is table.',
    },
    few: {
      head: 'Few are enough',
      width: 9,
      look: 'input',
      field: 'few',
      lookOf,
      rule: { rule: { kind: 'words', words: ['yes'] }, message: 'Type yes, or leave it blank.' },
      note: `Below ${FEWEST_BATCHES} batches an own figure counts only with a yes here.`,
    },
    counts: {
      head: 'Figure that counts',
      width: 10,
      look: 'result',
      format: 'three',
      formula: acting((at) =>
        when(
          switched(at),
          when(
            tooFew(at),
            call(
              'VALUE',
              `Fewer than ${FEWEST_BATCHES} batches: type yes beside it, or choose table.`,
            ),
            when(any(at('use').is('own'), at('blend').isBlank), at('mean'), at('blend')),
          ),
          blankWithout([at('table')], at('table')),
        ),
      ),
    },
  }) satisfies Partial<OwnColumns>;

/** What is said of the choice. */
const verdictColumns = ({ acting, nameAt, entry }: AskedOfRows, ctx: PlanContext) =>
  ({
    says: {
      head: 'To put right',
      width: 40,
      look: 'verdict',
      formula: acting((at, row) =>
        blankUnless(
          switched(at),
          when(
            tooFew(at),
            joined(
              'rests on ',
              at('batches'),
              ` of the ${FEWEST_BATCHES} batches that it needs: type yes under “Few are enough”, or choose table`,
            ),
            typedElsewhere(ctx, at, nameAt(row), entry(row).of ?? ''),
          ),
        ),
      ),
    },
  }) satisfies Partial<OwnColumns>;

/** How sure the own figure is, and where it comes from. */
const spreadColumns = ({ acting, ofYear }: AskedOfRows) =>
  ({
    lowest: {
      head: 'Lowest batch',
      width: 10,
      look: 'source',
      format: 'three',
      field: 'lowest',
      rule: number,
    },
    highest: {
      head: 'Highest batch',
      width: 10,
      look: 'source',
      format: 'three',
      field: 'highest',
      rule: number,
    },
    low: {
      head: 'True mean from',
      width: 10,
      look: 'source',
      format: 'three',
      field: 'low',
      rule: number,
      note: 'Between here and the next column lies the true mean, nine times in ten (shares: Student 1908; all others: Olsson 2005).',
    },
    high: { head: 'to', width: 10, look: 'source', format: 'three', field: 'high', rule: number },
    weight: {
      head: 'Share of own in between',
      width: 11,
      look: 'source',
      format: 'percent',
      field: 'weight',
      rule: number,
      note: 'The more batches, and the more alike, the more the own mean counts (Buehlmann 1967).',
    },
    up_to: { head: 'Registers up to', width: 12, look: 'source', format: 'date', field: 'upTo' },
    source: {
      head: 'From',
      width: 46,
      note: 'Figures of a season or a month cannot be chosen: the plan follows the seasons by the warmth of the months, and would count them twice; income is reckoned with one price through the year, that of all its sales.',
      look: 'computed',
      always: true,
      given: (row) => (isWhole(row) ? undefined : notChosen(figureNameOf(row.figure))),
      formula: acting((at) =>
        blankUnless(
          switched(at),
          joined(
            when(at('use').is('own'), 'the farm’s own', 'between table and own'),
            ', ',
            at('batches'),
            ' batches up to ',
            isoDate(at('up_to')),
          ),
        ),
      ),
    },
    key: {
      helper: true,
      head: 'Found by',
      width: 9,
      look: 'source',
      formula: ofYear((at) => joined(at('figure'), at('of'))),
    },
  }) satisfies Partial<OwnColumns>;

/** What the farm's registers came to, figure by figure, beside the tables, with the grower's switch. */
export function ownFiguresSheet(ctx: PlanContext): SheetModel {
  const asked = askedOfRows(ctx);
  const { rows } = asked;
  const columns: OwnColumns = {
    ...figureColumns,
    ...choiceColumns(asked, ctx),
    ...verdictColumns(asked, ctx),
    ...spreadColumns(asked),
  };
  const sheet = new SheetBuilder(OWN_FIGURES, {
    title: 'Own figures',
    question: 'What do the farm’s own records say, how sure is it, and which figure shall count?',
    widths: [],
    landscape: true,
    headRows: HEAD + 1,
    headColumns: 1,
  });
  const latest = call('MAX', named('Own_up_to'));
  sheet.text(
    2,
    1,
    'Batches and their means are written down, not computed: they were counted from the registers up to the day beside them, and stay until the plan is renewed.',
    'text',
  );
  sheet.put(3, 1, {
    formula: blankUnless(
      named('Farm_date').above(latest),
      joined(
        'The day of the plan is ',
        named('Farm_date').minus(latest),
        ' days later: renew the plan to have the registers counted again.',
      ),
    ),
    look: 'verdict',
  });
  const made = register(sheet, ctx, {
    prefix: 'Own',
    headRow: HEAD,
    columns,
    list: 'ownFigures',
    spare: 0,
  });
  const says = made.first('says');
  sheet.mark(made.cells('says'), says.isFilled, 'bad');
  const { begins, end } = pictures(sheet, rows, made);
  const left = made.column('says');
  const tableEnd = made.firstRow + made.rows;
  sheet.repeat(HEAD, 1);
  sheet.printOnPages([
    area(0, 0, tableEnd, left),
    area(HEAD, left, tableEnd - HEAD, made.shown - left),
    ...pagesFrom(begins, end, left),
  ]);
  return sheet.model();
}
