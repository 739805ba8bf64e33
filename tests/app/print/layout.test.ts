import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  COLUMNS,
  largestScale,
  lotsOf,
  MARGIN,
  PAPERS,
  PATTERNS_A_SHEET,
  pageRoom,
  panelInside,
  panelPlace,
  panelSize,
  paperOf,
  pocketRoom,
  SCALES,
  spreadRows,
} from '../../../src/app/print/layout.ts';

describe('papers', () => {
  it('have the sizes of their standards', () => {
    // ISO 216: the sides of A4 are 1 to √2, and sixteen sheets are a square meter, to the millimeter.
    const { width, height } = PAPERS.A4;
    expect(height / width).toBeCloseTo(Math.SQRT2, 2);
    expect((16 * width * height) / 1e6).toBeCloseTo(1, 2);
    // ANSI/ASME Y14.1, size A: 8.5 × 11 in; an inch is 25.4 mm.
    expect(PAPERS.Letter.width / 25.4).toBeCloseTo(8.5, 9);
    expect(PAPERS.Letter.height / 25.4).toBeCloseTo(11, 9);
  });

  // Paper in use: common practice, no source.
  it.each([
    ['en-US', 'Letter'],
    ['es-MX', 'Letter'],
    ['en-GB', 'A4'],
    ['de', 'A4'],
    ['zh-Hant-TW', 'A4'],
    ['en-Latn-US', 'Letter'],
    ['', 'A4'],
  ] as const)('in %j it is %s', (language, paper) => {
    expect(paperOf(language)).toBe(paper);
  });
});

const lengths = fc.double({ min: 1, max: 5000, noNaN: true });
const sizes = fc.record({ width: lengths, height: lengths });

describe('the scale', () => {
  it('is the largest that fits', () => {
    fc.assert(
      fc.property(sizes, sizes, (thing, room) => {
        const at = (scale: number) => ({
          width: thing.width / scale,
          height: thing.height / scale,
        });
        const fits = (scale: number) =>
          at(scale).width <= room.width && at(scale).height <= room.height;
        const scale = largestScale(at, room);
        const larger = SCALES.filter((one) => scale === null || one < scale);
        expect(larger.some(fits)).toBe(false);
        if (scale !== null) expect(fits(scale)).toBe(true);
      }),
    );
  });

  it('is listed from the largest picture to the smallest', () => {
    expect([...SCALES].sort((a, b) => a - b)).toEqual([...SCALES]);
  });
});

/**
 * The sheet folded in space. Its middle is the origin, x to the right, y up, the print toward the
 * reader. The upper half goes over the back: a half turn about x. Seen from behind, the strip has been
 * turned about y. Together (x, y) → (−x, −y), for places as for the way a line of print runs.
 */
function folded(n: number) {
  const { row, column, turned } = panelPlace(n);
  const sense = turned ? -1 : 1;
  const back = row === 'upper' ? -1 : 1;
  return {
    side: row === 'upper' ? 'back' : 'front',
    x: back * (column - (COLUMNS - 1) / 2),
    up: back * sense,
    along: back * sense,
  };
}

describe('a folding sheet', () => {
  const all = Array.from({ length: PATTERNS_A_SHEET + 1 }, (_, n) => n);

  it('has every panel once', () => {
    const places = all.map(panelPlace).map(({ row, column }) => `${row} ${column}`);
    expect(new Set(places).size).toBe(all.length);
  });

  it('is upright on both sides when folded', () => {
    for (const n of all) expect(folded(n)).toMatchObject({ up: 1, along: 1 });
  });

  it.each(['front', 'back'])('reads from left to right on its %s', (side) => {
    const panels = all.filter((n) => folded(n).side === side);
    expect(panels).toHaveLength(COLUMNS);
    expect([...panels].sort((a, b) => folded(a).x - folded(b).x)).toEqual(panels);
  });

  it('begins with the cover, at the left of the front', () => {
    expect(folded(0)).toMatchObject({ side: 'front', x: -1.5 });
  });

  it.each([-1, 8, 0.5])('has no panel %d', (n) => {
    expect(() => panelPlace(n)).toThrow(`no panel ${n}`);
  });

  it.each(['A4', 'Letter'] as const)(
    'fills %s with panels, and each keeps its margins',
    (paper) => {
      const whole = PAPERS[paper];
      const panel = panelSize(paper);
      const inside = panelInside(paper);
      expect(panel.width * COLUMNS).toBeCloseTo(whole.height, 9);
      expect(panel.height * 2).toBeCloseTo(whole.width, 9);
      // 8 mm at the edge of the paper: more than printers leave white; common practice, no source.
      expect(panel.width - inside.width).toBeGreaterThan(8);
      expect(panel.height - inside.height).toBeGreaterThan(8);
      expect(pocketRoom(paper).width).toBeLessThan(inside.width);
    },
  );
});

describe('a page', () => {
  it.each(['A4', 'Letter'] as const)(
    'of %s has room for its figure within the margins',
    (paper) => {
      const room = pageRoom(paper);
      expect(MARGIN).toBeGreaterThanOrEqual(8);
      expect(room.width).toBeLessThan(PAPERS[paper].width - 2 * MARGIN);
      expect(room.height).toBeLessThan(PAPERS[paper].height - 2 * MARGIN);
    },
  );

  it('and the pages after it have every row once, in order', () => {
    fc.assert(
      fc.property(fc.nat(400), (count) => {
        const rows = Array.from({ length: count }, (_, n) => n);
        const { beside, further } = spreadRows(rows);
        expect([...beside, ...further.flat(2)]).toEqual(rows);
        expect(further.flat().every((column) => column.length > 0)).toBe(true);
      }),
    );
  });
});

describe('lots', () => {
  it('have everything once, in order, and none has too many', () => {
    fc.assert(
      fc.property(fc.array(fc.nat()), fc.integer({ min: 1, max: 9 }), (things, most) => {
        const lots = lotsOf(things, most);
        expect(lots.flat()).toEqual(things);
        expect(lots).toHaveLength(Math.ceil(things.length / most));
        expect(lots.every((lot) => lot.length <= most)).toBe(true);
      }),
    );
  });

  it('of size zero throw', () => {
    expect(() => lotsOf([1], 0)).toThrow('no lots of 0');
  });
});
