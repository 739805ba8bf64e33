import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OPTIONS } from '../../bin/arguments.ts';
import { parseOptions } from '../../bin/options.ts';
import { refuse } from '../../bin/read.ts';
import { run } from '../../bin/run.ts';
import { PATTERNS } from '../../src/charts/index.ts';
import { POCKET_SIZES, TABLES } from '../../src/table/index.ts';
import { parseCsv } from './csv.ts';
import { parseTable } from './markdown.ts';

describe('the list', () => {
  it('has every pattern, table and pocket size, in each format', () => {
    const values = [PATTERNS.map(({ id }) => id), Object.keys(TABLES), Object.keys(POCKET_SIZES)];
    const json = JSON.parse(printed('--list', 'json')) as Record<string, string>[];
    expect(json.map(({ value }) => value)).toEqual(values.flat());
    const rows = json.map((item) => Object.values(item));
    expect(parseCsv(printed('--list', 'csv'))).toEqual([Object.keys(json[0] ?? {}), ...rows]);
    expect(parseTable(printed('--list', 'md'))).toEqual([Object.keys(json[0] ?? {}), ...rows]);
  });

  it('names only values that are accepted', () => {
    const items = JSON.parse(printed('--list', 'json')) as { option: string; value: string }[];
    for (const { option, value } of items) {
      const rest = option === 'pattern' ? [] : ['--pattern', 'cross-side'];
      expect(parseOptions([`--${option}`, value, ...rest], () => refuse('no file')).ok).toBe(true);
    }
  });
});

describe('the command', () => {
  it('either answers or refuses, whatever the command line holds', () => {
    fc.assert(
      fc.property(fc.array(word, { maxLength: 6 }), (words) => {
        const { status, stdout, stderr } = run(words, () => refuse('There is no file.'));
        if (status === 0) {
          expect(stderr).toBe('');
          expect(stdout).not.toBe('');
          expect(stdout).not.toMatch(/NaN|Infinity|undefined/);
        } else {
          expect(status).toBe(2);
          expect(stdout).toBe('');
          expect(stderr).toMatch(/^[^\n]+\.\n$/);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('lists every option in its help, in lines that fit a terminal', () => {
    const { stdout } = run(['--help'], () => refuse('no file'));
    for (const name of Object.keys(OPTIONS)) {
      expect(stdout).toMatch(new RegExp(`^ {2}--${name}\\b`, 'm'));
    }
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

function printed(call: string, format: string): string {
  return run([call, '--format', format], () => refuse('no file')).stdout;
}

const word = fc.oneof(
  fc.constantFrom(
    '--pattern=cross-side',
    '--pattern=up-and-back',
    '--starts=1:3:1',
    '--starts=2',
    '--target=3',
    '--speeds=0.5,0.6,10',
    '--side=0.5',
    '--follow=-0.5',
    '--along=0.9',
    '--format=csv',
    '--format=md',
    '--naming=opposite',
    '--table=7ft',
    '--condition=x',
    '--list',
    '--help',
    '--',
    '-x',
  ),
  fc.string({ maxLength: 12 }),
  fc.string({ maxLength: 12 }).map((text) => `--${text}`),
);
