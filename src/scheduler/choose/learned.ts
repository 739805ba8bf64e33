/**
 * Which of a chart's cards the player learns by heart, and which lines they work out from anchors.
 */

import { type Card, type Interpolation, isLineCard, type Kind } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

export interface Learning {
  /** The kinds that are asked; the others keep their memory and wait. */
  readonly kinds: readonly Kind[];
  /** Interpolate between anchors instead of learning every line by heart. */
  readonly anchorsOnly?: boolean;
}

export interface Learned {
  /**
   * Cards that are asked. A card after a line that is worked out comes after its anchors and skill.
   */
  readonly cards: readonly Card[];
  /** What lines are worked out from, by the ids of their number cards. */
  readonly workedOut: ReadonlyMap<string, Interpolation>;
}

/** Lines set aside are not learned, so lines between them and others are learned by heart. */
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

const NOTHING: ReadonlyMap<string, Interpolation> = new Map();

/** Once a line was met, asked or moved, it is learned by heart. */
function workedOutOf(cards: readonly Card[], log: LogState): ReadonlyMap<string, Interpolation> {
  const asked = new Set(cards.map(({ id }) => id));
  const known = new Set([
    ...log.met.keys(),
    ...cards.flatMap(({ id, lineId }) =>
      log.memories.has(id) || log.moved.has(id) ? [lineId] : [],
    ),
  ]);
  const interpolated = cards.filter(isLineCard).flatMap(({ id, kind, interpolation, lineId }) => {
    const mayInterpolate = kind === 'number' && interpolation !== null && !known.has(lineId);
    return mayInterpolate &&
      [...interpolation.anchors, interpolation.skill].every((one) => asked.has(one))
      ? [[id, interpolation] as const]
      : [];
  });
  return new Map(interpolated);
}

function waiting(card: Card, workedOut: ReadonlyMap<string, Interpolation>): Card {
  if (!card.after.some((id) => workedOut.has(id))) return card;
  const after = card.after.flatMap((id) => {
    const interpolation = workedOut.get(id);
    return interpolation ? [...interpolation.anchors, interpolation.skill] : [id];
  });
  return { ...card, after: [...new Set(after)] };
}
