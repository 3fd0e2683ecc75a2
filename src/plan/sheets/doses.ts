import { bases } from '../../core/tables/bases';
import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { between, fields } from '../fields';
import type { LookId, SheetModel } from '../model';
import { converts, type QuantityId, shownFormula, shownIn, toShown } from '../quantities';
import type { Register } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Doses';
/** First of the columns that hold metric twins in US units. */
const TWINS = 14;
const HEADS = 4;
/** Days after which a test says little of the water of today. */
const OLD = 14;

/** A bound: a published default to overwrite, or a figure of the stocked species. */
type Bound = number | { readonly fish: string } | undefined;

interface Check {
  readonly label: string;
  /** Column of the Water log. */
  readonly log: string;
  readonly quantity: QuantityId;
  readonly low?: Bound;
  readonly high?: Bound;
  readonly source: string;
}

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
    low: 6.4,
    high: 7.6,
    source: 'About 7.0 suits fish, plants and bacteria together (UVI nutrient page).',
  },
  {
    label: 'Total ammonia-N (TAN)',
    log: 'tan',
    quantity: 'concentration',
    high: { fish: 'tan_most' },
    source: 'Species sheet.',
  },
  {
    label: 'Un-ionised ammonia-N',
    log: 'unionised',
    quantity: 'concentration',
    high: 0.05,
    source: 'Gill damage begins at 0.05 mg/L (UF/IFAS FA16).',
  },
  {
    label: 'Nitrite-N',
    log: 'nitrite',
    quantity: 'concentration',
    high: 1,
    source: 'Harmful above 1 mg/L (FAO Technical Paper 589).',
  },
  {
    label: 'Nitrate-N',
    log: 'nitrate',
    quantity: 'concentration',
    low: 5,
    high: 150,
    source: 'Working range, usual practice (FAO Technical Paper 589, recalled).',
  },
  {
    label: 'Oxygen',
    log: 'oxygen',
    quantity: 'concentration',
    low: { fish: 'oxygen_least' },
    source: 'Species sheet.',
  },
  {
    label: 'Oxygen, share of saturation',
    log: 'oxygen_share',
    quantity: 'share',
    low: 0.6,
    source: 'Common practice, no source.',
  },
  {
    label: 'Alkalinity',
    log: 'alkalinity',
    quantity: 'alkalinity',
    low: 60,
    high: 140,
    source: 'Usual practice (FAO Technical Paper 589, recalled).',
  },
  {
    label: 'Carbon dioxide',
    log: 'carbon_dioxide',
    quantity: 'concentration',
    high: 20,
    source: 'Aim below 20 mg/L (Clinical Guide to Fish Medicine).',
  },
  {
    label: 'Iron',
    log: 'iron',
    quantity: 'concentration',
    low: 1,
    high: 3,
    source: 'About 2 mg/L is kept up (UVI nutrient page).',
  },
];

/** Name of the last figure of a check, metric. */
const lastName = (log: string): string => `Last_${log}`;
/** Names of its bounds, for figures whose unit is the same in both systems. */
export const leastName = (log: string): string => `Least_${log}`;
export const mostName = (log: string): string => `Most_${log}`;

