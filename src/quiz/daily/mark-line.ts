/** What a player says of a line beside answering it. */

import type { EventDraft } from '../../scheduler/index.ts';
import { notSaved } from '../stage/not-saved.ts';
import type { SessionPorts } from '../stage/ports.ts';

type Undated<E> = E extends EventDraft ? Omit<E, 'day' | 'at'> : never;
export type LineMark = Undated<
  Extract<EventDraft, { readonly type: 'set aside' | 'noted' | 'flagged' }>
>;

/** Writes a note, a flag, or that a line is set aside; says what went wrong, if anything. */
export async function markLine(
  { append, today, now }: Pick<SessionPorts, 'append' | 'today' | 'now'>,
  mark: LineMark,
): Promise<string | null> {
  try {
    await append({ ...mark, day: today(), at: now() });
    return null;
  } catch (error) {
    return notSaved(error);
  }
}
