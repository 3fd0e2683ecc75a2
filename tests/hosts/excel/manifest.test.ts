import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cards, NAMESPACE } from '../../../src/functions/card-list';
import { type FunctionsMetadata, functionsMetadata } from '../../../src/functions/metadata';
import {
  DEVELOPMENT_BASE,
  hostedFolder,
  hostedManifest,
} from '../../../src/hosts/excel/hosted-manifest';
import { iconFile, iconSizes } from '../../../src/app/icons/sizes';
import { functionsProblems } from '../../tools/functions-problems';
import { manifestProblems } from '../../tools/manifest-problems';
import { pngSize } from '../../tools/png-size';

const manifest = readFileSync('manifest.xml', 'utf8');
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
const icons = 'src/app/icons';

// What the build makes of them is looked at in tests/e2e/build.test.ts, with the files that are really there.
const files = new Set([
  'pane.html',
  'functions.js',
  'functions.json',
  'guides/index.html',
  'guides/install-in-excel.html',
  ...iconSizes.map((size) => `icons/${iconFile(size)}`),
]);
const pixels = (path: string): readonly [number, number] => pngSize(path.replace(/^icons/, icons));
const around = { files, pixels, base: DEVELOPMENT_BASE, version };

describe('the manifest', () => {
  it('has nothing wrong with it', () => {
    expect(manifestProblems(manifest, around)).toEqual([]);
  });

  it('has every icon that is drawn', () => {
    for (const size of iconSizes) expect(manifest).toContain(`icons/${iconFile(size)}`);
    const drawn = readdirSync(icons).filter((name) => name.endsWith('.png'));
    expect(drawn.sort()).toEqual(iconSizes.map(iconFile).sort());
  });

  it('registers the namespace of the functions', () => {
    expect(manifest).toContain(`id="Functions.Namespace" DefaultValue="${NAMESPACE}"`);
  });

  const long = (length: number): string => 'x'.repeat(length);
  const pane = '<SourceLocation resid="Pane.Url"/>';
  const learn = '<SourceLocation resid="LearnMore.Url"/>';
  type Plant = readonly [what: string, from: string | RegExp, to: string, says: string];
  const plants: readonly Plant[] = [
    [
      'the permissions before the hosts',
      /(<Hosts>.*?)(\s*<Permissions>\w+<\/Permissions>)/s,
      '$2$1',
      'OfficeApp has elements out of order',
    ],
    [
      'the desktop before all form factors',
      /(<AllFormFactors>.*<\/AllFormFactors>)(\s*<DesktopFormFactor>.*<\/DesktopFormFactor>)/s,
      '$2$1',
      'Hosts/Host has elements out of order',
    ],
    [
      'the metadata before the page',
      /(<Page>.*?<\/Page>)(\s*<Metadata>.*?<\/Metadata>)/s,
      '$2$1',
      'AllFormFactors/ExtensionPoint has elements out of order',
    ],
    [
      'the function file before the greeting',
      /(<GetStarted>.*?<\/GetStarted>)(\s*<FunctionFile [^>]*>)/s,
      '$2$1',
      'DesktopFormFactor has elements out of order',
    ],
    [
      'the action of the button before its icon',
      /(<Control .*?<\/Supertip>)(.*?)(<Action .*?<\/Action>)/s,
      '$1$3$2',
      'Control has elements out of order',
    ],
    [
      'short texts before addresses',
      /(<bt:Urls>.*<\/bt:Urls>)(\s*<bt:ShortStrings>.*<\/bt:ShortStrings>)/s,
      '$2$1',
      'Resources has elements out of order',
    ],
    [
      'an element that nobody knows',
      '<FunctionFile',
      '<Function/><FunctionFile',
      'DesktopFormFactor has elements out of order',
    ],
    ['no greeting', /<GetStarted>.*<\/GetStarted>/s, '', 'there is no GetStarted'],
    [
      'a resource that is not there',
      'resid="Pane.Tip"',
      'resid="Pane.Hint"',
      'Description refers to Pane.Hint, which is not there',
    ],
    [
      'a resource of another kind',
      '<Description resid="Pane.Tip"/>',
      '<Description resid="Pane.Label"/>',
      'Description refers to Pane.Label, which is of another kind',
    ],
    ['a resource that nobody uses', 'resid="Pane.Tip"', '', 'nothing refers to Pane.Tip'],
    [
      'a resource twice',
      'String id="Group.Label"',
      'String id="Pane.Label"',
      'resource Pane.Label stands twice',
    ],
    ['too long a resource id', /\bPane\.Tip\b/g, long(33), `resource id "${long(33)}" is too long`],
    ['an empty text', 'DefaultValue="Gillbed is ready"', 'DefaultValue=""', 'Title is empty'],
    [
      'too long a short text',
      'DefaultValue="Gillbed is ready"',
      `DefaultValue="${long(126)}"`,
      'GetStarted.Title is longer than 125',
    ],
    [
      'too long a long text',
      'DefaultValue="Plan fish',
      `DefaultValue="${long(250)}Plan fish`,
      'Pane.Tip is longer than 250',
    ],
    [
      'too long an address',
      '"Functions.Script.Url" DefaultValue="',
      `"Functions.Script.Url" DefaultValue="${DEVELOPMENT_BASE}${long(2048)}`,
      'Functions.Script.Url is longer than 2048',
    ],
    [
      'too long a description',
      '<Description DefaultValue="',
      `<Description DefaultValue="${long(250)}`,
      'Description is empty or longer than 250',
    ],
    [
      'no name',
      '<DisplayName DefaultValue="Gillbed"/>',
      '<DisplayName/>',
      'DisplayName is empty or longer than 125',
    ],
    [
      'a second runtime',
      /<Runtime [^>]*>/,
      '$&<Runtime resid="LearnMore.Url" lifetime="long"/>',
      'there must be one runtime',
    ],
    [
      'a runtime elsewhere',
      '<Runtime resid="Pane.Url"',
      '<Runtime resid="LearnMore.Url"',
      'the button differs from the runtime',
    ],
    [
      'another page for the functions',
      new RegExp(`(<Page>\\s*)${pane}`),
      `$1${learn}`,
      'the page of the functions differs from the runtime',
    ],
    [
      'another function file',
      '<FunctionFile resid="Pane.Url"/>',
      '<FunctionFile resid="LearnMore.Url"/>',
      'the function file differs from the runtime',
    ],
    [
      'another page behind the button',
      new RegExp(`(<Action [^>]*>\\s*)${pane}`),
      `$1${learn}`,
      'the button differs from the runtime',
    ],
    [
      'another page at first',
      /(<DefaultSettings>.*?)pane\.html/s,
      '$1guides/index.html',
      'the default page is not the pane',
    ],
    ['a runtime that ends', 'lifetime="long"', 'lifetime="short"', 'the runtime is not long-lived'],
    [
      'a task pane of its own',
      '<Action xsi:type="ShowTaskpane">',
      '<Action xsi:type="ShowTaskpane"><TaskpaneId>Pane</TaskpaneId>',
      'a shared runtime has no TaskpaneId',
    ],
    [
      'more requirements',
      /<Set [^>]*>/,
      '$&<Set Name="ExcelApi" MinVersion="1.9"/>',
      'only the shared runtime is to be required',
    ],
    [
      'another requirement',
      '"SharedRuntime" MinVersion="1.1"',
      '"SharedRuntime" MinVersion="1.2"',
      'only the shared runtime is to be required',
    ],
    ['an id that is none', /<Id>.*?-/, '<Id>', 'the id is no GUID'],
    [
      'two equal ids',
      'id="Gillbed.OpenPane"',
      'id="Gillbed.Group"',
      'two elements have the same id',
    ],
    ['no id', 'id="Gillbed.Group"', '', 'the id "" is empty or too long'],
    [
      'a namespace with a space',
      'DefaultValue="GILL"',
      'DefaultValue="GILL BED"',
      'the namespace "GILL BED" is not legal',
    ],
    [
      'a file that is not built',
      /pane\.html/g,
      'panel.html',
      `${DEVELOPMENT_BASE}panel.html has no file in the build`,
    ],
    [
      'an address elsewhere',
      'https://localhost:3000/functions.js"',
      'https://example.org/functions.js"',
      'https://example.org/functions.js is not under',
    ],
    [
      'an address without a lock',
      'https://localhost:3000/functions.js"',
      'http://localhost:3000/functions.js"',
      'http://localhost:3000/functions.js is not under',
    ],
    [
      'a domain elsewhere',
      '<AppDomain>https://localhost:3000<',
      '<AppDomain>https://example.org<',
      'the domain https://example.org is not that of',
    ],
    [
      'an icon of another size',
      'bt:Image size="48" resid="Icon.48"',
      'bt:Image size="48" resid="Icon.64"',
      'icons/icon-64.png is 64 by 64, not 48',
    ],
    [
      'a button without its smallest icon',
      /(<Control .*?)<bt:Image size="16" resid="Icon.16"\/>/s,
      '$1',
      'there is no icon of 16',
    ],
    [
      'a small icon in place of the large',
      '<HighResolutionIconUrl DefaultValue="https://localhost:3000/icons/icon-64.png"',
      '<HighResolutionIconUrl DefaultValue="https://localhost:3000/icons/icon-32.png"',
      'icons/icon-32.png is 32 by 32, not 64',
    ],
    [
      'a large icon in place of the small',
      '<IconUrl DefaultValue="https://localhost:3000/icons/icon-32.png"',
      '<IconUrl DefaultValue="https://localhost:3000/icons/icon-64.png"',
      'icons/icon-64.png is 64 by 64, not 32',
    ],
    [
      'an older version',
      `<Version>${version}.0`,
      '<Version>0.0.9.0',
      'version 0.0.9.0 is not that of package.json',
    ],
  ];
  it.each(plants)('is refused with %s', (_, from, to, says) => {
    const changed = manifest.replace(from, to);
    expect(changed).not.toBe(manifest);
    expect(manifestProblems(changed, around).join('\n')).toContain(says);
  });
});

