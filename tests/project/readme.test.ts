import { existsSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { guides } from '../../src/guides/guide-list';
import { evaluate } from '../../src/engine/evaluate-formula';

const readme = readFileSync('README.md', 'utf8');
const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  scripts: Record<string, string>;
};
const valueOf = (formula: string): unknown => evaluate(formula)[0]?.[0]?.value;
const PICTURE_BYTES = 80 * 1024;

describe('the README', () => {
  it('shows the value of the function in its first cell', () => {
    const [, formula = '', shown = ''] =
      /^ {4}=(GILL\S+\(.*\)) +gives ([\d.]+) mg\/L$/m.exec(readme) ?? [];
    expect(Number(valueOf(formula)).toFixed(4)).toBe(shown);
  });

  it('quotes the sentence of a wrong argument', () => {
    const [, formula = '', code, sentence] =
      /`=(GILL[^`]+)` is `(#\w+!)`, with the sentence “([^”]+)”/.exec(readme) ?? [];
    const value = valueOf(formula);
    expect(value).toBeInstanceOf(GillError);
    expect(value).toMatchObject({ code, message: sentence });
  });

  it('uses only terminal commands that exist', () => {
    const asked = [...readme.matchAll(/`ask '(.+?)'`/g)].map((match) => match[1] ?? '');
    expect(asked.length).toBeGreaterThan(0);
    for (const formula of asked) expect(typeof valueOf(formula)).toBe('number');
    const main = readFileSync('src/terminal/run-command.ts', 'utf8');
    for (const [, command = ''] of readme.matchAll(
      /gillbed -- (\w+)|`(?:check|repair|functions)\b/g,
    )) {
      if (command !== '') expect(main).toMatch(new RegExp(`\\b${command}\\b`));
    }
  });

  it('names scripts, files and guides that there are', () => {
    for (const [, script = ''] of readme.matchAll(/npm run (?:--silent )?([\w:]+)/g)) {
      expect(scripts[script], script).toBeDefined();
    }
    for (const [, target = ''] of readme.matchAll(/\]\(([^)#]+)/g)) {
      expect(existsSync(target), target).toBe(true);
    }
    for (const [, farm = ''] of readme.matchAll(/-- plan (\S+\.json)/g)) {
      expect(existsSync(farm), farm).toBe(true);
    }
    const named = /Guides button: (.+?)\. Beside/.exec(readme)?.[1]?.split(', ') ?? [];
    expect(named.map((title) => title.toLowerCase())).toEqual(
      guides.map(({ title }) => title.toLowerCase()),
    );
  });

  it('has one picture, small enough to keep', () => {
    const pictures = [...readme.matchAll(/!\[([^\]]+)\]\(([^)]+)\)/g)];
    expect(pictures).toHaveLength(1);
    expect(statSync(pictures[0]?.[2] ?? '').size).toBeLessThan(PICTURE_BYTES);
  });
});
