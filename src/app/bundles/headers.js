/**
 * The headers that a static host is to send with the build, in the `_headers` form that several hosts read.
 * A page's own policy stands in the page; what only a header can say is added here: who may frame it.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath, URL } from 'node:url';
import { tsImport } from 'tsx/esm/api';
import webpack from 'webpack';

/** Where Excel on the web runs. No list is published: these are the addresses seen in use. */
const OFFICE = [
  'https://*.officeapps.live.com',
  'https://*.office.com',
  'https://*.office.net',
  'https://*.cloud.microsoft',
  'https://*.sharepoint.com',
  'https://onedrive.live.com',
];

const POLICY = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/;

/** The policy that a page carries. Throws where it has none. */
export function policyOf(html, name) {
  const policy = POLICY.exec(html)?.[1];
  if (policy === undefined) throw new Error(`${name} has no content security policy`);
  return policy;
}

const rule = (path, headers) =>
  [path, ...Object.entries(headers).map(([name, value]) => `  ${name}: ${value}`)].join('\n');

/**
 * @param pages the policy of each page: pane, workbench, reference (the guides have the same)
 * @param base the folder under which the copy will stand; paths count from the root of its host
 */
export function headersFile({ pane, workbench, reference }, base) {
  const folder = base ? new URL(base).pathname : '/';
  const framedBy = (policy, ancestors) => ({
    'Content-Security-Policy': `${policy}; frame-ancestors ${ancestors}`,
  });
  // Files without a mark of their content in their name are asked for anew; Office forbids it for icons only.
  const fresh = { 'Cache-Control': 'no-cache' };
  // Excel on the web fetches these from its own address.
  const open = { 'Access-Control-Allow-Origin': '*' };
  // A host joins the headers of all rules that fit, so that no two rules name the same header.
  return `${[
    rule(`${folder}*`, {
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
    }),
    rule(`${folder}pane.html`, { ...framedBy(pane, OFFICE.join(' ')), ...fresh }),
    rule(folder, { ...framedBy(workbench, "'none'"), ...fresh }),
    rule(`${folder}index.html`, { ...framedBy(workbench, "'none'"), ...fresh }),
    rule(`${folder}reference/*`, { ...framedBy(reference, "'none'"), ...fresh }),
    rule(`${folder}guides/*`, { ...framedBy(reference, "'none'"), ...fresh }),
    rule(`${folder}functions.js`, fresh),
    rule(`${folder}demo-workbook.json`, fresh),
    rule(`${folder}functions.json`, { ...open, ...fresh }),
    rule(`${folder}icons/*`, open),
  ].join('\n\n')}\n`;
}

const policyIn = (path) =>
  policyOf(readFileSync(fileURLToPath(new URL(`../${path}`, import.meta.url)), 'utf8'), path);

/** Writes _headers into the build. */
export class HeadersFile {
  constructor(base) {
    this.base = base;
  }

  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('HeadersFile', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'HeadersFile', stage }, async () => {
        const { page } = await tsImport('../../reference/html.ts', import.meta.url);
        const policies = {
          pane: policyIn('pane.html'),
          workbench: policyIn('workbench.html'),
          reference: policyOf(page('', ''), 'a page of the reference'),
        };
        const text = headersFile(policies, this.base);
        compilation.emitAsset('_headers', new sources.RawSource(text));
      });
    });
  }
}
