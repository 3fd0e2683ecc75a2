import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { fillingTank } from './pictures';

export const splitAndMove: Guide = {
  id: 'split-and-move',
  title: 'Split and move fish',
  question: 'This tank is filling up. When do I split it, and into how much water?',
  leads:
    'The week in which the tank passes its limit, how many fish must go, and the feed for both tanks afterwards.',
  cautions: [
    cautions.air,
    cautions.figures,
    cautions.electricity,
    cautions.permit,
    cautions.quarantine,
  ],
  sections: [
    {
      title: 'How full is it',
      steps: [
        {
          what: 'Net a sample, weigh it together and count it. Type what you found.',
          cells: [
            { at: 'A1', enter: 'Fish' },
            { at: 'B1', enter: 640 },
            { at: 'A2', enter: 'Mean weight, g' },
            { at: 'B2', enter: 95 },
            { at: 'A3', enter: 'Water in the tank, L' },
            { at: 'B3', enter: 7800 },
            { at: 'A4', enter: 'Water, °C' },
            { at: 'B4', enter: 27 },
            { at: 'A5', enter: 'Limit, kg/m³' },
            { at: 'B5', enter: 20 },
          ],
          then: '20 kg/m³ is what simple aeration bears. Take more only with continuous air, oxygen measured each day and an alarm.',
        },
        {
          what: 'Ask how full it is today.',
          cells: [
            { at: 'A6', enter: 'Density now, kg/m³' },
            { at: 'B6', formula: '=GILL.STOCK.DENSITY(B1,B2,B3)', shows: '7.8' },
          ],
        },
      ],
    },
    {
      title: 'When it is full',
      steps: [
        {
          what: 'Look 20 weeks ahead: fish, weight, biomass, density and feed, in one formula.',
          cells: [
            ...['Week', 'Fish', 'Mean weight, g', 'Biomass, kg', 'kg/m³', 'Feed, g a day'].map(
              (enter, i) => ({ at: `${'DEFGHI'.charAt(i)}1`, enter }),
            ),
            {
              at: 'D2',
              formula: '=GILL.STOCK.FORECAST(B1,B2,20,B4,"Nile tilapia",0.98,B3)',
              shows: [
                ['0', '640', '95', '60.8', '7.8', '2122'],
                ['1', '639', '109', '69.4', '8.9', '2325'],
                ['2', '639', '123', '78.8', '10.1', '2569'],
              ],
            },
          ],
          then: 'These are the first three rows of 21.',
        },
        {
          what: 'Count the rows that are within the limit. The first row is week 0, so that the last good week is one less.',
          cells: [
            { at: 'A7', enter: 'Last week within the limit' },
            { at: 'B7', formula: '=COUNTIF(H2:H22,"<="&B5)-1', shows: '8' },
          ],
          then: 'Split by week {B7}, and have the second tank running, filtered and tested by then.',
          picture: {
            alt: 'Curve of the biomass in the tank over 20 weeks, from {B6} kg/m³ upwards. It passes the limit of {B5} kg/m³ after week {B7}.',
            draw: fillingTank,
          },
        },
      ],
    },
    {
      title: 'The split',
      cautions: [
        cautions.wounds,
        'Moving is hard on fish: no feed the day before, water of the same temperature and pH, wet hands and soft nets, air in every container. Move in the cool of the day.',
      ],
      steps: [
        {
          what: 'Ask how many fish of that week’s weight the tank may hold until they are sold at 700 g, and so how many must go.',
          cells: [
            { at: 'A8', enter: 'May stay until 700 g' },
            { at: 'B8', formula: '=GILL.STOCK.LIMIT(B3,700,B5)', shows: '222' },
            { at: 'A9', enter: 'Fish in the week of the split' },
            { at: 'B9', formula: '=INDEX(E2:E22,B7+1)', shows: '635' },
            { at: 'A10', enter: 'To be moved' },
            { at: 'B10', formula: '=ROUND(B9,0)-B8', shows: '413' },
          ],
          then: 'One tank of the same size does not hold all {B10} to the end: they need two such tanks, or a sale at a smaller weight, or the air and care for a higher density.',
        },
        {
          what: 'Ask for the feed of each tank after the split. The whole farm eats the same; each tank eats its share.',
          cells: [
            { at: 'A11', enter: 'Weight then, g' },
            { at: 'B11', formula: '=INDEX(F2:F22,B7+1)', shows: '241' },
            { at: 'A12', enter: 'Feed of those that stay, g a day' },
            { at: 'B12', formula: '=GILL.FEED.DAY(B8,B11,"Nile tilapia",B4)', shows: '1367' },
            { at: 'A13', enter: 'Feed of those that go, g a day' },
            { at: 'B13', formula: '=GILL.FEED.DAY(B10,B11,"Nile tilapia",B4)', shows: '2544' },
          ],
          then: 'Half of it for the first day or two, until they eat as before.',
        },
        {
          what: 'Weigh again after some weeks and teach the forecast your own fish: they grew from 95 g to 152 g in 28 days, in water of 27 °C.',
          cells: [
            { at: 'A14', enter: 'Your own coefficient' },
            { at: 'B14', formula: '=GILL.GROWTH.COEFFICIENT(95,152,28,27)', shows: '1.02' },
            { at: 'A15', enter: 'Days from there to 700 g' },
            {
              at: 'B15',
              formula: '=GILL.GROWTH.DAYS(152,700,B4,"Nile tilapia",B14)',
              shows: '128',
            },
          ],
          then: 'Put the coefficient at the end of the forecast, and it goes by your fish.',
        },
      ],
    },
  ],
};
