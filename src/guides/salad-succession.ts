import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { succession } from './pictures';

export const saladSuccession: Guide = {
  id: 'salad-succession',
  title: 'A year of salad in succession',
  question: 'How do I have 320 heads of lettuce every week of the year?',
  leads:
    'The day of the first sowing, seeds and trays for each week, the beds they fill, and a sowing plan for 52 weeks.',
  cautions: [cautions.figures, cautions.food, cautions.coli, cautions.sprays],
  sections: [
    {
      title: 'One week',
      steps: [
        {
          what: 'Type the first market day and the heads for each week.',
          cells: [
            { at: 'A1', enter: 'First harvest' },
            { at: 'B1', enter: '2026-05-06' },
            { at: 'A2', enter: 'Heads a week' },
            { at: 'B2', enter: 320 },
          ],
        },
        {
          what: 'Count back to the day of sowing. Where it shows as a number such as 46098, give the cell a date format.',
          cells: [
            { at: 'A3', enter: 'Sow' },
            { at: 'B3', formula: '=GILL.SOW.DATE(B1,"lettuce")', shows: '2026-03-16' },
            { at: 'A4', enter: 'Plant out' },
            {
              at: 'B4',
              formula: '=GILL.SOW.STAGE(B3,"lettuce","transplant")',
              shows: '2026-04-06',
            },
          ],
        },
        {
          what: 'Ask for seeds and trays: 90 % of the seed comes up, 8 % of the seedlings are lost, and a tray has 128 cells.',
          cells: [
            { at: 'A5', enter: 'Seeds a week' },
            { at: 'B5', formula: '=GILL.SEED.COUNT(B2,"90 %","8 %")', shows: '387' },
            { at: 'A6', enter: 'Trays a week' },
            { at: 'B6', formula: '=GILL.SEED.TRAYS(B5,128)', shows: '4' },
          ],
        },
        {
          what: 'Ask how many heads stand in the beds in a normal week, and the beds for them.',
          cells: [
            { at: 'A7', enter: 'Heads standing' },
            { at: 'B7', formula: '=GILL.BED.PLANTS(B2,"lettuce")', shows: '1371' },
            { at: 'A8', enter: 'Bed, m²' },
            { at: 'B8', formula: '=GILL.BED.AREA(B2,"lettuce")', shows: '68.6' },
          ],
        },
      ],
    },
    {
      title: 'The whole year',
      steps: [
        {
          what: 'Type one formula for all 52 sowings. It fills a block of 52 rows below its heads.',
          cells: [
            ...['Batch', 'Sow', 'Plant out', 'First cut', 'Place free', 'Week'].map((enter, i) => ({
              at: `${'DEFGHI'.charAt(i)}1`,
              enter,
            })),
            {
              at: 'D2',
              formula: '=GILL.SOW.SERIES(B3,7,52,"lettuce")',
              shows: [
                ['1', '2026-03-16', '2026-04-06', '2026-05-06', '2026-05-06', '2026-W12'],
                ['2', '2026-03-23', '2026-04-13', '2026-05-13', '2026-05-13', '2026-W13'],
                ['3', '2026-03-30', '2026-04-20', '2026-05-20', '2026-05-20', '2026-W14'],
              ],
            },
          ],
          then: 'These are the first three rows. The first batch is cut on {G2}, the next on {G3}. Heads are cut once: a batch is taken on its day, or within the few that it keeps, and its place is free with the cut.',
          picture: {
            alt: 'Bars in time for the first eight batches: each is three weeks in the nursery, then in the bed, then cut within a week; each begins a week after the one before.',
            draw: succession,
          },
        },
      ],
    },
    {
      title: 'Winter',
      cautions: [cautions.heater],
      paragraphs: [
        'The table’s days are for a season with light enough. In short days the same lettuce takes weeks longer, and the steady row of dates opens a gap.',
      ],
      steps: [
        {
          what: 'Look at the light of your place in May and at the turn of the year, here at latitude 44.2 north.',
          cells: [
            { at: 'A9', enter: 'Day length in May, h' },
            { at: 'B9', formula: '=GILL.SUN.HOURS(44.2,"2026-05-06")', shows: '14.2' },
            { at: 'A10', enter: 'Day length at new year, h' },
            { at: 'B10', formula: '=GILL.SUN.HOURS(44.2,"2027-01-01")', shows: '8.8' },
          ],
          then: 'At {B10} hours little grows, heated or not. Plan for a store of large heads that stand, or for lamps, or for a smaller winter market.',
        },
        {
          what: 'Count back with days of your own. Here the farm’s records say 92 days from sowing to the cut in January.',
          cells: [
            { at: 'A11', enter: 'Sow for 6 January' },
            { at: 'B11', formula: '=GILL.SOW.DATE("2027-01-06",92)', shows: '2026-10-06' },
          ],
        },
      ],
    },
  ],
};
