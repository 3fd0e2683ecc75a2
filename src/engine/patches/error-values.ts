import { CellErrorType, registries } from '@odoo/o-spreadsheet';
import { needParts, type Patch } from './patch';

const NAME = 'error-values';

/** Shows, compares and hands on the errors that every spreadsheet knows. */
export const errorValues: Patch = {
  name: NAME,
  upstream:
    'Errors that every other spreadsheet shows as #VALUE! and #REF! are #ERROR and #REF; #CALC! and #BUSY! are no errors at all.',
  until: 'the library has the usual error values',
  apply() {
    needParts(NAME, CellErrorType, ['GenericError', 'InvalidReference']);
    needParts(NAME, registries, ['errorTypes']);
    const known = registries.errorTypes as Set<string>;
    const types = CellErrorType as unknown as Record<'GenericError' | 'InvalidReference', string>;
    types.GenericError = '#VALUE!';
    types.InvalidReference = '#REF!';
    for (const code of ['#VALUE!', '#REF!', '#CALC!', '#BUSY!']) known.add(code);
  },
};
