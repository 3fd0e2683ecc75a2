import { helpers, registries, type AddFunctionDescription } from '@odoo/o-spreadsheet';
import { needParts, type Patch } from './patch';

type Argument = Parameters<AddFunctionDescription['compute']>[number];

const NAME = 'days-between-dates';

const isDated = (argument: Argument): boolean =>
  !Array.isArray(argument) && helpers.isDateTimeFormat(argument?.format ?? '');

/** Shows the days between two dates as a number. */
export const daysBetweenDates: Patch = {
  name: NAME,
  upstream: 'The difference of two dates is shown as a date of the year 1900.',
  until: 'the library shows such a difference as a number',
  apply() {
    needParts(NAME, registries.functionRegistry.content, ['MINUS']);
    const minus = registries.functionRegistry.get('MINUS');
    const { compute } = minus;
    registries.functionRegistry.replace('MINUS', {
      ...minus,
      compute(first, second) {
        const result = compute.call(this, first, second);
        return isDated(first) && isDated(second) && !Array.isArray(result)
          ? { value: (result as { value: number }).value }
          : result;
      },
    });
  },
};
