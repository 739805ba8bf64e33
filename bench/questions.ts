/** What a fresh question costs, and what the next step costs after a long history. */

import { cardsOf, questionOf, SKILL_KINDS } from '../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../src/charts/index.ts';
import { addToLog, foldLog, type LogEvent, nextStep } from '../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../src/store/index.ts';
import { solveLine } from '../src/table/index.ts';
import { club, oneCushion, startsOf } from './catalogue.ts';
import { compare, type Rate } from './measure.ts';

const tolerance = toDecimal(0.1);
const asker = { chart: computeChart(HARBOUR_LANE), tolerance, speeds: ['medium'] as const };
const cards = cardsOf(asker.chart, tolerance);

/** Instances of each kind per second, against numbers solved without a hint. */
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

/** An answer taken into the log and the next question found, after so many answers before it. */
export function benchNext(): readonly Rate[] {
  return compare(
    [1_000, 100_000].map((answers) => ({ name: `${answers} answers`, run: stepAfter(answers) })),
  );
}

const STEPS = 20;

function stepAfter(answers: number): () => number {
  const log = foldLog(Array.from({ length: answers }, (_, seq) => answerAt(seq)));
  const today = dayOf(answers);
  const settings = { ...DEFAULT_SETTINGS };
  return () => {
    let state = log;
    for (let n = 0; n < STEPS; n++) {
      state = addToLog(state, answerAt(answers + n));
      nextStep(cards, state, today, settings);
    }
    return STEPS;
  };
}

function dayOf(seq: number): number {
  return 20_000 + Math.floor(seq / 100);
}

function answerAt(seq: number): LogEvent {
  const card = cards[(Math.imul(seq + 1, 2_654_435_761) >>> 0) % cards.length];
  if (!card) throw new Error('a chart has cards');
  const day = dayOf(seq);
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
