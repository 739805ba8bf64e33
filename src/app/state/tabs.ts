/** Messages between the tabs of one browser. They are sent when a change is on the disk. */

import { type LogEvent, parseEvent } from '../../scheduler/index.ts';

export interface Channel {
  readonly send: (message: unknown) => void;
}

export type TabMessage =
  | { readonly type: 'event'; readonly event: LogEvent }
  | { readonly type: 'rehearsal' }
  /** Tells the tab to read the whole disk again. */
  | { readonly type: 'reload' };

/**
 * @returns a function that sends a message and never throws, because a change is saved even if other
 * tabs cannot be told
 */
export function tellTabs(channel: Channel): (message: TabMessage) => void {
  return (message) => {
    try {
      channel.send(message);
    } catch (error) {
      console.error('Other tabs were not told:', error);
    }
  };
}

/** Parses a message. If it is not understood, something has changed, so the disk is read again. */
export function parseTabMessage(message: unknown): TabMessage {
  const { type, event } = (message ?? {}) as { type?: unknown; event?: unknown };
  const parsed = type === 'event' ? parseEvent(event) : null;
  if (parsed?.ok) return { type: 'event', event: parsed.event };
  return { type: type === 'rehearsal' ? type : 'reload' };
}
