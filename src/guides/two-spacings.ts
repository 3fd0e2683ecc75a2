import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { twoBeds } from './pictures';

export const twoSpacings: Guide = {
  id: 'two-spacings',
  title: 'Two spacings compared',
  question: 'Large heads at 22 cm, or small ones at 16 cm: which earns more from the same bed?',
  leads:
    'Income for a square metre and week of both, side by side, and the price at which they are equal.',
  cautions: [
    cautions.figures,
    'Closer plants dry more slowly: mould begins where leaves stay wet. Watch the air as well as the till.',
    cautions.sprays,
    cautions.food,
  ],
  sections: [
    {
      steps: [
        {
          what: 'Type both ways of growing side by side. The weeks are those in which the bed is taken, from planting to clearing; prices are invented.',
          cells: [
            { at: 'B1', enter: 'Large' },
            { at: 'C1', enter: 'Small' },
            { at: 'A2', enter: 'Spacing, cm' },
            { at: 'B2', enter: 22 },
            { at: 'C2', enter: 16 },
            { at: 'A3', enter: 'Weeks in bed' },
            { at: 'B3', enter: 6 },
            { at: 'C3', enter: 4 },
            { at: 'A4', enter: 'Price of a head' },
            { at: 'B4', enter: 1.2 },
            { at: 'C4', enter: 0.7 },
            { at: 'A5', enter: 'Seed, plug and work for a head' },
            { at: 'B5', enter: 0.34 },
            { at: 'C5', enter: 0.3 },
          ],
        },
        {
          what: 'Ask for the plants on a square metre, set in triangles. One formula answers for both columns.',
          cells: [
            { at: 'A6', enter: 'Plants on a m²' },
            {
              at: 'B6',
              formula: '=GILL.BED.DENSITY(B2:C2,,"triangular")',
              shows: [['23.9', '45.1']],
            },
          ],
        },
        {
          what: 'Ask for the income for each week in bed, on one square metre. What one plant gives is one head.',
          cells: [
            { at: 'A7', enter: 'Income a week' },
            {
              at: 'B7',
              formula: '=GILL.MONEY.BEDWEEK(B6:C6,1,B4:C4,B3:C3,1)',
              shows: [['4.77', '7.89']],
            },
          ],
        },
        {
          what: 'Take off what the heads cost. This is ordinary arithmetic, and the spreadsheet does it alone.',
          cells: [
            { at: 'A8', enter: 'Left after costs, a week' },
            { at: 'B8', formula: '=B7-B6*B5/B3', shows: '3.42' },
            { at: 'C8', formula: '=C7-C6*C5/C3', shows: '4.51' },
          ],
          then: 'Here the large heads leave {B8} and the small ones {C8} on a square metre and week. Costs that go with the bed, such as heat and feed, are the same for both and change nothing.',
          picture: {
            alt: 'Two square metres of bed seen from above: {B6} large plants {B2} cm apart, and {C6} small ones {C2} cm apart.',
            draw: twoBeds,
          },
        },
        {
          what: 'Ask at which price the small heads would only pay for themselves, and at which they would earn as much as the large ones.',
          cells: [
            { at: 'A9', enter: 'Small: price that covers its cost' },
            { at: 'C9', formula: '=GILL.MONEY.BREAKEVEN(C6*C5,C6)', shows: '0.30' },
            { at: 'A10', enter: 'Small: price that equals the large' },
            { at: 'C10', formula: '=C5+B8*C3/C6', shows: '0.60' },
          ],
          then: 'Between {C9} and {C10} the small heads earn, but less than the large ones would.',
        },
        {
          what: 'Now count the work in the nursery: so many plants a week for 90 m² of bed.',
          cells: [
            { at: 'A11', enter: 'Plants a week for 90 m²' },
            { at: 'B11', formula: '=90*B6/B3', shows: '358' },
            { at: 'C11', formula: '=90*C6/C3', shows: '1015' },
          ],
          then: '{C11} plugs a week instead of {B11}: if nursery, hands or packing cannot do that, the comparison is over.',
        },
      ],
    },
  ],
};
