import { PUBLISHED_BASE } from '../../core/load';
import {
  ALKALINITY_PER_CALCIUM,
  ALKALINITY_PER_POTASSIUM,
  type CropContentName,
  cropContents,
  contentOf,
  EVEN_TURNS,
  TAKEN_UP,
} from '../../core/nutrients';
import {
  type BaseName,
  calciumBases,
  gramsPerAlkalinity,
  potassiumBases,
} from '../../core/tables/bases';
import {
  type Nutrient,
  nutrients,
  nutrientShare,
  usualSalts,
} from '../../core/tables/nutrient-salts';
import type { PlanContext } from '../context';
import {
  any,
  blankUnless,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  part,
  sum,
  when,
  written,
} from '../formula-parts';
import { named, nth } from '../names';
import { rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import type { Flow } from '../sheet-flow';

const WEEK = 7;
const ids = Object.keys(nutrients) as Nutrient[];
const words: Readonly<Record<Nutrient, string>> = {
  N: 'Nitrogen',
  P: 'Phosphorus',
  K: 'Potassium',
  Ca: 'Calcium',
  Mg: 'Magnesium',
  Fe: 'Iron',
};

/** What to know of each where it is looked at. */
const remarks: Readonly<Record<Nutrient, string>> = {
  N: 'A quarter to two fifths leaves as gas (common practice): test nitrate.',
  P: 'The salt brings potassium, too. Sludge that decays gives it back.',
  K: 'With the base first; the sulphate for what is still short.',
  Ca: 'With the base first. Not in one bucket with sulphate or phosphate.',
  Mg: 'Epsom salt.',
  Fe: 'Most of the chelate decays or falls out: go by the test above.',
};

const columns = {
  what: 0,
  feed: 1,
  crops: 2,
  base: 3,
  short: 4,
  salt: 5,
  unit: 6,
  name: 7,
  says: 8,
};

/** g a week that the crops in the beds take up. */
const takenUp = (nutrient: Nutrient): Formula =>
  sum(
    ...(Object.keys(cropContents) as CropContentName[]).map((content) =>
      call('SUMIFS', named('Beds_harvest_week'), named('Beds_content'), content).times(
        contentOf(content, nutrient) * TAKEN_UP[content],
      ),
    ),
  );

/** g of the base that is chosen, from g of alkalinity as CaCO3. */
const gramsOf = (alkalinity: Formula, chosen: Formula, names: readonly BaseName[]): Formula =>
  alkalinity.times(
    cases(
      names.slice(1).map((name) => [chosen.is(name), gramsPerAlkalinity(name)] as const),
      gramsPerAlkalinity(names[0] as BaseName),
    ),
  );

/**
 * What feed and base bring and the crops take up in a week, what is short, and how much of which salt makes up for
 * it. The base is shared between potassium and calcium so that what the crops lack of both comes along.
 */
export function nutrientBlock(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  const [alkalinity, share] = [named('Nutrient_alkalinity'), named('Nutrient_potassium_part')];
  const own = named('Load_base_own');
  const feed = named('Balance_feed');
  /** Nothing as long as nobody can say what the fish are fed, or with how much protein. */
  const fed = (formula: Formula): Formula => blankWithout([feed, named('Feed_protein')], formula);
  const place = (id: Nutrient): number => ids.indexOf(id) + 1;
  /** g a week that the crops take up over what the feed brings. */
  const lacks = (id: Nutrient): Formula =>
    call('MAX', 0, nth('Nutrient_crops', place(id)).minus(nth('Nutrient_feed', place(id))));
  const byPotassium = lacks('K').times(ALKALINITY_PER_POTASSIUM);
  const byCalcium = lacks('Ca').times(ALKALINITY_PER_CALCIUM);
  flow.heading('Nutrients, a week');
  flow.fields([
    {
      name: 'Nutrient_harvest',
      label: 'Crops cut and picked',
      formula: sum(named('Beds_harvest_week')),
      quantity: 'mass',
      look: 'computed',
      remark: 'Of the beds with plants in them, each crop spread over the weeks of its place.',
    },
    {
      name: 'Nutrient_alkalinity',
      label: 'Base for the feed, as CaCO3',
      formula: fed(
        feed
          .times(WEEK / 1000)
          .times(when(own.isNumber, own, part((PUBLISHED_BASE.least + PUBLISHED_BASE.most) / 2))),
      ),
      quantity: 'dose',
      look: 'computed',
      remark:
        'Your own figure for each kg of feed (Balance), else the middle of three published farms.',
    },
    {
      name: 'Nutrient_potassium_part',
      label: 'Of it with potassium',
      formula: fed(
        when(
          byPotassium.plus(byCalcium).is(0),
          EVEN_TURNS,
          byPotassium.over(byPotassium.plus(byCalcium)),
        ),
      ),
      quantity: 'share',
      look: 'computed',
      remark: 'So that potassium and calcium come along as the crops lack them.',
    },
    {
      name: 'Nutrient_potassium_base',
      label: 'Potassium base',
      preset: 'Nutrient_potassium_base',
      across: 2,
      look: 'preset',
      rule: {
        rule: { kind: 'words', words: potassiumBases },
        message: 'Choose a base of the list.',
      },
    },
    {
      name: 'Nutrient_potassium',
      label: 'Potassium base a week',
      formula: fed(
        gramsOf(alkalinity.times(share), named('Nutrient_potassium_base'), potassiumBases),
      ),
      quantity: 'dose',
      look: 'result',
      remark: 'Pure. By turns with the calcium base, in small steps, as pH asks for it.',
    },
    {
      name: 'Nutrient_calcium_base',
      label: 'Calcium base',
      preset: 'Nutrient_calcium_base',
      across: 2,
      look: 'preset',
      remark: 'The hydroxide burns; the carbonate hardly dissolves above pH 7.4.',
      rule: {
        rule: { kind: 'words', words: calciumBases },
        message: 'Choose a base of the list.',
      },
    },
    {
      name: 'Nutrient_calcium',
      label: 'Calcium base a week',
      formula: fed(
        gramsOf(
          alkalinity.times(part(1).minus(share)),
          named('Nutrient_calcium_base'),
          calciumBases,
        ),
      ),
      quantity: 'dose',
      look: 'result',
      remark: 'Pure: divide by the purity on the bag. Never in one bucket with the other.',
    },
  ]);
  flow.heads([
    'Nutrient',
    'Feed brings, g',
    'Crops take up, g',
    'Base brings, g',
    'Short, g',
    'Salt for it',
    '',
    'Which',
    'To know',
  ]);
  const first = flow.row;
  for (const id of ids) {
    const row = flow.skip();
    const at = (column: keyof typeof columns): Formula => rowRef(row, columns[column]);
    const put = (
      column: keyof typeof columns,
      formula: Formula,
      look: 'computed' | 'result',
    ): void =>
      sheet.put(row, columns[column], { formula, look, format: id === 'Fe' ? 'one' : 'whole' });
    sheet.text(row, columns.what, words[id], 'label');
    put(
      'feed',
      fed(gill('NUTRIENT.FEED', feed, id, named('Feed_protein')).times(WEEK)),
      'computed',
    );
    put('crops', takenUp(id), 'computed');
    put(
      'base',
      id === 'K'
        ? fed(alkalinity.times(share).over(ALKALINITY_PER_POTASSIUM))
        : id === 'Ca'
          ? fed(alkalinity.times(part(1).minus(share)).over(ALKALINITY_PER_CALCIUM))
          : part(0),
      'computed',
    );
    put('short', fed(call('MAX', 0, at('crops').minus(at('feed')).minus(at('base')))), 'result');
    put('salt', fed(at('short').over(nutrientShare(usualSalts[id], id))), 'result');
    sheet.text(row, columns.unit, 'g', 'unit');
    sheet.text(row, columns.name, usualSalts[id], 'text');
    sheet.text(row, columns.says, remarks[id], 'source');
  }
  for (const column of ['feed', 'crops', 'base', 'short', 'salt'] as const)
    ctx.name(`Nutrient_${column}`, sheet.name, area(first, columns[column], ids.length));
  sheet.mark(
    area(first, columns.short, ids.length),
    rowRef(first, columns.short).orZero.above(0.5),
    'watch',
  );
  const short = ids
    .filter((id) => id !== 'Fe')
    .map((id): readonly [Nutrient, Formula] => [id, nth('Nutrient_salt', place(id)).orZero]);
  const verdict = flow.wide(
    {
      formula: cases(
        [
          [named('Nutrient_harvest').is(0), 'No bed has plants in it: nothing is taken up.'],
          [
            any(feed.isBlank, named('Feed_protein').isBlank),
            'What is short stays open: the water of the months, or the protein of the feed, is not said yet.',
          ],
          [
            call('MAX', ...short.map(([, salt]) => salt)).below(1),
            'Feed and base bring what the crops take up. Iron goes by its test.',
          ],
        ],
        joined(
          'Beside feed and base, a week: ',
          ...short.map(([id, salt]) =>
            blankUnless(salt.atLeast(1), joined(written(salt, '#,##0'), ` g ${usualSalts[id]}; `)),
          ),
          'iron by its test. Starting figures: tests of the water and the look of the plants decide.',
        ),
      ),
      look: 'verdict',
    },
    2,
  );
  ctx.name('Nutrient_verdict', sheet.name, verdict);
}
