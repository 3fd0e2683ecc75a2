/** How npm run excel:stop reaches a running npm run excel, and what it has to undo. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { join } from 'node:path';
import { root } from './run.mjs';

const folder = join(root, '.cache');
const notes = join(folder, 'excel.json');
const line =
  process.platform === 'win32'
    ? `\\\\.\\pipe\\gillbed-excel-${Buffer.from(root).toString('base64url').slice(-64)}`
    : join(folder, 'excel.sock');

/** What runs did to this machine that is not undone yet: { sideloaded, certificate }. */
export function pendingChanges() {
  try {
    return JSON.parse(readFileSync(notes, 'utf8'));
  } catch {
    return {};
  }
}

export function recordChange(done) {
  mkdirSync(folder, { recursive: true });
  writeFileSync(notes, JSON.stringify({ ...pendingChanges(), ...done }));
}

/** Calls `end` when somebody asks this run to end; the line stays open until it has. */
export function listenForStop(end) {
  mkdirSync(folder, { recursive: true });
  // Left behind by a run that was killed; the port has shown that none is running.
  if (process.platform !== 'win32') {
    rmSync(line, { force: true });
    process.on('exit', () => rmSync(line, { force: true }));
  }
  const server = createServer((asked) => {
    asked.on('error', () => undefined);
    end();
  });
  // Where no such line can be had, Ctrl+C still ends it.
  server.on('error', () => undefined);
  server.listen(line).unref();
}

/** Asks a running one to end; true where there was one, once it has ended. */
export const askToStop = () =>
  new Promise((resolve) => {
    let reached = false;
    const asking = connect(line);
    asking.on('connect', () => (reached = true));
    asking.on('error', () => undefined);
    asking.on('close', () => resolve(reached));
    asking.resume();
  });
