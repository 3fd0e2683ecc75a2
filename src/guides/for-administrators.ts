import { VERSION } from '../functions/version';
import type { Guide } from './guide';

/** What a person at Microsoft can type to see that functions work; a test types it. */
export const VALIDATION_NOTE =
  'type =GILL.AMMONIA.UNIONISED(1,8,24) into a cell: it shows 0.0502 (mg/L), the worked example of UF/IFAS FA16';

export const forAdministrators: Guide = {
  id: 'for-administrators',
  title: 'For administrators',
  question: 'May this add-in run in our organisation, and what must I set up?',
  leads:
    'One page for whoever decides and sets up: addresses, permissions, privacy, support, versions, licences, and what Microsoft’s published rules for add-ins ask, each with how it is held.',
  cautions: [
    'Nobody has yet run Gillbed in a real Excel, nor sent it to Microsoft. What stands here is what the project’s own tests hold, with Microsoft’s published client library as witness; the guide on installing lists what remains to be tried.',
  ],
  sections: [
    {
      title: 'In short',
      table: [
        ['Question', 'Answer'],
        ['Version of this page and its add-in', VERSION],
        ['Server part, account, sign-in', 'none'],
        ['Files to host', 'the folder dist, on any web space with https'],
        [
          'Addresses that the pane asks',
          'your web space, and https://appsforoffice.microsoft.com for Office’s own script',
        ],
        [
          'Permission in the manifest',
          'ReadWriteDocument: it reads and writes the open workbook, no mail, no files beside it',
        ],
        [
          'What an Excel must have',
          'SharedRuntime 1.1 and functions of add-ins; for building plans ExcelApi 1.9, for notes on cells 1.18',
        ],
        ['Languages', 'English'],
        ['Cost', 'none; nothing is sold in it'],
      ],
    },
    {
      title: 'Give it to your people',
      steps: [
        {
          what: 'Build it for the address of your web space, and copy all that is in dist there. The guide on installing tells how hosts are to answer.',
          run: { script: 'build', args: ['--base', 'https://farm.example/gillbed/'] },
        },
        {
          what: 'In the Microsoft 365 admin center, under Settings, Integrated apps, upload dist/manifest.xml as a custom app, and choose who gets it. It can take a day until everybody sees it.',
        },
        {
          what: 'To take it back, remove it in the same place. Workbooks keep their last values; formulas with GILL functions show #NAME? once something recalculates them. Hand over plain copies before.',
        },
      ],
      points: [
        'A new version for the same address needs no new manifest. Add a new manifest only where its Version has grown.',
        'Keep address and Id for good: workbooks remember functions and add-in by them.',
        'Where a proxy filters, let the two addresses above through. Without the second, the pane says that Office’s script could not be loaded; functions then wait for it.',
      ],
    },
    {
      title: 'Privacy',
      points: [
        'Nothing of a workbook leaves the computer on Gillbed’s account: no measurement of use, no cookies, no account, no advertising. A rule in the pane’s page lets it ask no other address than the two above.',
        'What your web space writes down of a visit, such as an address and a time, is in your hands. Microsoft’s own script and Excel itself follow Microsoft’s terms.',
        'A farm that is built into a workbook is kept in that workbook, in a part of its own, readable for whoever has the file. Use the hand-over for a copy without it.',
        'The workbench, which needs no Excel, keeps the open workbook in the browser until you clear what the browser keeps for the site.',
      ],
    },
    {
      title: 'Support',
      points: [
        'Errors of functions and of the pane are sentences that say what would be right. The guides on this site answer the usual questions; the guide on installing has a section on repair.',
        'Whoever hosts Gillbed is whom its users ask. Put your own address for questions beside the link by which you hand it out.',
        'Microsoft is not responsible for maintaining, updating or supporting Gillbed.',
      ],
    },
    {
      title: 'What Microsoft’s published rules for add-ins ask, and how it is held',
      paragraphs: [
        'By the Microsoft Marketplace certification policies (learn.microsoft.com/legal/marketplace/certification-policies), section 1120 on Office add-ins, as they were published with the date of August 2024; what a copy of that text says, shortened. Ask the page itself before you rely on it. In the last column “test” stands for a check that runs with every change of the project.',
      ],
      table: [
        ['What is asked', 'How it is held'],
        [
          '1120.1: Office’s script in its newest hosted form',
          'test: the built pane takes it from there, and the build holds none of it',
        ],
        [
          '1120.1: the newest schema of manifests',
          'test of its structure; Microsoft’s own check needs a network: npm run validate',
        ],
        [
          '1120.1: an address for support',
          'test: the guide on installing, which is in every build',
        ],
        ['1120.1: an icon of high resolution', 'test of names and pixels'],
        [
          '1120.1: the page is at a valid address',
          'test of every address against the built folder',
        ],
        [
          '1120.1: the version grows with every update',
          'test that manifest, package and this page say the same; to raise it is part of a release',
        ],
        [
          '1120.2: rules for iOS and Android',
          'not offered there: the manifest declares the pane for desktops and the web alone',
        ],
        [
          '1120.3: works on Windows, Mac and the web',
          'test with Microsoft’s library for each of the three; a real Excel has yet to be tried',
        ],
        [
          '1120.3: works in Edge, Chrome, Firefox and Safari',
          'test in Chromium, whose engine Edge and Chrome have; Firefox and Safari have yet to be tried',
        ],
        [
          '1120.3: everything by touch alone',
          'nothing hangs on hovering or on a right click in the pane; no touch screen was tried',
        ],
        ['1120.3: works in every program that it names', 'it names Excel alone'],
        [
          '1120.3: changes Office by the add-ins’ own ways only',
          'test: a list of every member in use',
        ],
        [
          '1120.3: buttons on the ribbon',
          'test of the manifest: a button on the Home tab opens the pane',
        ],
        ['1120.3: another way in where there is single sign-on', 'no sign-in of any kind'],
        ['1120.5.1: a help address for each function', 'test: each leads to a page of the build'],
        [
          '1120.5.2: page, script and list of functions from one domain',
          'test: all three lie in the built folder',
        ],
        ['1120.5.4: notes for who validates, for one function', VALIDATION_NOTE],
      ],
      points: [
        'Held as well, though section 1120 does not name it: an older Excel is told what it lacks (test with each requirement set); no dead end without a network (test: a sentence, and what to do); a first run with an example farm one click away; keyboard, contrast and screen readers (test with axe, light and dark, from 320 pixels); no code from elsewhere (test: a content security policy, and no foreign address in the build); nothing left where a build fails (test at every request).',
        'Yours to do for a shop: a publisher’s name and account (ProviderName in the manifest names the project), and pictures in the size that it asks for, taken from a real Excel.',
      ],
    },
    {
      title: 'Licences',
      points: [
        'Gillbed is under the MIT licence. The texts of the packages inside, with their versions, lie in the folder licences of dist.',
        'Office’s script comes from Microsoft under its own terms and is in no build. Its copy on a developer’s computer serves development and tests alone.',
      ],
    },
  ],
};
