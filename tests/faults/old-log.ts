/** Long logs about the demo chart's numbers, to seal and to restore. */

import type { Page } from 'playwright-core';
import { cardsOf } from '../../src/cards/index.ts';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  toDecimal,
} from '../../src/charts/index.ts';
import type { Answered } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { writeDatabase } from '../browser/database.ts';

const A_DAY = 25;
const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1))
  .filter(({ kind }) => kind === 'number')
  .slice(0, A_DAY);

/** Answers of a device, `A_DAY` a day; the last ones `daysAgo`. */
export function oldAnswers(
  device: string,
  count: number,
  daysAgo: number,
  from = 0,
): readonly Answered[] {
  const last = Math.floor(Date.now() / 86_400_000) - daysAgo;
  return Array.from({ length: count }, (_, n) => {
    const day = last - Math.floor((count - 1 - n) / A_DAY);
    const seq = from + n;
    return {
      version: 1,
      type: 'answered',
      id: `${device}:${seq}`,
      device,
      seq,
      day,
      at: day * 86_400_000 + 43_200_000 + n,
      card: cards[n % A_DAY]?.id ?? '',
      kind: 'number',
      answer: [2],
      errors: [0],
      outcome: 'pocketed',
      ms: 2000,
    };
  });
}

/** Id of the chart in the backup, to see whether its charts were restored. */
export const BROUGHT = 'brought';

/** A backup of another device: its answers, and a chart of its own. */
export function backupOf(events: readonly Answered[]): string {
  const chart: ChartDocument = { ...HARBOUR_LANE, id: BROUGHT };
  const rest = { charts: [chart], settings: DEFAULT_SETTINGS, unread: [] };
  return formatBackup({ events, ...rest }, '2026-11-30T12:00:00.000Z');
}

/** Writes events like the app, one per record, but without it; creates the database if missing. */
export function putEvents(page: Page, events: readonly Answered[]): Promise<void> {
  return writeDatabase(page, { events: events.map((event) => [event.id, event]) });
}
