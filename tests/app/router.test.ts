import { describe, expect, it } from 'vitest';
import { formatScreen, parseScreen, type Screen } from '../../src/app/router.ts';

const SCREENS: readonly Screen[] = [
  { name: 'today' },
  { name: 'quiz' },
  { name: 'charts' },
  { name: 'pattern', pattern: 'cross-side' },
  { name: 'settings' },
  { name: 'rehearsal' },
  { name: 'score-sheet', id: 'a:7', question: null },
  { name: 'score-sheet', id: 'a:7', question: 12 },
];

describe('addresses', () => {
  it.each(SCREENS)('lead back to the screen they were made from: $name', (screen) => {
    expect(parseScreen(formatScreen(screen))).toEqual(screen);
  });

  it.each([
    ['', 'today'],
    ['#', 'today'],
    ['#/nowhere', 'today'],
    ['#/charts/no-such-pattern', 'charts'],
    ['#/charts/__proto__', 'charts'],
  ])('%j leads to %s', (fragment, name) => {
    expect(parseScreen(fragment).name).toBe(name);
  });
});
