import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  behindNose,
  countOf,
  diamondAt,
  type Frame,
  railBand,
  spot,
  viewBox,
} from '../../src/figure/frame.ts';
import {
  afterKey,
  beginDrag,
  besideThumb,
  continueDrag,
  middleOf,
  type Range,
  type Side,
  snap,
  wholesAround,
} from '../../src/figure/pointing.ts';
import { railScale } from '../../src/figure/rail-slider.tsx';
import {
  type Count,
  divisions,
  MIRRORS,
  outward,
  pointAt,
  RAILS,
  sightAt,
  TABLES,
} from '../../src/table/index.ts';

const long: Range = { least: 0, most: 8, step: 0.1 };

describe('a spot of the picture and the diamond level with it', () => {
  it('convert into each other in all four pictures, on every rail, from either end', () => {
    fc.assert(
      fc.property(frames, counts, fc.double({ min: 0, max: 1, noNaN: true }), (frame, count, t) => {
        const diamond = t * divisions(count.rail);
        const sight = spot(frame, sightAt(frame.table, count, diamond));
        expect(diamondAt(frame, count, sight)).toBeCloseTo(diamond, 9);
        // WPA equipment specifications: a sight's center lies 3 11/16 in behind the nose.
        expect(behindNose(frame, count.rail, sight)).toBeCloseTo(93.6625, 6);
      }),
    );
  });

  it('stay level as a finger moves across the rail', () => {
    fc.assert(
      fc.property(
        frames,
        counts,
        fc.double({ min: -1, max: 1, noNaN: true }),
        (frame, count, behind) => {
          const place = spot(frame, pointAt(frame.table, count, 1.7, behind));
          expect(diamondAt(frame, count, place)).toBeCloseTo(1.7, 9);
          expect(behindNose(frame, count.rail, place)).toBeCloseTo(behind * 1000, 6);
        },
      ),
    );
  });

  it('give a finger’s reach: the number it is level with, and its distance in diamonds of that rail', () => {
    const frame: Frame = { table: TABLES['9ft'], mirror: MIRRORS[0] as Frame['mirror'] };
    const count: Count = { rail: 'foot', from: 'left' };
    // 50 in across in 4 divisions: a diamond is 12.5 in (WPA Rules 8.1).
    const inwards = spot(frame, pointAt(frame.table, count, 1.3, (3.6875 - 25) * 0.0254));
    const { along, away } = railScale(frame, count, 0.1).reach(inwards);
    expect(along).toBeCloseTo(1.3, 9);
    expect(away).toBeCloseTo(2, 9);
  });
});

describe('the band of a rail', () => {
  it('contains every sight, the room for its counts and a ball frozen to the rail, but no more cloth', () => {
    fc.assert(
      fc.property(frames, counts, fc.double({ min: 0, max: 1, noNaN: true }), (frame, count, t) => {
        const band = railBand(frame, count.rail);
        const { ballRadius } = frame.table;
        const contains = (behind: number) => {
          const { x, y } = spot(
            frame,
            pointAt(frame.table, count, t * divisions(count.rail), behind),
          );
          return (
            x >= band.x && x <= band.x + band.width && y >= band.y && y <= band.y + band.height
          );
        };
        expect([frame.table.sightSetback, 0.2, -ballRadius].map(contains)).toEqual([
          true,
          true,
          true,
        ]);
        expect(contains(-3 * ballRadius)).toBe(false);
      }),
    );
  });

  it('reaches to the picture’s border at a counted rail, and past both ends of the rail', () => {
    for (const mirror of MIRRORS) {
      for (const rail of RAILS) {
        const frame: Frame = { table: TABLES['9ft'], mirror };
        const band = railBand(frame, rail);
        const box = viewBox(frame, [countOf(rail)]);
        const out = outward(rail);
        if (out.x === 0) expect(band.height).toBeGreaterThan(frame.table.length * 1000);
        else expect(band.width).toBeGreaterThan(frame.table.width * 1000);
        const edges = [box.x - band.x, band.x + band.width - box.x - box.width];
        const ends = [box.y - band.y, band.y + band.height - box.y - box.height];
        expect((out.x === 0 ? edges : ends).some((gap) => Math.abs(gap) < 1e-6)).toBe(true);
      }
    }
  });
});

describe('a number rounded to a step', () => {
  it.each([
    [1.26, 0.1, 8, 1.3],
    [1.24, 0.1, 8, 1.2],
    [0.29, 0.1, 8, 0.3],
    [1.26, 0.05, 8, 1.25],
    [-0.4, 0.1, 8, 0],
    [8.3, 0.1, 8, 8],
    [4.2, 1, 4, 4],
  ])('%d in steps of %d up to %d is exactly %d', (value, step, most, expected) => {
    expect(snap(value, step, most)).toBe(expected);
  });

  it('may be negative if the scale is, but is never minus zero', () => {
    expect(snap(-0.26, 0.1, 1, -1)).toBe(-0.3);
    expect(snap(-1.4, 0.1, 1, -1)).toBe(-1);
    expect(Object.is(snap(-0.04, 0.1, 1, -1), 0)).toBe(true);
  });

  it('is within half a step, inside the scale, and unchanged by rounding again', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.constantFrom(0.05, 0.1),
        (value, step) => {
          const near = snap(value, step, 8);
          expect(Math.abs(near - value)).toBeLessThanOrEqual(step / 2 + 1e-4);
          expect(near).toBeGreaterThanOrEqual(0);
          expect(near).toBeLessThanOrEqual(8);
          expect(snap(near, step, 8)).toBe(near);
          expect(String(near).length).toBeLessThanOrEqual(4);
        },
      ),
    );
  });

  it('is refused without a number or a step', () => {
    expect(() => snap(Number.NaN, 0.1, 8)).toThrow('NaN');
    expect(() => snap(1, 0, 8)).toThrow('not a step: 0');
  });
});

