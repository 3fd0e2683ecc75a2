import {
  childNamed,
  childrenNamed,
  descendants,
  readXml,
  type XmlElement,
} from '../../src/handover/xml';

/** Order of elements as the schema of add-in-only manifests has it (MS-OWEMXML, learn.microsoft.com). */
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
  'VersionOverrides/Hosts/Host': ['Runtimes', 'AllFormFactors', 'DesktopFormFactor'],
  DesktopFormFactor: ['GetStarted', 'FunctionFile', 'ExtensionPoint'],
  Group: ['Label', 'Icon', 'Control'],
  Control: ['Label', 'Supertip', 'Icon', 'Action'],
  Resources: ['Images', 'Urls', 'ShortStrings', 'LongStrings'],
};

const longest = { ShortStrings: 125, LongStrings: 250, Urls: 2048, Images: 2048 } as const;
const MOST_RESID = 32;

interface Around {
  /** Files of the build, by path from its root. */
  readonly files: ReadonlySet<string>;
  /** Width and height of an icon file. */
  readonly pixels: (path: string) => readonly [number, number];
  readonly base: string;
  /** From package.json. */
  readonly version: string;
}

const inOrder = (element: XmlElement, order: readonly string[]): boolean => {
  const places = element.children.map((child) => order.indexOf(child.name));
  return places.every((place, i) => place >= 0 && place >= (places[i - 1] ?? 0));
};

/** Everything that is wrong with a manifest, in sentences. */
export function manifestProblems(xml: string, around: Around): string[] {
  const root = readXml(xml, 'manifest.xml');
  const problems: string[] = [];
  const wrong = (sentence: string, when = true): void => {
    if (when) problems.push(sentence);
  };
  const all = (name: string): XmlElement[] => descendants(root, name);
  const attribute = (element: XmlElement | undefined, name: string): string =>
    element?.attributes[name] ?? '';

  const overrides = childNamed(root, 'VersionOverrides');
  const host = childNamed(childNamed(overrides, 'Hosts'), 'Host');
  const check = (element: XmlElement | undefined, key: string): void =>
    wrong(`${key} has elements out of order`, !element || !inOrder(element, orders[key] ?? []));
  check(root, 'OfficeApp');
  check(overrides, 'VersionOverrides');
  check(host, 'VersionOverrides/Hosts/Host');
  for (const key of ['DesktopFormFactor', 'Group', 'Control', 'Resources']) check(all(key)[0], key);

  const resources = all('Resources')[0];
  const known = new Map<string, string>();
  for (const [group, most] of Object.entries(longest)) {
    for (const entry of childNamed(resources, group)?.children ?? []) {
      const id = attribute(entry, 'id');
      const value = attribute(entry, 'DefaultValue');
      wrong(`resource ${id} stands twice`, known.has(id));
      wrong(`resource id ${id} is too long`, id.length > MOST_RESID);
      wrong(`${id} is longer than ${most}`, value.length > most);
      wrong(`${id} is empty`, value === '');
      known.set(id, value);
    }
  }
  const used = new Set<string>();
  const visit = (element: XmlElement): void => {
    const resid = element.attributes['resid'];
    if (resid !== undefined) {
      used.add(resid);
      wrong(`${element.name} refers to ${resid}, which is not there`, !known.has(resid));
    }
    element.children.forEach(visit);
  };
  visit(root);
  for (const id of known.keys()) wrong(`nothing refers to ${id}`, !used.has(id));

  const page = all('Page')[0];
  const pane = [
    attribute(all('Runtime')[0], 'resid'),
    attribute(childNamed(page, 'SourceLocation'), 'resid'),
    attribute(all('FunctionFile')[0], 'resid'),
    attribute(childNamed(all('Action')[0], 'SourceLocation'), 'resid'),
  ];
  wrong('there must be one runtime', all('Runtime').length !== 1);
  wrong('runtime, page, function file and button differ', new Set(pane).size !== 1);
  wrong('the runtime is not long-lived', attribute(all('Runtime')[0], 'lifetime') !== 'long');
  wrong('a shared runtime has no TaskpaneId', all('TaskpaneId').length > 0);
  const start = attribute(
    childNamed(childNamed(root, 'DefaultSettings'), 'SourceLocation'),
    'DefaultValue',
  );
  wrong('the default page is not the pane', start !== known.get(pane[0] ?? ''));

  const id = childNamed(root, 'Id')?.text ?? '';
  wrong('the id is no GUID', !/^[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}$/.test(id));
  const version = childNamed(root, 'Version')?.text;
  wrong(`version ${version} is not that of package.json`, version !== `${around.version}.0`);
  const sets = all('Set').map((set) => `${attribute(set, 'Name')} ${attribute(set, 'MinVersion')}`);
  wrong('only the shared runtime is required', sets.join() !== 'SharedRuntime 1.1');
  const ids = ['Group', 'Control'].flatMap((name) => all(name).map((one) => attribute(one, 'id')));
  wrong('two ids are equal', new Set(ids).size !== ids.length);
  const namespace = known.get(attribute(all('Namespace')[0], 'resid')) ?? '';
  wrong('the namespace is not legal', !/^[A-Za-z][A-Za-z0-9._]{0,31}$/.test(namespace));

  const addresses = [...xml.matchAll(/(?:DefaultValue="|<AppDomain>)(https?:[^"<]*)/g)].map(
    (match) => match[1] ?? '',
  );
  for (const address of addresses) {
    const path = address.slice(around.base.length);
    const inside = `${address}/`.startsWith(around.base);
    wrong(`${address} is not under ${around.base}`, !inside);
    if (inside && path !== '') {
      wrong(`${address} has no file in the build`, !around.files.has(path));
    }
  }
  const iconSizes = new Set<number>();
  for (const image of descendants(host ?? root, 'Image')) {
    const size = Number(attribute(image, 'size'));
    iconSizes.add(size);
    const path = known.get(attribute(image, 'resid'))?.slice(around.base.length) ?? '';
    if (!around.files.has(path)) continue;
    const [width, height] = around.pixels(path);
    wrong(`${path} is ${width} by ${height}, not ${size}`, width !== size || height !== size);
  }
  for (const size of [16, 32, 80]) wrong(`there is no icon of ${size}`, !iconSizes.has(size));
  for (const [name, size] of [
    ['IconUrl', 32],
    ['HighResolutionIconUrl', 64],
  ] as const) {
    const [element] = childrenNamed(root, name);
    const path = attribute(element, 'DefaultValue').slice(around.base.length);
    if (around.files.has(path)) {
      wrong(`${name} is not ${size} pixels`, around.pixels(path)[0] !== size);
    }
  }
  return problems;
}
