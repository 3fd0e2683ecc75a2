import { MAX_PH, MAX_PH_FOR_BASE, OLD_TEST } from '../../core/dosing';
import { fishFacts } from '../../core/tables/species';
import { type Limited, strictestOf } from '../../core/water-limits';
import { bases } from '../../core/tables/bases';
import type { PlanContext } from '../context';
import type { Flow } from '../sheet-flow';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  when,
  written,
} from '../formula-parts';
import type { Field } from '../fields';
import { plainCall } from '../live-or-plain';
import {
  codeOf,
  type FishColumn,
  hasCode,
  named,
  nth,
  type RegisterColumns,
  type StatusCodes,
  wordsOf,
} from '../names';
import { inShownUnits, type QuantityId, shownFormula, shownIn, toShown } from '../quantities';
import { type PresetName, presetValue } from '../presets';
import { typedPreset } from '../typed-cells';
import { cellRef, fixedRef, rowRef } from '../references';
import type { Register } from '../register';
import { area, cautionCell, type SheetBuilder } from '../sheet-builder';
import { nutrientBlock } from './nutrient-block';
import { SPARE_TANKS } from './tanks-sheet';

/** First of the columns that hold metric twins in US units. */
const TWINS = 16;
/** Serves formulas alone. */
const STATUS = 9;
const CHART_ROWS = 16;
/** mg/L: more than any water holds. */
const NO_LIMIT = 1000;

/** Beyond them: the limits of the fish in each tank, of which the strictest counts. */
const LIMITS = TWINS + 2;

/**
 * A bound: a published default to overwrite, the strictest of the fish in the tanks until somebody types one, or
 * a figure of the species of the Stock plan.
 */
type Bound =
  | PresetName
  | { readonly limit: Limited; readonly preset: PresetName }
  | { readonly fish: FishColumn }
  | undefined;

/** Columns of the Water log that are looked at here. */
type Reading = Exclude<
  RegisterColumns['Water'],
  'date' | 'verdict' | 'status' | 'added' | 'base' | 'base_given'
>;

interface Check {
  readonly label: string;
  /** Column of the Water log. */
  readonly log: Reading;
  readonly quantity: QuantityId;
  readonly low?: Bound;
  readonly high?: Bound;
  readonly source: string;
}

const OF_TANKS = 'The strictest of the fish in the tanks (Species sheet).';

const checks: readonly Check[] = [
  {
    label: 'Water',
    log: 'temperature',
    quantity: 'temperature',
    low: { fish: 'best_low' },
    high: { fish: 'best_high' },
    source: 'Best for the species of the Stock plan (Species sheet).',
  },
  {
    label: 'pH',
    log: 'acidity',
    quantity: 'ph',
    low: 'Least_acidity',
    high: 'Most_acidity',
    source: 'About 7.0 suits fish, plants and bacteria together (UVI nutrient page).',
  },
  {
    label: 'Total ammonia-N (TAN)',
    log: 'tan',
    quantity: 'concentration',
    high: { limit: 'tan_most', preset: 'Most_tan' },
    source: OF_TANKS,
  },
  {
    label: 'Un-ionised ammonia-N',
    log: 'unionised',
    quantity: 'concentration',
    high: { limit: 'unionised_most', preset: 'Most_unionised' },
    source: OF_TANKS,
  },
  {
    label: 'Nitrite-N',
    log: 'nitrite',
    quantity: 'concentration',
    high: { limit: 'nitrite_most', preset: 'Most_nitrite' },
    source: OF_TANKS,
  },
  {
    label: 'Nitrate-N',
    log: 'nitrate',
    quantity: 'concentration',
    low: 'Least_nitrate',
    high: 'Most_nitrate',
    source: 'Working range, usual practice (FAO Technical Paper 589, recalled).',
  },
  {
    label: 'Oxygen',
    log: 'oxygen',
    quantity: 'concentration',
    low: { limit: 'oxygen_least', preset: 'Least_oxygen' },
    source: OF_TANKS,
  },
  {
    label: 'Oxygen, share of saturation',
    log: 'oxygen_share',
    quantity: 'share',
    low: 'Least_oxygen_share',
    source: 'Common practice, no source.',
  },
  {
    label: 'Alkalinity',
    log: 'alkalinity',
    quantity: 'alkalinity',
    low: 'Least_alkalinity',
    high: 'Most_alkalinity',
    source: 'Usual practice (FAO Technical Paper 589, recalled).',
  },
  {
    label: 'Carbon dioxide',
    log: 'carbon_dioxide',
    quantity: 'concentration',
    high: { limit: 'carbon_dioxide_most', preset: 'Most_carbon_dioxide' },
    source: OF_TANKS,
  },
  {
    label: 'Iron',
    log: 'iron',
    quantity: 'concentration',
    low: 'Least_iron',
    high: 'Most_iron',
    source: 'About 2 mg/L is kept up (UVI nutrient page).',
  },
];

