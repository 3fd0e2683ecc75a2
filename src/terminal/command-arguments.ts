import { parseArgs, type ParseArgsConfig } from 'node:util';
import { Mistake } from './mistake';

type Options = NonNullable<ParseArgsConfig['options']>;
type Parsed<O extends Options> = ReturnType<
  typeof parseArgs<{ options: O; allowPositionals: true; strict: true }>
>;

/** Splits a command's arguments; a wrong one becomes a sentence that names what the command takes. */
export function readArguments<const O extends Options>(
  args: readonly string[],
  options: O,
): Parsed<O> {
  const known = Object.keys(options)
    .map((name) => `--${name}`)
    .join(', ');
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (thrown) {
    const message = (thrown as Error).message;
    const option = /'(-[^' ]*)/.exec(message)?.[1] ?? '';
    if (/Unknown option/.test(message)) {
      throw new Mistake(`There is no option ${option} here; the options are ${known}.`);
    }
    if (/argument missing/.test(message) || /ambiguous/.test(message)) {
      throw new Mistake(`${option} needs something after it, such as ${option} plan.xlsx.`);
    }
    throw new Mistake(
      `${option || 'An option'} cannot be used like that; the options are ${known}.`,
    );
  }
}
