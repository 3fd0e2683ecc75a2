import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cards, NAMESPACE } from '../../../src/functions/list';
import { functionsMetadata } from '../../../src/functions/metadata';
import { DEVELOPMENT_BASE, hostedManifest } from '../../../src/hosts/excel/hosted-manifest';
import { iconSizes } from '../../../src/hosts/excel/icons/sizes';
import { manifestProblems } from '../../tools/manifest-problems';

const manifest = readFileSync('manifest.xml', 'utf8');
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
const icons = 'src/hosts/excel/icons';

/** Width and height stand at bytes 16 and 20 of a PNG file (ISO/IEC 15948). */
const pixels = (path: string): readonly [number, number] => {
  const bytes = readFileSync(path.replace(/^icons/, icons));
  expect(bytes.toString('latin1', 1, 4)).toBe('PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
};

// The build's own files are compared in the end-to-end test of the build; here the ones it is made of.
const files = new Set([
  'pane.html',
  'functions.js',
  'functions.json',
  'index.html',
  ...readdirSync(icons)
    .filter((name) => name.endsWith('.png'))
    .map((name) => `icons/${name}`),
]);
const around = { files, pixels, base: DEVELOPMENT_BASE, version };

describe('the manifest', () => {
  it('has nothing wrong with it', () => {
    expect(manifestProblems(manifest, around)).toEqual([]);
  });

  it('has an icon of every size that is drawn', () => {
    for (const size of iconSizes) expect(manifest).toContain(`icons/icon-${size}.png`);
  });

  it('registers the namespace of the functions', () => {
    expect(manifest).toContain(`id="Functions.Namespace" DefaultValue="${NAMESPACE}"`);
  });

  const changes: readonly (readonly [what: string, from: string, to: string, says: string])[] = [
    ['a resource that is not there', 'resid="Pane.Tip"', 'resid="Pane.Hint"', 'not there'],
    [
      'another page for the functions',
      '<FunctionFile resid="Pane.Url"/>',
      '<FunctionFile resid="LearnMore.Url"/>',
      'differ',
    ],
    [
      'an icon of the wrong size',
      'bt:Image size="48" resid="Icon.48"',
      'bt:Image size="48" resid="Icon.64"',
      'not 48',
    ],
    ['a file that is not built', 'pane.html', 'panel.html', 'no file in the build'],
    [
      'an address elsewhere',
      'https://localhost:3000/functions.js"',
      'https://example.org/functions.js"',
      'not under',
    ],
    ['an older version', '<Version>0.1.0.0', '<Version>0.0.9.0', 'package.json'],
    [
      'a text that is too long',
      'DefaultValue="Gillbed is ready"',
      `DefaultValue="${'x'.repeat(126)}"`,
      'longer',
    ],
    ['a runtime that ends', 'lifetime="long"', 'lifetime="short"', 'long-lived'],
    [
      'more requirements',
      '<Set Name="SharedRuntime" MinVersion="1.1"/>',
      '<Set Name="ExcelApi" MinVersion="1.9"/>',
      'required',
    ],
  ];
  it.each(changes)('is refused with %s', (_, from, to, says) => {
    expect(manifest).toContain(from);
    expect(manifestProblems(manifest.replaceAll(from, to), around).join('\n')).toContain(says);
  });
  it('is refused with elements out of order', () => {
    const moved = manifest
      .replace('<Permissions>ReadWriteDocument</Permissions>', '')
      .replace('<Hosts>', '<Permissions>ReadWriteDocument</Permissions><Hosts>');
    expect(manifestProblems(moved, around)).toEqual(['OfficeApp has elements out of order']);
  });
});

describe('the manifest of a hosted copy', () => {
  const base = 'https://farm.example/tools/gillbed/';
  it('is the same with the other address', () => {
    const hosted = hostedManifest(manifest, base);
    expect(hosted).not.toContain('localhost');
    expect(hosted).toContain('<AppDomain>https://farm.example</AppDomain>');
    const inFolder = hosted.replace('<AppDomain>https://farm.example<', `<AppDomain>${base}<`);
    expect(manifestProblems(inFolder, { ...around, base })).toEqual([]);
  });
  it('does not mind a missing slash at the end', () => {
    expect(hostedManifest(manifest, base.slice(0, -1))).toBe(hostedManifest(manifest, base));
  });
  it('takes whole https addresses only', () => {
    for (const wrong of ['farm.example', 'http://farm.example/', 'https://farm.example/?a=1']) {
      expect(() => hostedManifest(manifest, wrong)).toThrow('The base must');
    }
  });
});

describe('the functions file', () => {
  const { functions } = functionsMetadata(cards);
  // Limits of the manifest schema v1.30 and of Excel's naming rules.
  it('keeps to the limits of names and texts', () => {
    for (const one of functions) {
      expect(one.id).toMatch(/^[A-Z][A-Z0-9._]{2,63}$/);
      expect(one.id).not.toMatch(/^(?:[A-Z]{1,3}\d+|R\d*C\d*)$/);
      expect(one.description.length).toBeLessThanOrEqual(1024);
      expect(one.parameters.length).toBeLessThanOrEqual(128);
      for (const parameter of one.parameters) {
        expect(parameter.name.length).toBeLessThanOrEqual(64);
        expect(parameter.description.length, `${one.id} ${parameter.name}`).toBeLessThanOrEqual(
          512,
        );
      }
    }
  });
  it('has no two ids that a file would store under one name', () => {
    const stored = functions.map((one) => one.id.replaceAll('.', '_').toUpperCase());
    expect(new Set(stored).size).toBe(stored.length);
  });
});
