import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cell, formatCsv, formatJson, formatMarkdown, type Grid } from '../../bin/format.ts';
import { parseCsv } from './csv.ts';
import { parseTable } from './markdown.ts';

describe('JSON', () => {
  it('is an array that reads back as what was written, an element to a line', () => {
    fc.assert(
      fc.property(
        fc.array(fc.dictionary(fc.string(), fc.jsonValue()), { maxLength: 5 }),
        (list) => {
          const text = formatJson(list);
          // What JSON.stringify makes of a value, it makes of it again: −0 is 0 to both sides.
          expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(list)));
          expect(text.trimEnd().split('\n').length).toBe(list.length === 0 ? 1 : list.length + 2);
        },
      ),
    );
  });
});

describe('CSV', () => {
  it('reads back by RFC 4180 as what was written, whatever is in a cell', () => {
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
        // + 0: CSV has one zero.
        expect(Number(field) + 0).toBe(value + 0);
      }),
    );
  });
});

describe('Markdown', () => {
  it('has a cell for every cell, with bars escaped and lines joined', () => {
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

/** What is left of a text in a cell: no line breaks, and no blanks at its ends. */
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
