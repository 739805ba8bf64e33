import { describe, expect, it } from 'vitest';
import {
  anchorBound,
  computeSheet,
  type Decimal,
  inDiamonds,
  interpolate,
  kickTo,
  PATTERNS,
  type Pattern,
  type Sheet,
  type SheetLine,
  type SheetNumber,
  type SheetRequest,
  toDecimal,
  toNumber,
  verdictOf,
} from '../../../src/charts/index.ts';
import { isWhole } from '../../../src/charts/numbers/sheet.ts';
import {
  CLUB_CLOTH,
  diamondOf,
  type Launch,
  missAlong,
  nameAim,
  outward,
  playIntoPocket,
  playLine,
  type Route,
  type Setting,
  SPEEDS,
  type Speed,
  sightAt,
  solveLine,
  TABLES,
  targetLine,
} from '../../../src/table/index.ts';

const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
/** Ends of a window are found to this, diamonds (table/make-window.ts). */
const CLOSE = 0.002;
/**
 * What a number depends on where it was looked for, diamonds: the drift gone by may be a neighbour's,
 * and three impacts integrated to 1e-6 a step leave some 0.01 mm at the target of a firm shot. A
 * twentieth of the accuracy that docs/numbers.md states.
 */
const SOLVED = 5e-5;
/** Every pattern at its whole starts: a number at a speed, or the reason why there is none. */
const sheets = PATTERNS.map((pattern: Pattern) => sheetOf(pattern));

