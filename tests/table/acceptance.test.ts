import { describe, expect, it } from 'vitest';
import {
  POCKET_SIZES,
  type PocketName,
  type PocketSize,
  runIntoPocket,
  type Setting,
  type Table,
  withPockets,
} from '../../src/table/index.ts';
import { ballAt, club, isOnCloth } from './at-pocket.ts';

const DEGREE = Math.PI / 180;
const R = club.table.ballRadius;

describe('what a pocket accepts', () => {
  // Widths are measured across the straight path of a rolling ball. Balls that touch a nose before the
  // jaws are left out: a nose can feed a shallow ball into the pocket, so those makes grow where the
  // straight ones shrink.
  const angles = { corner: [0, 10, 20, 30, 38], side: [0, 15, 30, 45, 60, 70] } as const;
  const pockets = [
    ['corner', 'foot-left'],
    ['side', 'left-side'],
  ] as const;

  it.each(pockets)('of a %s is widest straight in and shrinks with the angle', (kind, pocket) => {
    for (const speed of [1.3, 4.6]) {
      const widths = angles[kind].map((angle) => widthOf(club.table, pocket, angle, speed));
      widths.forEach((width, n) => {
        if (n > 0) expect(width).toBeLessThan(widths[n - 1] as number);
      });
    }
  });

  it.each(pockets)('of a %s grows with the mouth at every angle', (kind, pocket) => {
    for (const speed of [1.3, 4.6]) {
      for (const angle of angles[kind]) {
        const [tight, standard, generous] = (Object.keys(POCKET_SIZES) as PocketSize[]).map(
          (size) => widthOf(withPockets(club.table, size), pocket, angle, speed),
        ) as [number, number, number];
        expect(standard).toBeGreaterThan(tight);
        expect(generous).toBeGreaterThan(standard);
      }
    }
  });

  // Common practice, no source: facings that accept a soft ball reject a firm one.
  it.each(pockets)('of a %s is no narrower for a slow ball than for a firm one', (kind, pocket) => {
    let gained = 0;
    for (const angle of angles[kind]) {
      const gain =
        widthOf(club.table, pocket, angle, 1.3) - widthOf(club.table, pocket, angle, 4.6);
      expect(gain).toBeGreaterThanOrEqual(0);
      gained += gain;
    }
    expect(gained).toBeGreaterThan(0.001);
  });
});

describe('a side pocket closes for a ball that touches nothing', () => {
  // Derived: between two bare sharp tips a straight path at angle β from the rail has mouth · sin β of
  // room, and the ball needs its diameter. The facings lean away (20°), and the fall is as deep as the
  // far tip can be touched.
  it('where mouth · sin of the angle from the rail is a diameter, between bare tips', () => {
    const { sideMouth } = club.table;
    const bare = { ...club.table, sideCut: 20 * DEGREE, tipRadius: 0, sideShelf: R };
    expect(Math.abs(closingAngle(bare) - Math.asin((2 * R) / sideMouth))).toBeLessThan(0.001);
  });

  // Derived in the same way for facings that lean in by τ = cut − 90° and a fall d behind the mouth:
  // the ball clears the near tip by R and must be over the fall one radius before the far facing:
  // mouth = (R + d cos β)/sin β + (R + d sin τ)/cos τ. A ball whose center is over the fall is down, so
  // this is shallower than between bare tips (19.7° against 26.4°).
  it('a little shallower with the shelf and the facings of a real one', () => {
    const sharp = { ...club.table, tipRadius: 0 };
    const { sideMouth: mouth, sideShelf: d, sideCut } = sharp;
    const lean = sideCut - Math.PI / 2;
    const room = (b: number) =>
      mouth - (R + d * Math.cos(b)) / Math.sin(b) - (R + d * Math.sin(lean)) / Math.cos(lean);
    const derived = bisect((b) => room(b) > 0);
    expect(Math.abs(closingAngle(sharp) - derived)).toBeLessThan(0.002);
    // The rounded points give a little more room.
    const rounded = closingAngle(club.table);
    expect(rounded).toBeLessThan(derived);
    expect(rounded).toBeGreaterThan(derived - 1.5 * DEGREE);
  });
});

/** The smallest angle from the rail, 5°–60°, from which `open` holds. */
function bisect(open: (angle: number) => boolean): number {
  let shut = 5 * DEGREE;
  let wide = 60 * DEGREE;
  while (wide - shut > 1e-4) {
    const middle = (shut + wide) / 2;
    if (open(middle)) wide = middle;
    else shut = middle;
  }
  return wide;
}

function closingAngle(table: Table): number {
  return bisect((fromRail) => {
    for (let offset = -0.012; offset <= 0.012; offset += 0.0001) {
      const sent = { angle: Math.PI / 2 - fromRail, offset, speed: 3, distance: 0.5 };
      const ball = ballAt(table, 'left-side', sent);
      if (!isOnCloth(table, ball)) continue;
      const run = runIntoPocket({ ...club, table }, ball, 'left-side');
      if (run.kind === 'drops' && run.touches.length === 0) return true;
    }
    return false;
  });
}

/** Metres of offset, in steps of 0.5 mm, at which the ball drops without touching a nose first. */
function widthOf(table: Table, pocket: PocketName, degrees: number, speed: number): number {
  const setting: Setting = { ...club, table };
  const sent = { angle: degrees * DEGREE, speed, distance: 0.45 };
  let makes = 0;
  for (let mm = -70; mm <= 70; mm += 0.5) {
    const ball = ballAt(table, pocket, { ...sent, offset: mm / 1000 });
    if (!isOnCloth(table, ball)) continue;
    const { kind, touches } = runIntoPocket(setting, ball, pocket);
    if (kind === 'drops' && touches[0]?.part !== 'nose') makes += 1;
  }
  return makes * 0.0005;
}
