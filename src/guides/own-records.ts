import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { ownGrowth } from './pictures';
import { recordsFile, slippedFile } from './records-farm';

export const ownRecords: Guide = {
  id: 'own-records',
  title: 'Move your own records in',
  question: 'I have years of records in my own sheets. How do I use them here?',
  leads:
    'Functions on the sheets that you have, in the units that you write; your own growth and days in place of the table’s; and a farm file from which the plan is built.',
  cautions: [
    'Work on a copy until the numbers agree with what you know.',
    cautions.figures,
    cautions.law,
  ],
  files: { 'millrace.json': recordsFile, 'first-try.json': slippedFile },
  sections: [
    {
      title: 'Stay in your own sheet',
      paragraphs: [
        'Nothing has to be moved for the functions: they take your columns where they stand. The checks know columns by the names of the trade, such as Date, pH, Temperature, TAN, Tank, Fish, Mean weight, Bed, Crop, Sown; a unit may stand in brackets behind the name.',
      ],
      steps: [
        {
          what: 'Here is a log in °F, from a kit that shows ammonia as the ion, NH4.',
          cells: [
            ...['Date', 'Temperature, °F', 'pH', 'NH4, mg/L', 'TAN, mg/L', 'Un-ionised'].map(
              (enter, i) => ({ at: `${'ABCDEF'.charAt(i)}1`, enter }),
            ),
            ...(
              [
                ['2026-04-17', 77, 7.2, 1.5],
                ['2026-04-24', 79, 7.6, 1.8],
                ['2026-05-01', 78, 7.1, 1],
              ] as const
            ).flatMap((row, r) =>
              row.map((enter, c) => ({ at: `${'ABCD'.charAt(c)}${r + 2}`, enter })),
            ),
          ],
        },
        {
          what: 'Turn the kit’s figure into nitrogen: 14.007 of the 18.038 parts of NH4 are nitrogen. For a kit that shows NH3 it is 14.007 of 17.031.',
          cells: [
            { at: 'E2', formula: '=D2*14.007/18.038', shows: '1.16' },
            { at: 'E3', formula: '=D3*14.007/18.038', shows: '1.40' },
            { at: 'E4', formula: '=D4*14.007/18.038', shows: '0.78' },
          ],
        },
        {
          what: 'Bare numbers count as °C, so turn the column on the way. The answer fills the column.',
          cells: [
            {
              at: 'F2',
              formula: '=GILL.AMMONIA.UNIONISED(E2:E4,C2:C4,(B2:B4-32)/1.8)',
              shows: [['0.0104'], ['0.0333'], ['0.0057']],
            },
          ],
        },
        {
          what: 'One figure with its unit can be typed as text, in quotes or in a cell.',
          cells: [
            { at: 'A6', enter: 'Tank' },
            { at: 'B6', enter: '800 gal' },
            { at: 'A7', enter: 'Fish of 1.5 lb that it holds' },
            { at: 'B7', formula: '=GILL.STOCK.LIMIT(B6,"1.5 lb")', shows: '89' },
          ],
          then: 'Such a cell is for GILL functions only: the spreadsheet’s own formulas, and a plain copy for a client, want the number alone.',
        },
        {
          what: 'See what °F does in a place for °C.',
          cells: [
            { at: 'A8', enter: 'A slip' },
            {
              at: 'B8',
              formula: '=GILL.OXYGEN.FULL(B2)',
              shows: '#VALUE!',
              says: 'water must be between 0 and 40 °C; got 77',
            },
            { at: 'A9', enter: 'Put right, mg/L' },
            { at: 'B9', formula: '=GILL.OXYGEN.FULL(B2&" degF")', shows: '8.26' },
          ],
        },
      ],
    },
    {
      title: 'Let your records speak',
      steps: [
        {
          what: 'Your fish grew from 60 g to 410 g in 140 days, at a mean of 26 °C. Take the coefficient from that, and ask for the days from 60 g to 680 g.',
          cells: [
            { at: 'A10', enter: 'Own growth coefficient' },
            { at: 'B10', formula: '=GILL.GROWTH.COEFFICIENT(60,410,140,26)', shows: '0.965' },
            { at: 'A11', enter: 'Days to 680 g, own fish' },
            {
              at: 'B11',
              formula: '=GILL.GROWTH.DAYS(60,680,26,"Nile tilapia",B10)',
              shows: '194',
            },
            { at: 'A12', enter: 'Days to 680 g, table' },
            { at: 'B12', formula: '=GILL.GROWTH.DAYS(60,680,26,"Nile tilapia")', shows: '171' },
          ],
          picture: {
            alt: 'Two curves of weight from 60 g to 680 g: your fish take {B11} days, the table’s {B12}.',
            draw: ownGrowth,
          },
        },
        {
          what: 'Your feed and gain of a year: 610 kg fed, 405 kg gained.',
          cells: [
            { at: 'A13', enter: 'Feed conversion' },
            { at: 'B13', formula: '=GILL.FEED.CONVERSION(610,405)', shows: '1.51' },
          ],
        },
        {
          what: 'Your lettuce took 61 days last spring. Give the days in place of the crop’s name.',
          cells: [
            { at: 'A14', enter: 'Sow for 1 June' },
            { at: 'B14', formula: '=GILL.SOW.DATE("2026-06-01",61)', shows: '2026-04-01' },
          ],
        },
      ],
    },
    {
      title: 'A farm file for the plan',
      paragraphs: [
        'The plan is built from one file. The pane writes it for you as you fill in Plan; it can also be typed or made from your sheets, as the file millrace.json below. Bare numbers are in the units that the farm names, here US; any figure may carry its own. What may be left out is taken as usual; what must be there is asked for by name.',
      ],
      steps: [
        {
          what: 'A first try, with a pH that lost its point and a misspelt fish: every wrong field is named, with what would be right, and nothing is built.',
          run: {
            command: 'plan first-try.json --out millrace.xlsx',
            status: 2,
            prints: [
              'first-try.json: The farm file has 2 wrong fields:',
              '- stock.species must be the name of a species in the table, such as "Nile tilapia"; got "Nile tilapa"',
              '- waterTests[0].ph must be a pH from 3 to 12; got 71',
            ],
          },
        },
        {
          what: 'Put right, the workbook is built.',
          run: {
            command: 'plan millrace.json --out millrace.xlsx',
            prints: ['millrace.xlsx: … sheets, GILL functions.'],
          },
        },
        {
          what: 'Let the checks look at it.',
          run: {
            command: 'check millrace.xlsx',
            status: 1,
            prints: [
              '…',
              'Beds!…  2 of 2 beds have no crop: 17.8 of 17.8 m².',
              '    Why: What the plants do not take up stays in the water, and an empty bed earns nothing.',
              '    Do: Plant them from the nursery, or sow for them this week; feed less as long as they stand empty.',
              '…',
            ],
          },
          then: 'Go on in the workbook: logs and tables have spare rows, and you can paste columns of your own into the cells meant for typing.',
        },
      ],
    },
    {
      title: 'What to write down day by day',
      paragraphs: [
        'Feed goes into the Feed log: day, tank, how much, which feed with the lot from its bag; 0 where a tank fasted. The pane’s page Note does it with one tap, and offers what the tank got the last time. Between two weighings your own conversion follows from it, as long as no more than two days in a row have no line. The check names feed for a tank without fish and feed far from what the plan has for the fish.',
        'The Water log takes, beside the tests, the water that was added since the line before that says how much, and how much base was given, and which: water a day and alkalinity for each kg of feed follow from these.',
        'What was given against disease or pests goes into the Treatments, with the days to wait of the label. Fish and crops that are sold before those days are over are named beside the sale and by the check, fish also where they were moved to another tank since. The label, the vet and local law decide how long the wait is.',
      ],
    },
  ],
};
