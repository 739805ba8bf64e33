/** The command without its process: turns arguments and files into output and an exit status. */

import { computeSheet } from '../src/charts/index.ts';
import { helpText } from './arguments.ts';
import { formatList } from './list.ts';
import { type Command, parseOptions, type ReadFile } from './options.ts';
import { formatSheet } from './sheet-text.ts';

export interface Outcome {
  /** 0, or 2 if the command line is refused. Then only the reason is printed. */
  readonly status: 0 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

export function run(argv: readonly string[], readFile: ReadFile): Outcome {
  const command = parseOptions(argv, readFile);
  return command.ok
    ? { status: 0, stdout: outputOf(command.value), stderr: '' }
    : { status: 2, stdout: '', stderr: `${command.say}\n` };
}

function outputOf(command: Command): string {
  if (command.what === 'help') return helpText();
  if (command.what === 'list') return formatList(command.format);
  const { request, format } = command;
  return formatSheet(computeSheet(request), request.setting, request.printStep, format);
}
