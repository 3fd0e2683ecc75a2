import { runCommand } from './run-command';

// A reader that stops early (head) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await runCommand(process.argv.slice(2));
