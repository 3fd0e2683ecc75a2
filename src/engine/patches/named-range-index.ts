import { registries } from '@odoo/o-spreadsheet';
import { replacePlugin, type Patch } from './patch';

interface NamedRange {
  readonly name: string;
}

interface NamedRangesPlugin {
  readonly namedRanges: readonly NamedRange[];
  getNamedRangeIndex(name: string): number;
}

const NAME = 'named-range-index';

/** Finds a name in a map instead of reading all of them, for every name in every formula. */
export const namedRangeIndex: Patch = {
  name: NAME,
  upstream: 'A name is looked for by reading the names from the first one on.',
  until: 'the library looks names up in a map',
  apply: () =>
    replacePlugin(
      NAME,
      registries.corePluginRegistry,
      'named_ranges',
      ['getNamedRangeIndex'],
      (Original: new (config: unknown) => NamedRangesPlugin) =>
        class extends Original {
          private indexed: readonly NamedRange[] = [];
          private count = 0;
          private index = new Map<string, number>();

          override getNamedRangeIndex(name: string): number {
            // The list is replaced by every change, and grows in place while a workbook is read.
            if (this.indexed !== this.namedRanges || this.count !== this.namedRanges.length) {
              this.indexed = this.namedRanges;
              this.count = this.namedRanges.length;
              this.index = new Map();
              this.namedRanges.forEach((range, i) => {
                const key = range.name.toLowerCase();
                if (!this.index.has(key)) this.index.set(key, i);
              });
            }
            return this.index.get(name.toLowerCase()) ?? -1;
          }
        },
    ),
};
