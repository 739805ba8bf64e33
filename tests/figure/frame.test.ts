import { describe, expect, it } from 'vitest';
import { patternOf } from '../../src/charts/index.ts';
import { cushions, holes, pathData, spot, viewBox } from '../../src/figure/frame.ts';
import {
  CLUB_CLOTH,
  MIRRORS,
  type Mirror,
  POCKETS,
  playLine,
  sightAt,
  TABLES,
} from '../../src/table/index.ts';

const table = TABLES['9ft'];
const [plain] = MIRRORS as [Mirror];

describe('the picture', () => {
  it('is to scale: a unit of the picture is a millimetre of the table', () => {
    const a = spot({ table, mirror: plain }, { x: 0, y: 0 });
    const b = spot({ table, mirror: plain }, { x: table.length, y: table.width });
    expect([b.x - a.x, b.y - a.y]).toEqual([table.width * 1000, table.length * 1000]);
  });

  it('has the foot rail at the top and the left rail at the left', () => {
    const frame = { table, mirror: plain };
    expect(spot(frame, sightAt(table, { rail: 'foot', from: 'left' }, 2)).y).toBeLessThan(0);
    expect(spot(frame, sightAt(table, { rail: 'left', from: 'foot' }, 4)).x).toBeLessThan(0);
  });

  it('shows the same path mirrored in its four versions', () => {
    const flight = playLine({ table, condition: CLUB_CLOTH }, patternOf('foot-to-side'), 3, 1.8, {
      speed: 3,
    });
    if (!flight) throw new Error('no flight');
    const points = (mirror: Mirror) =>
      (pathData({ table, mirror }, flight.stretches).match(/-?[\d.]+/g) ?? []).map(Number);
    const base = points(plain);
    for (const mirror of MIRRORS) {
      points(mirror).forEach((value, n) => {
        const size = n % 2 === 0 ? table.width * 1000 : table.length * 1000;
        const flipped = n % 2 === 0 ? mirror.leftRight : mirror.footHead;
        expect(value).toBeCloseTo(flipped ? size - (base[n] ?? 0) : (base[n] ?? 0), 0);
      });
    }
  });

  it('leaves room for counts only on the sides that have them', () => {
    const frame = { table, mirror: plain };
    const bare = viewBox(frame, []);
    const left = viewBox(frame, [{ rail: 'left', from: 'foot' }]);
    expect(left.width).toBeGreaterThan(bare.width);
    expect(left.height).toBe(bare.height);
    const mirrored = viewBox({ table, mirror: MIRRORS[1] as Mirror }, [
      { rail: 'left', from: 'foot' },
    ]);
    expect(mirrored.x).toBe(bare.x);
  });

  it('has six cushions and six holes', () => {
    expect(cushions(table)).toHaveLength(6);
    expect(holes({ table, mirror: plain }).map((hole) => hole.pocket)).toEqual([...POCKETS]);
  });
});
