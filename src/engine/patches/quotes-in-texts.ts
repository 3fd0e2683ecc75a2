import { CompiledFormula } from '@odoo/o-spreadsheet';
import { needParts, type Patch } from './patch';

const NAME = 'quotes-in-texts';

/** Texts, and names of sheets in quotes, in which a doubled quote means something else. */
const QUOTED = /"(?:[^"]|"")*"|'(?:[^']|'')*'/g;

/** A text without quotes in it as formulas write it; a backslash at its end stands apart. */
function piece(text: string): string[] {
  const [slashes = ''] = /\\*$/.exec(text) ?? [];
  const rest = text.slice(0, text.length - slashes.length);
  return [...(rest === '' ? [] : [`"${rest}"`]), ...[...slashes].map(() => 'CHAR(92)')];
}

/** A formula in which quotes within texts, and backslashes at their ends, are CHAR(34) and CHAR(92). */
export const withReadableTexts = (formula: string): string =>
  formula.replace(QUOTED, (part) => {
    if (!part.startsWith('"') || !/[^"]""|""[^"]|""""|\\"/.test(part)) return part;
    const pieces = part
      .slice(1, -1)
      .split('""')
      .flatMap((text, i) => [...(i === 0 ? [] : ['CHAR(34)']), ...piece(text)]);
    return pieces.length === 1 ? (pieces[0] as string) : `(${pieces.join('&')})`;
  });

/** Reads texts in formulas as files and other spreadsheets write them. */
export const quotesInTexts: Patch = {
  name: NAME,
  upstream:
    'A doubled quote ends a text and begins the next one, and a backslash at the end of a text takes its closing quote along, so that ="a""b" and ="C:\\" cannot be read.',
  until: 'the library reads doubled quotes in texts',
  apply() {
    needParts(NAME, CompiledFormula, ['Compile']);
    const { Compile } = CompiledFormula;
    const readable: typeof Compile = (text, ...more) =>
      Compile.call(CompiledFormula, withReadableTexts(text), ...more);
    Object.assign(CompiledFormula, { Compile: readable });
  },
};
