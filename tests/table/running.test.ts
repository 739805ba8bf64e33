import { describe, expect, it } from 'vitest';
import { PATTERNS, type Pattern } from '../../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Launch,
  MIRRORS,
  type Mirror,
  mirrorRoute,
  outward,
  playLine,
  type Route,
  type Setting,
  solveLine,
  TABLES,
} from '../../src/table/index.ts';

const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
const medium: Launch = { speed: CLUB_CLOTH.speeds.medium };
const PLAIN: Mirror = { leftRight: false, footHead: false };
const mirrors = MIRRORS.filter(({ footHead }) => !footHead);
const lines = PATTERNS.filter(({ cushions }) => cushions.length === 1).flatMap((route) => {
  const found: Line[] = [];
  for (let start: number = route.starts[0]; start <= route.starts[1]; start += 0.5) {
    const solved = solveLine(club, route, start, medium);
    if (solved.why !== null) continue;
    const { aim, flight } = solved;
    const degrees = ((flight.touches[0]?.angle ?? Number.NaN) * 180) / Math.PI;
    found.push({ id: route.id, route, start, aim, degrees });
  }
  return found;
});

describe('running side', () => {
  // Alciatore, bank and kick effects: running side lengthens, reverse shortens.
  it('lengthens every one-cushion line, to the left and to the right', () => {
    expect(lines.length).toBeGreaterThan(50);
    for (const line of lines) {
      for (const mirror of mirrors) {
        const more = openingOf(line, mirror, 0.3) / openingOf(line, mirror, 0);
        expect(more, `${line.id} ${line.start}`).toBeGreaterThan(1.01);
      }
    }
  });

  it('if reverse, shortens the line where the cushion still grips', () => {
    const steep = lines.filter(({ degrees }) => degrees < 40);
    expect(steep.length).toBeGreaterThan(40);
    for (const line of steep) {
      for (const mirror of mirrors) {
        const more = openingOf(line, mirror, -0.3) / openingOf(line, mirror, 0);
        expect(more, `${line.id} ${line.start}`).toBeLessThan(0.99);
      }
    }
  });

  // A flat ball slides over the cushion for the whole impact: Coulomb friction is at its limit, and
  // more slip adds nothing (derived; the source names no angle).
  it('if reverse, does next to nothing for a flat ball, which slides anyway', () => {
    const flat = lines.filter(({ degrees }) => degrees >= 40);
    expect(flat.length).toBeGreaterThan(3);
    for (const line of flat) {
      const reverse = openingOf(line, PLAIN, -0.3) / openingOf(line, PLAIN, 0) - 1;
      const running = openingOf(line, PLAIN, 0.3) / openingOf(line, PLAIN, 0) - 1;
      expect(reverse, `${line.id} ${line.start}`).toBeLessThan(0.1 * running);
    }
  });

  // A ball that moves right along a rail, seen by someone who faces it, rolls on it like a wheel if it
  // turns counterclockwise seen from above, as a tip right of center makes it (geometry).
  it.each([
    ['foot-to-side', 4, 0.3],
    ['foot-to-far-corner', 7, 0.3],
    ['cross-side', 6, -0.3],
    ['cross-corner', 5, -0.3],
    ['long-rail-to-side', 2, 0.3],
    ['up-and-back', 2, 0.3],
  ])('of %s from %d has its tip at %d, and the opposite tip in the mirror', (id, start, tip) => {
    const route = PATTERNS.find((pattern) => pattern.id === id) as Pattern;
    for (const mirror of mirrors) {
      const image = mirrorRoute(route, mirror);
      const side = mirror.leftRight ? -tip : tip;
      const running = solveLine(club, image, start, { ...medium, running: 0.3 });
      expect(running.aim).not.toBeNull();
      expect(running.aim).toBe(solveLine(club, image, start, { ...medium, side }).aim);
    }
  });

  it('has the same numbers in all four pictures of the table', () => {
    for (const route of PATTERNS as readonly Pattern[]) {
      for (let start = Math.ceil(route.starts[0]); start <= route.starts[1]; start++) {
        const launch = { ...medium, running: 0.3 };
        const plain = solveLine(club, route, start, launch);
        for (const mirror of MIRRORS) {
          const image = solveLine(club, mirrorRoute(route, mirror), start, launch);
          expect(image.why).toBe(plain.why);
          if (plain.aim === null || image.aim === null) continue;
          // Two orders of rounding bring a shot off three cushions no nearer.
          expect(Math.abs(image.aim - plain.aim), `${route.id} ${start}`).toBeLessThan(5e-5);
        }
      }
    }
  });

  it('of zero does nothing', () => {
    for (const { route, start } of lines) {
      const none = solveLine(club, route, start, { ...medium, running: 0 });
      expect(none.aim).toBe(solveLine(club, route, start, medium).aim);
    }
  });

  it('is added to side', () => {
    for (const { route, start } of lines.filter(({ id }) => id === 'cross-side')) {
      const both = solveLine(club, route, start, { ...medium, side: -0.1, running: 0.2 });
      const one = solveLine(club, route, start, { ...medium, running: 0.3 });
      expect(Math.abs((both.aim ?? Number.NaN) - (one.aim ?? Number.NaN))).toBeLessThan(1e-9);
    }
  });
});

interface Line {
  readonly id: string;
  readonly route: Route;
  readonly start: number;
  readonly aim: number;
  /** Of the incoming path, from the perpendicular of the cushion. */
  readonly degrees: number;
}

/** Tangent of the path off the cushion, from its perpendicular: longer is wider. */
function openingOf({ route, start, aim }: Line, mirror: Mirror, running: number): number {
  const image = mirrorRoute(route, mirror);
  const flight = playLine(club, image, start, aim, { ...medium, running });
  const [touch, into] = [flight?.touches[0], flight?.stretches[0]?.ball];
  if (!flight?.arrived || !touch || !into) throw new Error('the ball should arrive');
  const out = outward(image.cushions[0]);
  const [dx, dy] = [flight.end.x - touch.at.x, flight.end.y - touch.at.y];
  // Positive in the direction in which the ball moved along the cushion.
  const sense = Math.sign(into.vx * out.y - into.vy * out.x);
  return (sense * (dx * out.y - dy * out.x)) / -(dx * out.x + dy * out.y);
}