describe.each(sheets)('the sheet of $pattern.id', ({ pattern, request, sheet }) => {
  it('has the solver’s numbers, each start on its own', () => {
    for (const { line, start, speed, launch } of cells(request, sheet)) {
      const solved = solveLine(club, pattern, start, launch);
      const number = line.numbers[speed];
      if (typeof number === 'string') expect(number).toBe(solved.why);
      else expect(Math.abs(number.exact - (solved.aim ?? Number.NaN))).toBeLessThan(SOLVED);
    }
  });

  it('has windows in which all drops, and beyond which it does not', () => {
    for (const { line, start, speed, launch } of cells(request, sheet)) {
      const number = line.numbers[speed];
      if (typeof number === 'string' || !number.makeWindow) continue;
      const { from, to } = number.makeWindow;
      const drops = (aim: number) =>
        playIntoPocket(club, pattern, start, aim, launch)?.kind === 'drops';
      const [first, last] = [from + CLOSE, Math.max(from + CLOSE, to - CLOSE)];
      for (let n = 0; n <= 10; n++) expect(drops(first + ((last - first) * n) / 10)).toBe(true);
      expect(drops(from - CLOSE)).toBe(false);
      expect(drops(to + CLOSE)).toBe(false);
    }
  });

  it('says how far 0.1 of aim moves the arrival, as playing it to either side does', () => {
    for (const { line, start, launch } of mediums(request, sheet)) {
      const { exact } = line.numbers.medium as SheetNumber;
      const above = missAt(pattern, start, exact + 0.1, launch);
      const below = missAt(pattern, start, exact - 0.1, launch);
      const perTenth = line.atMedium?.drift.perTenth ?? Number.NaN;
      // Over two tenths the slope turns by some hundredths.
      expect(perTenth / (Math.abs(above - below) / 2)).toBeGreaterThan(0.95);
      expect(perTenth / (Math.abs(above - below) / 2)).toBeLessThan(1.05);
    }
  });

  it('says how far a ball half-way along the line misses, as playing it does', () => {
    for (const { line, start, launch } of mediums(request, sheet)) {
      const { exact } = line.numbers.medium as SheetNumber;
      const partWay = wayToCushion(pattern, start, exact) / 2;
      const miss = Math.abs(missAt(pattern, start, exact, { ...launch, partWay }));
      expect(line.atMedium?.drift.halfWay).toBeCloseTo(miss, 6);
    }
  });

  it('holds the lines between its anchors to the bound, by the rule on printed numbers', () => {
    const { chosen, worst } = sheet.anchors;
    expect(worst).toBeLessThanOrEqual(request.anchorBound);
    const anchors = chosen.map((index) => sheet.lines[sheet.entries[index] ?? -1] as SheetLine);
    expect(sheet.lines.filter(({ anchor }) => anchor)).toEqual(anchors);
    for (const line of sheet.lines.filter(isWhole)) {
      for (const speed of SPEEDS) {
        const number = (one: SheetLine) => one.numbers[speed] as SheetNumber;
        const memorised = anchors.map((one) => ({
          start: one.start,
          printed: number(one).printed,
        }));
        const rule = interpolate(memorised, line.start) ?? Number.NaN;
        const right = line.anchor ? toNumber(number(line).printed) : number(line).exact;
        const bound = line.anchor ? 0 : request.anchorBound + 1e-9;
        expect(Math.abs(rule - right)).toBeLessThanOrEqual(bound);
      }
    }
  });

  it('has its verdicts from its windows', () => {
    for (const { verdict, numbers } of sheet.lines) {
      const window = (speed: Speed) => {
        const number = numbers[speed];
        return typeof number === 'string' ? null : number.makeWindow;
      };
      const windows = { soft: window('soft'), medium: window('medium'), firm: window('firm') };
      const gone = Object.values(numbers).every((number) => typeof number === 'string');
      expect(verdict).toEqual(gone ? null : verdictOf(windows));
    }
  });

  it('as a kick: the number, played, arrives level with the diamond', () => {
    const diamond = 2.5;
    const kick = sheetOf(kickTo(pattern, diamond));
    for (const { line, start, speed, launch } of cells(kick.request, kick.sheet)) {
      const number = line.numbers[speed];
      expect(line.verdict).toBeNull();
      if (typeof number === 'string') continue;
      expect(number.makeWindow).toBeNull();
      const flight = playLine(club, kick.pattern, start, number.exact, launch);
      if (!flight?.arrived) throw new Error(`${start} does not arrive`);
      expect(diamondOf(club.table, pattern.kicks, flight.end)).toBeCloseTo(diamond, 5);
    }
  });

  it('named opposite the sight: number and window move by the same rule, and nothing else does', () => {
    const other = computeSheet({ ...request, naming: 'opposite' });
    sheet.lines.forEach((line, n) => {
      const image = other.lines[n];
      expect(image?.atMedium).toEqual(line.atMedium);
      for (const speed of SPEEDS) {
        const [through, opposite] = [line.numbers[speed], image?.numbers[speed]];
        if (typeof through === 'string' || typeof opposite !== 'object') {
          expect(opposite).toBe(through);
          continue;
        }
        const start = toNumber(line.start);
        const named = (aim: number) => nameAim(club.table, pattern, start, aim, 'opposite');
        expect(opposite.exact).toBeCloseTo(named(through.exact), 12);
        if (!through.makeWindow) expect(opposite.makeWindow).toBeNull();
        else {
          expect(opposite.makeWindow?.from).toBeCloseTo(named(through.makeWindow.from), 12);
          expect(opposite.makeWindow?.to).toBeCloseTo(named(through.makeWindow.to), 12);
        }
      }
    });
  });
});

describe('lines without a number at some speed', () => {
  it('are no anchors and no entries; those with all three are entries, in order', () => {
    const all = sheets.map(({ sheet }) => sheet);
    const partial = all.flatMap(({ lines }) => lines.filter((line) => !isWhole(line)));
    expect(partial.length).toBeGreaterThan(3);
    for (const line of partial) expect(line.anchor).toBe(false);
    for (const { lines, entries } of all) {
      expect(entries.map((n) => lines[n])).toEqual(lines.filter(isWhole));
    }
  });

  it('are whole if and only if each speed has a number, and without medium there is no entry angle', () => {
    for (const { sheet } of sheets) {
      for (const line of sheet.lines) {
        const missing = SPEEDS.filter((speed) => typeof line.numbers[speed] === 'string');
        expect(isWhole(line)).toBe(missing.length === 0);
        expect(line.atMedium === null).toBe(missing.includes('medium'));
      }
    }
  });
});

