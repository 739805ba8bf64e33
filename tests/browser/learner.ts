/** A player who has learned some lines over some weeks, to begin from. */

import type { Model } from '../../src/app/state/model.ts';
import { createDice, isLineCard, OUTCOMES, questionOf } from '../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../src/charts/index.ts';
import type { EventDraft } from '../../src/scheduler/index.ts';
import { type Player, playerWho } from './seed.ts';

const demo = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const DAY = 86_400_000;
/** Of ten answers one is off, one rattled. */
const CHANCES = [0, 1, 2, 2, 2, 2, 2, 2, 3, 3] as const;

/** Every second number, asked on some days of the last eight weeks; the same for every run. */
export function learner(): Promise<Player> {
  return playerWho(learn);
}

async function learn(model: Model): Promise<void> {
  const dice = createDice(6);
  const drafts: EventDraft[] = [];
  const daysAgo = (ago: number) => ({ day: model.today() - ago, at: model.now() - ago * DAY });
  const numbers = model.cards.value.filter((card) => isLineCard(card) && card.kind === 'number');
  for (const card of numbers.filter((_, n) => n % 2 === 0)) {
    const truth = questionOf({ chart: demo, tolerance, speeds: ['medium'] }, card, 0)?.truth ?? [];
    let ago = 20 + Math.floor(dice.next() * 36);
    drafts.push({ type: 'met', line: card.lineId, ...daysAgo(ago) });
    for (let gap = 2; ago >= 0; gap *= 2) {
      const outcome = OUTCOMES[dice.pick(CHANCES)] ?? 'pocketed';
      const error = outcome === 'off' ? 0.3 : 0;
      drafts.push({
        type: 'answered',
        card: card.id,
        kind: 'number',
        answer: truth.map((one) => toNumber(one) + error),
        errors: truth.map(() => error),
        outcome,
        ms: 3000,
        ...daysAgo(ago),
      });
      ago -= gap + Math.floor(dice.next() * gap);
    }
  }
  // Written in the order of their days, or the clock would be taken to have been wrong.
  for (const draft of drafts.sort((a, b) => a.day - b.day)) await model.append(draft);
}
