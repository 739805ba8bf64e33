/** What is asked today, by exact memories instead of the grid's. */

import { LEAST_PULL, type Room, type Worths } from './course.ts';
import { atAge } from './grid.ts';
import type { Planning } from './stock.ts';
import { firstAnswers, type Worth } from './worth.ts';

interface Wanted {
  readonly n: number;
  readonly pull: number;
  readonly answers: number;
  readonly first: boolean;
}

/** Items to ask today, greatest pull first, while the expected answers leave room. */
export function askToday(planning: Planning, worths: Worths, terms: Terms): readonly string[] {
  const { stock } = planning;
  const { answers, firsts } = roomToday(terms);
  const wanted = stock.items
    .flatMap((_, n) => wantedOf(planning, worths, n) ?? [])
    .sort((a, b) => b.pull - a.pull || a.n - b.n);
  const done = new Set(stock.doneToday);
  const ask: string[] = [];
  let [used, begun] = [0, 0];
  for (const { n, answers: few, first } of wanted) {
    const group = stock.group[n] as number;
    if (used + 1 > answers) break;
    if (done.has(group) || (first && begun + 1 > firsts)) continue;
    if (first) begun++;
    done.add(group);
    used += few;
    ask.push((stock.items[n] as { id: string }).id);
  }
  return ask;
}

function wantedOf(planning: Planning, worths: Worths, n: number): Wanted | null {
  const { stock, grid, horizon } = planning;
  if (horizon.steps === 0) return null;
  const place = stock.places[n];
  const worth = worths.byClass[worths.classes.of[n] as number] as Worth;
  const weight = worths.weights[n] as number;
  const age = stock.ages[n] as number;
  if (place ? age === 0 : !mayBeginToday(planning, n)) return null;
  const pull =
    weight * (place ? atAge(grid, worth.pull, place, age) : (worth.firstPull[0] as number));
  if (!(pull > LEAST_PULL)) return null;
  const few = place ? 2 - atAge(grid, grid.recall, place, age) : firstAnswers(grid);
  return { n, pull, answers: few, first: !place };
}

/** Were the items it waits for asked before today. */
function mayBeginToday({ stock }: Planning, n: number): boolean {
  return stock.after[n]?.every((m) => stock.places[m] && (stock.ages[m] as number) > 0) ?? false;
}

/** The part of a request that limits a day. */
export interface Terms {
  readonly answersADay: number;
  readonly newADay: number;
  readonly answeredToday: number;
  readonly newToday?: number;
}

/** Room on each step; today's answers so far are subtracted from the first. */
export function roomOf({ horizon }: Planning, terms: Terms): Room {
  const today = roomToday(terms);
  const [answers, firsts] = [whole(terms.answersADay), whole(terms.newADay)];
  const { stride, steps } = horizon;
  const room = {
    answers: new Float64Array(steps).fill(answers * stride),
    firsts: new Float64Array(steps).fill(firsts * stride),
  };
  room.answers[0] = today.answers + answers * (stride - 1);
  room.firsts[0] = today.firsts + firsts * (stride - 1);
  return room;
}

function roomToday(terms: Terms): { readonly answers: number; readonly firsts: number } {
  return {
    answers: Math.max(0, whole(terms.answersADay) - whole(terms.answeredToday)),
    firsts: Math.max(0, whole(terms.newADay) - whole(terms.newToday ?? 0)),
  };
}

function whole(count: number): number {
  return count > 0 ? Math.min(1e6, Math.floor(count)) : 0;
}
