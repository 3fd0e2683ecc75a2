import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { isScript, placeOf, shownAfter, stepsOf, withShown } from '../../src/guides/guide';
import { sheetFigures } from '../../src/guides/sheet-figures';
import { guides } from '../../src/guides/guide-list';
import { guidePages } from '../../src/guides/guide-pages';
import { referencePages } from '../../src/reference/reference-pages';
import { cards } from '../../src/functions/card-list';
import { questionGroups } from '../../src/functions/questions';
import { runHereIn } from '../tools/terminal';
import { blockCells, inTheMannerOf, typed } from './run-cells';
import { cellAddress } from '../../src/plan/addresses';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A folder with the files that a guide's commands begin with. */
function folderWith(files: Readonly<Record<string, string>> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'gillbed-guide-'));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

interface Printed {
  readonly status: number;
  readonly lines: readonly string[];
}

/** Runs a line for the terminal as a shell would split it: the guides use words without spaces. */
async function inTerminal(command: string, cwd: string): Promise<Printed> {
  const { code, out, err } = await runHereIn(cwd, command.split(' '));
  return { status: code, lines: `${out}${err}`.trimEnd().split('\n') };
}

/** What a plan of the example farm printed and wrote: several guides begin with the same one. */
const demoPlans = new Map<string, { readonly printed: Printed; readonly written: Uint8Array }>();

/** The same, where the plan that several guides begin with is made once. */
async function inTerminalOnce(command: string, cwd: string): Promise<Printed> {
  const [, name] = /^plan --demo --out (\S+)/.exec(command) ?? [];
  if (name === undefined) return inTerminal(command, cwd);
  const known = demoPlans.get(command);
  if (known) {
    writeFileSync(join(cwd, name), known.written);
    return known.printed;
  }
  const printed = await inTerminal(command, cwd);
  demoPlans.set(command, { printed, written: readFileSync(join(cwd, name)) });
  return printed;
}

