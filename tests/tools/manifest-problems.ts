import {
  childNamed,
  childrenNamed,
  descendants,
  readXml,
  type XmlElement,
} from '../../src/ooxml/read-xml';

/**
 * Order of elements as the schema of add-in-only manifests has it ([MS-OWEMXML]; Office Add-ins documentation,
 * "How to find the proper order of manifest elements"). A key may begin with the element around it.
 */
const orders: Readonly<Record<string, readonly string[]>> = {
  OfficeApp: [
    'Id',
    'Version',
    'ProviderName',
    'DefaultLocale',
    'DisplayName',
    'Description',
    'IconUrl',
    'HighResolutionIconUrl',
    'SupportUrl',
    'AppDomains',
    'Hosts',
    'Requirements',
    'DefaultSettings',
    'Permissions',
    'VersionOverrides',
  ],
  VersionOverrides: ['Description', 'Requirements', 'Hosts', 'Resources'],
  'VersionOverrides/Hosts': ['Host'],
  'Hosts/Host': ['Runtimes', 'AllFormFactors', 'DesktopFormFactor'],
  'AllFormFactors/ExtensionPoint': ['Script', 'Page', 'Metadata', 'Namespace'],
  DesktopFormFactor: ['GetStarted', 'FunctionFile', 'ExtensionPoint'],
  GetStarted: ['Title', 'Description', 'LearnMoreUrl'],
  OfficeTab: ['Group'],
  Group: ['Label', 'Icon', 'Control'],
  Control: ['Label', 'Supertip', 'Icon', 'Action'],
  Supertip: ['Title', 'Description'],
  Resources: ['Images', 'Urls', 'ShortStrings', 'LongStrings'],
};

/** Longest values; 250 and 125 also hold for the description and the names outside the resources. */
const longest = { Images: 2048, Urls: 2048, ShortStrings: 125, LongStrings: 250 } as const;
type Kind = keyof typeof longest;
const MAX_RESID = 32;
const MAX_ID = 125;

/** Which kind of resource an element takes. */
const kinds: Readonly<Record<string, Kind>> = {
  Runtime: 'Urls',
  SourceLocation: 'Urls',
  FunctionFile: 'Urls',
  LearnMoreUrl: 'Urls',
  Image: 'Images',
  Namespace: 'ShortStrings',
  Title: 'ShortStrings',
  Label: 'ShortStrings',
  Description: 'LongStrings',
};

const ICON_SIZES_NEEDED = [16, 32, 80];
const GUID = /^[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}$/;
const NAMESPACE = /^[A-Za-z][A-Za-z0-9._]{0,31}$/;

export interface Around {
  /** Files of the build, by path from its root. */
  readonly files: ReadonlySet<string>;
  /** Width and height of an icon file. */
  readonly pixels: (path: string) => readonly [number, number];
  /** The address under which the build stands, with a slash at its end. */
  readonly base: string;
  /** From package.json. */
  readonly version: string;
}

const inOrder = (element: XmlElement, order: readonly string[]): boolean => {
  const places = element.children.map((child) => order.indexOf(child.name));
  return places.every((place, i) => place >= 0 && place >= (places[i - 1] ?? 0));
};

