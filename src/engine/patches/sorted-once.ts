import { helpers, registries } from '@odoo/o-spreadsheet';
import { needParts, type Patch } from './patch';

const NAME = 'sorted-once';

type Cell = { readonly value: unknown } | undefined;
type Numbered = { readonly value: number };

/** The numbers of each range in order; a range is one object as long as nothing in it is computed anew. */
const sortedRanges = new WeakMap<object, readonly Numbered[]>();

/** None where the range holds an error, which the library passes on in its own way. */
function sortedNumbers(data: readonly (readonly Cell[])[]): readonly Numbered[] {
  let sorted = sortedRanges.get(data);
  if (sorted === undefined) {
    const cells = data.flat();
    sorted = cells.some((cell) => helpers.isEvaluationError(cell?.value as string))
      ? []
      : cells
          .filter((cell): cell is Numbered => typeof cell?.value === 'number')
          .sort((a, b) => a.value - b.value);
    sortedRanges.set(data, sorted);
  }
  return sorted;
}

/** SMALL sorts a range once, however many cells ask for one of its numbers. */
export const sortedOnce: Patch = {
  name: NAME,
  upstream:
    'SMALL sorts its range anew for each cell that asks: a list of 5,000 in order takes 25 million steps.',
  until: 'the library sorts a range once',
  apply() {
    needParts(NAME, registries.functionRegistry.content, ['SMALL']);
    const small = registries.functionRegistry.get('SMALL');
    const { compute } = small;
    registries.functionRegistry.replace('SMALL', {
      ...small,
      compute(data, place) {
        const asked = Array.isArray(place) ? undefined : place?.value;
        if (!Array.isArray(data) || typeof asked !== 'number')
          return compute.call(this, data, place);
        const sorted = sortedNumbers(data as readonly (readonly Cell[])[]);
        const found = sorted[Math.trunc(asked) - 1];
        if (found !== undefined) return found;
        // Beyond the last number the error is the same, however many numbers there are.
        const isBeyond = sorted.length > 0 && Math.trunc(asked) > sorted.length;
        return compute.call(this, isBeyond ? ([[sorted[0]]] as typeof data) : data, place);
      },
    });
  },
};
