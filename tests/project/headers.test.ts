import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error: a script of the build, without types
import { headersFile } from '../../src/app/bundles/headers.js';
import { builtFolder, HOSTED_BASE } from '../tools/built-folder';
import { headerRules, headersSent } from '../tools/host-headers';

/** The build stands in a folder of a site; paths in the file count from the site's root. */
const FOLDER = new URL(HOSTED_BASE).pathname;

describe('the headers file of the build', () => {
  let folder: string;
  let rules: ReturnType<typeof headerRules>;
  const sent = (file: string): Map<string, string> => headersSent(rules, `${FOLDER}${file}`);
  beforeAll(async () => {
    folder = await builtFolder();
    rules = headerRules(readFileSync(join(folder, '_headers'), 'utf8'));
  });

  it.each([
    'pane.html',
    'index.html',
    'reference/index.html',
    'reference/feed-day.html',
    'guides/install-in-excel.html',
  ])('gives %s the policy that stands in the page, and says who may frame it', (file) => {
    const html = readFileSync(join(folder, file), 'utf8');
    const inPage = /http-equiv="?Content-Security-Policy"?\s+content="([^"]+)"/.exec(html)?.[1];
    const policy = sent(file).get('Content-Security-Policy') ?? '';
    expect(inPage).toBeDefined();
    expect(policy.startsWith(`${inPage}; frame-ancestors `)).toBe(true);
  });

  it('lets only Office frame the pane and nobody the rest', () => {
    const ancestors = (path: string): string | undefined =>
      / frame-ancestors (.+)$/.exec(sent(path).get('Content-Security-Policy') ?? '')?.[1];
    expect(ancestors('pane.html')?.split(' ')).toContain('https://*.officeapps.live.com');
    for (const address of ancestors('pane.html')?.split(' ') ?? []) {
      expect(address).toMatch(
        /^https:\/\/(?:\*\.(?:officeapps\.live\.com|office\.com|office\.net|cloud\.microsoft|sharepoint\.com)|onedrive\.live\.com)$/,
      );
    }
    for (const path of ['', 'index.html', 'reference/index.html', 'guides/index.html']) {
      expect(ancestors(path)).toBe("'none'");
    }
  });

  it('lets Excel on the web fetch the list of functions and the icons, and nothing else', () => {
    const open = (path: string): string | undefined =>
      sent(path).get('Access-Control-Allow-Origin');
    expect(open('functions.json')).toBe('*');
    expect(open('icons/icon-32.png')).toBe('*');
    for (const path of ['pane.html', 'index.html', 'functions.js']) {
      expect(open(path)).toBeUndefined();
    }
  });

  it('has every file asked for anew whose name says nothing of its content, but no icon', () => {
    const marked = /\.[\da-f]{8}\.(?:js|css|wasm)(?:\.LICENSE\.txt)?$/;
    const other = /^(?:_headers|manifest\.xml|service-worker\.js|(?:fonts|licences|icons)[\\/].*)$/;
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8', withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'));
    const kept = files.filter((file) => sent(file).get('Cache-Control') !== 'no-cache');
    expect(kept.filter((file) => !marked.test(file) && !other.test(file))).toEqual([]);
    // An icon with such a header is not shown by Office.
    expect(kept.filter((file) => file.startsWith('icons/'))).toHaveLength(8);
  });

  it('counts its paths from the root of the host where the copy stands in a folder', () => {
    const policies = { pane: 'a', workbench: 'b', reference: 'c' };
    const text = headersFile(policies, 'https://example.org/farm/gillbed/') as string;
    const under = headerRules(text);
    expect([...under.keys()].every((path) => path.startsWith('/farm/gillbed/'))).toBe(true);
    expect(headersSent(under, '/farm/gillbed/pane.html').get('Content-Security-Policy')).toMatch(
      /^a;/,
    );
  });
});