describe('the entry angle', () => {
  // A ball struck straight across without side comes straight back (symmetry).
  it('is 0 for a ball that comes straight back to its rail, as is the drift from half-way', () => {
    for (const diamond of [1, 2.5, 4.6, 7]) {
      const across = PATTERNS.find(({ id }) => id === 'cross-side') as Pattern;
      const { sheet } = sheetOf(kickTo(across, diamond), [toDecimal(diamond)]);
      const [line] = sheet.lines;
      expect(line?.numbers.medium).toMatchObject({ printed: toDecimal(diamond) });
      expect(line?.atMedium?.entryAngleDeg).toBeLessThan(1e-4);
      expect(line?.atMedium?.touch).toBeCloseTo(diamond, 6);
      expect(line?.atMedium?.drift.halfWay).toBeLessThan(1e-6);
    }
  });

  it('into a corner is measured from its diagonal, into a side pocket from the perpendicular', () => {
    for (const { pattern, request, sheet } of sheets) {
      for (const { line, start, launch } of mediums(request, sheet)) {
        const { exact } = line.numbers.medium as SheetNumber;
        const end = playLine(club, pattern, start, exact, launch)?.end;
        if (!end || pattern.target.kind !== 'pocket') throw new Error('a pocket is to be reached');
        const fromLongRail = Math.atan2(Math.abs(end.vy), Math.abs(end.vx)) / (Math.PI / 180);
        const straight = pattern.target.pocket.endsWith('-side') ? 90 : 45;
        const angle = line.atMedium?.entryAngleDeg ?? Number.NaN;
        expect(angle).toBeCloseTo(Math.abs(straight - fromLongRail), 4);
      }
    }
  });
});

it('a diamond of a long rail is an eighth of the table’s length', () => {
  expect(inDiamonds(club, 100 * 0.0254)).toBeCloseTo(8, 12);
});

function sheetOf(pattern: Pattern, given?: readonly Decimal[]) {
  const starts = given ?? wholeStarts(pattern);
  const request: SheetRequest = {
    setting: club,
    route: pattern,
    starts,
    printStep: toDecimal(0.1),
    naming: 'through',
    stroke: pattern.stroke ?? {},
    anchorBound: anchorBound(toDecimal(0.1)),
  };
  return { pattern, request, sheet: computeSheet(request) };
}

function wholeStarts({ starts: [first, last] }: Pattern): readonly Decimal[] {
  const count = Math.floor(last) - Math.ceil(first) + 1;
  return Array.from({ length: count }, (_, n) => toDecimal(Math.ceil(first) + n));
}

interface CellOfSheet {
  readonly line: SheetLine;
  readonly start: number;
  readonly speed: Speed;
  readonly launch: Launch;
}

function cells({ stroke }: SheetRequest, { lines }: Sheet): readonly CellOfSheet[] {
  return lines.flatMap((line) =>
    SPEEDS.map((speed) => ({
      line,
      start: toNumber(line.start),
      speed,
      launch: { ...stroke, speed: CLUB_CLOTH.speeds[speed] },
    })),
  );
}

/** The lines that have a number at medium speed. */
function mediums(request: SheetRequest, sheet: Sheet): readonly CellOfSheet[] {
  return cells(request, sheet).filter(
    ({ line, speed }) => speed === 'medium' && typeof line.numbers.medium !== 'string',
  );
}

function missAt(route: Route, start: number, aim: number, launch: Launch): number {
  const flight = playLine(club, route, start, aim, launch);
  if (!flight?.arrived) throw new Error(`${start} through ${aim} does not arrive`);
  return missAlong(targetLine(club.table, route.target), flight.end);
}

/**
 * Metres of the line on which the ball's centre is a radius or more from both noses: of the way
 * between the sights, the setback and the radius at either end are behind rubber or touching it.
 */
function wayToCushion(route: Route, start: number, aim: number): number {
  const { table } = club;
  const from = sightAt(table, route.start, start);
  const to = sightAt(table, route.aim, aim);
  const span = Math.hypot(to.x - from.x, to.y - from.y);
  const hidden = (rail: Route['start']['rail']) => {
    const out = outward(rail);
    const square = Math.abs(out.x * (to.x - from.x) + out.y * (to.y - from.y)) / span;
    return (table.sightSetback + table.ballRadius) / square;
  };
  return span - hidden(route.start.rail) - hidden(route.aim.rail);
}
