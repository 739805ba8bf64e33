/** Which of a chart's cards the player learns: not what is worked out between anchors. */

import { type Card, type Hung, isLineCard, type Kind } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

export interface Learning {
  /** What is asked; the others keep their memory and wait. */
  readonly kinds: readonly Kind[];
  /** Work out what hangs between anchors, rather than learn it by heart; not if left out. */
  readonly anchorsOnly?: boolean;
}

export interface Learned {
  /** Cards that are asked. What waits for a line that is worked out waits for what that hangs on. */
  readonly cards: readonly Card[];
  /** What the lines that are worked out hang on, by the ids of their number cards. */
  readonly workedOut: ReadonlyMap<string, Hung>;
}

/** Lines set aside are not learned, and what hangs on them is then learned by heart. */
export function learnedOf(all: readonly Card[], log: LogState, learning: Learning): Learned {
  const cards = all.filter(
    (card) => learning.kinds.includes(card.kind) && !log.aside.has(card.lineId),
  );
  const workedOut = learning.anchorsOnly ? workedOutOf(cards, log) : NOTHING;
  if (workedOut.size === 0) return { cards, workedOut };
  const lines = new Set(cards.flatMap(({ id, lineId }) => (workedOut.has(id) ? [lineId] : [])));
  const learned = cards.filter(({ lineId }) => !lines.has(lineId));
  return { cards: learned.map((card) => waiting(card, workedOut)), workedOut };
}

const NOTHING: ReadonlyMap<string, Hung> = new Map();

/** A line that was met, asked or moved is learned by heart from then on. */
function workedOutOf(cards: readonly Card[], log: LogState): ReadonlyMap<string, Hung> {
  const asked = new Set(cards.map(({ id }) => id));
  const known = new Set([
    ...log.met.keys(),
    ...cards.flatMap(({ id, lineId }) =>
      log.memories.has(id) || log.moved.has(id) ? [lineId] : [],
    ),
  ]);
  const hung = cards.filter(isLineCard).flatMap(({ id, kind, hung, lineId }) => {
    const hangs = kind === 'number' && hung !== null && !known.has(lineId);
    return hangs && [...hung.on, hung.skill].every((one) => asked.has(one))
      ? [[id, hung] as const]
      : [];
  });
  return new Map(hung);
}

function waiting(card: Card, workedOut: ReadonlyMap<string, Hung>): Card {
  if (!card.after.some((id) => workedOut.has(id))) return card;
  const after = card.after.flatMap((id) => {
    const hung = workedOut.get(id);
    return hung ? [...hung.on, hung.skill] : [id];
  });
  return { ...card, after: [...new Set(after)] };
}
