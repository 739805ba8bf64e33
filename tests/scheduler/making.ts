/** Makes events for tests. */

import type { Answered, LogEvent } from '../../src/scheduler/index.ts';

/** The place of an event in the log of device `a`, or of another. */
export function base(seq: number, day: number, device = 'a') {
  const at = day * 86_400_000 + seq;
  return { version: 1 as const, id: `${device}:${seq}`, device, seq, day, at };
}

export function answer(seq: number, card: string, day: number, device = 'a'): Answered {
  return { ...base(seq, day, device), type: 'answered', card, ...GIVEN };
}

/** An answer that the player judged. */
export function judged(seq: number, card: string, day: number, hadIt: boolean): Answered {
  const outcome = hadIt ? 'pocketed' : 'off';
  return { ...answer(seq, card, day), judged: 'self', answer: null, errors: null, outcome };
}

export const GIVEN = {
  kind: 'number',
  answer: [2.3],
  errors: [0],
  outcome: 'pocketed',
  ms: 1000,
} as const;

/** An event of a type, with its own fields. */
export function said<T extends LogEvent['type']>(
  place: ReturnType<typeof base>,
  type: T,
  what: Omit<Extract<LogEvent, { type: T }>, keyof ReturnType<typeof base> | 'type'>,
): Extract<LogEvent, { type: T }> {
  return { ...place, type, ...what } as unknown as Extract<LogEvent, { type: T }>;
}
