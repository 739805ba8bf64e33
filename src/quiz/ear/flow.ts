/** The steps of a question by ear: the question, a pause, its number, and the player's judgment. */

import { type LineCard, questionOf } from '../../cards/index.ts';
import type { EventDraft } from '../../scheduler/index.ts';
import { wishOf } from '../daily/wish.ts';
import { askerFor } from '../stage/questions.ts';
import { written } from '../stage/writing.ts';
import { type EarStep, nextByEar } from './cards.ts';
import type { EarQuestion } from './phase.ts';
import { keepScreenOn, newTurn, pauseAt, type Run, releaseDevice, say, schedule } from './run.ts';
import { earWords } from './spoken.ts';

export const CAUTION = 'Do not practice while driving.';
/**
 * If the player has not judged after this many ms, the question and its number are repeated once.
 */
const REPEAT_AFTER = 20_000;
/**
 * A press within this many ms after the number began is taken for the second half of a double
 * press.
 */
const TOO_SOON = 400;
/**
 * The longest answer time, in ms. A question left open overnight is then slow, but not an error.
 */
const A_DAY = 86_400_000;

export async function caution(run: Run): Promise<void> {
  newTurn(run);
  run.phase.value = { at: 'caution' };
  if (await say(run, CAUTION)) next(run);
}

export function next(run: Run): void {
  const step = stepNow(run);
  if (step.type === 'ask') void ask(run, questionFor(run, step.card));
  else finish(run, step.type);
}

export function stepNow(run: Run): EarStep {
  const { cards, log, settings } = run;
  return nextByEar(cards, log.peek(), run.today(), wishOf(settings.peek()));
}

async function ask(run: Run, asked: EarQuestion): Promise<void> {
  newTurn(run);
  run.repeated = false;
  run.phase.value = { at: 'asking', asked };
  // If the player has to read the question, it waits until the page is visible.
  if (!run.aloud.peek() && run.visibility.hidden()) pauseAt(run, true);
  else if (await say(run, asked.words.question)) think(run, asked);
}

function think(run: Run, asked: EarQuestion): void {
  newTurn(run);
  const seconds = run.settings.peek().pauseSeconds;
  run.questionEnded = run.now();
  run.phase.value = { at: 'thinking', asked, seconds };
  schedule(run, seconds * 1000, () => void tellNumber(run, asked));
}

async function tellNumber(run: Run, asked: EarQuestion): Promise<void> {
  newTurn(run);
  run.numberBegan = run.now();
  run.phase.value = { at: 'telling', asked };
  if (await say(run, asked.words.answer)) awaitJudgement(run, asked);
}

function awaitJudgement(run: Run, asked: EarQuestion): void {
  run.phase.value = { at: 'judging', asked };
  if (run.repeated || !run.aloud.peek()) return;
  schedule(run, REPEAT_AFTER, () => {
    run.repeated = true;
    void say(run, `${asked.words.question} ${asked.words.answer}`);
  });
}

export async function judge(run: Run, hadIt: boolean): Promise<void> {
  const now = run.phase.peek();
  if (now.at !== 'telling' && now.at !== 'judging') return;
  const since = run.now() - run.numberBegan;
  if (since >= 0 && since < TOO_SOON) return;
  const turn = newTurn(run);
  const { asked } = now;
  if (overtaken(run, asked)) return passOver(run);
  run.phase.value = { at: 'saving', asked };
  const saved = await written(() => run.append(draftFor(run, asked, hadIt)));
  if (!saved.ok) {
    if (turn === run.turn) judgeAgain(run, asked, saved.problem);
    return;
  }
  const score = run.score.peek();
  const key = hadIt ? 'hadIt' : 'not';
  run.score.value = { ...score, [key]: score[key] + 1 };
  if (turn !== run.turn) return;
  run.problem.value = null;
  next(run);
}

function judgeAgain(run: Run, asked: EarQuestion, problem: string): void {
  run.problem.value = problem;
  run.phase.value = { at: 'judging', asked };
  void say(run, problem);
}

/** Asks the same question again from its beginning. */
export function again(run: Run): void {
  const now = run.phase.peek();
  if ('asked' in now && now.asked && now.at !== 'saving' && now.at !== 'paused') {
    void ask(run, now.asked);
  }
}

/**
 * Skips ahead: from the caution to the question, from the question to the pause, or from the pause
 * to the number.
 */
export function skip(run: Run): void {
  const now = run.phase.peek();
  if (now.at === 'caution') next(run);
  else if (now.at === 'asking') think(run, now.asked);
  else if (now.at === 'thinking') void tellNumber(run, now.asked);
}

export function resume(run: Run): void {
  const now = run.phase.peek();
  if (now.at !== 'paused') return;
  keepScreenOn(run);
  if (!now.asked) void caution(run);
  else if (overtaken(run, now.asked)) passOver(run);
  else void ask(run, now.asked);
}

function finish(run: Run, why: Exclude<EarStep['type'], 'ask'>): void {
  newTurn(run);
  releaseDevice(run);
  run.phase.value = { at: 'done', why };
  void say(run, 'Nothing is left to ask today.');
}

function questionFor(run: Run, card: LineCard): EarQuestion {
  const { chart, settings } = run;
  const question = questionOf(askerFor(chart, settings.peek()), card, 0);
  if (question?.kind !== 'number' && question?.kind !== 'window') {
    throw new Error(`not a question for the ear: ${card.id}`);
  }
  return { card, words: earWords(question), turn: turnOf(run, card) };
}

function turnOf({ log }: Run, card: LineCard): number {
  return log.peek().memories.get(card.id)?.answers ?? 0;
}

/**
 * Tells whether another tab has answered the card since it was chosen. The answer here must then
 * not count.
 */
function overtaken(run: Run, { card, turn }: EarQuestion): boolean {
  return turnOf(run, card) !== turn;
}

function passOver(run: Run): void {
  run.problem.value = 'That one was answered in another tab; here is the next.';
  next(run);
}

/**
 * Returns the event of an answer. Its time runs from the end of the question. The time is stored,
 * but does not count toward the player's pace.
 */
function draftFor(run: Run, { card }: EarQuestion, hadIt: boolean): EventDraft {
  const at = run.now();
  return {
    type: 'answered',
    card: card.id,
    kind: card.kind,
    judged: 'self',
    answer: null,
    errors: null,
    outcome: hadIt ? 'pocketed' : 'off',
    ms: Math.min(A_DAY, Math.max(0, at - run.questionEnded)),
    day: run.today(),
    at,
  };
}
