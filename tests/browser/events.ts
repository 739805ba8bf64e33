import type { Page } from 'playwright-core';
import { readDatabase } from './database.ts';

export interface StoredEvent {
  readonly id: string;
  readonly device: string;
  readonly type: string;
  readonly seq: number;
  readonly [field: string]: unknown;
}

/** The log as it lies on the page's disk, in the order in which it was written. */
export async function readEvents(page: Page): Promise<StoredEvent[]> {
  const { events = [] } = (await readDatabase(page)) ?? {};
  return events.map(([, event]) => event as StoredEvent).sort((a, b) => a.seq - b.seq);
}

/** Those of one type. */
export async function readType(page: Page, type: string): Promise<StoredEvent[]> {
  return (await readEvents(page)).filter((event) => event.type === type);
}
