/** The way of a question by ear: it is spoken, then a pause, its number, and the judgement. */

import { type LineCard, questionOf } from '../../cards/index.ts';
import type { EventDraft } from '../../scheduler/index.ts';
import { queueSettings } from '../daily/due.ts';
import { notSaved } from '../stage/not-saved.ts';
import { askerFor } from '../stage/questions.ts';
import { type EarStep, nextByEar } from './cards.ts';
import type { EarQuestion } from './phase.ts';
import { hold, later, letGo, newTurn, pauseAt, type Run, say } from './run.ts';
import { earWords } from './spoken.ts';

export const CAUTION = 'Do not practise while driving.';
/** After so long without a judgement question and number are said once more, ms. */
const REPEAT_AFTER = 20_000;
/** A press so soon after the number is a second half of the press before it, ms. */
const TOO_SOON = 400;
/** A question left open over night is slow, not an error, ms. */
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
  return nextByEar(cards, log.peek(), run.today(), queueSettings(settings.peek(), run.plan.peek()));
}

async function ask(run: Run, asked: EarQuestion): Promise<void> {
  newTurn(run);
  run.repeated = false;
  run.phase.value = { at: 'asking', asked };
  // What is to be read waits until it is seen.
  if (!run.aloud.peek() && run.visibility.hidden()) pauseAt(run, true);
  else if (await say(run, asked.words.question)) think(run, asked);
}

function think(run: Run, asked: EarQuestion): void {
  newTurn(run);
  const seconds = run.settings.peek().pauseSeconds;
  run.questionOver = run.now();
  run.phase.value = { at: 'thinking', asked, seconds };
  later(run, seconds * 1000, () => void tell(run, asked));
}

async function tell(run: Run, asked: EarQuestion): Promise<void> {
  newTurn(run);
  run.told = run.now();
  run.phase.value = { at: 'telling', asked };
  if (await say(run, asked.words.answer)) awaitJudgement(run, asked);
}

function awaitJudgement(run: Run, asked: EarQuestion): void {
  run.phase.value = { at: 'judging', asked };
  if (run.repeated || !run.aloud.peek()) return;
  later(run, REPEAT_AFTER, () => {
    run.repeated = true;
    void say(run, `${asked.words.question} ${asked.words.answer}`);
  });
}

export async function judge(run: Run, hadIt: boolean): Promise<void> {
  const now = run.phase.peek();
  if (now.at !== 'telling' && now.at !== 'judging') return;
  const since = run.now() - run.told;
  if (since >= 0 && since < TOO_SOON) return;
  const turn = newTurn(run);
  const { asked } = now;
  if (overtaken(run, asked)) return passOver(run);
  run.phase.value = { at: 'saving', asked };
  try {
    await run.append(draftFor(run, asked, hadIt));
  } catch (error) {
    if (turn === run.turn) refused(run, asked, notSaved(error));
    return;
  }
  const score = run.score.peek();
  const key = hadIt ? 'hadIt' : 'not';
  run.score.value = { ...score, [key]: score[key] + 1 };
  if (turn !== run.turn) return;
  run.problem.value = null;
  next(run);
}

/** The judgement can be given again. */
function refused(run: Run, asked: EarQuestion, why: string): void {
  run.problem.value = why;
  run.phase.value = { at: 'judging', asked };
  void say(run, why);
}

/** The same question from its beginning. */
export function again(run: Run): void {
  const now = run.phase.peek();
  if ('asked' in now && now.asked && now.at !== 'saving' && now.at !== 'paused') {
    void ask(run, now.asked);
  }
}

/** Does not wait: from the caution to the question, to the pause, to the number. */
export function skip(run: Run): void {
  const now = run.phase.peek();
  if (now.at === 'caution') next(run);
  else if (now.at === 'asking') think(run, now.asked);
  else if (now.at === 'thinking') void tell(run, now.asked);
}

export function goOn(run: Run): void {
  const now = run.phase.peek();
  if (now.at !== 'paused') return;
  hold(run);
  if (!now.asked) void caution(run);
  else if (overtaken(run, now.asked)) passOver(run);
  else void ask(run, now.asked);
}

function finish(run: Run, why: Exclude<EarStep['type'], 'ask'>): void {
  newTurn(run);
  letGo(run);
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

/** It was answered in another tab while it was open here: it does not count twice. */
function overtaken(run: Run, { card, turn }: EarQuestion): boolean {
  return turnOf(run, card) !== turn;
}

function passOver(run: Run): void {
  run.problem.value = 'That one was answered in another tab; here is the next.';
  next(run);
}

/** The time is from the end of the question; it is kept, but says nothing of the player's pace. */
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
    ms: Math.min(A_DAY, Math.max(0, at - run.questionOver)),
    day: run.today(),
    at,
  };
}
