import { CompiledFormula, Model, registries } from '@odoo/o-spreadsheet';
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { patches } from '../../../src/engine/patches/apply-patches';
import { LIBRARY, needParts, replacePlugin } from '../../../src/engine/patches/patch';
import { quietly } from '../../../src/engine/quietly';

describe('the patches of the spreadsheet library', () => {
  it.each(patches)('$name says what it mends and when it can go, in a file of its own', (patch) => {
    expect(patch.upstream).toMatch(/^[A-Z].+[.!]$/s);
    expect(patch.until.length).toBeGreaterThan(20);
    expect(readdirSync('src/engine/patches')).toContain(`${patch.name}.ts`);
  });

  it('are for the release that the project installs', async () => {
    const { dependencies } = (await import('../../../package.json')) as unknown as {
      dependencies: Record<string, string>;
    };
    expect(dependencies['@odoo/o-spreadsheet']).toBe(LIBRARY);
  });

  it('say in a sentence what has changed in the library', () => {
    expect(() => needParts('row-heights', {}, ['getCellHeight'])).toThrow(
      /^The patch "row-heights" was written for release .+ has no getCellHeight where it looks for it\. Install .+, or adapt src\/engine\/patches\/row-heights\.ts\.$/,
    );
    expect(() => needParts('row-heights', undefined, ['getters'])).toThrow(/no getters/);
    expect(() =>
      replacePlugin('row-heights', registries.coreViewsPluginRegistry, 'gone', [], (one) => one),
    ).toThrow(/has no plugin gone/);
  });

  // Each takes one part away on which a patch leans, before the patch is applied.
  it.each([
    {
      name: 'named-range-index',
      part: 'getNamedRangeIndex',
      of: () => pluginOf('corePluginRegistry', 'named_ranges'),
    },
    {
      name: 'formulas-on-demand',
      part: 'importCell',
      of: () => pluginOf('corePluginRegistry', 'cell'),
    },
    {
      name: 'plain-numbers',
      part: 'getNextCellId',
      of: () => pluginOf('corePluginRegistry', 'cell'),
    },
    { name: 'formulas-on-demand', part: 'usesSymbol', of: () => CompiledFormula.prototype },
    {
      name: 'row-heights',
      part: 'getCellHeight',
      of: () => pluginOf('coreViewsPluginRegistry', 'row_size'),
    },
    {
      name: 'bounded-history',
      part: 'onNewLocalStateUpdate',
      of: () => pluginOf('featurePluginRegistry', 'history'),
    },
    { name: 'days-between-dates', part: 'MINUS', of: () => registries.functionRegistry.content },
  ])('$name notices at start-up that the library lacks $part', ({ name, part, of }) => {
    without(of(), part, () =>
      expect(() => patches.find((patch) => patch.name === name)?.apply()).toThrow(
        `The patch "${name}"`,
      ),
    );
  });

  it('open a workbook once applied', () => {
    registerFunctions();
    expect(open().getters.getEvaluatedCell({ sheetId: 's', row: 0, col: 0 }).value).toBe(2);
  });

  it.each([
    ['dependencies', 'getDirectDependencies'],
    ['values-on-demand', 'computeCell'],
    ['undo-evaluation', 'updateDependencies'],
    // open-with-stored-values leans on parts that this one asks for before it.
    ['unchanged-cells', 'invalidatePositionsDependingOnSpread'],
    ['unchanged-cells', 'evaluateAllCells'],
  ])('%s notices with the first workbook that the library lacks %s', (name, part) => {
    registerFunctions();
    const { handlers } = open() as unknown as {
      readonly handlers: readonly { readonly evaluator?: object }[];
    };
    const evaluator = handlers.find((handler) => handler.evaluator)?.evaluator as object;
    without(Object.getPrototypeOf(evaluator) as object, part, () =>
      expect(open).toThrow(`The patch "${name}"`),
    );
  });
});

const open = (): Model =>
  quietly(() => new Model({ sheets: [{ id: 's', cells: { A1: '=1+1' } }] }));

function without(whole: object, part: string, work: () => void): void {
  const from = whole as Record<string, unknown>;
  const kept = Object.getOwnPropertyDescriptor(from, part);
  if (!kept) throw new Error(`The library has no ${part}`);
  delete from[part];
  try {
    work();
  } finally {
    Object.defineProperty(from, part, kept);
  }
}

function pluginOf(
  registry: 'corePluginRegistry' | 'coreViewsPluginRegistry' | 'featurePluginRegistry',
  name: string,
): object {
  return (registries[registry].get(name) as unknown as { prototype: object }).prototype;
}
