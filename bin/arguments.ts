/** The command's options: names, help texts, and the parser of a command line. */

import { parseArgs } from 'node:util';
import { type Read, read, refuse } from './read.ts';

interface OptionWords {
  /** The value's name in the help. An option without a value is a switch. */
  readonly value?: string;
  readonly says: string;
}

export const OPTIONS = {
  pattern: { value: 'ID', says: 'the pattern (see --list); always needed' },
  table: { value: 'SIZE', says: 'the table (see --list); 9ft if not given' },
  format: { value: 'FORMAT', says: 'json, csv or md; json if not given' },
  starts: {
    value: 'LIST',
    says: 'start diamonds: FROM:TO:STEP, such as 1:8:0.5, or a list, such as 2,3.5; if not given the pattern’s own, 0.5 apart',
  },
  speeds: {
    value: 'S,M,F',
    says: 'what soft, medium and firm stand for: three speeds in m/s, ascending, such as 2.2,3.1,4.6; a name in its place keeps the condition’s speed: soft,3.3,firm',
  },
  condition: {
    value: 'FILE',
    says: 'JSON of a table condition; fields left out are those of the working condition',
  },
  pockets: { value: 'SIZE', says: 'tight, standard or generous; standard if not given' },
  target: {
    value: 'D',
    says: 'a kick: the same path to diamond D of a rail (see --list) instead of to the pocket',
  },
  naming: {
    value: 'NAMING',
    says: 'numbers name the line through the sight (through; if not given) or the point on the nose opposite a diamond (opposite)',
  },
  step: { value: 'STEP', says: 'to what numbers are printed: 0.1 (if not given) or 0.05' },
  tolerance: {
    value: 'T',
    says: 'anchors are chosen for this tolerance, diamonds; 0.1 if not given',
  },
  follow: {
    value: 'B',
    says: 'tip above the centre (below: negative), as a part of the ball’s radius, at most 0.5',
  },
  running: {
    value: 'B',
    says: 'side that runs with the first cushion (against it: negative), likewise',
  },
  side: { value: 'B', says: 'side to the right (left: negative), likewise; not with --running' },
  along: {
    value: 'A',
    says: 'the ball lies this part of the way along its line from the start rail to the first cushion, 0 (if not given) to 0.95',
  },
  list: { says: 'lists patterns, tables and pocket sizes, in the format asked for' },
  help: { says: 'says this' },
} as const satisfies Readonly<Record<string, OptionWords>>;

export type OptionName = keyof typeof OPTIONS;
export type Switch = 'list' | 'help';
export type Valued = Exclude<OptionName, Switch>;
/** The texts of the options that have values, and the switches that are on. */
export type Arguments = {
  readonly texts: { readonly [name in Valued]?: string };
  readonly switches: ReadonlySet<Switch>;
};

const NAMES = Object.keys(OPTIONS) as readonly OptionName[];
const KNOWN = NAMES.map((name) => `--${name}`).join(', ');

/**
 * Parses a command line as strictly as the strict mode of `parseArgs`. That mode is not used
 * because its errors do not name what is valid, and because it rejects `--side -0.2`.
 */
export function parseArguments(argv: readonly string[]): Read<Arguments> {
  const options = Object.fromEntries(NAMES.map((name) => [name, { type: typeOf(name) }]));
  const args = argv.map((arg) => (arg === '-h' ? '--help' : arg));
  const { tokens } = parseArgs({ args, options, strict: false, tokens: true });
  const texts: { [name in Valued]?: string } = {};
  const switches = new Set<Switch>();
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue;
    if (token.kind === 'positional') {
      return refuse(`${quote(token.value)} belongs to no option; the options are ${KNOWN}.`);
    }
    const { name, rawName, value } = token;
    if (!isOption(name)) return refuse(`There is no option ${named(rawName)}; there are ${KNOWN}.`);
    if (isSwitch(name)) {
      if (value !== undefined) return refuse(`${rawName} takes no value.`);
      switches.add(name);
      continue;
    }
    if (texts[name] !== undefined) return refuse(`${rawName} is given twice; once is enough.`);
    // An empty text is not a valid value. The option's reader names what is valid.
    texts[name] = value ?? '';
  }
  return read({ texts, switches });
}

/** The width of a terminal, and the width of the column with the options, in characters. */
const WIDTH = 80;
const CALLS = 20;

/** Returns the text of `--help`. */
export function helpText(): string {
  const about = [
    'Usage: npm run -s chart -- --pattern ID [options]',
    'Prints the numbers of a pattern: a line for every start, in diamonds.',
    'JSON and CSV have them unrounded and as printed, Markdown as printed.',
    '',
  ];
  const lines = NAMES.flatMap((name) => {
    const words: OptionWords = OPTIONS[name];
    return wrap(words.says, WIDTH - CALLS).map((say, n) => {
      const call = n > 0 ? '' : `  --${name}${words.value ? ` ${words.value}` : ''}`;
      return `${call.padEnd(CALLS)}${say}`;
    });
  });
  return [...about, ...lines, ''].join('\n');
}

function wrap(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}

function typeOf(name: OptionName): 'boolean' | 'string' {
  return isSwitch(name) ? 'boolean' : 'string';
}

function isOption(name: string): name is OptionName {
  return Object.hasOwn(OPTIONS, name);
}

function isSwitch(name: OptionName): name is Switch {
  return !('value' in OPTIONS[name]);
}

/** Returns an option's name as it was given, quoted if it is not a plain word. */
function named(rawName: string): string {
  return /^[\w-]{1,40}$/.test(rawName) ? rawName : quote(rawName);
}

/** Quotes outside text for a sentence: short and on one line. */
export function quote(text: string): string {
  const line = JSON.stringify(text);
  return line.length > 60 ? `${line.slice(0, 57)}…"` : line;
}