/** Everything that is wrong with a manifest, in sentences. */
export function manifestProblems(xml: string, { files, pixels, base, version }: Around): string[] {
  const root = readXml(xml, 'manifest.xml');
  const problems: string[] = [];
  const wrong = (sentence: string, when: boolean): void => {
    if (when) problems.push(sentence);
  };
  const all = (name: string): XmlElement[] => descendants(root, name);
  const attribute = (element: XmlElement | undefined, name: string): string =>
    element?.attributes[name] ?? '';
  const pathOf = (address: string): string | undefined =>
    address.startsWith(base) ? address.slice(base.length) : undefined;

  const seen = new Set<string>();
  const checkOrder = (element: XmlElement, parent: string): void => {
    const key = [`${parent}/${element.name}`, element.name].find((text) => text in orders);
    // The list of applications in the old part of the manifest has no elements in its hosts.
    if (key !== undefined && element.children.length > 0) {
      seen.add(key);
      wrong(`${key} has elements out of order`, !inOrder(element, orders[key] ?? []));
    }
    for (const child of element.children) checkOrder(child, element.name);
  };
  checkOrder(root, '');
  for (const key of Object.keys(orders)) wrong(`there is no ${key}`, !seen.has(key));

  const known = new Map<string, { kind: Kind; value: string }>();
  for (const [kind, most] of Object.entries(longest) as [Kind, number][]) {
    for (const entry of childNamed(all('Resources')[0], kind)?.children ?? []) {
      const id = attribute(entry, 'id');
      const value = attribute(entry, 'DefaultValue');
      wrong(`resource ${id} stands twice`, known.has(id));
      wrong(`resource id "${id}" is too long`, id.length > MAX_RESID);
      wrong(`${id} is longer than ${most}`, value.length > most);
      wrong(`${id} is empty`, value === '');
      known.set(id, { kind, value });
    }
  }
  const used = new Set<string>();
  const checkReferences = (element: XmlElement): void => {
    const resid = element.attributes['resid'];
    if (resid !== undefined) {
      used.add(resid);
      const kind = known.get(resid)?.kind;
      wrong(`${element.name} refers to ${resid}, which is not there`, kind === undefined);
      wrong(
        `${element.name} refers to ${resid}, which is of another kind`,
        kind !== undefined && kind !== kinds[element.name],
      );
    }
    element.children.forEach(checkReferences);
  };
  checkReferences(root);
  for (const id of known.keys()) wrong(`nothing refers to ${id}`, !used.has(id));

  const [runtime, ...moreRuntimes] = all('Runtime');
  const [page] = all('Page');
  const pane = attribute(runtime, 'resid');
  wrong('there must be one runtime', !runtime || moreRuntimes.length > 0);
  wrong('the runtime is not long-lived', attribute(runtime, 'lifetime') !== 'long');
  for (const [what, element] of [
    ['the page of the functions', childNamed(page, 'SourceLocation')],
    ['the function file', all('FunctionFile')[0]],
    ['the button', childNamed(all('Action')[0], 'SourceLocation')],
  ] as const) {
    wrong(`${what} differs from the runtime`, attribute(element, 'resid') !== pane);
  }
  wrong('a shared runtime has no TaskpaneId', all('TaskpaneId').length > 0);
  const start = childNamed(childNamed(root, 'DefaultSettings'), 'SourceLocation');
  wrong(
    'the default page is not the pane',
    attribute(start, 'DefaultValue') !== known.get(pane)?.value,
  );

  wrong('the id is no GUID', !GUID.test(childNamed(root, 'Id')?.text ?? ''));
  const own = childNamed(root, 'Version')?.text;
  wrong(`version ${own} is not that of package.json`, own !== `${version}.0`);
  const sets = all('Set').map((set) => `${attribute(set, 'Name')} ${attribute(set, 'MinVersion')}`);
  wrong('only the shared runtime is to be required', sets.join() !== 'SharedRuntime 1.1');
  for (const [name, most] of [
    ['DisplayName', longest.ShortStrings],
    ['Description', longest.LongStrings],
  ] as const) {
    const text = attribute(childNamed(root, name), 'DefaultValue');
    wrong(`${name} is empty or longer than ${most}`, text === '' || text.length > most);
  }
  const ids = ['OfficeTab', 'Group', 'Control'].flatMap((name) =>
    all(name).map((element) => attribute(element, 'id')),
  );
  wrong('two elements have the same id', new Set(ids).size !== ids.length);
  for (const id of ids)
    wrong(`the id "${id}" is empty or too long`, id === '' || id.length > MAX_ID);
  const namespace = known.get(attribute(all('Namespace')[0], 'resid'))?.value ?? '';
  wrong(`the namespace "${namespace}" is not legal`, !NAMESPACE.test(namespace));

  const addresses = [...xml.matchAll(/DefaultValue="(\w+:\/\/[^"]*)"/g)].map(
    (match) => match[1] ?? '',
  );
  for (const address of addresses) {
    const path = pathOf(address);
    wrong(`${address} is not under ${base}`, path === undefined);
    wrong(`${address} has no file in the build`, path !== undefined && !files.has(path));
  }
  wrong('there are no addresses', addresses.length === 0);
  for (const { text } of all('AppDomain')) {
    wrong(`the domain ${text} is not that of ${base}`, text !== new URL(base).origin);
  }

  const checkPixels = (address: string, size: number): void => {
    const path = pathOf(address);
    if (path === undefined || !files.has(path)) return;
    const [width, height] = pixels(path);
    wrong(`${path} is ${width} by ${height}, not ${size}`, width !== size || height !== size);
  };
  for (const icon of all('Icon')) {
    const images = childrenNamed(icon, 'Image');
    const sizes = images.map((image) => Number(attribute(image, 'size')));
    for (const size of ICON_SIZES_NEEDED) {
      wrong(`there is no icon of ${size}`, !sizes.includes(size));
    }
    images.forEach((image, i) =>
      checkPixels(known.get(attribute(image, 'resid'))?.value ?? '', sizes[i] ?? 0),
    );
  }
  checkPixels(attribute(childNamed(root, 'IconUrl'), 'DefaultValue'), 32);
  checkPixels(attribute(childNamed(root, 'HighResolutionIconUrl'), 'DefaultValue'), 64);
  return problems;
}
