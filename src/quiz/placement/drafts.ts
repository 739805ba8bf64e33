/** The events that placement writes into the log. */

import type { LineCard } from '../../cards/index.ts';
import { toNumber } from '../../charts/index.ts';
import type { EventDraft } from '../../scheduler/index.ts';
import type { SessionPorts } from '../stage/ports.ts';
import type { Given } from '../words/given.ts';

type Clock = Pick<SessionPorts, 'today' | 'now'>;

/** Returns the event for a line that was asked and answered right. */
export function provedDraft(
  clock: Clock,
  card: LineCard,
  { values, grade }: Given,
  ms: number,
): EventDraft {
  return {
    type: 'proved',
    card: card.id,
    kind: card.kind,
    answer: values.map(toNumber),
    errors: grade.errors.map(toNumber),
    outcome: grade.outcome,
    ms,
    implied: false,
    day: clock.today(),
    at: clock.now(),
  };
}

/** Returns the event for a line that was not asked, but follows from proven lines. */
export function impliedDraft(clock: Clock, card: LineCard): EventDraft {
  return {
    type: 'proved',
    card: card.id,
    kind: card.kind,
    answer: null,
    errors: null,
    outcome: 'pocketed',
    ms: 0,
    implied: true,
    day: clock.today(),
    at: clock.now(),
  };
}
