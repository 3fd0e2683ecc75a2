import { build, type Plugin } from 'esbuild';
import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { vi } from 'vitest';
import { runCommand } from '../../src/terminal/run-command';
import { builtOnce, root } from './built-once';

export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Files beside the sources are looked for from where the sources stand. */
const addresses: Plugin = {
  name: 'addresses',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/]terminal[\\/].*\.ts$/ }, async ({ path }) => ({
      contents: (await readFile(path, 'utf8')).replaceAll(
        'import.meta.url',
        JSON.stringify(pathToFileURL(path).href),
      ),
      loader: 'ts',
    }));
  },
};

async function bundle(folder: string): Promise<void> {
  await build({
    entryPoints: [join(root, 'src/terminal/main.ts')],
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
    plugins: [addresses],
    // Packages in the older form of modules ask for others as they run.
    banner: {
      js: "import { createRequire as requireFor } from 'node:module'; const require = requireFor(import.meta.url);",
    },
  });
}

const said = (args: readonly string[]): Promise<Said> =>
  new Promise((done, fail) => {
    execFile(process.execPath, args, { maxBuffer: 1 << 26 }, (fault, out, err) => {
      if (fault && typeof fault.code !== 'number') fail(fault);
      else done({ code: fault ? Number(fault.code) : 0, out, err });
    });
  });

/** Runs the terminal as a program of its own, bundled once for all tests. */
export async function runProgram(args: readonly string[]): Promise<Said> {
  const folder = await builtOnce('terminal', bundle);
  return said([join(folder, 'main.mjs'), ...args]);
}

/** Runs the terminal as `npm run gillbed` does. */
export const runScript = (args: readonly string[]): Promise<Said> =>
  said([join(root, 'src/setup/gillbed.mjs'), ...args]);

/** Runs a command in this process, for what it prints and answers. */
export async function runHere(...args: string[]): Promise<Said> {
  const lines = { log: [] as string[], error: [] as string[] };
  const spies = (['log', 'error'] as const).map((kind) =>
    vi.spyOn(console, kind).mockImplementation((text: unknown) => {
      lines[kind].push(`${String(text)}\n`);
    }),
  );
  try {
    const code = await runCommand(args);
    return { code, out: lines.log.join(''), err: lines.error.join('') };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/** The same from a folder: files are named as somebody does who stands there. */
export async function runHereIn(folder: string, args: readonly string[]): Promise<Said> {
  const before = process.cwd();
  process.chdir(folder);
  try {
    return await runHere(...args);
  } finally {
    process.chdir(before);
  }
}
