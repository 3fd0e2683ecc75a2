import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { messages } from './pictures';

export const speedWithRanges: Guide = {
  id: 'speed-with-ranges',
  title: 'Speed with ranges',
  question: 'My log has thousands of rows and the workbook has become slow. What do I do?',
  leads: 'One formula in place of thousands, with the same numbers.',
  cautions: [cautions.figures],
  sections: [
    {
      paragraphs: [
        'In Excel each call of an add-in’s function is a message there and back, whatever it computes. Thousands of calls are slow, and a chain in which each waits for the one above is slowest. A call for a whole range is one message.',
      ],
      steps: [
        {
          what: 'Here is a log with a formula in each row.',
          cells: [
            ...['Water, °C', 'pH', 'TAN, mg/L', 'A formula a row', 'One for all'].map(
              (enter, i) => ({ at: `${'ABCDE'.charAt(i)}1`, enter }),
            ),
            ...(
              [
                [25.4, 7.1, 0.9],
                [25.6, 7, 0.8],
                [26.1, 7.4, 1.3],
                [26.5, 7.8, 1.6],
              ] as const
            ).flatMap((row, r) =>
              row.map((enter, c) => ({
                // Row 4 is left blank: a week without a test.
                at: `${'ABC'.charAt(c)}${r < 2 ? r + 2 : r + 3}`,
                enter,
              })),
            ),
            ...['0.0066', '0.0047'].map((shows, r) => ({
              at: `D${r + 2}`,
              formula: `=GILL.AMMONIA.UNIONISED(C${r + 2},B${r + 2},A${r + 2})`,
              shows,
            })),
            ...['0.0197', '0.0612'].map((shows, r) => ({
              at: `D${r + 5}`,
              formula: `=GILL.AMMONIA.UNIONISED(C${r + 5},B${r + 5},A${r + 5})`,
              shows,
            })),
          ],
        },
        {
          what: 'Type one formula for all rows, in the top cell. The column below must be empty, for the answer fills it. A row without a test stays blank.',
          cells: [
            {
              at: 'E2',
              formula: '=GILL.AMMONIA.UNIONISED(C2:C6,B2:B6,A2:A6)',
              shows: [['0.0066'], ['0.0047'], [''], ['0.0197'], ['0.0612']],
            },
          ],
          then: 'Compare the two columns, then delete column D.',
          picture: {
            alt: 'Left, four cells with an arrow to Gillbed and back for each of them; right, the same four cells with one arrow there and one back for all.',
            draw: messages,
          },
        },
        {
          what: 'A single value beside ranges counts for every row, here one pH for all.',
          then: 'Since each row now has a pH, a row without a test is one in which something is missing, and says so. Leave such rows out of the ranges.',
          cells: [
            {
              at: 'F2',
              formula: '=GILL.AMMONIA.UNIONISED(C2:C6,7.5,A2:A6)',
              shows: [['0.0163'], ['0.0147'], ['#VALUE!'], ['0.0247'], ['0.0313']],
            },
            { at: 'F1', enter: 'At pH 7.5' },
          ],
        },
        {
          what: 'What marches on week by week has a function for all weeks together. Ask for it once, and not for each week from the week before.',
          cells: [
            {
              at: 'H1',
              formula: '=GILL.GROWTH.CURVE(50,28,7,27)',
              shows: [
                ['0', '50.0', '2.15'],
                ['7', '59.0', '2.44'],
                ['14', '68.9', '2.73'],
                ['21', '79.9', '3.01'],
              ],
            },
          ],
        },
      ],
    },
    {
      title: 'More that helps',
      points: [
        'Keep cheap arithmetic in the spreadsheet’s own formulas: a sum or a product needs no add-in.',
        'Do not hand TODAY(), NOW(), OFFSET() or INDIRECT() to a GILL function: it would be worked again at each keystroke. Keep the date in a cell.',
        'Let formats and drop-down lists look at cells that hold a result. Excel cannot call an add-in’s function inside conditional formatting.',
        'Keep the pane open while a large workbook recalculates: some builds of Excel run add-ins more slowly while it is closed.',
        'Ranges of one call must have equal shapes. Where they differ, the cell says so.',
      ],
    },
  ],
};
