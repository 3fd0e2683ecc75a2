import type { Guide } from './guide';

/** As in package.json and, with a fourth part, in manifest.xml; a test holds them together. */
export const VERSION = '0.1.0';

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
        'By Microsoft’s certification policies for its marketplace, section 1120, as far as they are known to us from memory and from Microsoft’s other pages. In its last column “test” stands for a check that runs with every change of the project.',
      ],
      table: [
        ['What is asked', 'How it is held'],
        [
          'A valid manifest, its version and Id',
          'test of its structure; Microsoft’s own check needs a network: npm run validate',
        ],
        ['All addresses https, all there', 'test of the built folder'],
        ['Icons in the sizes that Excel asks for', 'test of names and pixels'],
        ['Support and privacy pages', 'this page, which is part of every build'],
        [
          'Pictures for a shop, in the size that it asks for',
          'to be taken from a real Excel; not made yet',
        ],
        [
          'Works on Windows, Mac and the web',
          'test with the library for each of them; a real Excel has yet to be tried',
        ],
        ['Says what an older Excel lacks', 'test with each requirement set'],
        ['No dead end without a network', 'test: a sentence, and what to do'],
        ['First run explains itself', 'test: an example farm one click away, no sign-in'],
        ['Keyboard, contrast, screen readers', 'test with axe in light, dark and at 320 pixels'],
        ['Asks for no more than it needs', 'ReadWriteDocument, since it builds sheets'],
        [
          'No code from elsewhere',
          'test: a content security policy, and no foreign address in the build',
        ],
        ['Nothing left where something fails', 'test: a failure at every request of a build'],
        ['Payments, advertisements, sign-in', 'none'],
        [
          'A publisher’s name and account',
          'yours to fill in: ProviderName in the manifest names the project',
        ],
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