function lastFigures(sheet: SheetBuilder, ctx: PlanContext): void {
  const { system } = ctx;
  sheet.heads(HEADS, 0, [
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
  if (system === 'US') sheet.heads(HEADS, TWINS, ['Metric, for the functions']);
  checks.forEach(({ label, log, quantity, low, high, source }, i) => {
    // Out of the best water fish grow less; out of the other bounds something is wrong.
    const [under, over] =
      log === 'temperature' ? ['below the best', 'above the best'] : ['too low', 'too high'];
    const row = HEADS + 1 + i;
    const shown = shownIn(quantity, system);
    const format = log === 'unionised' ? 'three' : shown.format;
    const at = (column: number): string => rowAddress(row, column);
    const metric = shown.factor === 1 ? 1 : TWINS;
    sheet.text(row, 0, label, 'label');
    sheet.put(row, metric, {
      formula: `IF(${at(3)}="","",AVERAGEIFS(Water_${log},Water_date,${at(3)}))`,
      look: metric === 1 ? 'result' : 'computed',
      format,
    });
    if (metric !== 1)
      sheet.put(row, 1, {
        formula: shownFormula(at(metric), quantity, system),
        look: 'result',
        format,
      });
    ctx.name(lastName(log), SHEET, area(row, metric));
    // A share shows its sign in the figure itself.
    sheet.text(row, 2, ['ph', 'share'].includes(quantity) ? '' : shown.unit, 'unit');
    // The latest day up to the as-of date on which this figure is there.
    const latest = `SUMPRODUCT(MAX(ISNUMBER(Water_${log})*(Water_date<=Farm_date)*Water_date))`;
    sheet.put(row, 3, {
      formula: `IF(${latest}=0,"",${latest})`,
      look: 'computed',
      format: 'date',
    });
    sheet.put(row, 4, {
      formula: `IF(${at(3)}="","",Farm_date-${at(3)})`,
      look: 'computed',
      format: 'whole',
    });
    const bound = (column: number, value: Bound): void => {
      if (value === undefined) return;
      const look: LookId = typeof value === 'number' ? 'preset' : 'computed';
      if (typeof value === 'number') {
        sheet.put(row, column, {
          value: toShown(value, quantity, system),
          look,
          format: log === 'unionised' ? 'two' : format,
        });
        return;
      }
      const fish = `INDEX(Fish_${value.fish},Stock_line)`;
      const { factor, offset } = shown;
      sheet.put(row, column, {
        formula: factor === 1 ? fish : `${fish}/${Number(factor.toPrecision(12))}+${offset}`,
        look,
        format,
      });
    };
    const named = !converts(quantity, 'US');
    bound(5, low);
    bound(6, high);
    if (named && low !== undefined) ctx.name(leastName(log), SHEET, area(row, 5));
    if (named && high !== undefined) ctx.name(mostName(log), SHEET, area(row, 6));
    // Harm begins at that figure, not above it.
    const above = log === 'unionised' ? '>=' : '>';
    const verdict =
      `IF(${at(1)}="","not tested yet",` +
      (low === undefined ? '' : `IF(AND(${at(5)}<>"",${at(1)}<${at(5)}),"${under}",`) +
      (high === undefined ? '' : `IF(AND(${at(6)}<>"",${at(1)}${above}${at(6)}),"${over}",`) +
      `IF(${at(4)}>${OLD},"fine then; test anew","fine")` +
      ')'.repeat(1 + (low === undefined ? 0 : 1) + (high === undefined ? 0 : 1));
    sheet.put(row, 7, { formula: verdict, look: 'verdict' });
    sheet.text(row, 8, source, 'source');
  });
  const first = HEADS + 1;
  const cells = area(first, 7, checks.length);
  ctx.name('Doses_verdict', SHEET, cells);
  const cell = rowAddress(first, 7);
  sheet.mark(cells, `OR(${cell}="too low",${cell}="too high")`, 'bad');
  sheet.mark(
    cells,
    `OR(${cell}="not tested yet",${cell}="fine then; test anew",${cell}="below the best",${cell}="above the best")`,
    'watch',
  );
}

function doses(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { gill } = ctx;
  sheet.heading(row, 0, 9, 'What to add');
  return fields(
    sheet,
    ctx,
    row + 1,
    0,
    [
      {
        name: 'Dose_base_aim',
        label: 'Alkalinity wanted',
        value: 100,
        quantity: 'alkalinity',
        look: 'preset',
        remark: 'Middle of 60 to 140 (usual practice).',
        rule: between('alkalinity', ctx, 1, 2000),
      },
      {
        name: 'Dose_base_kind',
        label: 'Base',
        value: 'potassium bicarbonate',
        look: 'preset',
        remark: 'Potassium and calcium feed the plants too; sodium harms them. Hydroxides burn.',
        rule: {
          rule: { kind: 'words', words: Object.keys(bases) },
          message: 'Choose a base of the list.',
        },
      },
      {
        name: 'Dose_base',
        label: 'Base to add',
        formula: `IF(${lastName('alkalinity')}="","",IF(${lastName('alkalinity')}>=Dose_base_aim,0,${gill('DOSE.BASE', 'Water_total', lastName('alkalinity'), 'Dose_base_aim', 'Dose_base_kind')}))`,
        quantity: 'dose',
        look: 'result',
        remark:
          'In small steps over days: pH must not rise by more than 0.2 to 0.3 a day (common practice).',
      },
      {
        name: 'Dose_iron_aim',
        label: 'Iron wanted',
        value: 2,
        quantity: 'concentration',
        look: 'preset',
        remark: 'Once every three weeks (UVI nutrient page).',
        rule: between('concentration', ctx, 0.1, 50),
      },
      {
        name: 'Dose_iron_share',
        label: 'Iron in the chelate',
        value: 0.1,
        quantity: 'share',
        look: 'preset',
        remark: 'As the packet says: DTPA about 10 to 11 %, EDDHA 6 % (recalled).',
        rule: between('share', ctx, 0.01, 0.5),
      },
      {
        name: 'Dose_iron',
        label: 'Iron chelate to add',
        formula: `IF(${lastName('iron')}="","",IF(${lastName('iron')}>=Dose_iron_aim,0,${gill('DOSE.IRON', 'Water_total', lastName('iron'), 'Dose_iron_aim', 'Dose_iron_share')}))`,
        quantity: 'dose',
        look: 'result',
      },
      {
        name: 'Dose_chloride',
        label: 'Chloride in the water',
        quantity: 'concentration',
        look: 'input',
        remark: 'Measure it when nitrite shows; blank where it is not known.',
        rule: between('concentration', ctx, 0, 20000),
      },
      {
        name: 'Dose_salt',
        label: 'Calcium chloride to add',
        formula: `IF(OR(${lastName('nitrite')}="",Dose_chloride=""),"",${gill('DOSE.SALT', 'Water_total', lastName('nitrite'), 'Dose_chloride')})`,
        quantity: 'dose',
        look: 'result',
        remark: 'Chloride 33 times the nitrite-N, which is 10 times the nitrite ion.',
      },
    ],
    TWINS,
  );
}

/** Where the water stands by the last tests, what to add, and how it went. */
export function dosesSheet(
  ctx: PlanContext,
  log: { readonly name: string; readonly register: Register },
): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Water today and doses',
    question: 'Is the water fit for fish and plants, and what has to be added?',
    widths: [30, 22, 13, 12, 8, 9, 9, 22, 58],
    landscape: true,
    onePage: true,
  });
  sheet.fold(9);
  if (ctx.system === 'US') sheet.width(TWINS, 14);
  sheet.heading(3, 0, 9, 'By the last tests');
  lastFigures(sheet, ctx);
  let row = doses(sheet, ctx, HEADS + checks.length + 2);
  sheet.cautions(row + 1, 0, 7, ['base', 'steps', 'chlorine', 'law']);
  row += 3;
  const { register } = log;
  const rows = register.rows;
  const series = (name: string, id: string) => ({
    name,
    sheet: log.name,
    area: area(register.firstRow, register.column(id), rows),
  });
  const categories = {
    sheet: log.name,
    area: area(register.firstRow, register.column('date'), rows),
  };
  sheet.chart({
    kind: 'line',
    title: 'Ammonia, nitrite and oxygen, mg/L',
    place: area(row, 0, 18, 3),
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
    place: area(row, 3, 18, 5),
    categories,
    series: [series('Alkalinity as CaCO3', 'alkalinity'), series('Nitrate-N', 'nitrate')],
    categoryTitle: 'Test of',
    valueTitle: 'mg/L',
  });
  return sheet.model();
}
