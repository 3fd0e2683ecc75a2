import { cautions } from '../../functions/cautions';
import { cropTable } from '../../functions/crop-table';
import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { cropFigure } from '../crop-figures';
import type { SheetModel } from '../model';
import { shownIn } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';
import { SPARE_TANKS } from './tanks';

const SHEET = 'Week';
/** Crops that are looked at: those of the table, and some more that a grower may have put between them. */
const CROPS = cropTable.rows.length + 20;
/** Two lists side by side, each a box and its words; the plants left, fish and water right, then cautions. */
const LEFT = 0;
const RIGHT = 3;
const CAUTIONS = 6;
const CAUTION_WIDTH = 46;
const WIDTH = 7;
/** Column of the helpers, beyond what is printed. */
const HELPERS = 7;
/** Lines of each list; what is over them is counted in words. */
const SOWINGS = 6;
const BEDS = 6;
const MONTH = 'MONTH(Farm_week+3)';

const weekDangers = [
  'food',
  'sprays',
  'base',
  'steps',
  'chlorine',
  'electricity',
  'heater',
] as const;

/** Nothing to add to bed and crop. */
const noMore = (): string => '';

interface Line {
  /** Text formula; a line without anything to do shows nothing and no box is needed. */
  readonly formula: string;
  /** Needs two lines on paper. */
  readonly long?: true;
}

/** A list with boxes to tick; returns the row after it. */
function list(
  sheet: SheetBuilder,
  row: number,
  side: number,
  title: string,
  lines: readonly Line[],
  remark?: string,
): number {
  sheet.heading(row, side, 2, title);
  let next = row + 1;
  for (const { formula, long } of lines) {
    sheet.put(next, side, { look: 'tick' });
    const cell = { formula, look: 'text' } as const;
    if (long) sheet.wide(next, side + 1, 1, cell, 2);
    else sheet.put(next, side + 1, cell);
    next += long ? 2 : 1;
  }
  if (remark !== undefined) {
    const rows = remark.length > 110 ? 2 : 1;
    sheet.wide(next, side + 1, 1, { value: remark, look: 'source' }, rows);
    next += rows;
  }
  return next + 1;
}

const date = (formula: string): string => `TEXT(${formula},"yyyy-mm-dd")`;

/** Market crops whose sowing day lies in the week, numbered in a helper column. */
function sowings(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const rows = ctx.farm.markets.length + 6;
  sheet.text(2, HELPERS, 'Numbers for the lists', 'source');
  const first = 3;
  for (let i = 0; i < rows; i++) {
    const next = `N(INDEX(Sowing_next,${i + 1}))`;
    const above =
      i === 0 ? '0' : `MAX(${rowAddress(first, HELPERS)}:${rowAddress(first + i - 1, HELPERS)})`;
    sheet.put(first + i, HELPERS, {
      formula: `IF(AND(${next}>0,${next}<=Farm_week+6),${above}+1,"")`,
      look: 'source',
    });
  }
  ctx.name('Week_sowings', SHEET, area(first, HELPERS, rows));
  const lines = Array.from({ length: SOWINGS }, (_, k): Line => {
    const at = `MATCH(${k + 1},Week_sowings,0)`;
    return {
      formula: `IF(COUNT(Week_sowings)<${k + 1},"",INDEX(Sowing_crop,${at})&": "&TEXT(N(INDEX(Sowing_seeds,${at})),"#,##0")&" seeds in "&TEXT(N(INDEX(Sowing_trays,${at})),"0")&" trays, by "&${date(`INDEX(Sowing_next,${at})`)})`,
    };
  });
  return list(
    sheet,
    row,
    LEFT,
    'Sow',
    lines,
    'Damp, warm, dark or light as the packet says; label each tray with crop and date.',
  );
}

