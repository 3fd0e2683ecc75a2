import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import type { Opening } from '../opening';
import { needParts, replacePlugin } from '../patch';

export type Getters = Model['getters'];
export type SheetData = WorkbookData['sheets'][number];

export interface Command {
  readonly type: string;
}

export interface Config {
  readonly custom: { readonly opening?: Opening };
  readonly stateObserver: { changes: unknown };
}

/** What comes in by turns; the library makes a second workbook with the same parts to see whether it can be read. */
const openingOf = ({ custom: { opening }, stateObserver }: Config): Opening | undefined =>
  opening?.isOf(stateObserver) ? opening : undefined;

/** A plugin of the library with the workbook that it belongs to, where that comes in by turns. */
type InTurn<Parts> = new (config: Config) => Parts & {
  readonly getters: Getters;
  readonly opening: Opening | undefined;
  readonly stateObserver: Config['stateObserver'];
};

/** The name of the patch, whose parts are the files of this folder. */
const NAME = 'sheets-in-turn';

/** Throws where the library has changed. */
export const needsParts = (whole: object, parts: readonly string[]): void =>
  needParts(NAME, whole, parts);

type Registry = Parameters<typeof replacePlugin>[1];

/** A plugin of which a part comes in by turns, and what of it that leans on. */
interface Replaced {
  readonly registry: Registry;
  readonly plugin: string;
  readonly methods: readonly string[];
  readonly parts?: readonly string[];
}

/** Puts a subclass in the place of a plugin; without an opening it has to do as the plugin itself. */
export function pluginInTurn<Parts>(
  { registry, plugin, methods, parts = [] }: Replaced,
  subclass: (original: InTurn<Parts>) => new (...args: never[]) => object,
): void {
  replacePlugin(NAME, registry, plugin, methods, (Original: new (config: Config) => object) => {
    class WithOpening extends Original {
      readonly opening: Opening | undefined;
      readonly stateObserver: Config['stateObserver'];

      constructor(config: Config) {
        super(config);
        needsParts(this, parts);
        this.opening = openingOf(config);
        this.stateObserver = config.stateObserver;
      }
    }
    return subclass(WithOpening as unknown as InTurn<Parts>);
  });
}
