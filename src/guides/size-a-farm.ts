import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { farmChain } from './pictures';

export const sizeAFarm: Guide = {
  id: 'size-a-farm',
  title: 'Size a farm from a market target',
  question:
    'The market wants 320 heads of lettuce and 150 bunches of basil a week. How large a farm is that?',
  leads:
    'From what you sell to bed area, from bed area to feed, from feed to fish, tanks and filter: ten cells, each of which follows when you change the target.',
  cautions: [
    cautions.figures,
    cautions.weight,
    cautions.air,
    cautions.permit,
    cautions.quarantine,
    cautions.electricity,
    cautions.law,
  ],
  sections: [
    {
      title: 'From the market to the beds',
      steps: [
        {
          what: 'Type what goes to market each week. A basil plant of this farm gives five bunches in its life, so that 150 bunches are 30 plants.',
          cells: [
            { at: 'A1', enter: 'Lettuce, heads a week' },
            { at: 'B1', enter: 320 },
            { at: 'A2', enter: 'Basil, bunches a week' },
            { at: 'B2', enter: 150 },
            { at: 'A3', enter: 'Basil, plants a week' },
            { at: 'B3', formula: '=B2/5', shows: '30' },
          ],
        },
        {
          what: 'Ask for the beds. A crop stays in its bed for weeks, so that several plantings stand there at once; the function counts them all.',
          cells: [
            { at: 'A4', enter: 'Lettuce bed, m²' },
            { at: 'B4', formula: '=GILL.BED.AREA(B1,"lettuce")', shows: '68.6' },
            { at: 'A5', enter: 'Basil bed, m²' },
            { at: 'B5', formula: '=GILL.BED.AREA(B3,"basil")', shows: '16.5' },
          ],
          then: '{B4} m² of lettuce and {B5} m² of basil. Paths, nursery and beds between two crops come on top.',
        },
      ],
    },
    {
      title: 'From the beds to the fish',
      steps: [
        {
          what: 'Ask how much feed a day the plants call for. The fish eat it; what they leave feeds the beds.',
          cells: [
            { at: 'A6', enter: 'Feed, g a day' },
            {
              at: 'B6',
              formula: '=GILL.FEED.WANTED(B4,"lettuce")+GILL.FEED.WANTED(B5,"basil")',
              shows: '4406',
            },
          ],
        },
        {
          what: 'Turn the feed into fish to sell: a month of feed in kg (a mean month has 30.4375 days), divided by the feed that a kg of growth takes.',
          cells: [
            { at: 'A7', enter: 'Fish, kg a month' },
            {
              at: 'B7',
              formula: '=B6*30.4375/1000/GILL.FACT.FISH("Nile tilapia","fcr")',
              shows: '78.9',
            },
          ],
          then: 'Can you sell {B7} kg of fish a month? If not, the fish and not the lettuce set the size of the farm: then begin with them, and ask GILL.FEED.AREA how much bed their feed can supply.',
        },
        {
          what: 'Ask for the tanks: fish come in at 50 g, leave at 700 g, in water of 27 °C. The answer fills a block, so leave the cells below and beside it empty.',
          cells: [
            {
              at: 'D1',
              formula: '=GILL.STOCK.ROTATION(B7,700,50,27)',
              shows: [
                ['Days in the tank', '175'],
                ['Weeks between harvests', '6.2'],
                ['Fish to stock in a batch', '171'],
                ['Fish to harvest from a batch', '162'],
                ['Harvest of a batch, kg', '113'],
                ['Water for each batch, L', '1890'],
                ['Biomass just before a harvest, kg', '248'],
                ['Mean feed, g/day', '4466'],
                ['Peak feed, g/day', '5337'],
                ['Fingerlings a year', '1428'],
              ],
            },
          ],
          then: 'Without more said, four batches grow at a time, at the density that an aerated commercial tank bears, and 95 of 100 fish live.',
        },
      ],
    },
    {
      title: 'What the feed asks of the water',
      steps: [
        {
          what: 'Ask for the ammonia that this feed makes, the filter media that take it up (500 m² in a m³, as on the bag of this media), and the oxygen that fish and bacteria use.',
          cells: [
            { at: 'A8', enter: 'Ammonia, g of N a day' },
            { at: 'B8', formula: '=GILL.LOAD.TAN(B6)', shows: '129.7' },
            { at: 'A9', enter: 'Filter media, L' },
            { at: 'B9', formula: '=GILL.FILTER.MEDIA(B8,500)', shows: '576' },
            { at: 'A10', enter: 'Oxygen, g a day' },
            { at: 'B10', formula: '=GILL.LOAD.OXYGEN(B6)', shows: '2203' },
          ],
          then: 'Size aeration for the hour after feeding, not for the mean of the day.',
          picture: {
            alt: 'Chain of boxes: {B1} heads and {B2} bunches a week call for {B4} and {B5} m² of beds, these for {B6} g of feed a day, this for {B7} kg of fish a month, four tanks of {E6} L, {B9} L of filter media and {B10} g of oxygen a day.',
            draw: farmChain,
          },
        },
        {
          what: 'Change the target, and look at what follows: type 400 heads instead of 320.',
          cells: [
            { at: 'B1', enter: 400 },
            { at: 'B4', shows: '85.7' },
            { at: 'B6', shows: '5177' },
            { at: 'B7', shows: '92.7' },
            {
              at: 'D1',
              shows: [
                ['Days in the tank', '175'],
                ['Weeks between harvests', '6.2'],
                ['Fish to stock in a batch', '202'],
                ['Fish to harvest from a batch', '191'],
                ['Harvest of a batch, kg', '134'],
                ['Water for each batch, L', '2228'],
                ['Biomass just before a harvest, kg', '292'],
                ['Mean feed, g/day', '5275'],
                ['Peak feed, g/day', '6304'],
                ['Fingerlings a year', '1687'],
              ],
            },
            { at: 'B8', shows: '152.4' },
            { at: 'B9', shows: '677' },
            { at: 'B10', shows: '2589' },
          ],
          then: 'Eighty heads more a week are {B4} m² of lettuce in all and {B7} kg of fish a month.',
        },
      ],
    },
    {
      title: 'Go on',
      screenshot: {
        file: 'workbench.webp',
        alt: 'A planning workbook: the farm at a glance, what to change, and the pane beside it with the parts of the plan to fill in.',
      },
      paragraphs: [
        'These cells are the first sketch. For beds by name, tanks as they stand, sowing dates, pumps, seasons and money, open the pane, choose Plan, and begin with your own farm; it writes the whole planning workbook.',
      ],
    },
  ],
};