const last = (log: Reading): Formula => named(`Last_${log}`);

const columns = {
  what: 0,
  figure: 1,
  unit: 2,
  tested: 3,
  days: 4,
  least: 5,
  most: 6,
  verdict: 7,
  source: 8,
} as const;

/** One reading against its bounds. */
function lastFigure(
  sheet: SheetBuilder,
  ctx: PlanContext,
  row: number,
  check: Check,
  limit: (of: Limited) => Formula,
): void {
  const { system } = ctx;
  const { label, log, quantity, low, high, source } = check;
  const shown = shownIn(quantity, system);
  const format = log === 'unionised' ? 'three' : shown.format;
  const at = (column: keyof typeof columns): Formula => rowRef(row, columns[column]);
  const twin = shown.factor !== 1;
  const metric = twin ? TWINS : columns.figure;
  const readings = named(`Water_${log}`);
  const days = named('Water_date');
  sheet.text(row, columns.what, label, 'label');
  sheet.put(row, metric, {
    formula: blankWithout([at('tested')], call('AVERAGEIFS', readings, days, at('tested'))),
    look: twin ? 'computed' : 'result',
    format,
  });
  if (twin) {
    const formula = shownFormula(rowRef(row, metric), quantity, system);
    sheet.put(row, columns.figure, { formula, look: 'result', format });
  }
  ctx.name(`Last_${log}`, sheet.name, area(row, metric));
  // A share shows its sign in the figure itself.
  sheet.text(
    row,
    columns.unit,
    quantity === 'ph' || quantity === 'share' ? '' : shown.unit,
    'unit',
  );
  // The latest day up to the as-of date on which this figure is there.
  const there = readings.isNumber.times(days.atMost(named('Farm_date'))).times(days);
  const latest = call('SUMPRODUCT', call('MAX', there));
  sheet.put(row, columns.tested, {
    formula: blankIf(latest.is(0), latest),
    look: 'computed',
    format: 'date',
  });
  sheet.put(row, columns.days, {
    formula: blankWithout([at('tested')], named('Farm_date').minus(at('tested'))),
    look: 'computed',
    format: 'whole',
  });
  const bound = (column: 'least' | 'most', value: Bound): void => {
    if (value === undefined) return;
    const precise = log === 'unionised' ? 'three' : format;
    const preset = typeof value === 'string' ? value : 'preset' in value ? value.preset : undefined;
    const own = preset && presetValue(preset, ctx.farm.figures);
    const cleared = preset !== undefined && ctx.farm.figures?.[preset] === null;
    if (typeof value === 'string' || own !== undefined || cleared) {
      sheet.put(row, columns[column], {
        ...(typeof own === 'number' && { value: toShown(own, quantity, system) }),
        look: 'preset',
        format: precise,
      });
    } else {
      const fish =
        'limit' in value
          ? limit(value.limit)
          : blankWithout([named('Stock_line')], nth(`Fish_${value.fish}`, named('Stock_line')));
      sheet.put(row, columns[column], {
        formula: inShownUnits(fish, quantity, system),
        look: 'computed',
        format: precise,
      });
    }
    if (!preset) return;
    // Their units are the same in both systems.
    ctx.name(preset, sheet.name, area(row, columns[column]));
    ctx.typed.push(typedPreset(preset, `${label}, ${column === 'least' ? 'from' : 'to'}`));
  };
  bound('least', low);
  bound('most', high);
  // Out of the best water fish grow less; out of the other bounds something is wrong.
  const best = log === 'temperature';
  // Harm of un-ionised ammonia begins at its bound, not above it.
  const beyond =
    log === 'unionised' ? at('figure').atLeast(at('most')) : at('figure').above(at('most'));
  type Case = readonly [Condition, StatusCodes['Doses_status']];
  const outside: Case[] = [];
  if (low !== undefined) {
    const below = all(at('least').isFilled, at('figure').below(at('least')));
    outside.push([below, best ? 'below best' : 'low']);
  }
  if (high !== undefined)
    outside.push([all(at('most').isFilled, beyond), best ? 'above best' : 'high']);
  const status = codeOf(
    'Doses_status',
    [[at('figure').isBlank, 'untested'], ...outside, [at('days').above(OLD_TEST), 'old']],
    'fine',
  );
  sheet.put(row, STATUS, { formula: status, look: 'source' });
  sheet.put(row, columns.verdict, {
    formula: wordsOf('Doses_status', rowRef(row, STATUS), {
      untested: 'not tested yet',
      low: 'too low',
      high: 'too high',
      'below best': 'below the best',
      'above best': 'above the best',
      old: 'fine then; test anew',
      fine: 'fine',
    }),
    look: 'verdict',
  });
  sheet.text(row, columns.source, source, 'source');
}

