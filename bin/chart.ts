/**
 * Runs `npm run -s chart`. This file only connects the process; the command itself is in run.ts.
 */

import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { quote } from './arguments.ts';
import { type Read, read, refuse } from './read.ts';
import { run } from './run.ts';

// A reader such as `head` closes the pipe once it has enough. That is not an error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const { status, stdout, stderr } = run(process.argv.slice(2), readText);
process.exitCode = status;
process.stderr.write(stderr);
process.stdout.write(stdout);

function readText(path: string): Read<string> {
  try {
    // npm runs scripts in the project's folder. INIT_CWD is the folder in which npm was called.
    return read(readFileSync(resolve(process.env.INIT_CWD ?? '', path), 'utf8'));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return refuse(
      `The file ${quote(path)} cannot be read (${code}); --condition needs a JSON file.`,
    );
  }
}
