import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
// @ts-expect-error: a script of the set-up, without types
import { putIntoExcel, takeOutOfExcel } from '../../src/setup/excel-desktop.mjs';

type Act = () => Promise<boolean>;
const put = putIntoExcel as Act;
const takeOut = takeOutOfExcel as Act;

/** What office-addin-debugging 7.0.0 prints, by its source and a try on Linux; its exit status is always 0. */
const PRINTED = {
  started:
    'Starting without debugging...\nApp type: desktop\nSideloading the Office Add-in...\nStarted.',
  notStarted: 'Starting without debugging...\nApp type: desktop\nSideloading the Office Add-in...',
  stopped: 'Debugging is being stopped...\nDebugging has been stopped.',
  notTakenOut:
    'Debugging is being stopped...\nUnable to unregister the Office Add-in. Error: Platform not supported: linux.\nDebugging has been stopped.',
};

describe("putting the add-in into Excel by Microsoft's tool", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'gillbed-npx-'));
    vi.stubEnv('PATH', `${folder}${delimiter}${process.env['PATH']}`);
    vi.spyOn(process.stdout, 'write').mockReturnValue(true);
  });
  afterEach(() => {
    vi.unstubAllEnvs();
    vi.restoreAllMocks();
    rmSync(folder, { recursive: true, force: true });
  });

  /** An npx that prints this and ends, whatever it is asked. */
  function npxThatPrints(text: string): void {
    const program = join(folder, 'npx');
    writeFileSync(program, `#!/bin/sh\ncat <<'END'\n${text}\nEND\n`);
    chmodSync(program, 0o755);
  }

  it.each<[string, Act, string, boolean]>([
    ['started', put, PRINTED.started, true],
    ['not started', put, PRINTED.notStarted, false],
    ['stopped', takeOut, PRINTED.stopped, true],
    ['stopped, but not taken out', takeOut, PRINTED.notTakenOut, false],
    ['nothing', put, '', false],
  ])('goes by its output, not by its exit status: %s', async (_, act, text, done) => {
    npxThatPrints(text);
    expect(await act()).toBe(done);
  });

  it('is not done where there is no npx', async () => {
    vi.stubEnv('PATH', folder);
    expect(await put()).toBe(false);
  });
});
