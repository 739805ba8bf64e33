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
/** Accuracy of the ends of a window, diamonds (table/make-window.ts). */
const CLOSE = 0.002;
/**
 * How much a number depends on where its search starts, diamonds: the search may use a neighbor's drift,
 * and three impacts integrated to 1e-6 a step leave about 0.01 mm at the target of a firm shot. A
 * twentieth of the accuracy in docs/numbers.md.
 */
const SOLVED = 5e-5;
/** Every pattern at its whole starts. */
const sheets = PATTERNS.map((pattern: Pattern) => sheetOf(pattern));

describe.each(sheets)('the sheet of $pattern.id', ({ pattern, request, sheet }) => {
  it('has the solver’s numbers for each start alone', () => {
    for (const { line, start, speed, launch } of cells(request, sheet)) {
      const solved = solveLine(club, pattern, start, launch);
      const number = line.numbers[speed];
      if (typeof number === 'string') expect(number).toBe(solved.why);
      else expect(Math.abs(number.exact - (solved.aim ?? Number.NaN))).toBeLessThan(SOLVED);
    }
  });

  it('has windows within which all aims drop, and just beyond which none does', () => {
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

  it('has the drift for 0.1 of aim, as played to either side', () => {
    for (const { line, start, launch } of mediums(request, sheet)) {
      const { exact } = line.numbers.medium as SheetNumber;
      const above = missAt(pattern, start, exact + 0.1, launch);
      const below = missAt(pattern, start, exact - 0.1, launch);
      const perTenth = line.atMedium?.drift.perTenth ?? Number.NaN;
      // The slope changes by a few hundredths over two tenths.
      expect(perTenth / (Math.abs(above - below) / 2)).toBeGreaterThan(0.95);
      expect(perTenth / (Math.abs(above - below) / 2)).toBeLessThan(1.05);
    }
  });

  it('has the drift for a ball halfway along the line, as played', () => {
    for (const { line, start, launch } of mediums(request, sheet)) {
      const { exact } = line.numbers.medium as SheetNumber;
      const partWay = pathToCushion(pattern, start, exact) / 2;
      const miss = Math.abs(missAt(pattern, start, exact, { ...launch, partWay }));
      expect(line.atMedium?.drift.halfWay).toBeCloseTo(miss, 6);
    }
  });

  it('keeps the lines between its anchors within the bound, by the rule on printed numbers', () => {
    const { chosen, worst } = sheet.anchors;
    expect(worst).toBeLessThanOrEqual(request.anchorBound);
    const anchors = chosen.map((index) => sheet.lines[sheet.entries[index] ?? -1] as SheetLine);
    expect(sheet.lines.filter(({ anchor }) => anchor)).toEqual(anchors);
    for (const line of sheet.lines.filter(isWhole)) {
      for (const speed of SPEEDS) {
        const number = (one: SheetLine) => one.numbers[speed] as SheetNumber;
        const memorized = anchors.map((one) => ({
          start: one.start,
          printed: number(one).printed,
        }));
        const rule = interpolate(memorized, line.start) ?? Number.NaN;
        const right = line.anchor ? toNumber(number(line).printed) : number(line).exact;
        const bound = line.anchor ? 0 : request.anchorBound + 1e-9;
        expect(Math.abs(rule - right)).toBeLessThanOrEqual(bound);
      }
    }
  });

  it('has the verdicts of its windows', () => {
    for (const { verdict, numbers } of sheet.lines) {
      const window = (speed: Speed) => {
        const number = numbers[speed];
        return typeof number === 'string' ? null : number.makeWindow;
      };
      const windows = { soft: window('soft'), medium: window('medium'), firm: window('firm') };
      const hasNone = Object.values(numbers).every((number) => typeof number === 'string');
      expect(verdict).toEqual(hasNone ? null : verdictOf(windows));
    }
  });

  it('as a kick has numbers that send the ball level with the diamond', () => {
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

  it('named opposite the sight moves only number and window, by the same rule', () => {
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
  it('are neither anchors nor entries; those with all three are entries, in order', () => {
    const all = sheets.map(({ sheet }) => sheet);
    const partial = all.flatMap(({ lines }) => lines.filter((line) => !isWhole(line)));
    expect(partial.length).toBeGreaterThan(3);
    for (const line of partial) expect(line.anchor).toBe(false);
    for (const { lines, entries } of all) {
      expect(entries.map((n) => lines[n])).toEqual(lines.filter(isWhole));
    }
  });

  it('are not whole, and without medium have no entry angle', () => {
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
  it('is 0 for a ball that comes straight back to its rail, as is its halfway drift', () => {
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
        if (!end || pattern.target.kind !== 'pocket') throw new Error('no arrival at a pocket');
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
 * Length of the line on which the ball's center is at least a radius from both noses, meters: the
 * distance between the sights without the setback and the radius at either end.
 */
function pathToCushion(route: Route, start: number, aim: number): number {
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
