import { describe, expect, it } from 'vitest';
import { cushionCorners } from '../../src/figure/frame.ts';
import { hatching } from '../../src/figure/index.ts';
import { TABLES } from '../../src/table/index.ts';

const table = TABLES['9ft'];

function linesOf(path: string): readonly (readonly number[])[] {
  return path
    .split('M')
    .filter(Boolean)
    .map((line) => line.split(/[ L]/).map(Number));
}

/** Area by the shoelace formula (Gauss). */
function areaOf(corners: readonly { readonly x: number; readonly y: number }[]): number {
  return Math.abs(
    corners.reduce((sum, a, n) => {
      const b = corners[(n + 1) % corners.length] ?? a;
      return sum + (a.x * b.y - b.x * a.y) / 2;
    }, 0),
  );
}

describe('hatching', () => {
  it.each([10, 18, 90])('of %d mm runs at 45° over the cushions and nowhere else', (spacing) => {
    const lines = linesOf(hatching(table, spacing));
    expect(lines.length).toBeGreaterThan(6);
    for (const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] of lines) {
      // Written to tenths of a millimeter.
      expect(Math.abs(x1 + y1 - x2 - y2)).toBeLessThanOrEqual(0.2 + 1e-9);
      const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
      const onCloth = x > 0 && x < table.width * 1000 && y > 0 && y < table.length * 1000;
      expect(onCloth).toBe(false);
    }
  });

  it('covers the cushions evenly: total length times spacing is their area (Cavalieri)', () => {
    const spacing = 2;
    const drawn = linesOf(hatching(table, spacing)).reduce(
      (sum, [x1 = 0, y1 = 0, x2 = 0, y2 = 0]) => sum + Math.hypot(x2 - x1, y2 - y1),
      0,
    );
    const area = cushionCorners(table).reduce((sum, corners) => sum + areaOf(corners), 0);
    expect((drawn * spacing) / area).toBeCloseTo(1, 2);
  });

  it('rejects a spacing of zero', () => {
    expect(() => hatching(table, 0)).toThrow('not a spacing: 0');
  });
});
