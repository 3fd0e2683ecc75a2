import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error: a script of the build, without types
import { headersFile } from '../../src/setup/headers.js';
import { builtFolder } from '../tools/built-folder';

type Rules = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** The file as a static host reads it: a path, then its headers, each further in. */
function rulesOf(text: string): Rules {
  const rules = new Map<string, Map<string, string>>();
  let current = new Map<string, string>();
  for (const line of text.split('\n').filter(Boolean)) {
    const header = /^ +([\w-]+): (.+)$/.exec(line);
    if (header) current.set(header[1] as string, header[2] as string);
    else rules.set(line, (current = new Map()));
  }
  return rules;
}

const fits = (pattern: string, path: string): boolean =>
  pattern.endsWith('*') ? path.startsWith(pattern.slice(0, -1)) : path === pattern;

/** What a host sends with a file; a header that two rules name would be sent twice. */
function sentWith(rules: Rules, path: string): Map<string, string> {
  const sent = new Map<string, string>();
  for (const [pattern, headers] of rules) {
    if (!fits(pattern, path)) continue;
    for (const [name, value] of headers) {
      expect(sent.has(name), `${path} gets ${name} twice`).toBe(false);
      sent.set(name, value);
    }
  }
  return sent;
}

describe('the headers file of the build', () => {
  let folder: string;
  let rules: Rules;
  beforeAll(async () => {
    folder = await builtFolder();
    rules = rulesOf(readFileSync(join(folder, '_headers'), 'utf8'));
  });

  it.each(['pane.html', 'index.html', 'reference/index.html', 'reference/feed-day.html'])(
    'gives %s the policy that stands in the page, and says who may frame it',
    (file) => {
      const html = readFileSync(join(folder, file), 'utf8');
      const inPage = /http-equiv="?Content-Security-Policy"?\s+content="([^"]+)"/.exec(html)?.[1];
      const policy = sentWith(rules, `/${file}`).get('Content-Security-Policy') ?? '';
      expect(inPage).toBeDefined();
      expect(policy.startsWith(`${inPage}; frame-ancestors `)).toBe(true);
    },
  );

  it('lets only Office frame the pane and nobody the rest', () => {
    const ancestors = (path: string): string | undefined =>
      / frame-ancestors (.+)$/.exec(
        sentWith(rules, path).get('Content-Security-Policy') ?? '',
      )?.[1];
    expect(ancestors('/pane.html')?.split(' ')).toContain('https://*.officeapps.live.com');
    for (const address of ancestors('/pane.html')?.split(' ') ?? []) {
      expect(address).toMatch(
        /^https:\/\/(?:\*\.(?:officeapps\.live\.com|office\.com|office\.net|cloud\.microsoft|sharepoint\.com)|onedrive\.live\.com)$/,
      );
    }
    for (const path of ['/', '/index.html', '/reference/index.html']) {
      expect(ancestors(path)).toBe("'none'");
    }
  });

  it('lets Excel on the web fetch the list of functions and the icons, and nothing else', () => {
    const open = (path: string): string | undefined =>
      sentWith(rules, path).get('Access-Control-Allow-Origin');
    expect(open('/functions.json')).toBe('*');
    expect(open('/icons/icon-32.png')).toBe('*');
    for (const path of ['/pane.html', '/index.html', '/functions.js']) {
      expect(open(path)).toBeUndefined();
    }
  });

  it('counts its paths from the root of the host where the copy stands in a folder', () => {
    const policies = { pane: 'a', workbench: 'b', reference: 'c' };
    const text = headersFile(policies, 'https://example.org/farm/gillbed') as string;
    const under = rulesOf(text);
    expect([...under.keys()].every((path) => path.startsWith('/farm/gillbed/'))).toBe(true);
    expect(sentWith(under, '/farm/gillbed/pane.html').get('Content-Security-Policy')).toMatch(
      /^a;/,
    );
  });
});
