/** Answers scheduled per second: our fold of the log against ts-fsrs alone on the same sequence. */

import { default_w, FSRSAlgorithm, type FSRSState } from 'ts-fsrs';
import { OUTCOMES } from '../src/cards/index.ts';
import { type Answered, foldLog } from '../src/scheduler/index.ts';
import { compare, type Rate } from './measure.ts';

/** The largest log: a hundred answers a day for three years. */
const ANSWERS = 100_000;
const CARDS = 200;

/** A made-up history, always the same: cards in random order, 100 answers a day. */
const log: readonly Answered[] = Array.from({ length: ANSWERS }, (_, seq) => {
  const dice = Math.imul(seq + 1, 2_654_435_761) >>> 0;
  const day = 20_000 + Math.floor(seq / 100);
  return {
    version: 1,
    type: 'answered',
    id: `bench:${seq}`,
    device: 'bench',
    seq,
    day,
    at: day * 86_400_000 + seq,
    card: `chart/pattern-${dice % 4}/${dice % CARDS}/pocket/medium/number`,
    kind: 'number',
    answer: [2],
    errors: [0],
    outcome: OUTCOMES[(dice >>> 8) % OUTCOMES.length] ?? 'pocketed',
    ms: 3000,
  };
});

export function benchAnswers(): { readonly rates: readonly Rate[]; readonly answers: number } {
  const model = new FSRSAlgorithm({ w: default_w });
  const rates = compare([
    { name: 'ours', run: () => foldLog(log).events.length },
    {
      name: 'ts-fsrs',
      run: () => {
        const states = new Map<string, { state: FSRSState; day: number }>();
        for (const { card, day, outcome } of log) {
          const before = states.get(card);
          const grade = OUTCOMES.indexOf(outcome) + 1;
          const state = model.next_state(
            before?.state ?? null,
            before ? day - before.day : 0,
            grade,
          );
          states.set(card, { state, day });
        }
        return log.length;
      },
    },
  ]);
  return { rates, answers: ANSWERS };
}
