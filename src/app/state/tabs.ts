/** Messages between the tabs of one browser, sent when a change is on the disk. */

import { type LogEvent, parseEvent } from '../../scheduler/index.ts';

export interface Channel {
  readonly send: (message: unknown) => void;
}

export type TabMessage =
  | { readonly type: 'event'; readonly event: LogEvent }
  | { readonly type: 'rehearsal' }
  /** To read the whole disk again. */
  | { readonly type: 'reload' };

/** @returns a function that never throws: a change is saved even if other tabs cannot be told */
export function tellTabs(channel: Channel): (message: TabMessage) => void {
  return (message) => {
    try {
      channel.send(message);
    } catch (error) {
      console.error('Other tabs were not told:', error);
    }
  };
}

/** A message that is not understood means that something changed. */
export function parseTabMessage(message: unknown): TabMessage {
  const { type, event } = (message ?? {}) as { type?: unknown; event?: unknown };
  const parsed = type === 'event' ? parseEvent(event) : null;
  if (parsed?.ok) return { type: 'event', event: parsed.event };
  return { type: type === 'rehearsal' ? type : 'reload' };
}
