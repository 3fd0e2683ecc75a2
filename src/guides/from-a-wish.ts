import { cautions } from '../functions/cautions';
import type { Guide } from './guide';

const wish = {
  units: 'metric',
  currency: 'EUR',
  latitude: 44,
  coldest: 12,
  warmest: 27,
  heated: true,
  fish: { species: 'Nile tilapia', kgPerMonth: 100 },
  market: [
    { crop: 'lettuce', unit: 'piece', perWeek: 200 },
    { crop: 'basil', unit: 'bunch', perWeek: 80 },
  ],
};

export const fromAWish: Guide = {
  id: 'from-a-wish',
  title: 'From a wish to a plan',
  question: 'I know what I want to sell and where, and have no farm yet. What must I build?',
  leads:
    'Eight answers, a proposal with its reasons, and the whole planning workbook for it; what you did not say stands there as preset.',
  cautions: [
    cautions.figures,
    cautions.weight,
    cautions.air,
    cautions.permit,
    cautions.quarantine,
    cautions.electricity,
    cautions.law,
  ],
  files: { 'wish.json': `${JSON.stringify(wish, null, 2)}\n` },
  sections: [
    {
      title: 'In the pane',
      screenshot: {
        file: 'wish.webp',
        alt: 'The pane with a wish: latitude, coldest and warmest month, heated water, fish and market filled in, and under them the proposal, which says what gives way before it lists tanks and fish.',
      },
      steps: [
        { what: 'Open the pane, choose Plan, then “Start from a wish”.' },
        {
          what: 'Say where and how warm: the latitude, the mean air of the coldest and of the warmest month under cover, and whether the water is heated. Then what you want to sell: a fish and how much of it a month, crops and how many a week.',
          then: 'The proposal follows while you type. An answer that you leave out stays blank in the plan, with a sentence that says what hangs on it.',
        },
        {
          what: 'Read first what gives way. Fish and beds must come out even, so that one of two wishes may be cut; it says which, and by how much. Choose another way below, or keep both as they are.',
        },
        {
          what: '“Take this farm” opens the form with every figure in it. Build the plan from there, or change anything first.',
          then: 'Have tanks or beds already? Write them in, group by group, such as 24 rafts of 7.2 x 1.2 m, and it says what they can sell.',
        },
      ],
    },
    {
      title: 'By file',
      paragraphs: [
        'The same by a file, for those who size several farms. Here wish.json asks for 100 kg of Nile tilapia a month, 200 heads of lettuce and 80 bunches of basil a week, at 44° north, with months from 12 to 27 °C and heated water.',
      ],
      steps: [
        {
          what: 'Ask for the farm. What gives way comes first.',
          run: {
            command: 'size wish.json --out farm.json',
            prints: [
              '…',
              '  Gives way  The fish give way: 83.6 kg a month instead of 100 kg a month (16 % less), since the',
              '             fish give 5,560 g/day of feed, the beds for the market call for 4,650 g/day. All the',
              '             fish would feed 20 % more of each crop.',
              '…',
              '  Tanks              6 tanks of 1,300 L',
              '…',
              '  lettuce            3 rafts of 12 m × 1.2 m, 43.2 m²',
              '…',
              '  basil              4 rafts of 2.6 m × 1.2 m, 12.5 m²',
              '…',
              '  Feed against beds  4,700 g/day given, 4,700 g/day called for: 100 %',
              '…',
              'farm.json: the farm, with what nobody said marked as preset.',
            ],
          },
          then: 'Each line says which function gave it: type that function into a cell, and it says the same.',
        },
        {
          what: 'Two other ways stand at the end. Take one by its name, and compare.',
          run: {
            command: 'size wish.json --alternative fewer-tanks',
            prints: ['…', '  Tanks              3 tanks of 2,500 L', '…'],
          },
        },
        {
          what: 'Build the workbook from the farm that you keep.',
          run: {
            command: 'plan farm.json --out farm.xlsx',
            prints: ['farm.xlsx: … sheets, GILL functions.'],
          },
          then: 'Prices stay blank: Money leaves out what has none until you type your own.',
        },
      ],
    },
    {
      title: 'Two or more ways side by side',
      paragraphs: [
        'Up to five farms in one sheet. The first column is the wish, or what comes out of it where it gave way (then a line says what was wished), or what a plan wants (its tanks counted as of one size); the others are other ways to it. Species, amounts, the share of fish that lives, growth and conversion of your own, tanks, kinds of bed, crops, heat and prices are typed and may be typed over; fish, feed, areas, water, air, power, heat, work, what it costs to build and in a year, what it brings in every week and in the months in which the crops grow, the least prices at which it pays and what limits it follow by formulas. What differs from the first column is marked. In the pane the same stands under “Variants side by side”, with a button for each column that makes it the plan.',
        'Of a plan’s own figures, prices, what a plant gives, and survival, growth and conversion of its fish are taken over and kept; limits of the fish, days and spacings of crops are those of the tables, and a line says so where a plan has its own. Both wishes of a variant stay as typed: where feed and beds are not even, the sheet says by how much. Heat is counted in the months in which the water is warmer than the air, as if all of it were bought. What has no price is left out, and a line says what. A new plan feeds no fish yet, so that the feed on its Money sheet begins with the first fish.',
      ],
      steps: [
        {
          what: 'Lay the wish beside its other ways.',
          run: {
            command: 'variants wish.json --out variants.xlsx',
            prints: [
              'variants.xlsx: From the wish; Fewer tanks; Gravel beds. Type over what is to differ; the columns that are left take more. Without Gillbed its formulas show #NAME? once they are computed anew: to send it, make it with --plain, or hand over a copy (handover).',
            ],
          },
        },
        {
          what: 'Make the plan of the second column.',
          run: {
            command: 'variants variants.xlsx --choose 2 --out chosen.xlsx',
            prints: [
              '…',
              '  Tanks              3 tanks of …',
              '…',
              'chosen.xlsx: the plan of Fewer tanks.',
            ],
          },
          then: 'A name does as well as a number, and a farm file (chosen.json) as well as a plan.',
        },
      ],
    },
    {
      title: 'How far to trust it',
      paragraphs: [
        'Published systems were entered by what they sold, and what is proposed for them was compared with what was built: see the page How well it agrees in the reference. A proposal is a first sketch; tanks may differ by half or twice with how densely you keep the fish.',
      ],
    },
  ],
};
