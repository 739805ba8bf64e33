/**
 * New questions for the skills: each has a start, a ball or an aim that no chart prints, and one
 * right answer. A seed shuffles all candidates, and those that can be played are asked in that
 * order. So a seed always gives the same questions, no question repeats, and every possible one
 * comes up.
 */

import { arrivals } from './arrivals.ts';
import type { Asker } from './asker.ts';
import { ballsOffTheRail, ballsOnTheRail } from './balls.ts';
import type { SkillCard } from './card.ts';
import { createDice } from './dice.ts';
import { inBetweens } from './in-betweens.ts';
import type { Question, SkillKind } from './question.ts';

/** Computes a question when called; returns null if the question turns out to be impossible. */
export type Candidate = () => Question | null;

const CANDIDATES: Readonly<
  Record<
    SkillKind,
    (asker: Asker, card: SkillCard, speed: Asker['speeds'][number]) => readonly Candidate[]
  >
> = {
  'in between': inBetweens,
  'rail ball': ballsOnTheRail,
  'off the rail': ballsOffTheRail,
  arrival: arrivals,
};

/**
 * Yields all questions of a skill, each once, in the order that the seed gives. Each is computed
 * only when it is needed.
 */
export function* instancesOf(asker: Asker, card: SkillCard, seed: number): Generator<Question> {
  const all = asker.speeds.flatMap((speed) => CANDIDATES[card.kind](asker, card, speed));
  const seen = new Set<string>();
  for (const candidate of createDice(seed).shuffle(all)) {
    const question = candidate();
    if (!question || seen.has(nameOf(question))) continue;
    seen.add(nameOf(question));
    yield question;
  }
}

/**
 * Returns the first question of a skill; null if the chart has nothing of that kind in the zone.
 */
export function instanceOf(asker: Asker, card: SkillCard, seed: number): Question | null {
  return instancesOf(asker, card, seed).next().value ?? null;
}

/**
 * Returns a key made of what a question gives. Two questions that give the same are one question.
 */
function nameOf(question: Question): string {
  const { start, speed } = question;
  const aim = 'aim' in question ? question.aim : '';
  const at = 'at' in question ? question.at : '';
  const off = 'off' in question ? question.off : '';
  return [start, speed, aim, at, off].join();
}
