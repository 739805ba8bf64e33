/** The command without its process: from arguments and files to what it prints and how it ends. */

import { computeSheet } from '../src/charts/index.ts';
import { helpText } from './arguments.ts';
import { formatList } from './list.ts';
import { type Asked, parseOptions, type ReadFile } from './options.ts';
import { formatSheet } from './sheet-text.ts';

export interface Outcome {
  /** 0, or 2 if the command was not understood: then nothing is printed but the reason. */
  readonly status: 0 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

export function run(argv: readonly string[], readFile: ReadFile): Outcome {
  const asked = parseOptions(argv, readFile);
  return asked.ok
    ? { status: 0, stdout: answer(asked.value), stderr: '' }
    : { status: 2, stdout: '', stderr: `${asked.say}\n` };
}

function answer(asked: Asked): string {
  if (asked.what === 'help') return helpText();
  if (asked.what === 'list') return formatList(asked.format);
  const { request, format } = asked;
  return formatSheet(computeSheet(request), request.setting, request.printStep, format);
}
