/** Long logs to seal and to restore, of the demo chart's numbers. */

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

/** Answers of a device, some a day; the last ones so many days ago. */
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

/** Its id in the backup, by which it is known whether the charts came in. */
export const BROUGHT = 'brought';

/** A backup of another device: its answers, and a chart that is nowhere else. */
export function backupOf(events: readonly Answered[]): string {
  const chart: ChartDocument = { ...HARBOUR_LANE, id: BROUGHT };
  const rest = { charts: [chart], settings: DEFAULT_SETTINGS, unread: [] };
  return formatBackup({ events, ...rest }, '2026-11-30T12:00:00.000Z');
}

/** Writes events as the app does, one a record, past it; makes the database if it is not there. */
export function putEvents(page: Page, events: readonly Answered[]): Promise<void> {
  return writeDatabase(page, { events: events.map((event) => [event.id, event]) });
}
