import { cautions } from './cautions';
import type { Guide } from './guide';

const ADDRESS = 'https://farm.example/gillbed/';

export const installInExcel: Guide = {
  id: 'install-in-excel',
  title: 'Install in Excel',
  question: 'How do I get Gillbed into my Excel, and what do my clients need?',
  leads:
    'Three ways: on your own computer for a try, from a web space for good, or no installation at all with plain workbooks.',
  cautions: [
    'Nobody has yet run Gillbed in a real Excel. What stands here follows Microsoft’s documents and other people’s reports; the list at the end says what remains to be tried. Keep a copy of every workbook that matters.',
    cautions.law,
  ],
  sections: [
    {
      title: 'Which Excel can what',
      table: [
        ['Excel', 'GILL functions and pane', 'Plain workbooks'],
        ['Microsoft 365 on Windows and Mac', 'yes', 'yes'],
        ['Excel on the web', 'yes', 'yes'],
        ['2024, bought once', 'should; plans come without notes on cells', 'yes'],
        ['2021, bought once', 'may: Microsoft’s own pages disagree', 'yes'],
        ['2019 and older', 'no', 'untested'],
        ['iPad, iPhone, Android', 'no: they run no functions of add-ins', 'yes'],
        ['Other spreadsheets', 'no', 'yes; tried in LibreOffice'],
      ],
    },
    {
      title: 'For one grower: a try on your own computer',
      steps: [
        {
          what: 'In the project’s folder, with Node.js 20 or later, start this and leave it running. Where it can, it opens Excel with Gillbed in it; elsewhere it says how to add the file manifest.xml by hand.',
          run: { script: 'excel' },
        },
        {
          what: 'Look for Gillbed on the Home tab, open the pane, and type =GILL. into a cell.',
        },
        {
          what: 'To take it out of Excel again:',
          run: { script: 'excel:stop' },
          then: 'As long as the first command does not run, Excel finds no Gillbed: for every day, use a web space.',
        },
      ],
    },
    {
      title: 'For one grower: for good',
      steps: [
        {
          what: 'Build the folder for the address at which it will stand. It must begin with https; the address here is an example.',
          run: { script: 'build', args: ['--base', ADDRESS] },
          then: 'Everything is in the folder dist: there is no server part, no account, and nothing of your workbooks is sent to that address.',
        },
        {
          what: 'Copy all that is in dist to that web space, and open the address with index.html behind it in a browser: the workbench must appear.',
        },
        {
          what: 'Add dist/manifest.xml to Excel. On the web: Home, Add-ins, More Settings, Upload My Add-in. On Windows: put the file into a shared folder, and name that folder under File, Options, Trust Center, Trust Center Settings, Trusted Add-in Catalogs; then Home, Add-ins, Shared Folder. On a Mac: copy it into the folder Library/Containers/com.microsoft.Excel/Data/Documents/wef of your home, and start Excel again.',
        },
        {
          what: 'After a new version of Gillbed, copy the new dist to the same place. Add the manifest again only when its version number has changed.',
        },
      ],
    },
    {
      title: 'For a consultant’s clients',
      points: [
        'Easiest by far: send a plain workbook and nothing else. The client installs nothing; see the guide on sending a workbook.',
        'Clients who shall compute with GILL functions themselves get the manifest of your web space, and add it as above.',
        'In a company with Microsoft 365, its administrator adds the manifest once under Integrated apps, and it appears for everybody chosen.',
        'Keep ids and address as they are: workbooks remember the functions by their names, and the manifest by its number.',
      ],
    },
    {
      title: 'On a computer without Gillbed',
      points: [
        'A workbook with GILL formulas opens and shows its last values.',
        'A cell keeps its value until something recalculates it, such as a change in a cell that it looks at; then it shows #NAME?.',
        'So do not let a client work in a live workbook. Hand over a copy.',
      ],
    },
    {
      title: 'Repair',
      points: [
        'After #NAME?: install Gillbed or open its pane once, then Hand over, “Repair the formulas”. Protected sheets are left out and named; unprotect them first.',
        'When functions are missing though the pane opens: close Excel altogether and start it again. If that does not help, remove the add-in, add it again, and repair.',
        '#BUSY! that does not end: open the pane, and have the workbook calculated anew with Ctrl+Alt+F9.',
        '#SPILL!: something stands where the answer wants to go. Empty those cells.',
      ],
      steps: [
        {
          what: 'A file can be mended without Excel, too. Here on the plan of the invented farm, which has nothing to mend.',
          run: {
            command: 'plan --demo --out quillwater.xlsx',
            prints: ['quillwater.xlsx: … sheets, GILL functions.'],
          },
        },
        {
          what: 'Write the mended copy.',
          run: {
            command: 'repair quillwater.xlsx --out mended.xlsx',
            prints: ['mended.xlsx: 0 formulas mended.'],
          },
        },
      ],
    },
    {
      title: 'What nobody could try yet: a list for a person with Excel',
      paragraphs: [
        'No Excel was at hand when Gillbed was made. If you have one, go through these in order, on Windows, Mac or the web, and write down the version of Excel with what you saw.',
      ],
      points: [
        'Add the manifest. The Gillbed button appears on the Home tab, and opens the pane.',
        'Open the live sample, sample-workbooks/quillwater-live.xlsx. Cells show values and no #NAME?, before and after you open the pane.',
        'Change an input: on the sheet Tanks, another number of fish. Density, feed and the sheet Balance follow.',
        'Type a formula of your own, once for one cell and once for a range whose answer fills several cells.',
        'Build a plan from the pane with the example farm, into a workbook that has a sheet already. That sheet is untouched. Build once more and cancel half way: nothing half made is left.',
        'Hand over: make the copy, send it to a computer without Gillbed, change an input there, and compare the numbers.',
        'Send a live workbook to a computer without Gillbed, change and save it there, take it back, and repair it.',
        'Say how long the live sample takes after a change, with the pane open and closed.',
        'Where there is Excel 2021, bought once: does any of this work?',
      ],
    },
  ],
};