/** Beds that ask for something by Sunday. */
function bedTasks(
  sheet: SheetBuilder,
  row: number,
  title: string,
  task: string,
  says: (at: string) => string,
  remark?: string,
): number {
  const lines = Array.from({ length: BEDS }, (_, k): Line => {
    const at = `MATCH("${task} ${k + 1}",Beds_task_key,0)`;
    const rest = `COUNTIF(Beds_task,"${task}")-${BEDS - 1}`;
    const one = `INDEX(Beds_name,${at})&": "&INDEX(Beds_crop,${at})${says(at)}`;
    const text =
      k === BEDS - 1
        ? `IF(${rest}>1,${rest}&" more beds: see State on the Beds sheet",${one})`
        : one;
    return { formula: `IF(COUNTIF(Beds_task,"${task}")<${k + 1},"",${text})` };
  });
  return list(sheet, row, LEFT, title, lines, remark);
}

function fish(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const tanks = Math.min(ctx.farm.tanks.length + SPARE_TANKS, 24);
  const { factor, unit } = shownIn('feedDay', ctx.system);
  const feed = (k: number): string =>
    factor === 1
      ? `N(INDEX(Tanks_feed,${k}))`
      : `N(INDEX(Tanks_feed,${k}))/${Number(factor.toPrecision(12))}`;
  const format = factor === 1 ? '#,##0' : '#,##0.0';
  const lines = Array.from({ length: tanks }, (_, i): Line => {
    const k = i + 1;
    const task = `INDEX(Stock_task,${k})`;
    return {
      formula: `IF(INDEX(Tanks_name,${k})="","",INDEX(Tanks_name,${k})&IF(N(INDEX(Tanks_feed,${k}))=0,": nothing to feed",": feed "&TEXT(${feed(k)},"${format}")&" ${unit}")&IF(${task}="","","; "&${task}))`,
    };
  });
  return list(
    sheet,
    row,
    RIGHT,
    'Fish',
    lines,
    'Watch them eat and take back what is left. No feed on the day before moving or selling, none when they gasp.',
  );
}

function tunnel(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { gill } = ctx;
  const high = `INDEX(Month_high,${MONTH})`;
  const low = `INDEX(Month_low,${MONTH})`;
  const { factor, offset, unit } = shownIn('temperature', ctx.system);
  const shown = (formula: string): string =>
    factor === 1 ? formula : `(${formula})/${Number(factor.toPrecision(12))}+${offset}`;
  const dew = gill('AIR.DEWPOINT', `INDEX(Month_air,${MONTH})`, `INDEX(Month_humidity,${MONTH})`);
  const air = shownIn('airFlow', ctx.system);
  const venting = `IF(N(House_flow)=0,"","; full venting moves "&TEXT(House_flow/${Number(air.factor.toPrecision(12))},"#,##0")&" ${air.unit}")`;
  return list(
    sheet,
    row,
    RIGHT,
    'Tunnel',
    [
      {
        formula: `IF(${high}>=30,"Vents open day and night, shade up before noon"&${venting},IF(${high}>=24,"Vents open through the day, shade on clear days"&${venting},IF(${low}<5,"Vent two hours about noon even in the cold, closed before dusk","Vent through the warm hours, closed before dusk")))`,
      },
      {
        formula: `"Dry the air after sunset and at sunrise: film and leaves colder than "&TEXT(${shown(dew)},"0.0")&" ${unit} get wet, and grey mould needs wet leaves"`,
        long: true,
      },
    ],
    'Months of the Site sheet. Two hours a day even in the cold is common practice, no source.',
  );
}

function plants(sheet: SheetBuilder, row: number): number {
  const fruiting = `SUMPRODUCT((Beds_state="growing")*(${cropGroup()}))`;
  return list(sheet, row, RIGHT, 'Prune, train, look', [
    {
      formula: `IF(${fruiting}=0,"No trained crops stand",TEXT(${fruiting},"0")&" beds of fruiting crops: side shoots out, tied to the string, old leaves off")`,
    },
    {
      formula:
        '"Undersides of leaves, growing tips, sticky traps: aphids, whitefly, mites, caterpillars. Pick, wash off, set friends; no spray over fish that is not made for it"',
      long: true,
    },
    { formula: '"Roots and rafts: white roots, no slime; take out what is sick"' },
  ]);
}

