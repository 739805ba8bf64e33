/** Writes what a player says about a line besides answering it. */

import type { EventDraft } from '../../scheduler/index.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { written } from '../stage/writing.ts';

type Undated<E> = E extends EventDraft ? Omit<E, 'day' | 'at'> : never;
export type LineMark = Undated<
  Extract<EventDraft, { readonly type: 'set aside' | 'noted' | 'flagged' }>
>;

/**
 * Writes a note, a flag, or that a line is set aside. Returns what went wrong; null if nothing did.
 */
export async function markLine(
  { append, today, now }: Pick<SessionPorts, 'append' | 'today' | 'now'>,
  mark: LineMark,
): Promise<string | null> {
  const saved = await written(() => append({ ...mark, day: today(), at: now() }));
  return saved.ok ? null : saved.problem;
}
