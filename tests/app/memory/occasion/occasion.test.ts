import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseOccasion } from '../../../../src/app/memory/occasion/entry.ts';
import { linesByPattern, remedyWords } from '../../../../src/app/memory/occasion/words.ts';
import { dayFromIso, dayWords, isoDay, longDayWords } from '../../../../src/app/parts/day-words.ts';
import {
  countdownWords,
  fallsShortWords,
  heldWords,
} from '../../../../src/app/parts/occasion-line.tsx';
import { cardsOf, type LineCard } from '../../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../../src/charts/index.ts';
import { LEAST_MINUTES, MOST_MINUTES } from '../../../../src/store/index.ts';

/** 2026-11-25, a Wednesday, and 2026-12-19, a Saturday (GNU date). */
const TODAY = 20_782;
const DEC_19 = 20_806;

describe('a study-day', () => {
  it('is written in words', () => {
    expect(dayWords(TODAY)).toBe('25 Nov');
    expect(longDayWords(DEC_19, TODAY)).toBe('Saturday 19 December');
    expect(longDayWords(DEC_19 + 365, TODAY)).toBe('Sunday 19 December 2027');
  });

  it('survives a date field', () => {
    expect(isoDay(DEC_19)).toBe('2026-12-19');
    fc.assert(
      fc.property(fc.nat(200_000), (day) => {
        expect(dayFromIso(isoDay(day))).toBe(day);
      }),
      { seed: 2 },
    );
  });

  it.each(['', '2026-02-30', '2026-13-01', '19.12.2026', '2026-12-19T00:00', '20261219'])(
    'is not %j',
    (text) => expect(dayFromIso(text)).toBeNull(),
  );
});

describe('a goal that cannot be reached', () => {
  it('is reported on Today, with where to look', () => {
    expect(fallsShortWords({ drop: ['a', 'b'] })).toMatch(/less than nine lines of ten.*to drop$/);
    expect(fallsShortWords({ drop: [] })).toMatch(/what would do$/);
  });
});

describe('the form of the occasion', () => {
  const typed = { name: ' Harbour Lane Open ', date: '2026-12-19', minutes: '10' };

  it('is accepted if every field is valid', () => {
    const occasion = { name: 'Harbour Lane Open', day: DEC_19, minutes: 10 };
    expect(parseOccasion(typed, TODAY)).toEqual({ ok: true, occasion });
  });

  it.each([
    ['no name', { name: '  ' }, 'name'],
    ['a long name', { name: 'x'.repeat(61) }, 'name'],
    ['no date', { date: '' }, 'date'],
    ['today', { date: '2026-11-25' }, 'date'],
    ['yesterday', { date: '2026-11-24' }, 'date'],
    ['later than two years', { date: '2028-11-25' }, 'date'],
    ['a date that is none', { date: '2026-02-30' }, 'date'],
    ['too few minutes', { minutes: String(LEAST_MINUTES - 1) }, 'minutes'],
    ['too many', { minutes: String(MOST_MINUTES + 1) }, 'minutes'],
    ['halves of minutes', { minutes: '7.5' }, 'minutes'],
    ['words for minutes', { minutes: 'ten' }, 'minutes'],
    ['no minutes', { minutes: '' }, 'minutes'],
  ])('%s: a sentence at its field, and at no other', (_, part, field) => {
    const parsed = parseOccasion({ ...typed, ...part }, TODAY);
    expect(parsed.ok).toBe(false);
    if (parsed.ok) return;
    expect(Object.keys(parsed.faults)).toEqual([field]);
    expect(Object.values(parsed.faults).join()).toMatch(/^[A-Z].*\.$/);
  });

  it('accepts tomorrow and the last day within two years', () => {
    expect(parseOccasion({ ...typed, date: '2026-11-26' }, TODAY).ok).toBe(true);
    expect(parseOccasion({ ...typed, date: '2028-11-24' }, TODAY).ok).toBe(true);
  });

  it('reports all faults at once', () => {
    const parsed = parseOccasion({ name: '', date: '', minutes: '' }, TODAY);
    expect(parsed.ok ? {} : Object.keys(parsed.faults)).toEqual(['name', 'date', 'minutes']);
  });
});

describe('the occasion in words', () => {
  const occasion = { name: 'the Harbour Lane Open', day: DEC_19, minutes: 10 };

  it('counts the days', () => {
    expect(countdownWords(occasion, TODAY)).toBe('24 days to the Harbour Lane Open');
    expect(countdownWords(occasion, DEC_19 - 1)).toBe('the Harbour Lane Open is tomorrow');
    expect(countdownWords(occasion, DEC_19)).toBe('the Harbour Lane Open is today');
  });

  it('says how many lines will be held, and within which bounds', () => {
    expect(heldWords({ expected: 51.6, low: 48, high: 55, of: 60 })).toBe('52 of 60 (48–55)');
  });

  it.each([
    [18, 14, 'For nine lines of ten you need about 18 minutes a day, or drop these 14 lines:'],
    [18, 1, 'For nine lines of ten you need about 18 minutes a day, or drop this line:'],
    [18, 0, 'For nine lines of ten you need about 18 minutes a day.'],
    [null, 0, 'By that day no time is enough for nine lines of ten.'],
    [
      null,
      9,
      'By that day no time is enough for nine lines of ten. To know the others well, drop these 9 lines:',
    ],
  ])('says what would be enough: %s minutes, %d lines', (needed, lines, words) => {
    expect(remedyWords(needed, lines)).toBe(words);
  });

  it('names the lines to drop by pattern, in the order of their starts', () => {
    const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
    const line = (pattern: string, start: number) =>
      cards.find(
        (card): card is LineCard =>
          card.kind === 'number' && card.pattern === pattern && card.start === toDecimal(start),
      ) as LineCard;
    const lines = [line('cross-side', 6), line('cross-corner', 2), line('cross-side', 5.5)];
    expect(linesByPattern(lines)).toEqual(['Cross-side from 5.5, 6.0', 'Cross-corner from 2.0']);
  });
});
