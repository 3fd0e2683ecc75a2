import { cautions } from '../functions/cautions';
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
        ['2019 and older', 'no: they keep no add-in running', 'untested'],
        ['iPad, iPhone, Android', 'no: they run no functions of add-ins', 'yes'],
        ['Other spreadsheets', 'no', 'yes; tried in LibreOffice'],
      ],
    },
    {
      title: 'For one grower: a try on your own computer',
      paragraphs: [
        'Has somebody else put Gillbed on the web for you, and sent you a file manifest.xml? Then you need nothing else: go on at Adding the manifest.',
      ],
      steps: [
        {
          what: 'In the project’s folder, with Node.js 20 or later, start this and leave it running. Where it finds Excel for Windows or Mac, it asks you to trust a certificate for this computer and opens Excel with Gillbed in it; elsewhere it says how to add the file manifest.xml by hand.',
          run: { script: 'excel' },
        },
        {
          what: 'Look for Gillbed on the Home tab, open the pane, and type =GILL. into a cell.',
        },
        {
          what: 'To end it, to take it out of Excel again, and to take back the trust in the certificate that was made for it:',
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
          then: 'Some hosts read the file _headers in it and send what it says. It belongs into the root of the site: where Gillbed stands in a folder of a larger site, add its lines to the file there. Where a host reads no such file, let it send “access-control-allow-origin: *” with functions.json, which Excel on the web asks for; and nothing that forbids keeping the icons.',
        },
        {
          what: 'Add the manifest, the file dist/manifest.xml, to Excel as the table below says.',
        },
        {
          what: 'After a new version of Gillbed, build it for the same address and copy the new dist to the same place. Pane and results are new when Excel is started again; Excel keeps the list of functions for up to a day, or until you add the new manifest.',
        },
      ],
    },
    {
      title: 'Adding the manifest',
      table: [
        ['Excel', 'What to do with the file manifest.xml'],
        ['On the web', 'Home, Add-ins, More Settings, Upload My Add-in. It stays in this browser.'],
        [
          'Windows',
          'Share a folder and put the file into it. Name the folder by its network path (\\\\computer\\folder) under File, Options, Trust Center, Trust Center Settings, Trusted Add-in Catalogs, with a tick at Show in Menu. Start Excel again; then Home, Add-ins, Shared Folder.',
        ],
        [
          'Mac',
          'Copy it into the folder Library/Containers/com.microsoft.Excel/Data/Documents/wef of your home; make the folder wef if it is not there. Start Excel again; then Home, Add-ins.',
        ],
        [
          'A whole company',
          'Its administrator of Microsoft 365 adds it once under Integrated apps, and it appears for everybody chosen.',
        ],
      ],
    },
    {
      title: 'For a consultant’s clients',
      points: [
        'Easiest by far: send a plain workbook and nothing else. The client installs nothing; see the guide on sending a workbook.',
        'Clients who shall compute with GILL functions themselves get the manifest of your web space, and add it as above. They need no Node.js and no web space.',
        'Keep the address, and the Id in manifest.xml: workbooks remember functions and add-in by their names.',
      ],
      steps: [
        {
          what: 'A workbook for such clients can name its add-in, so that Excel offers them the pane when they open it. Say how they have it: organisation (from their administrator), sideloaded (by npm run excel), or the network path of the shared folder. Leave it out for everybody else: where Excel does not find the add-in in that place, it shows an error in its stead.',
          run: {
            command: 'plan --demo --out for-client.xlsx --add-in organisation',
            prints: ['for-client.xlsx: … sheets, GILL functions, offers the pane.'],
          },
        },
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
        'Still an old Gillbed? Let Excel forget what it keeps. On Windows, tick the box that clears the add-ins’ cache at the next start, under Trusted Add-in Catalogs. On a Mac, close Excel and empty the folder Library/Containers/com.Microsoft.OsfWebHost/Data of your home. On the web, delete what the browser keeps for the site.',
        'A function that has no answer for its arguments shows #VALUE! in Excel with a sentence, where the workbench and plain formulas show #NUM!: Excel has no place for a sentence beside #NUM!.',
        'An add-in error in the pane as a workbook opens: the workbook was made for another version of Gillbed, or for another way of adding it. Close that pane and open Gillbed on the Home tab.',
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
        'No Excel was at hand when Gillbed was made. Microsoft’s own client library was: what it sends to Excel for every build, reading, repair and function is held by tests, byte by byte, and so is what comes of a failure at any request. What Excel itself makes of it remains. Go through these in order, on Windows, Mac or the web, and write down the versions that stand at the foot of the pane with what you saw.',
      ],
      points: [
        'With a network: npm run validate. It sends manifest.xml, and nothing else, to Microsoft.',
        'Add the manifest. The button appears on the Home tab with its icon, and opens the pane; Office’s own script, which is newer than the library of the tests, gives notes on cells where this Excel can.',
        'Open the live sample, sample-workbooks/quillwater-live.xlsx: values and no #NAME?, before and after you open the pane. Change the fish of a row in the Fish log and count the seconds until Balance follows, with the pane open and closed.',
        'Build the example farm from the pane into a workbook with a sheet of your own. Look whether colours, lists, notes and charts are as in the sample; say how long it took.',
        'In Insert Function, the help link leads to its page; a sentence appears on hovering over an error.',
        'Send a live workbook to a computer without Gillbed, change and save it there, take it back, and repair it.',
        'Open a workbook that names its add-in, once where Gillbed was added in that way and once where it was not.',
        'Put a newer build in the place of the first: when does it arrive?',
        'Run npm run excel and npm run excel:stop on Windows and on a Mac.',
        'Where there is Excel 2021, bought once: does any of this work?',
      ],
    },
  ],
};
