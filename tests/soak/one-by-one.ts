import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

const MARK = 'outcome: ';

/** Says what became of a file, in the process that works on it. */
export const report = (outcome: object): void => console.log(MARK + JSON.stringify(outcome));

export interface OneByOne<Outcome> {
  /** Flags for the process that works on the files. */
  readonly flags: readonly string[];
  /** So many milliseconds a file may take. */
  readonly limit: number;
  /** What became of a file that took longer, or took the process down. */
  readonly ended: (name: string, kind: 'hang' | 'exception', said: string) => Outcome;
}

/** Works on files in another process until one takes it down; gives what became of them up to that one. */
function apart<Outcome extends object>(
  paths: readonly string[],
  { flags, limit, ended }: OneByOne<Outcome>,
): Promise<Outcome[]> {
  const args = [process.argv[1] ?? '', '--apart', ...flags, '--', ...paths];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  const outcomes: Outcome[] = [];
  let isHanging = false;
  const watch = (): NodeJS.Timeout =>
    setTimeout(() => {
      isHanging = true;
      child.kill('SIGKILL');
    }, limit);
  let timer = watch();
  createInterface(child.stdout).on('line', (line) => {
    if (!line.startsWith(MARK)) return;
    outcomes.push(JSON.parse(line.slice(MARK.length)) as Outcome);
    clearTimeout(timer);
    timer = watch();
  });
  return new Promise((done) => {
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      const path = paths[outcomes.length];
      if (path !== undefined) {
        const name = path.split('/').at(-1) ?? path;
        const kind = isHanging ? 'hang' : 'exception';
        outcomes.push(ended(name, kind, `ended with ${code ?? signal ?? 'nothing'}`));
      }
      done(outcomes);
    });
  });
}

/** Works on files one after the other in another process; a new one goes on behind a file that takes it down. */
export async function allOf<Outcome extends object>(
  paths: readonly string[],
  how: OneByOne<Outcome>,
): Promise<Outcome[]> {
  const outcomes: Outcome[] = [];
  while (outcomes.length < paths.length) {
    outcomes.push(...(await apart(paths.slice(outcomes.length), how)));
  }
  return outcomes;
}