/**
 * What the fish of each tank bear, line by line beside the readings; gives the strictest of them, or the figure of
 * the Stock plan's species as long as no fish stand anywhere. All tanks share one water.
 */
function limitsOfTanks(
  sheet: SheetBuilder,
  ctx: PlanContext,
  row: number,
): (of: Limited) => Formula {
  const facts = Object.keys(strictestOf) as Limited[];
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  sheet.heads(
    row - 1,
    LIMITS,
    facts.map((fact) => `${fishFacts[fact].label}, by tank`),
  );
  facts.forEach((fact, f) => {
    for (let k = 0; k < tanks; k++) {
      const line = nth('Tanks_line', k + 1);
      sheet.put(row + k, LIMITS + f, {
        formula: when(
          all(nth('Tanks_fish', k + 1).orZero.above(0), line.isNumber),
          nth(`Fish_${fact}`, line),
          '',
        ),
        look: 'source',
      });
    }
  });
  return (fact) => {
    const cells = fixedRef(area(row, LIMITS + facts.indexOf(fact), tanks));
    return when(
      call('COUNT', cells).is(0),
      blankWithout([named('Stock_line')], nth(`Fish_${fact}`, named('Stock_line'))),
      call(strictestOf[fact], cells),
    );
  };
}

/** Writes the readings; returns where the days since each was tested stand. */
function lastFigures(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): (log: Reading) => Formula {
  sheet.heads(flow.row, STATUS, ['Status']);
  if (ctx.system === 'US') sheet.heads(flow.row, TWINS, ['Metric, for the functions']);
  flow.heads([
    'What',
    'Last figure',
    'Unit',
    'Tested on',
    'Days ago',
    'From',
    'To',
    'Verdict',
    'Where the limits come from',
  ]);
  const first = flow.row;
  const limit = limitsOfTanks(sheet, ctx, first);
  for (const check of checks) lastFigure(sheet, ctx, flow.skip(), check, limit);
  const cells = area(first, columns.verdict, checks.length);
  ctx.name('Doses_verdict', sheet.name, cells);
  ctx.name('Doses_status', sheet.name, area(first, STATUS, checks.length));
  const has = (code: StatusCodes['Doses_status']): Condition =>
    hasCode('Doses_status', rowRef(first, STATUS), code);
  sheet.mark(cells, any(has('low'), has('high')), 'bad');
  sheet.mark(
    cells,
    any(has('untested'), has('old'), has('below best'), has('above best')),
    'watch',
  );
  return (log) => cellRef(first + checks.findIndex((check) => check.log === log), columns.days);
}

/** How much of something to add: nothing to say without a test, nothing to add at the aim. */
const dose = (log: Reading, aim: Formula, amount: Formula): Formula =>
  cases(
    [
      [last(log).isBlank, ''],
      [last(log).atLeast(aim), 0],
    ],
    amount,
  );

