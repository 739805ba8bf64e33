import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type AccuracyRow, accuracyRows } from './accuracy.ts';

const PAGE = 'docs/numbers.md';
const BEGIN = '<!-- accuracy: made by `npm run accuracy`, kept true by tests/accuracy.test.ts -->';
const END = '<!-- /accuracy -->';

describe('the table of accuracy', () => {
  it('states the accuracy that is measured: never better, never three times worse', () => {
    const rows = accuracyRows();
    if (process.env.THROUGHLINE_WRITE_ACCURACY) write(rows);
    const stated = statedRows();
    expect(stated.map(({ what, reference, count }) => ({ what, reference, count }))).toEqual(
      rows.map(({ what, reference, count }) => ({ what, reference, count })),
    );
    rows.forEach((row, n) => {
      for (const key of ['mean', 'max'] as const) {
        const said = stated[n]?.[key] ?? 0;
        expect(row[key], `${row.what} against ${row.reference}, ${key}`).toBeLessThanOrEqual(said);
        expect(said).toBeLessThanOrEqual(Math.max(3 * row[key], 1e-12));
      }
    });
  });
});

function write(rows: readonly AccuracyRow[]): void {
  const text = readFileSync(PAGE, 'utf8');
  const before = text.slice(0, text.indexOf(BEGIN) + BEGIN.length);
  const after = text.slice(text.indexOf(END));
  const lines = rows.map(
    (row) =>
      `| ${row.what} | ${row.reference} | ${row.count} | ${upward(row.mean)} | ${upward(row.max)} ${row.unit} |`,
  );
  const head = '| what | against | cases | mean | max |\n| --- | --- | --- | --- | --- |';
  writeFileSync(PAGE, `${before}\n\n${head}\n${lines.join('\n')}\n\n${after}`);
}

function statedRows() {
  const text = readFileSync(PAGE, 'utf8');
  const block = text.slice(text.indexOf(BEGIN) + BEGIN.length, text.indexOf(END));
  return block
    .trim()
    .split('\n')
    .slice(2)
    .map((line) => {
      const [, what = '', reference = '', count, mean, max = ''] = line
        .split('|')
        .map((cell) => cell.trim());
      return {
        what,
        reference,
        count: Number(count),
        mean: Number(mean),
        max: Number(max.split(' ')[0]),
      };
    });
}

/** One figure, rounded up: what is stated is a bound. */
function upward(value: number): string {
  if (value < 1e-12) return '1e-12';
  const power = 10 ** Math.floor(Math.log10(value));
  return (Math.ceil(value / power) * power).toExponential(0);
}
