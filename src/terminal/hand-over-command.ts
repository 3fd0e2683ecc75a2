import { handOver, type Turned } from '../handover/hand-over';
import { UnreadableFile } from '../ooxml/unreadable-file';
import { repair as repairBytes } from '../handover/repair';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  values: { type: 'boolean', default: false },
  fold: { type: 'boolean', default: false },
  'typed-only': { type: 'boolean', default: false },
  force: { type: 'boolean', default: false },
} as const;

interface Asked {
  readonly input: string;
  readonly out: string;
  readonly values: boolean;
  readonly fold: boolean;
  readonly typedOnly: boolean;
  readonly force: boolean;
}

function asked(command: string, args: readonly string[]): Asked {
  const { values, positionals } = readArguments(args, options);
  const [input, ...more] = positionals;
  if (input === undefined || more.length > 0 || values.out === undefined) {
    throw new Mistake(
      `${command} takes one workbook and a name for the new one: ${command} IN.xlsx --out OUT.xlsx`,
    );
  }
  return {
    input,
    out: values.out,
    values: values.values,
    fold: values.fold,
    typedOnly: values['typed-only'],
    force: values.force,
  };
}

/** Runs work on a workbook's bytes; a file that cannot be worked on becomes a sentence. */
async function worked<R extends { readonly bytes: Uint8Array }>(
  { input, out, force }: Asked,
  work: (bytes: Uint8Array) => R,
): Promise<R> {
  const bytes = await readWorkbookFile(input);
  let made: R;
  try {
    made = work(bytes);
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${input}: ${problem.message}`);
    throw problem;
  }
  await writeOutputFile(out, made.bytes, { input, force });
  return made;
}

const place = ({ sheet, where }: { sheet: string; where: string }): string =>
  sheet === '' ? where : /^[A-Z]+\d+$/.test(where) ? `${sheet}!${where}` : `${sheet}: ${where}`;

function turnedLine(turned: Turned): string {
  if (turned.became === 'formula') return `${place(turned)}\t${turned.was}\tplain formula`;
  return `${place(turned)}\t${turned.was}\t${turned.became === 'value' ? 'value only' : 'left as it is'}: ${turned.why}`;
}

/** Writes a copy of a workbook that needs no Gillbed, and lists what became of each formula. */
export const handover: Command = async (args) => {
  const request = asked('handover', args);
  const { turned, notes } = await worked(request, (bytes) =>
    handOver(bytes, { values: request.values, folded: request.fold, typedOnly: request.typedOnly }),
  );
  // What is no formula any more stands last, beside the sum: that is what one has to look at.
  const ordered = [true, false].flatMap((plain) =>
    turned.filter((turned) => (turned.became === 'formula') === plain),
  );
  for (const turned of ordered) console.log(turnedLine(turned));
  for (const note of notes) console.log(note);
  const count = (became: Turned['became']): number =>
    turned.filter((turned) => turned.became === became).length;
  const left = count('left');
  console.log(
    `${request.out}: ${turned.length} GILL formulas, ${count('formula')} now plain, ${count('value')} now values${
      left > 0 ? `, ${left} left as they were` : ''
    }.`,
  );
  return left > 0 ? 1 : 0;
};

/** Writes a copy of a workbook in which GILL formulas that lost their function work again. */
export const repair: Command = async (args) => {
  const request = asked('repair', args);
  if (request.values || request.fold || request.typedOnly)
    throw new Mistake(
      'repair takes --out and --force alone; the other options are those of handover.',
    );
  const { repaired, unknown } = await worked(request, repairBytes);
  for (const formula of repaired) console.log(`${place(formula)}\t${formula.was}\t${formula.now}`);
  for (const formula of unknown) console.log(`${place(formula)}\tleft as it is: ${formula.why}`);
  console.log(`${request.out}: ${repaired.length} formulas mended.`);
  return unknown.length > 0 ? 1 : 0;
};
