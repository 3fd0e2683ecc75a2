import { cautions } from '../functions/cautions';
import type { Guide } from './guide';

export const sendAWorkbook: Guide = {
  id: 'send-a-workbook',
  title: 'Send a client a workbook',
  question: 'My client has no Gillbed. How do I send a workbook that works there?',
  leads:
    'A copy in which every GILL formula has become a formula of the spreadsheet’s own functions. It goes on computing, on any computer and in any of the usual spreadsheets.',
  cautions: [
    'A plan that leaves your hands loses your eye. Say in your letter which figures were measured, which are starting values, and on which day.',
    cautions.figures,
    cautions.law,
  ],
  sections: [
    {
      title: 'In Excel or the workbench',
      screenshot: {
        file: 'hand-over.webp',
        alt: 'The pane at Hand over: a choice of Formulas or Values above the button Make the copy, and below it Repair the formulas.',
      },
      points: [
        'Open the workbook. In the pane choose Check and press “Check the workbook”: put right what it finds before it leaves you.',
        'Choose Hand over. Take “Formulas” where the client will change figures, and “Values” where nothing may move any more.',
        'Tick “Hide the sheets that are added” where they would be in the way, and “Leave open only what is typed” where the client is to fill in figures and nothing else: sheets are then protected, without a password.',
        'Press “Make the copy”. Your own workbook stays as it is; the copy opens or is saved beside it, with a list of what became of each formula.',
        'Read that list. Where a formula could only be kept as a value, it says why: a text with a unit in a cell, such as “78 degF”, is one such reason.',
      ],
    },
    {
      title: 'From the terminal',
      steps: [
        {
          what: 'Here the workbook is the plan of the invented farm Quillwater.',
          run: {
            command: 'plan --demo --out quillwater.xlsx',
            prints: ['quillwater.xlsx: … sheets, GILL functions.'],
          },
        },
        {
          what: 'Look it over. Findings are printed with their cell, the reason and what to do; the exit status is 1 when there are any.',
          run: {
            command: 'check quillwater.xlsx',
            status: 1,
            prints: [
              '…',
              'Beds!…  3 of 48 beds have no crop: 20.6 of 351 m².',
              '    Why: What the plants do not take up stays in the water, and an empty bed earns nothing.',
              '    Do: Plant them from the nursery, or sow for them this week; feed less as long as they stand empty.',
              '…',
            ],
          },
        },
        {
          what: 'Make the copy. One line for each formula says what it became, and the last line counts them.',
          run: {
            command: 'handover quillwater.xlsx --out client.xlsx',
            prints: ['…', 'client.xlsx: … GILL formulas, … now plain, 0 now values.'],
          },
        },
        {
          what: 'See that nothing is left in it that would need Gillbed.',
          run: {
            command: 'handover client.xlsx --out nothing-left.xlsx',
            prints: ['nothing-left.xlsx: 0 GILL formulas, 0 now plain, 0 now values.'],
          },
        },
        {
          what: 'For a copy that only shows, hand over the values.',
          run: {
            command: 'handover quillwater.xlsx --out values.xlsx --values',
            prints: ['…', 'values.xlsx: … GILL formulas, … now plain, … now values.'],
          },
          then: 'The formulas that stay are those of table columns, which write themselves into rows added later.',
        },
        {
          what: 'A file that is there already is not written over by mistake.',
          run: {
            command: 'handover quillwater.xlsx --out client.xlsx',
            status: 2,
            prints: [
              'client.xlsx is there already; give another name, or add --force to replace it.',
            ],
          },
        },
      ],
    },
    {
      title: 'Or plain from the start',
      steps: [
        {
          what: 'A plan that is meant for a client can be built without GILL functions at once. In the pane choose “Plain formulas” before you press “Build the plan”.',
          run: {
            command: 'plan --demo --out plain.xlsx --plain',
            prints: ["plain.xlsx: … sheets, the spreadsheet's own functions only."],
          },
        },
      ],
    },
    {
      title: 'When the client sends it back',
      paragraphs: [
        'A plain copy comes back as an ordinary workbook: keep your own file as the one that lives. Open your own, choose Hand over, then “Choose the copy” under “A copy that came back”: what the client typed otherwise is listed by its label, old and new, and a button takes it over into a copy of yours. In the terminal “returned OWN.xlsx BACK.xlsx” does the same.',
        'A workbook with GILL formulas that was saved on a computer without Gillbed may show #NAME? when it returns.',
      ],
      steps: [
        {
          what: 'Mend such a workbook: the formulas are written anew as they stand.',
          run: {
            command: 'repair quillwater.xlsx --out mended.xlsx',
            prints: ['mended.xlsx: 0 formulas mended.'],
          },
          then: 'This one had nothing to mend. In Excel the same is under Hand over, “Repair the formulas”.',
        },
      ],
    },
  ],
};