/** Whether the water may be given base, what it would do there, and how much. */
function baseFields(ctx: PlanContext, daysAgo: (log: Reading) => Formula): readonly Field[] {
  const { gill } = ctx;
  const [from, ph, tan] = [last('alkalinity'), last('acidity'), last('tan')];
  const tested = [from, ph, tan] as const;
  const degrees = when(last('temperature').isBlank, named('Water_now'), last('temperature'));
  const age = call('MAX', daysAgo('alkalinity'), daysAgo('acidity'), daysAgo('tan'));
  const [aim, bound] = [named('Dose_base_aim'), named('Dose_base_bound')];
  const to = when(bound.isBlank, aim, call('MIN', aim, bound));
  const after = named('Dose_base_ph');
  const unionised = named('Dose_base_unionised');
  const held = all(bound.isNumber, bound.below(aim));
  // A limit that was cleared bars nothing.
  const harmful = named('Most_unionised');
  const harmed = all(harmful.isNumber, unionised.isNumber, unionised.orZero.atLeast(harmful));
  return [
    {
      name: 'Dose_base_bound',
      label: 'Alkalinity at the CO2 limit',
      formula: blankWithout(
        [ph, named('Most_carbon_dioxide')],
        named('Most_carbon_dioxide').over(plainCall('CARBON.DIOXIDE', ph, 1, degrees)),
      ),
      quantity: 'alkalinity',
      look: 'computed',
      remark: 'At the pH of the last test. More than this is not aimed at.',
    },
    {
      name: 'Dose_base_ph',
      label: 'pH that can follow',
      formula: blankWithout(
        [from, ph],
        when(
          from.above(0),
          call('MAX', ph, call('MIN', MAX_PH, ph.plus(call('LOG10', to.over(from))))),
          MAX_PH,
        ),
      ),
      quantity: 'ph',
      look: 'computed',
      remark: 'With as much carbon dioxide in the water as now.',
    },
    {
      name: 'Dose_base_unionised',
      label: 'Un-ionised ammonia-N then',
      formula: blankWithout([after, tan], gill('AMMONIA.UNIONISED', tan, after, degrees)),
      quantity: 'concentration',
      format: 'three',
      look: 'computed',
    },
    {
      name: 'Dose_base',
      label: 'Base to add',
      formula: cases(
        [
          [any(...tested.map((figure) => figure.isBlank)), ''],
          [any(age.above(OLD_TEST), ph.above(MAX_PH_FOR_BASE)), ''],
          [from.atLeast(to), 0],
          [harmed, ''],
        ],
        // The plain formula leaves out what stands above it here: with both it is longer than a cell takes.
        ctx.mode === 'live'
          ? gill(
              'DOSE.BASE',
              water,
              from,
              to,
              named('Dose_base_kind'),
              ph,
              tan,
              degrees,
              age,
              when(harmful.isNumber, harmful, NO_LIMIT),
            )
          : gill('DOSE.BASE', water, from, to, named('Dose_base_kind')),
      ),
      quantity: 'dose',
      look: 'result',
      remark:
        'In small steps over days: pH must not rise by more than 0.2 to 0.3 a day (common practice).',
    },
    {
      name: 'Dose_base_says',
      label: 'Why so much',
      across: 7,
      formula: cases(
        [
          [from.isBlank, 'no test of alkalinity to go by'],
          [ph.isBlank, 'no test of pH to go by: test it before you dose'],
          [tan.isBlank, 'no test of ammonia to go by: test it before you dose'],
          [
            age.above(OLD_TEST),
            joined('a test is ', written(age, '0'), ' days old: test again before you dose'),
          ],
          [ph.above(MAX_PH_FOR_BASE), `pH is above ${MAX_PH_FOR_BASE}: this water needs no base`],
          [
            all(from.atLeast(to), held),
            'nothing to add: more alkalinity at this pH means more carbon dioxide than its limit; give more air first',
          ],
          [from.atLeast(to), 'nothing to add by the last test'],
          [
            harmed,
            'none yet: at the pH that follows the ammonia would harm gills; bring ammonia down first',
          ],
          [
            held,
            joined(
              'up to ',
              written(to, '0'),
              ' mg/L alone: beyond it carbon dioxide passes its limit at this pH',
            ),
          ],
        ],
        'up to the alkalinity wanted',
      ),
      look: 'verdict',
    },
  ];
}

const water = named('Water_total');

