import { spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

/** Says why nothing more can be done, and ends. */
export function stop(sentence) {
  console.error(sentence);
  process.exit(1);
}

/** Runs a program in the project's folder and shows what it says; true where it went well. */
export function run(program, args, env = {}) {
  const result = spawnSync(program, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    // npm is a script on Windows.
    shell: process.platform === 'win32',
  });
  return result.status === 0;
}

/** The same, while others run beside it. */
export function runShown(program, args, env = {}) {
  return new Promise((done) => {
    const child = spawn(program, args, {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, ...env },
      shell: process.platform === 'win32',
    });
    child.on('error', () => done(false));
    child.on('close', (status) => done(status === 0));
  });
}

/** Runs a program beside others, and shows what it says once it has ended; true where it went well. */
export function runBeside(program, args, env = {}) {
  return new Promise((done) => {
    const said = [];
    const child = spawn(program, args, {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...env },
      shell: process.platform === 'win32',
    });
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => said.push(part));
    child.on('error', (fault) => said.push(Buffer.from(`${program}: ${fault.message}\n`)));
    child.on('close', (status) => {
      process.stdout.write(Buffer.concat(said));
      done(status === 0);
    });
  });
}

/** What a program prints, or undefined where it is not there or fails. */
export function output(program, args) {
  const result = spawnSync(program, args, { encoding: 'utf8' });
  return result.status === 0 ? result.stdout : undefined;
}

const OLDEST_NODE = 20;

export function needNode() {
  if (Number(process.versions.node.split('.')[0]) < OLDEST_NODE) {
    stop(`Gillbed needs Node.js ${OLDEST_NODE} or later; this is ${process.versions.node}.`);
  }
}
