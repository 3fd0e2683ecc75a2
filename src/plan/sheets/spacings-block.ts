import type { PlanContext } from '../context';
import { weeksInBed } from '../crop-figures';
import type { Field } from '../fields';
import { Flow } from '../sheet-flow';
import { any, blankWithout, call, type Formula, joined, part, when } from '../formula-parts';
import { lineOf, named } from '../names';
import type { SheetBuilder } from '../sheet-builder';

interface Choice {
  readonly letter: 'a' | 'b';
  readonly title: string;
}

const choices: readonly Choice[] = [
  { letter: 'a', title: 'Wide' },
  { letter: 'b', title: 'Close' },
];

type Figure = 'row' | 'between' | 'yield' | 'price' | 'plants' | 'mass' | 'income';

function choiceFields(ctx: PlanContext, { letter }: Choice): Field[] {
  const { gill } = ctx;
  const name = <W extends Figure>(what: W) => `Space_${what}_${letter}` as const;
  const its = (what: Figure): Formula => named(name(what));
  return [
    {
      name: name('row'),
      label: 'Plants in the row, every',
      preset: name('row'),
      look: 'preset',
    },
    {
      name: name('between'),
      label: 'Rows, every',
      preset: name('between'),
      look: 'preset',
    },
    {
      name: name('yield'),
      label: 'What one plant gives',
      preset: name('yield'),
      look: 'preset',
    },
    {
      name: name('price'),
      label: 'Price',
      preset: name('price'),
      look: 'input',
    },
    {
      name: name('plants'),
      label: 'Plants',
      formula: blankWithout(
        [its('row'), its('between')],
        gill('BED.DENSITY', its('row'), its('between')),
      ),
      quantity: 'plantsPerArea',
      look: 'computed',
    },
    {
      name: name('mass'),
      label: 'Yield of a crop',
      formula: blankWithout([its('plants'), its('yield')], its('plants').times(its('yield'))),
      quantity: 'massPerArea',
      look: 'computed',
    },
    {
      name: name('income'),
      label: 'Income',
      formula: blankWithout(
        [its('plants'), its('yield'), named('Space_weeks')],
        gill(
          'MONEY.BEDWEEK',
          its('plants'),
          its('yield'),
          its('price').orZero,
          named('Space_weeks'),
          1,
        ),
      ),
      quantity: 'moneyPerArea',
      look: 'result',
    },
  ];
}

/** Which spacing brings more, and at which prices they draw level. */
function verdict(): Formula {
  const [wide, close] = [named('Space_income_a'), named('Space_income_b')];
  const better = (more: Formula, less: Formula, which: string): Formula =>
    joined(
      `The ${which} spacing brings `,
      call('ROUND', part(100).times(more.over(less).minus(1)), 0),
      ' % more from the same bed. ',
    );
  const level = call('ROUND', named('Space_mass_a').over(named('Space_mass_b')), 2);
  return when(
    any(wide.orZero.is(0), close.orZero.is(0)),
    'Type both spacings, yields and prices.',
    joined(
      when(close.atLeast(wide), better(close, wide, 'close'), better(wide, close, 'wide')),
      'They draw level when the close one sells at ',
      level,
      ' times the price of the wide one.',
    ),
  );
}

/** Two spacings of one crop, or heads against slender stems: which brings more from the same bed? */
export function spacingsBlock(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
  twins: number,
): void {
  const crop = named('Space_crop');
  flow.heading('Which spacing of the same crop brings more from the same bed?', 8);
  flow.fields([
    {
      name: 'Space_crop',
      label: 'Crop',
      preset: 'Space_crop',
      look: 'input',
      rule: {
        rule: { kind: 'list', name: 'Crop_name' },
        message: 'Choose a crop of the Crops sheet.',
      },
    },
    {
      name: 'Space_weeks',
      label: 'Weeks in the bed',
      formula: blankWithout([crop], weeksInBed(lineOf('Crop', crop))),
      quantity: 'weeks',
      look: 'computed',
      remark: 'From the Crops sheet, the same for both.',
    },
  ]);
  flow.heads(['Spacing', ...choices.map(({ title }) => title)]);
  const row = flow.row;
  const lines = choices.map((choice, i) => {
    const fields = choiceFields(ctx, choice);
    new Flow(sheet, ctx, { row, column: i, columns: 2, metricColumn: twins + i }).fields(fields, {
      // Both share the labels on their left and the units on their right.
      ...(i > 0 && { labels: false }),
      ...(i < choices.length - 1 && { units: false }),
    });
    return fields.length;
  });
  flow.skip(Math.max(...lines));
  ctx.name('Space_verdict', sheet.name, flow.wide({ formula: verdict(), look: 'verdict' }, 2, 8));
  flow.wide(
    {
      value:
        'Yields to begin with: broccoli, 12 t/ha at 2.8 and 23 t/ha at 8.3 plants on a square metre, that is 0.43 and 0.28 kg a plant (Chung 1985, field trial). Close spacing gives smaller heads and asks for more picking, and air moves less between the leaves: weigh a bed of your own.',
      look: 'source',
    },
    2,
    8,
  );
}
