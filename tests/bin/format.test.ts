import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cell, formatCsv, formatJson, formatMarkdown, type Grid } from '../../bin/format.ts';
import { parseCsv } from './csv.ts';
import { parseTable } from './markdown.ts';

describe('JSON', () => {
  it('reads back as it was written, one element a line', () => {
    fc.assert(
      fc.property(
        fc.array(fc.dictionary(fc.string(), fc.jsonValue()), { maxLength: 5 }),
        (list) => {
          const text = formatJson(list);
          // Both sides go through JSON.stringify: it writes −0 as 0.
          expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(list)));
          expect(text.trimEnd().split('\n').length).toBe(list.length === 0 ? 1 : list.length + 2);
        },
      ),
    );
  });
});

describe('CSV', () => {
  it('reads back by RFC 4180 as it was written, whatever a cell holds', () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const texts = (row: readonly Cell[]) =>
          row.map((cell) => (cell === null ? '' : String(cell)));
        expect(parseCsv(formatCsv(grid))).toEqual([texts(grid.head), ...grid.rows.map(texts)]);
      }),
    );
  });

  it('keeps every number to the last bit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const [, [field = ''] = []] = parseCsv(formatCsv({ head: ['value'], rows: [[value]] }));
        // + 0: CSV has no −0.
        expect(Number(field) + 0).toBe(value + 0);
      }),
    );
  });
});

describe('Markdown', () => {
  it('has one cell for each cell, with bars escaped and lines joined', () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const [head, ...rows] = parseTable(formatMarkdown(grid));
        const texts = (row: readonly Cell[]) =>
          row.map((cell) => (cell === null ? '–' : oneLine(String(cell))));
        expect(head).toEqual(texts(grid.head));
        expect(rows).toEqual(grid.rows.map(texts));
      }),
    );
  });
});

/** A text as it appears in a cell: without line breaks and outer blanks. */
function oneLine(text: string): string {
  return text.replace(/\s*[\r\n]+\s*/g, ' ').trim();
}

const nasty = fc.constantFrom('a,b', '"', 'x "y" z', 'line\r\nbreak', '|', '\\|', '\\', 'ä–−', ' ');
const cell: fc.Arbitrary<Cell> = fc.oneof(
  nasty,
  fc.stringMatching(/^[ -~]{0,8}$/),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.boolean(),
  fc.constant(null),
);
const grids: fc.Arbitrary<Grid> = fc.integer({ min: 1, max: 5 }).chain((width) => {
  const row = fc.array(cell, { minLength: width, maxLength: width });
  return fc.record({
    head: row.map((cells) => cells.map(String)),
    rows: fc.array(row, { maxLength: 4 }),
  });
});
