/**
 * Fresh instances of the skills: a start, a ball or an aim that no chart prints, with the one right
 * answer. What could be asked is listed and shuffled by a seed, and what can be played is taken in
 * that order: a seed always gives the same questions, none comes twice, and none is given up too soon.
 */

import { arrivals } from './arrivals.ts';
import type { Asker } from './asker.ts';
import { ballsOffTheRail, ballsOnTheRail } from './balls.ts';
import type { SkillCard } from './card.ts';
import { createDice } from './dice.ts';
import { inBetweens } from './in-betweens.ts';
import type { Question, SkillKind } from './question.ts';

/** What could be asked, not worked out yet; null where it turns out that it cannot be. */
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

/** All instances of a skill, each once, in the order of a seed; worked out one by one. */
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

/** @returns null if the chart has nothing of that kind in the zone */
export function instanceOf(asker: Asker, card: SkillCard, seed: number): Question | null {
  return instancesOf(asker, card, seed).next().value ?? null;
}

/** What is given in a question: two alike are one question. */
function nameOf(question: Question): string {
  const { start, speed } = question;
  const aim = 'aim' in question ? question.aim : '';
  const at = 'at' in question ? question.at : '';
  const off = 'off' in question ? question.off : '';
  return [start, speed, aim, at, off].join();
}
