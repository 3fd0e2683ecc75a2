import { __info__, registries } from '@odoo/o-spreadsheet';

/** A change to the spreadsheet library from outside, until the library does so by itself. */
export interface Patch {
  /** Its file in this folder. */
  readonly name: string;
  /** What the library does without it. */
  readonly upstream: string;
  /** When it can be removed. */
  readonly until: string;
  /** Once, before the first workbook is made. Throws where the library has changed. */
  apply(): void;
}

/** The release of the library that the patches were written for. */
export const LIBRARY = '19.3.7';

const sentence = (name: string, missing: readonly string[]): string =>
  `The patch "${name}" was written for release ${LIBRARY} of the spreadsheet library; release ${(__info__ as { version?: string }).version} has no ${missing.join(', no ')} where it looks for it. Install ${LIBRARY}, or adapt src/engine/patches/${name}.ts.`;

/** Throws where a part of the library on which a patch leans is not there. */
export function needParts(name: string, whole: object | undefined, parts: readonly string[]): void {
  const missing = parts.filter((part) => whole === undefined || !(part in whole));
  if (missing.length > 0) throw new Error(sentence(name, missing));
}

type Compute = (this: unknown, ...args: unknown[]) => unknown;

/** Puts another computation in the place of a function's own, made of that. */
export function mendFunction(name: string, mend: (compute: Compute) => Compute): void {
  const { functionRegistry } = registries;
  const original = functionRegistry.get(name);
  functionRegistry.replace(name, {
    ...original,
    compute: mend(original.compute as Compute) as typeof original.compute,
  });
}

type PluginClass = new (...args: never[]) => object;

interface PluginRegistry {
  contains(name: string): boolean;
  get(name: string): unknown;
  replace(name: string, plugin: never): unknown;
}

/** Puts a subclass in the place of one of the library's plugins, once its methods are known to be there. */
export function replacePlugin<Plugin extends PluginClass>(
  patch: string,
  registry: PluginRegistry,
  plugin: string,
  methods: readonly string[],
  subclass: (original: Plugin) => PluginClass,
): void {
  if (!registry.contains(plugin)) throw new Error(sentence(patch, [`plugin ${plugin}`]));
  const original = registry.get(plugin) as Plugin;
  needParts(patch, original.prototype as object, methods);
  registry.replace(plugin, subclass(original) as never);
}

/** Mends the evaluator of every workbook when its evaluation plugin is made; `mend` needs the parts first. */
export function mendEvaluator<Evaluator extends object, Config = unknown>(
  patch: string,
  mend: (evaluator: Evaluator, config: Config) => void,
): void {
  replacePlugin(
    patch,
    registries.coreViewsPluginRegistry,
    'evaluation',
    [],
    (Original: new (config: Config) => { readonly evaluator: Evaluator }) =>
      class extends Original {
        constructor(config: Config) {
          super(config);
          needParts(patch, this, ['evaluator']);
          mend(this.evaluator, config);
        }
      },
  );
}
