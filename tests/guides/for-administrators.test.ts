import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { evaluate } from '../../src/engine/evaluate-formula';
import { VERSION } from '../../src/functions/version';
import { VALIDATION_NOTE } from '../../src/guides/for-administrators';
import { guidePages } from '../../src/guides/guide-pages';

it('the page for administrators shows the version of package and manifest', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
  expect(VERSION).toBe(version);
  expect(readFileSync('manifest.xml', 'utf8')).toContain(`<Version>${version}.0</Version>`);
  expect(guidePages().get('for-administrators.html')).toContain(version);
});

it('and names every address that the pane may ask', () => {
  const policy = /content="(default-src[^"]+)"/.exec(
    readFileSync('src/app/pane.html', 'utf8'),
  )?.[1];
  const addresses = new Set(policy?.match(/https:\/\/[\w.]+/g));
  expect(addresses.size).toBeGreaterThan(0);
  const page = guidePages().get('for-administrators.html') ?? '';
  for (const address of addresses) expect(page).toContain(address);
});

it('tells whoever validates a formula that gives what it says', () => {
  const [, formula = '', shown = ''] = /(=GILL\S+) .*shows ([\d.]+)/.exec(VALIDATION_NOTE) ?? [];
  expect(Number(evaluate(formula)[0]?.[0]?.value).toFixed(4)).toBe(shown);
  // Francis-Floyd, Watson, Petty and Pouder, Ammonia in Aquatic Systems, UF/IFAS FA16: worked example.
  expect(Math.abs(Number(shown) - 0.0502)).toBeLessThan(0.0002);
});
