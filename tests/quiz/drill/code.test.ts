import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, ZONES } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, PATTERNS, toDecimal } from '../../../src/charts/index.ts';
import {
  COUNTS,
  type DrillSpec,
  fitted,
  formatDrill,
  parseDrill,
  printOf,
} from '../../../src/quiz/index.ts';
import { specArb } from './drilling.ts';

const SPEC: DrillSpec = {
  seed: 1,
  patterns: ['cross-side'],
  zones: ['low'],
  kinds: ['rail ball'],
  count: 10,
  speeds: 'medium',
  tolerance: toDecimal(0.1),
  given: true,
  print: 'abc123',
};

describe('the code of a drill', () => {
  it('is complete: parsing a formatted drill gives the same drill', () => {
    fc.assert(
      fc.property(specArb, (spec) => {
        expect(parseDrill(formatDrill(spec))).toEqual({ ok: true, spec });
      }),
    );
  });

  // RFC 3986, section 2.3: letters, digits and "-" are unreserved, and need no escape in an address.
  it('is short, and needs no escape in an address', () => {
    fc.assert(
      fc.property(specArb, (spec) => {
        const code = formatDrill(spec);
        expect(code.length).toBeLessThanOrEqual(60);
        expect(code).toMatch(/^[a-z0-9-]+$/);
        expect(encodeURIComponent(code)).toBe(code);
      }),
    );
  });

  it('differs for two different drills', () => {
    fc.assert(
      fc.property(specArb, specArb, (a, b) => {
        const same = JSON.stringify(a) === JSON.stringify(b);
        expect(formatDrill(a) === formatDrill(b)).toBe(same);
      }),
    );
  });

  it('may have capitals and spaces around it, as pasted from a message', () => {
    const code = formatDrill(SPEC);
    expect(parseDrill(` ${code.toUpperCase()}\n`)).toEqual({ ok: true, spec: SPEC });
  });

  // By hand from the definition in drill/code.ts: bit 2 is cross-side; 36 = 4 + 32 are the third
  // and the sixth kind; rs in base 36 is 27 · 36 + 28 = 1000 ten-thousandths. Old links must stay good.
  it('of the first version still means the same drill', () => {
    expect(parseDrill('1-z-4-110001-rs-abc123')).toEqual({
      ok: true,
      spec: { ...SPEC, seed: 35, kinds: ['arrival', 'off the rail'] },
    });
  });

  it('has room for every pattern, kind, zone and length', () => {
    for (const { id } of PATTERNS) {
      const parsed = parseDrill(formatDrill({ ...SPEC, patterns: [id] }));
      expect(parsed).toMatchObject({ ok: true, spec: { patterns: [id] } });
    }
    for (const count of COUNTS) {
      const whole: DrillSpec = { ...SPEC, kinds: KINDS, zones: ZONES, count };
      expect(parseDrill(formatDrill(whole))).toEqual({ ok: true, spec: whole });
    }
  });
});

describe('a text that is not a code', () => {
  it('never throws: it is refused with a sentence, or is exactly the code of what it parses to', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' }), spoiltArb), (text) => {
        const parsed = parseDrill(text);
        if (parsed.ok) expect(formatDrill(parsed.spec)).toBe(text.trim().toLowerCase());
        else expect(parsed.say).toMatch(/^[A-Z].*\.$/);
      }),
    );
  });

  it.each([
    ['', 'not a code'],
    ['__proto__', 'not a code'],
    ['<script>alert(1)</script>', 'not a code'],
    ['2-1-4-1gh000-rs-abc123', 'newer code'],
    // 36⁶ − 1 has bits beyond those of all patterns.
    ['1-1-zzzzzz-110001-rs-abc123', 'unknown pattern'],
    ['1-1-4-100001-rs-abc123', 'not a code'],
    ['1-1-0-110001-rs-abc123', 'not a code'],
    ['1-1-4-110001-0-abc123', 'not a code'],
    ['1-1-4-110001-zzzz-abc123', 'not a code'],
    ['1-zzzzzzz-4-110001-rs-abc123', 'not a code'],
    ['1-01-4-110001-rs-abc123', 'not a code'],
    [`1-${'1'.repeat(10_000)}`, 'not a code'],
  ])('%.40j is refused: %s', (text, error) => {
    expect(parseDrill(text)).toMatchObject({ ok: false, error });
  });
});

describe('what a chart prints', () => {
  const chart = computeChart(HARBOUR_LANE);

  it('has the same six characters wherever they are computed', () => {
    expect(printOf(computeChart(structuredClone(HARBOUR_LANE)))).toBe(printOf(chart));
    expect(printOf(chart)).toMatch(/^[0-9a-z]{6}$/);
  });

  it('has other characters if one number of one line moves, or names another point', () => {
    const [first, ...rest] = chart.lines;
    if (!first) throw new Error('the chart has no lines');
    const firm = { ...first.numbers.firm, printed: toDecimal(7.9) };
    const moved = { ...first, numbers: { ...first.numbers, firm } };
    const prints = [
      printOf(chart),
      printOf({ ...chart, lines: [moved, ...rest] }),
      printOf({ ...chart, lines: rest }),
      printOf({ ...chart, naming: 'opposite' }),
    ];
    expect(new Set(prints).size).toBe(prints.length);
  });

  it('has other characters in the revision before', () => {
    const [first] = HARBOUR_LANE.revisions;
    const before = computeChart({ ...HARBOUR_LANE, revisions: [first] });
    expect(printOf(before)).not.toBe(printOf(chart));
  });
});

describe('a drill on this chart', () => {
  const chart = computeChart(HARBOUR_LANE);

  // Players call numbers to a tenth: common practice, no source. No answer is finer.
  it.each([
    [0.0001, 0.1],
    [0.1, 0.1],
    [0.2, 0.2],
  ])('of a tolerance of %d is graded within %d', (tolerance, within) => {
    const own = fitted({ ...SPEC, tolerance: toDecimal(tolerance) }, chart);
    expect(own).toEqual({ ...SPEC, tolerance: toDecimal(within), print: printOf(chart) });
  });
});

/** Codes with one character changed, dropped or doubled. */
const spoiltArb = fc
  .tuple(specArb, fc.nat(60), fc.constantFrom('', '-', '0', 'z', '/', '%', 'é', '--'))
  .map(([spec, at, put]) => {
    const code = formatDrill(spec);
    return code.slice(0, at) + put + code.slice(at + 1);
  });