describe('the manifest of a hosted copy', () => {
  const base = 'https://farm.example/tools/gillbed/';
  it('is the same with the other address', () => {
    const hosted = hostedManifest(manifest, base);
    expect(hosted).not.toContain('localhost');
    expect(manifestProblems(hosted, { ...around, base })).toEqual([]);
    expect(
      hosted
        .replaceAll(base, DEVELOPMENT_BASE)
        .replace('farm.example', 'localhost:3000')
        .replace(/<!--.*-->/, ''),
    ).toBe(manifest.replace(/<!--.*-->/, ''));
  });
});

describe('the address of a hosted copy', () => {
  it('does not mind a missing slash at the end', () => {
    const folder = 'https://farm.example/tools/gillbed/';
    expect(hostedFolder(folder)).toBe(folder);
    expect(hostedFolder('https://farm.example/tools/gillbed')).toBe(folder);
  });
  it('is a whole https address', () => {
    for (const wrong of ['farm.example', 'http://farm.example/', 'https://farm.example/?a=1']) {
      expect(() => hostedFolder(wrong)).toThrow('The base must');
    }
  });
});

describe('the list of functions for Excel', () => {
  const metadata = functionsMetadata(cards, `${DEVELOPMENT_BASE}reference/`);
  type Entry = FunctionsMetadata['functions'][number];
  const first = metadata.functions[0] as Entry;
  const parameter = first.parameters[0] as Entry['parameters'][number];
  const withFirst = (change: Partial<Entry>): FunctionsMetadata => ({
    ...metadata,
    functions: [{ ...first, ...change }, ...metadata.functions.slice(1)],
  });

  it('has nothing in it that Excel would not take', () => {
    expect(functionsProblems(metadata)).toEqual([]);
  });

  const plants: readonly (readonly [what: string, metadata: FunctionsMetadata, says: string])[] = [
    ['no functions', { ...metadata, functions: [] }, 'there are no functions'],
    ['too short an id', withFirst({ id: 'AB' }), 'AB is no legal name'],
    ['an id that begins with a figure', withFirst({ id: '2FISH' }), '2FISH is no legal name'],
    ['a name with a hyphen', withFirst({ name: 'FEED-DAY' }), 'FEED-DAY is no legal name'],
    ['a name like a cell', withFirst({ name: 'PH7' }), 'PH7 is no legal name'],
    ['a name like row and column', withFirst({ name: 'R1C1' }), 'R1C1 is no legal name'],
    [
      'ids that a file stores as one',
      {
        ...metadata,
        functions: [
          { ...first, id: 'TANK.A_B', name: 'TANK.A_B' },
          { ...first, id: 'Tank_A.B', name: 'TANK_A.B' },
        ],
      },
      'TANK.A_B and Tank_A.B would be stored as one',
    ],
    ['no description', withFirst({ description: '' }), 'has no description'],
    ['too long a description', withFirst({ description: 'x'.repeat(1025) }), 'too long a one'],
    [
      'too many parameters',
      withFirst({
        parameters: Array.from({ length: 129 }, (_, i) => ({ ...parameter, name: `p${i}` })),
      }),
      'too many parameters',
    ],
    ['a parameter twice', withFirst({ parameters: [parameter, parameter] }), 'of one name'],
    [
      'too long a name of a parameter',
      withFirst({ parameters: [{ ...parameter, name: 'x'.repeat(65) }] }),
      'has too long a name',
    ],
    [
      'too long a text of a parameter',
      withFirst({ parameters: [{ ...parameter, description: 'x'.repeat(513) }] }),
      'is described too long',
    ],
    [
      'a parameter that must be given behind one that need not',
      withFirst({
        parameters: [
          { ...parameter, name: 'first', optional: true },
          { ...parameter, name: 'second' },
        ],
      }),
      'second must be given after',
    ],
  ];
  it.each(plants)('is refused with %s', (_, planted, says) => {
    expect(functionsProblems(planted).join('\n')).toContain(says);
  });
});
