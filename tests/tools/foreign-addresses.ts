/** What a page may ask of others than its own folder: Office's script, where it runs in Excel. */
const OFFICE_HOST = 'appsforoffice.microsoft.com';

/** Hosts that stand in scripts and styles and are never asked, with the reason why they stand there. */
const ONLY_NAMED: ReadonlyMap<string, string> = new Map([
  ['www.w3.org', 'name of a namespace'],
  ['schemas.openxmlformats.org', 'name of a namespace'],
  ['schemas.microsoft.com', 'name of a namespace'],
  ['purl.org', 'name of a namespace'],
  ['github.com', 'where a package lives, in a comment or as its own record'],
  ['bugs.webkit.org', 'a reason in a comment'],
  ['fontawesome.io', 'licence of the icons'],
  ['getbootstrap.com', 'licence of the styles'],
  ['web.mit.edu', 'a format of files, in a sentence of the solver'],
  ['www.odoo.com', "example in the grid's form for a link"],
  ['www.google.com', "the grid's picture beside a link; no page's policy lets it through"],
]);

/** Attributes that make a page ask for something; a link to follow (`a href`) does not. */
const ASKING =
  /<(?!a\b)[a-z][^>]*?\s(?:src|srcset|href|data|action|poster|manifest|xlink:href)\s*=\s*["']?([^"'\s>]+)/gi;
const IN_STYLES = /(?:url\(\s*|@import\s+)["']?((?:https?:)?\/\/[^"')\s]+)/gi;
/** An address anywhere in a script: in fetch, import, new URL, or put together later. */
const ANYWHERE = /(?:\b(?:https?|wss?):|["'`(])\/\/[a-z0-9](?:[\w.-]*[a-z0-9])?(?::\d+)?/gi;
const POLICY = /<meta[^>]*http-equiv=["']?Content-Security-Policy["']?[^>]*content="([^"]*)"/i;

const hostOf = (address: string): string =>
  /\/\/([^/:?#]+)/.exec(address)?.[1]?.toLowerCase() ?? '';
const isElsewhere = (address: string): boolean => /^(?:[a-z]+:)?\/\//i.test(address);
const all = (pattern: RegExp, text: string): string[] =>
  [...text.matchAll(pattern)].map((match) => match[1] ?? match[0]);

/** Addresses of other hosts that a page lets through by its own policy, or that it has none. */
function throughPolicy(html: string): string[] {
  const policy = POLICY.exec(html)?.[1];
  if (policy === undefined) return ['no Content-Security-Policy'];
  if (!policy.includes("default-src 'none'")) return ["a policy without default-src 'none'"];
  return policy.split(/[\s;]+/).filter((word) => word === '*' || word.includes('//'));
}

/**
 * Every place in a built folder from which another host would be asked, as "file: address": `files` are the texts
 * of its pages, styles, scripts and data by path; `own` begins every address of the folder itself.
 */
export function foreignAddresses(files: ReadonlyMap<string, string>, own: string): string[] {
  return [...files].flatMap(([file, text]) => {
    const kind = /\.(html|css|js|json|svg)$/.exec(file)?.[1];
    const found =
      kind === 'html' || kind === 'svg'
        ? [
            ...all(ASKING, text).filter(isElsewhere),
            ...all(IN_STYLES, text),
            ...(kind === 'html' ? throughPolicy(text) : []),
          ]
        : kind === 'css'
          ? all(IN_STYLES, text)
          : kind === 'js' || kind === 'json'
            ? all(ANYWHERE, text).filter((address) => !ONLY_NAMED.has(hostOf(address)))
            : [];
    return found
      .filter((address) => !address.startsWith(new URL(own).origin))
      .filter((address) => !(hostOf(address) === OFFICE_HOST && file === 'pane.html'))
      .map((address) => `${file}: ${address}`);
  });
}