// The keys of a slider in the W3C's ARIA Authoring Practices, with a diamond as the large step.
describe('a key on a slider', () => {
  it.each([
    ['ArrowRight', 3.3],
    ['ArrowUp', 3.3],
    ['ArrowLeft', 3.1],
    ['ArrowDown', 3.1],
    ['PageUp', 4.2],
    ['PageDown', 2.2],
    ['Home', 0],
    ['End', 8],
  ])('%s turns 3.2 into %d', (key, expected) => {
    expect(afterKey(key, 3.2, long)).toBe(expected);
  });

  it('begins in the middle if nothing is set, whatever its direction', () => {
    expect(afterKey('ArrowLeft', null, long)).toBe(4);
    expect(afterKey('ArrowUp', null, { ...long, most: 4 })).toBe(2);
    expect(afterKey('PageUp', null, { least: -1, most: 1, step: 0.1 })).toBe(0);
    expect(middleOf(long)).toBe(4);
  });

  it('is ignored if it is none of these', () => {
    for (const key of ['Enter', ' ', 'Tab', '5', 'a']) expect(afterKey(key, 3, long)).toBeNull();
  });

  it('to the right always raises a number below the end, even one between two steps', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 7.9, noNaN: true }), (value) => {
        expect(afterKey('ArrowRight', value, long)).toBeGreaterThan(value);
      }),
    );
  });
});

describe('a drag', () => {
  it('follows the finger along the rail', () => {
    const drag = continueDrag(long, beginDrag(long, { along: 3, away: 0 }), {
      along: 3.4,
      away: 1,
    });
    expect(drag.value).toBeCloseTo(3.4, 12);
  });

  it('moves the number at a quarter of the rate far from the rail, and not at all on the way out', () => {
    const begun = beginDrag(long, { along: 3, away: 0.2 });
    const out = continueDrag(long, begun, { along: 3, away: 2 });
    expect(out.value).toBe(3);
    expect(continueDrag(long, out, { along: 3.4, away: 2 }).value).toBeCloseTo(3.1, 12);
  });

  it('stays on the rail, and returns from its end at once', () => {
    const end = continueDrag(long, beginDrag(long, { along: 7.5, away: 0 }), { along: 9, away: 0 });
    expect(end.value).toBe(8);
    expect(continueDrag(long, end, { along: 8.8, away: 0 }).value).toBeCloseTo(7.8, 12);
    expect(beginDrag(long, { along: -2, away: 0 }).value).toBe(0);
  });
});

describe('the readout', () => {
  it('stays between the picture’s sides and never under the thumb', () => {
    const room = { x: -200, y: -200, width: 1700, height: 6000 };
    const size = { width: 900, height: 700 };
    fc.assert(
      fc.property(
        fc.integer({ min: -200, max: 1500 }),
        fc.integer({ min: 800, max: 5000 }),
        fc.constantFrom<readonly Side[]>(['right', 'left', 'above', 'below'], ['above', 'below']),
        (x, y, sides) => {
          const place = besideThumb({ x, y }, size, 280, room, sides);
          expect(place.x).toBeGreaterThanOrEqual(room.x);
          expect(place.x + place.width).toBeLessThanOrEqual(room.x + room.width);
          const apartX = Math.max(place.x - x, x - place.x - place.width);
          const apartY = Math.max(place.y - y, y - place.y - place.height);
          expect(Math.max(apartX, apartY)).toBeGreaterThanOrEqual(280);
        },
      ),
    );
  });

  it('shows the whole diamonds on either side of the number', () => {
    expect(wholesAround(3.4, long)).toEqual([3, 4]);
    expect(wholesAround(3, long)).toEqual([3, 4]);
    expect(wholesAround(8, long)).toEqual([7, 8]);
    expect(wholesAround(0, long)).toEqual([0, 1]);
  });
});

const frames = fc.record({
  table: fc.constantFrom(...Object.values(TABLES)),
  mirror: fc.constantFrom(...MIRRORS),
});

const counts: fc.Arbitrary<Count> = fc.constantFrom(
  ...RAILS.flatMap((rail): Count[] =>
    rail === 'left' || rail === 'right'
      ? [
          { rail, from: 'foot' },
          { rail, from: 'head' },
        ]
      : [
          { rail, from: 'left' },
          { rail, from: 'right' },
        ],
  ),
);
