import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { refuse } from '../../bin/read.ts';
import { run } from '../../bin/run.ts';
import { parseTable } from './markdown.ts';

const text = readFileSync('README.md', 'utf8');
/** A command shown in README, and what is shown below it, up to the next paragraph. */
const shown = [...text.matchAll(/^ {4}\$ npm run -s chart -- ([^\n]+)\n\n(.+?)\n\n/gms)].map(
  ([, call = '', below = '']) => ({ call, below }),
);

it('README shows two calls', () => {
  expect(shown.length).toBe(2);
});

it.each(shown)('README shows what the command prints: $call', ({ call, below }) => {
  const { status, stdout } = run(call.split(' '), () => refuse('no file'));
  expect(status).toBe(0);
  if (call.includes('--format md')) expect(parseTable(below)).toEqual(parseTable(stdout));
  else expect(JSON.parse(below.replace(/^```(json)?$/gm, ''))).toEqual(cut(JSON.parse(stdout)));
});

/** Decimals as README shows them. */
function cut(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toFixed(3));
  if (Array.isArray(value)) return value.map(cut);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, cut(inner)]));
}
