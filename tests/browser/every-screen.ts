/** Every screen there is, with all that can be on it: a player whose every text is given. */

import type { Page } from 'playwright-core';
import type { Screen } from '../../src/app/router.ts';
import { cardsOf, type LineCard } from '../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  revise,
  setLevel,
  stateOf,
  toDecimal,
} from '../../src/charts/index.ts';
import { formatDrill, printOf } from '../../src/quiz/drill/code.ts';
import type { LogEvent } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import type { App, PageOptions } from './app.ts';
import { type Player, playerOf, studyDayNow } from './seed.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1)).filter(
  (card): card is LineCard => card.kind === 'number' && 'line' in card,
);
const [first, second] = cards as [LineCard, LineCard];
const DEVICE = 'everything';

const DRILL = formatDrill({
  ...{ seed: 1, patterns: ['cross-side'], zones: ['middle'], kinds: ['number'], count: 10 },
  ...{ speeds: 'medium', tolerance: toDecimal(0.1), given: true, print: printOf(chart) },
});

/** An address for each; the compiler asks for those that are missing. */
export const EVERY_SCREEN: Readonly<Record<Screen['name'], readonly string[]>> = {
  today: ['#/'],
  quiz: ['#/quiz'],
  charts: ['#/charts'],
  pattern: [`#/charts/${first.pattern}`],
  drills: ['#/drills'],
  drill: [`#/drills/${DRILL}`],
  rehearsal: ['#/rehearsal'],
  'score-sheet': [`#/rehearsal/${DEVICE}:3`, `#/rehearsal/${DEVICE}:3/1`],
  ear: ['#/ear'],
  'look-up': ['#/look-up'],
  placement: ['#/placement'],
  print: ['#/print/cross-side', '#/print'],
  publish: ['#/publish'],
  memory: ['#/memory'],
  'table-day': ['#/table-day'],
  settings: ['#/settings'],
  revisions: ['#/revisions', '#/revisions/1/3'],
  receive: ['#/receive'],
  edit: [`#/edit/${first.pattern}`],
  'new-chart': ['#/new-chart'],
  levels: ['#/levels'],
};

export const ADDRESSES: readonly string[] = Object.values(EVERY_SCREEN).flat();

/** What a text can be at most where it is shortest: a level's name. */
const SHORTEST = 40;

/** The demo's chart with `text` in all its places. */
export function chartSaying(text: string) {
  const cut = (most: number) => text.slice(0, most);
  const state = stateOf(lastRevision(HARBOUR_LANE));
  const names = [1, 2, 3].map((n) => `${cut(SHORTEST - 2)} ${n}`);
  const remarks = cards.slice(0, 6).map(({ pattern, start }) => ({
    ...{ pattern, start, text: cut(200) },
  }));
  const levels = { names: names as unknown as readonly [string, string, string], lines: [] };
  const leveled = setLevel({ ...state, remarks, levels }, [first, second], 0);
  const signature = { date: '2026-11-29', author: cut(80), why: cut(400) };
  return { ...revise(HARBOUR_LANE, leveled, signature), name: cut(80) };
}

/** A backup of a player who has answered, noted, doubted, rehearsed and shot. */
export function playerSaying(text: string): string {
  const today = studyDayNow();
  const given = {
    kind: 'number' as const,
    ...{ answer: [2], errors: [0.3], outcome: 'off' as const, ms: 4000 },
  };
  const place = (seq: number) => ({
    ...{ version: 1 as const, id: `${DEVICE}:${seq}`, device: DEVICE, seq },
    ...{ day: today - 3, at: (today - 3) * 86_400_000 + seq },
  });
  const { pattern } = first;
  const asked = { card: second.id, ranOut: false, tolerance: 0.1, ...given };
  const events: readonly LogEvent[] = [
    { ...place(0), type: 'met', line: first.lineId },
    { ...place(1), type: 'answered', card: first.id, ...given },
    { ...place(2), type: 'noted', line: first.lineId, text: text.slice(0, 500) },
    {
      ...{ ...place(3), type: 'rehearsed', counts: true, clock: 30, began: place(3).at },
      questions: [asked],
    },
    { ...place(4), type: 'flagged', line: first.lineId, speed: 'medium', number: 3 },
    {
      ...{ ...place(5), type: 'table shot', chart: HARBOUR_LANE.id, pattern, speed: 'medium' },
      ...{ start: 2, aim: 1, miss: 0.2 },
    },
  ];
  const settings = {
    ...DEFAULT_SETTINGS,
    author: text.slice(0, 80),
    occasion: { name: text.slice(0, 60), day: today + 24, minutes: 20 },
  };
  return formatBackup({ events, charts: [chartSaying(text)], settings, unread: [] }, 'now');
}

/** A page of such a player, at Settings. */
export async function openAs(app: App, text: string, options: PageOptions = {}): Promise<Page> {
  return app.open({ fragment: '#/settings', ...options, player: await asPlayer(text) });
}

/** Such a player's records. */
export function asPlayer(text: string): Promise<Player> {
  return playerOf(playerSaying(text));
}

/** Goes there and waits until all of it is there. */
export async function goTo(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.locator('main:not([aria-busy]) h1').first().waitFor();
  await page.waitForLoadState('networkidle');
}
