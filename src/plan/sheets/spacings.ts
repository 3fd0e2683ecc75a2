import { lookupRow } from '../../functions/lookup';
import type { PlanContext } from '../context';
import { weeksInBed } from '../crop-figures';
import { between, type Field, fields } from '../fields';
import type { SheetModel } from '../model';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Spacings';
/** First of the columns that hold metric twins in US units. */
const TWINS = 12;

interface Choice {
  readonly letter: 'a' | 'b';
  readonly title: string;
  /** cm, kg of one plant: broccoli at 2.8 and 8.3 plants on a m2 (Chung 1985). */
  readonly spacing: number;
  readonly yield: number;
}

const choices: readonly Choice[] = [
  { letter: 'a', title: 'Wide', spacing: 60, yield: 0.43 },
  { letter: 'b', title: 'Close', spacing: 35, yield: 0.28 },
];

function choiceFields(ctx: PlanContext, { letter, spacing, yield: kilos }: Choice): Field[] {
  const { gill } = ctx;
  const name = (what: string): string => `Space_${what}_${letter}`;
  return [
    {
      name: name('row'),
      label: 'Plants in the row, every',
      value: spacing,
      quantity: 'spacing',
      look: 'preset',
      rule: between('spacing', ctx, 1, 500),
    },
    {
      name: name('between'),
      label: 'Rows, every',
      value: spacing,
      quantity: 'spacing',
      look: 'preset',
      rule: between('spacing', ctx, 1, 500),
    },
    {
      name: name('yield'),
      label: 'What one plant gives',
      value: kilos,
      quantity: 'plantYield',
      look: 'preset',
      rule: between('plantYield', ctx, 0.001, 100),
    },
    {
      name: name('price'),
      label: 'Price',
      value: 3,
      quantity: 'pricePerMass',
      look: 'input',
      rule: between('pricePerMass', ctx, 0, 1e5),
    },
    {
      name: name('plants'),
      label: 'Plants',
      formula: `IF(OR(${name('row')}="",${name('between')}=""),"",${gill('BED.DENSITY', name('row'), name('between'))})`,
      quantity: 'plantsPerArea',
      look: 'computed',
    },
    {
      name: name('mass'),
      label: 'Yield of a crop',
      formula: `IF(OR(${name('plants')}="",${name('yield')}=""),"",${name('plants')}*${name('yield')})`,
      quantity: 'massPerArea',
      look: 'computed',
    },
    {
      name: name('income'),
      label: 'Income',
      formula: `IF(OR(${name('plants')}="",${name('yield')}="",Space_weeks=""),"",${gill('MONEY.BEDWEEK', name('plants'), name('yield'), `N(${name('price')})`, 'Space_weeks', '1')})`,
      quantity: 'moneyPerArea',
      look: 'result',
    },
  ];
}

/** Two spacings of one crop, or heads against slender stems: which brings more from the same bed? */
export function spacingsSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Two spacings',
    question: 'Which spacing of the same crop brings more from the same bed?',
    widths: [30, 13, 16, 4, 3, 30, 13, 16],
    landscape: true,
    onePage: true,
  });
  sheet.fold(8);
  sheet.heading(3, 0, 8, 'The crop');
  fields(
    sheet,
    ctx,
    4,
    0,
    [
      {
        name: 'Space_crop',
        label: 'Crop',
        value: 'broccoli',
        look: 'input',
        rule: {
          rule: { kind: 'list', name: 'Crop_name' },
          message: 'Choose a crop of the Crops sheet.',
        },
      },
      {
        name: 'Space_weeks',
        label: 'Weeks in the bed',
        formula: `IF(Space_crop="","",${weeksInBed(lookupRow('Crop', 'Space_crop'))})`,
        quantity: 'weeks',
        look: 'computed',
        remark: 'From the Crops sheet, the same for both.',
      },
    ],
    TWINS,
  );
  choices.forEach((choice, i) => {
    const column = 5 * i;
    sheet.heading(7, column, 3, `${choice.title} spacing`);
    fields(sheet, ctx, 8, column, choiceFields(ctx, choice), TWINS + i);
  });
  const better = (first: string, second: string, words: string): string =>
    `"The ${words} spacing brings "&ROUND(100*(${first}/${second}-1),0)&" % more from the same bed. "`;
  sheet.wide(
    16,
    0,
    8,
    {
      formula:
        `IF(OR(N(Space_income_a)=0,N(Space_income_b)=0),"Type both spacings, yields and prices.",` +
        `IF(Space_income_b>=Space_income_a,${better('Space_income_b', 'Space_income_a', 'close')},${better('Space_income_a', 'Space_income_b', 'wide')})&` +
        `"They draw level when the close one sells at "&ROUND(Space_mass_a/Space_mass_b,2)&" times the price of the wide one.")`,
      look: 'verdict',
    },
    2,
  );
  ctx.name('Space_verdict', SHEET, area(16, 0));
  sheet.wide(
    19,
    0,
    8,
    {
      value:
        'Yields to begin with: broccoli, 12 t/ha at 2.8 and 23 t/ha at 8.3 plants on a square metre, that is 0.43 and 0.28 kg a plant (Chung 1985, field trial). Close spacing gives smaller heads and asks for more picking, and air moves less between the leaves: weigh a bed of your own.',
      look: 'source',
    },
    2,
  );
  return sheet.model();
}