/** 1 for each bed with a fruiting crop. */
const cropGroup = (): string => 'COUNTIF(Week_fruiting,Beds_crop)>0';

function water(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { factor, unit } = shownIn('dose', ctx.system);
  const shown = (formula: string): string =>
    factor === 1 ? formula : `${formula}/${Number(factor.toPrecision(12))}`;
  const format = factor === 1 ? '#,##0' : '#,##0.0';
  const there = (name: string): boolean => ctx.names.some((one) => one.name === name);
  const dose = (name: string, label: string, remark: string): Line[] =>
    there(name)
      ? [
          {
            formula: `IF(${name}="","${label}: no test to go by",IF(${name}<=0,"${label}: nothing to add by the last test","${label}: "&TEXT(${shown(name)},"${format}")&" ${unit} in all, ${remark}"))`,
          },
        ]
      : [];
  return list(
    sheet,
    row,
    RIGHT,
    'Water',
    [
      {
        formula:
          '"Test temperature, pH, ammonia, nitrite, nitrate, oxygen, alkalinity, iron; write them into the Water log"',
        long: true,
      },
      { formula: 'Balance_verdict', long: true },
      ...dose('Dose_base', 'Base', 'in small steps over days, goggles and gloves on'),
      ...dose('Dose_iron', 'Iron chelate', 'dissolved, spread over the system'),
      ...dose('Dose_salt', 'Salt against nitrite', 'a part at a time'),
      { formula: '"Screens, pumps, air stones, alarm: look, clean, try"' },
    ],
    'Doses follow the last complete test. Half at first, measure again. Follow local codes; ask a licensed professional where they call for one.',
  );
}

/** What can hurt in this week's work; returns the row after it. */
function bewares(sheet: SheetBuilder, row: number): number {
  sheet.heading(row, CAUTIONS, 1, 'Beware');
  let next = row + 1;
  for (const id of weekDangers) {
    const rows = Math.ceil(cautions[id].length / CAUTION_WIDTH);
    sheet.wide(next, CAUTIONS, 1, { value: cautions[id], look: 'caution' }, rows);
    next += rows;
  }
  return next;
}

/** One page of what there is to do in the week of the as-of date. */
export function weekSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'The week',
    question: 'What is there to do this week?',
    widths: [4, 62, 3, 4, 78, 3, CAUTION_WIDTH],
    landscape: true,
    headRows: 3,
  });
  sheet.put(2, 1, {
    formula: `"Monday "&${date('Farm_week')}&" to Sunday "&${date('Farm_week+6')}&", as of "&${date('Farm_date')}`,
    look: 'label',
  });
  // Fruiting crops by name, for counting beds.
  sheet.text(2, HELPERS + 1, 'Fruiting crops', 'source');
  for (let i = 0; i < CROPS; i++) {
    sheet.put(3 + i, HELPERS + 1, {
      formula: `IF(${i + 1}>ROWS(Crop_name),"",IF(${cropFigure('group', String(i + 1))}="fruiting",INDEX(Crop_name,${i + 1}),""))`,
      look: 'source',
    });
  }
  ctx.name('Week_fruiting', SHEET, area(3, HELPERS + 1, CROPS));
  let left = sowings(sheet, ctx, 3);
  left = bedTasks(
    sheet,
    left,
    'Plant out',
    'plant out',
    (at) => `&", "&TEXT(N(INDEX(Beds_plants,${at})),"0")&" plants"`,
  );
  left = bedTasks(
    sheet,
    left,
    'Harvest',
    'cut',
    noMore,
    'Pick leafy crops dry, above the raft or gravel; no fish water on what is eaten; cool quickly.',
  );
  left = bedTasks(sheet, left, 'Clear', 'clear', noMore);
  let right = fish(sheet, ctx, 3);
  right = water(sheet, ctx, right);
  right = plants(sheet, right);
  right = tunnel(sheet, ctx, right);
  const end = Math.max(left, right, bewares(sheet, 3));
  const model = sheet.model();
  return {
    ...model,
    print: { ...model.print, pagesTall: 1, areas: [area(0, 0, end, WIDTH)] },
  };
}