function doses(ctx: PlanContext, flow: Flow, daysAgo: (log: Reading) => Formula): void {
  const { gill } = ctx;
  flow.heading('What to add');
  flow.fields([
    {
      name: 'Dose_base_aim',
      label: 'Alkalinity wanted',
      preset: 'Dose_base_aim',
      look: 'preset',
      remark: 'Middle of 60 to 140 (usual practice).',
    },
    {
      name: 'Dose_base_kind',
      label: 'Base',
      preset: 'Dose_base_kind',
      across: 2,
      look: 'preset',
      remark: 'Potassium and calcium feed the plants too; sodium harms them. Hydroxides burn.',
      rule: {
        rule: { kind: 'words', words: Object.keys(bases) },
        message: 'Choose a base of the list.',
      },
    },
    ...baseFields(ctx, daysAgo),
    {
      name: 'Dose_iron_aim',
      label: 'Iron wanted',
      preset: 'Dose_iron_aim',
      look: 'preset',
      remark: 'Once every three weeks (UVI nutrient page).',
    },
    {
      name: 'Dose_iron_share',
      label: 'Iron in the chelate',
      preset: 'Dose_iron_share',
      look: 'preset',
      remark: 'As the packet says: DTPA about 10 to 11 %, EDDHA 6 % (recalled).',
    },
    {
      name: 'Dose_iron',
      label: 'Iron chelate to add',
      formula: dose(
        'iron',
        named('Dose_iron_aim'),
        gill('DOSE.IRON', water, last('iron'), named('Dose_iron_aim'), named('Dose_iron_share')),
      ),
      quantity: 'dose',
      look: 'result',
    },
    {
      name: 'Dose_chloride',
      label: 'Chloride in the water',
      preset: 'Dose_chloride',
      look: 'input',
      remark: 'Measure it when nitrite shows; blank where it is not known.',
    },
    {
      name: 'Dose_salt',
      label: 'Calcium chloride to add',
      formula: blankWithout(
        [last('nitrite'), named('Dose_chloride')],
        gill('DOSE.SALT', water, last('nitrite'), named('Dose_chloride')),
      ),
      quantity: 'dose',
      look: 'result',
      remark: 'Chloride 33 times the nitrite-N, which is 10 times the nitrite ion.',
    },
  ]);
}

/** Where the water stands by the last tests, what to add, and how it went; returns where the latter two begin. */
export function dosesBlocks(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
  log: { readonly name: string; readonly register: Register<'Water'> },
): readonly [toAdd: number, nutrients: number] {
  sheet.width(columns.verdict, 26);
  sheet.width(columns.source, 49);
  // Their heads would make the row of the readings' heads high.
  Object.keys(strictestOf).forEach((_, i) => sheet.width(LIMITS + i, 36));
  flow.heading('By the last tests');
  const daysAgo = lastFigures(sheet, ctx, flow);
  flow.skip();
  const toAdd = flow.row;
  doses(ctx, flow, daysAgo);
  flow.wide(cautionCell(['base', 'steps', 'chlorine', 'medicines', 'law']), 1, 8);
  flow.skip();
  const nutrients = flow.row;
  nutrientBlock(sheet, ctx, flow);
  flow.skip();
  const charts = flow.skip(CHART_ROWS);
  const { register } = log;
  const series = (name: string, id: Reading) => ({
    name,
    sheet: log.name,
    area: register.cells(id),
  });
  const categories = {
    sheet: log.name,
    area: register.cells('date'),
  };
  sheet.chart({
    kind: 'line',
    title: 'Ammonia, nitrite and oxygen, mg/L',
    place: area(charts, 0, CHART_ROWS, 4),
    categories,
    series: [
      series('Total ammonia-N', 'tan'),
      series('Nitrite-N', 'nitrite'),
      series('Oxygen', 'oxygen'),
    ],
    categoryTitle: 'Test of',
    valueTitle: 'mg/L',
  });
  sheet.chart({
    kind: 'line',
    title: 'Alkalinity and nitrate-N, mg/L',
    place: area(charts, 4, CHART_ROWS, 4),
    categories,
    series: [series('Alkalinity as CaCO3', 'alkalinity'), series('Nitrate-N', 'nitrate')],
    categoryTitle: 'Test of',
    valueTitle: 'mg/L',
  });
  return [toAdd, nutrients];
}
