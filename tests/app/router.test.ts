import { describe, expect, it } from 'vitest';
import { formatScreen, parseScreen, type Screen } from '../../src/app/router.ts';
import { toDecimal } from '../../src/charts/index.ts';

const SCREENS: readonly Screen[] = [
  { name: 'today' },
  { name: 'quiz', minutes: null },
  { name: 'quiz', minutes: 10 },
  { name: 'charts' },
  { name: 'pattern', pattern: 'cross-side', start: null },
  { name: 'pattern', pattern: 'cross-side', start: toDecimal(5.5) },
  { name: 'drills' },
  { name: 'drill', code: '1-abc' },
  { name: 'rehearsal' },
  { name: 'ear' },
  { name: 'look-up' },
  { name: 'placement' },
  { name: 'publish' },
  { name: 'memory' },
  { name: 'edit', pattern: null },
  { name: 'edit', pattern: 'cross-side' },
  { name: 'new-chart' },
  { name: 'levels' },
  { name: 'table-day' },
  { name: 'settings' },
  { name: 'print', pattern: null },
  { name: 'print', pattern: 'cross-side' },
  { name: 'rehearsal' },
  { name: 'score-sheet', id: 'a:7', question: null },
  { name: 'score-sheet', id: 'a:7', question: 12 },
  { name: 'revisions', pair: null },
  { name: 'revisions', pair: [2, 5] },
  { name: 'receive', code: null },
  { name: 'receive', code: 'Q29kZQ-_' },
  { name: 'receive', code: 'file/charts/club.json' },
];

describe('addresses', () => {
  it.each(SCREENS)('parse to the screen they were formatted from: $name', (screen) => {
    expect(parseScreen(formatScreen(screen))).toEqual(screen);
  });

  it.each([
    ['', 'today'],
    ['#', 'today'],
    ['#/nowhere', 'today'],
    ['#/charts/no-such-pattern', 'charts'],
    ['#/charts/__proto__', 'charts'],
    ['#/quiz/7', 'quiz'],
    ['#/print/__proto__', 'print'],
    ['#/charts/cross-side/abc', 'pattern'],
    ['#/revisions/0/x', 'revisions'],
    ['#/receive/', 'receive'],
  ])('%j leads to %s', (fragment, name) => {
    expect(parseScreen(fragment).name).toBe(name);
  });
});