const isShown = (line: string, shown: string): boolean => {
  const parts = shown.split('…').map((part) => part.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'));
  return new RegExp(`^${parts.join('.+')}$`).test(line);
};

/** True where the lines are those shown, "…" standing for any number of others, or for a part of a line. */
function areShown(lines: readonly string[], shown: readonly string[]): boolean {
  const [first, ...rest] = shown;
  if (first === undefined) return lines.length === 0;
  if (first !== '…')
    return lines[0] !== undefined && isShown(lines[0], first) && areShown(lines.slice(1), rest);
  return lines.some((_, i) => areShown(lines.slice(i), rest)) || areShown([], rest);
}

describe.each(guides.map((guide) => [guide.id, guide] as const))('the guide %s', (_id, guide) => {
  const steps = stepsOf(guide);

  it('shows in each cell what the grid computes when the step has been typed', () => {
    const wrong = steps.flatMap((step, i) => {
      const computed = (step.cells ?? []).flatMap((cell) =>
        cell.shows === undefined ? [] : [cell],
      );
      if (computed.length === 0) return [];
      const sheet = typed(steps.slice(0, i + 1));
      return computed.flatMap((cell) =>
        blockCells(cell.at, cell.shows).flatMap(([address, text], k) => {
          const value = sheet(address);
          const found = inTheMannerOf(text, value);
          const sentence = value instanceof GillError && k === 0 ? value.message : undefined;
          return [
            ...(found === text ? [] : [`${address} shows ${found}, the guide ${text}`]),
            ...(k > 0 || sentence === cell.says
              ? []
              : [`${address} says ${sentence}, the guide ${cell.says}`]),
          ];
        }),
      );
    });
    expect(wrong).toEqual([]);
  });

  it('shows at the end what the whole sheet then holds', () => {
    const shown = shownAfter(steps);
    const sheet = typed(steps);
    const wrong = [...shown]
      .map(([address, { text }]) => [address, text, inTheMannerOf(text, sheet(address))] as const)
      // What was typed as a number stands in the guide as it was typed.
      .filter(([, text, found]) => found !== text && Number(found) !== Number(text));
    expect(wrong).toEqual([]);
  });

  const commands = steps.flatMap(({ run }) => (run && !isScript(run) ? [run] : []));
  const runs = commands.length > 0 ? it : () => undefined;
  runs('prints in the terminal what it shows', async () => {
    const folder = folderWith(guide.files);
    for (const { command, prints, status = 0 } of commands) {
      const printed = await inTerminalOnce(command, folder);
      expect(printed.status, `${command}\n${printed.lines.join('\n')}`).toBe(status);
      expect(
        areShown(printed.lines, prints),
        `${command} prints\n${printed.lines.slice(-40).join('\n')}`,
      ).toBe(true);
    }
  });

  it('runs only scripts that the project has, with options that they take', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      scripts: Record<string, string>;
    };
    for (const { run } of steps) {
      if (!run || !isScript(run)) continue;
      const line = scripts[run.script];
      expect(line, run.script).toBeDefined();
      const file = /\S+\.mjs/.exec(line ?? '')?.[0];
      const source = file === undefined ? '' : readFileSync(file, 'utf8');
      for (const option of (run.args ?? []).filter((word) => word.startsWith('--'))) {
        expect(source).toContain(`${option.slice(2)}: {`);
      }
    }
  });

  it('names buttons of the pane and files of the project as they are called', () => {
    const pane = readdirSync('src/sidebar', { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(join('src/sidebar', name), 'utf8'))
      .join('\n');
    const text = JSON.stringify(guide.sections);
    for (const [, named = ''] of text.matchAll(/“([A-Z][^”]+)”/g)) {
      // Some labels are whole sentences.
      expect(
        [`'${named}'`, `'${named}.'`].some((one) => pane.includes(one)),
        named,
      ).toBe(true);
    }
    for (const [file] of text.matchAll(/sample-workbooks\/[\w.-]+\w/g)) {
      expect(existsSync(file), file).toBe(true);
    }
  });

  it('draws in its pictures what the grid computes', () => {
    steps.forEach(({ picture }, i) => {
      if (!picture) return;
      const before = steps.slice(0, i + 1);
      const [grid, figures] = [typed(before), sheetFigures(before, shownAfter(before))];
      const { height, inside } = picture.draw({
        ...figures,
        block: (address) => {
          const rows = figures.block(address);
          const { row, column } = placeOf(address);
          rows.forEach((line, r) =>
            line.forEach((value, c) => expect(value).toBe(grid(cellAddress(row + r, column + c)))),
          );
          return rows;
        },
        changed: (address, args) => {
          // The picture takes its arguments as they are shown, with fewer decimals.
          expect(figures.changed(address, {}) / Number(grid(address))).toBeCloseTo(1, 3);
          return figures.changed(address, args);
        },
      });
      expect(height).toBeGreaterThan(100);
      expect(inside).not.toMatch(/NaN|undefined|Infinity|\[object/);
      expect(withShown(picture.alt, shownAfter(before)).length).toBeGreaterThan(60);
    });
  });

  it('shows only pictures that are there, with words for those who cannot see them', () => {
    for (const { screenshot } of guide.sections) {
      if (!screenshot) continue;
      expect(statSync(join('src/reference/pictures', screenshot.file)).size).toBeLessThan(
        80 * 1024,
      );
      expect(screenshot.alt.length).toBeGreaterThan(60);
    }
  });

  it('has cautions, a question and steps or points', () => {
    expect(guide.cautions.length).toBeGreaterThan(0);
    expect(guide.question).toMatch(/\?$/);
    expect(steps.length).toBeGreaterThan(0);
  });
});

describe('the pages of the guides', () => {
  const pages = guidePages();

  it('are an index and one for each guide', () => {
    expect([...pages.keys()]).toEqual(['index.html', ...guides.map(({ id }) => `${id}.html`)]);
    for (const { id, title } of guides) {
      expect(pages.get('index.html')).toContain(`<a href="${id}.html">${title}</a>`);
    }
  });

  it('have no dead links, and request nothing from any other address', () => {
    const reference = referencePages(cards, questionGroups);
    const there = new Set([
      ...pages.keys(),
      'guides.css',
      '../icons/icon-32.png',
      ...readdirSync('src/reference/pictures'),
      '../reference/reference.css',
      ...[...reference.keys()].map((name) => `../reference/${name}`),
    ]);
    const dead = [...pages].flatMap(([name, html]) =>
      [...html.matchAll(/(?:href|src)="([^"#]+)"/g)]
        .map((match) => match[1] ?? '')
        .filter((target) => !there.has(target))
        .map((target) => `${name} leads to ${target}`),
    );
    expect(dead).toEqual([]);
    expect(reference.get('index.html')).toContain('href="../guides/index.html"');
  });

  it('contain every result and no unfilled placeholder', () => {
    for (const guide of guides) {
      const html = pages.get(`${guide.id}.html`) ?? '';
      for (const [, { text }] of shownAfter(stepsOf(guide))) {
        expect(html).toContain(text.replaceAll('"', '&quot;'));
      }
      expect(html).not.toMatch(/\{[A-Z]+\d+\}|undefined|NaN|\[object/);
    }
  });
});

describe('what the guides are compared by', () => {
  it('finds lines, and lines that are left out', () => {
    expect(areShown(['a', 'b', 'c'], ['a', '…', 'c'])).toBe(true);
    expect(areShown(['a', 'b', 'c'], ['…', 'b'])).toBe(false);
    expect(areShown(['a'], ['a', '…'])).toBe(true);
    expect(areShown(['a', 'b'], ['…', 'd'])).toBe(false);
    expect(areShown(['x.y: 12 sheets'], ['x.y: … sheets'])).toBe(true);
    expect(areShown(['xay: 12 sheets'], ['x.y: … sheets'])).toBe(false);
  });

  it('writes a value in the manner of what is shown', () => {
    expect(inTheMannerOf('51 %', 0.514)).toBe('51 %');
    expect(inTheMannerOf('0.30', 0.3)).toBe('0.30');
    expect(inTheMannerOf('2026-05-06', 46148)).toBe('2026-05-06');
    expect(inTheMannerOf('12', 13)).not.toBe('12');
  });
});
