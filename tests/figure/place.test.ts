import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Frame, spot, viewBox } from '../../src/figure/frame.ts';
import { placeAt, pocketTargets } from '../../src/figure/place.ts';
import {
  divisions,
  isLongRail,
  MIRRORS,
  mirrorCount,
  mirrorPocket,
  POCKETS,
  pocketMouth,
  pointAt,
  RAILS,
  sightAt,
  TABLES,
} from '../../src/table/index.ts';

describe('a place picked on the drawn table', () => {
  it('is the pocket whose mouth was touched, in all four pictures', () => {
    for (const frame of frames) {
      for (const pocket of POCKETS) {
        const mouth = spot(frame, pocketMouth(frame.table, pocket));
        expect(placeAt(frame, mouth, 0.1)).toEqual({ kind: 'pocket', pocket });
      }
    }
  });

  it('is the sight that was touched, counted from the foot or the left', () => {
    for (const frame of frames) {
      for (const rail of RAILS) {
        const count = { rail, from: isLongRail(rail) ? 'foot' : 'left' } as const;
        for (let diamond = 1; diamond < divisions(rail); diamond++) {
          // Diamond 4 of a long rail is the side pocket (WPA Rules 8.1).
          if (isLongRail(rail) && diamond === 4) continue;
          const sight = spot(frame, sightAt(frame.table, count, diamond));
          expect(placeAt(frame, sight, 0.1)).toEqual({ kind: 'rail', count, diamond });
        }
      }
    }
  });

  it('has its mirrored name for the same touch in a mirrored picture', () => {
    fc.assert(
      fc.property(fc.constantFrom(...MIRRORS), across, down, (mirror, x, y) => {
        const plain = placeAt(frames[0] as Frame, { x, y }, 0.1);
        const named = placeAt({ table, mirror }, { x, y }, 0.1);
        expect(named?.kind).toBe(plain?.kind);
        if (plain?.kind === 'pocket' && named?.kind === 'pocket')
          expect(named.pocket).toBe(mirrorPocket(plain.pocket, mirror));
        if (plain?.kind === 'rail' && named?.kind === 'rail')
          expect(named.count.rail).toBe(mirrorCount(plain.count, mirror).rail);
      }),
    );
  });

  it('is none in the middle of the cloth', () => {
    for (const frame of frames) {
      const middle = { x: (table.width / 2) * 1000, y: (table.length / 3) * 1000 };
      expect(placeAt(frame, middle, 0.1)).toBeNull();
    }
  });

  it('still counts within a ball’s width of the nose, and no farther', () => {
    const [frame] = frames as [Frame];
    const beside = (metres: number) =>
      spot(frame, pointAt(table, { rail: 'right', from: 'foot' }, 2.5, -metres));
    // A ball is 2 1/4 in wide (WPA equipment specifications).
    expect(placeAt(frame, beside(0.057), 0.1)).toMatchObject({ kind: 'rail', diamond: 2.5 });
    expect(placeAt(frame, beside(0.058), 0.1)).toBeNull();
  });

  it('is never beyond a rail’s ends, wherever the picture is touched', () => {
    fc.assert(
      fc.property(fc.constantFrom(...frames), across, down, (frame, x, y) => {
        const place = placeAt(frame, { x, y }, 0.1);
        if (place?.kind !== 'rail') return;
        expect(place.diamond).toBeGreaterThanOrEqual(0);
        expect(place.diamond).toBeLessThanOrEqual(divisions(place.count.rail));
      }),
    );
  });

  it('has pocket targets of at least 24 px on a picture 200 px wide', () => {
    // WCAG 2.2, 2.5.8: targets of at least 24 by 24 CSS pixels.
    const [frame] = frames as [Frame];
    const pixel = 200 / viewBox(frame, []).width;
    for (const { r } of pocketTargets(frame)) expect(2 * r * pixel).toBeGreaterThanOrEqual(24);
  });
});

const table = TABLES['9ft'];
const frames = MIRRORS.map((mirror): Frame => ({ table, mirror }));
// Quarters and halves of a millimeter: never on a border nor equally near to two rails, where rounding would decide.
const across = fc.integer({ min: -255, max: 1524 }).map((x) => x + 0.25);
const down = fc.integer({ min: -255, max: 2794 }).map((y) => y + 0.5);
