/** The cost of a fresh question, and of the next step after a long history. */

import { type Card, cardsOf, isLineCard, questionOf, SKILL_KINDS } from '../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../src/charts/index.ts';
import { wishOf } from '../src/quiz/index.ts';
import { addToLog, foldLog, type LogEvent, nextStep } from '../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../src/store/index.ts';
import { solveLine } from '../src/table/index.ts';
import { club, oneCushion, startsOf } from './catalogue.ts';
import { compare, type Rate } from './measure.ts';

const tolerance = toDecimal(0.1);
const asker = { chart: computeChart(HARBOUR_LANE), tolerance, speeds: ['medium'] as const };
const cards = cardsOf(asker.chart, tolerance);

/** Questions of each kind per second, against numbers solved without a hint. */
export function benchQuestions(): readonly Rate[] {
  const launch = { speed: club.condition.speeds.medium };
  const lines = oneCushion.flatMap((route) =>
    startsOf(route, 0.5).map((start) => ({ route, start })),
  );
  let seed = 0;
  return compare([
    {
      name: 'a number',
      run: () => {
        for (const { route, start } of lines) solveLine(club, route, start, launch);
        return lines.length;
      },
    },
    ...SKILL_KINDS.map((kind) => ({
      name: kind,
      run: () => {
        const some = cards.filter((card) => card.kind === kind);
        for (const card of some) questionOf(asker, card, seed++);
        return some.length;
      },
    })),
  ]);
}

/** Adding an answer to the log and finding the next question, after a number of answers. */
export function benchNext(): readonly Rate[] {
  return compare([
    { name: '1,000 answers', run: stepAfter(cards, 1_000) },
    { name: '100,000 answers', run: stepAfter(cards, 100_000) },
    { name: '100,000 answers to 6,200 cards', run: stepAfter(manyCards(MOST_CARDS), 100_000) },
  ]);
}

/** Cards of the largest chart, 2,000 lines, with as many cards a line as the demo chart. */
export const MOST_CARDS = 6200;

const STEPS = 20;

function stepAfter(some: readonly Card[], answers: number): () => number {
  const log = foldLog(Array.from({ length: answers }, (_, seq) => answerAt(some, seq)));
  const today = dayOf(answers);
  const wish = wishOf(DEFAULT_SETTINGS);
  let [state, seq] = [log, answers];
  return () => {
    for (let n = 0; n < STEPS; n++) {
      state = addToLog(state, answerAt(some, seq++, today));
      nextStep(some, state, today, wish);
    }
    return STEPS;
  };
}

/** The chart's cards, repeated under ids of their own. */
export function manyCards(count: number): readonly Card[] {
  return Array.from({ length: count }, (_, n) => {
    const of = Math.floor(n / cards.length);
    const card = cards[n % cards.length] as Card;
    const own = (id: string) => `${of}/${id}`;
    const base = { id: own(card.id), lineId: own(card.lineId), after: card.after.map(own) };
    return isLineCard(card) ? { ...card, ...base, interpolation: null } : { ...card, ...base };
  });
}

export function dayOf(seq: number): number {
  return 20_000 + Math.floor(seq / 100);
}

export function answerAt(some: readonly Card[], seq: number, day = dayOf(seq)): LogEvent {
  const card = some[(Math.imul(seq + 1, 2_654_435_761) >>> 0) % some.length];
  if (!card) throw new Error('a chart has cards');
  return {
    version: 1,
    type: 'answered',
    id: `bench:${seq}`,
    device: 'bench',
    seq,
    day,
    at: day * 86_400_000 + seq,
    card: card.id,
    kind: card.kind,
    answer: [2],
    errors: [0],
    outcome: 'pocketed',
    ms: 3000,
  };
}
