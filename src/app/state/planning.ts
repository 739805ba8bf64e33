/** Keeps the plan for match day. A worker makes it, and makes it again when it no longer fits. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { Due, LogState, PlanReply, TodaysPlan } from '../../scheduler/index.ts';
import type { KeptPlan, Occasion, Settings, Store } from '../../store/index.ts';
import type { Answered, Planner } from '../../workers/index.ts';

export type Outlook =
  /** No match day is set, or it is over. */
  | { readonly at: 'none' }
  | { readonly at: 'wanted' }
  | { readonly at: 'made'; readonly reply: PlanReply }
  /** No plan could be made. Sessions then ask what is due. */
  | { readonly at: 'failed'; readonly say: string };

export interface Planning {
  /** What the plan tells about today and about match day. */
  readonly outlook: ReadonlySignal<Outlook>;
  /** What to ask today; null if there is no match day or the plan is not made yet. */
  readonly plan: ReadonlySignal<TodaysPlan | null>;
  /**
   * Makes a plan from the current log and settings, unless the last plan was made from the same ones.
   */
  readonly replan: () => void;
}

export interface PlanningPorts {
  readonly store: Pick<Store, 'savePlan'>;
  readonly planner: Planner;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly chart: ReadonlySignal<Chart>;
  readonly cards: ReadonlySignal<readonly Card[]>;
  readonly day: ReadonlySignal<number>;
}

interface Made extends KeptPlan {
  /** The log from which the plan was made; null for a plan that an earlier page stored. */
  readonly of: LogState | null;
}

export interface ReadablePlanning extends Planning {
  /** Shows the stored plan until a new one is made. */
  readonly readPlan: (kept: KeptPlan | null) => void;
}

export function keepPlanning(ports: PlanningPorts): ReadablePlanning {
  const made = signal<Made | null>(null);
  const problem = signal<string | null>(null);
  const wish = computed(() => wishOf(ports));
  const outlook = computed<Outlook>(() => {
    if (wish.value === null) return { at: 'none' };
    if (made.value?.wish === wish.value) return { at: 'made', reply: made.value.reply };
    return problem.value === null ? { at: 'wanted' } : { at: 'failed', say: problem.value };
  });
  const replan = (): void => {
    const wanted = wish.peek();
    const { occasion } = ports.settings.peek();
    const of = ports.log.peek();
    if (wanted === null || !occasion) return;
    if (made.peek()?.wish === wanted && made.peek()?.of === of) return;
    makePlan(ports, occasion, of, (answered) => {
      problem.value = answered.ok ? null : answered.say;
      if (answered.ok) made.value = { ...savePlan(ports, wanted, answered.answer), of };
    }).catch(() => {
      problem.value = 'The plan could not be made: a part of Throughline could not be fetched.';
    });
  };
  return {
    outlook,
    plan: computed(() => (outlook.value.at === 'made' ? todaysPlan(outlook.value.reply) : null)),
    replan,
    readPlan: (kept) => {
      if (kept && made.peek() === null) made.value = { ...kept, of: null };
    },
  };
}

async function makePlan(
  { planner, cards, day, settings }: PlanningPorts,
  occasion: Occasion,
  log: LogState,
  done: (answered: Answered<PlanReply>) => void,
): Promise<void> {
  const { requestFor } = await import('./plan-wish.ts');
  planner.ask(requestFor(occasion, cards.peek(), log, day.peek(), settings.peek()), done);
}

/** Saves a plan. If that fails, the plan is made again after a reload. */
function savePlan({ store }: PlanningPorts, wish: string, reply: PlanReply): KeptPlan {
  const plan: KeptPlan = { version: 1, wish, reply };
  store.savePlan(plan).catch((error: unknown) => console.error('Not kept:', error));
  return plan;
}

/** Returns everything that a plan depends on, except the answers, as text; null without a match day. */
function wishOf({ settings, chart, cards, day }: PlanningPorts): string | null {
  const { occasion, kinds, byHeart, newLinesPerDay, use, tolerance, naming } = settings.value;
  const asked = cards.value.length;
  if (!occasion || occasion.day <= day.value) return null;
  const { document } = chart.value;
  const revision = document.revisions.length + document.earlier.length;
  return JSON.stringify([
    document.id,
    revision,
    asked,
    day.value,
    occasion,
    kinds,
    byHeart,
    newLinesPerDay,
    use,
    tolerance,
    naming,
  ]);
}

/** A day with fewer expected answers than this counts as a day without answers. */
const SOME = 0.5;

function todaysPlan({ plan, load }: PlanReply): TodaysPlan {
  const next = load.find((one) => one.day > plan.today && one.answers >= SOME);
  const due: Due | null = next
    ? { inDays: next.day - plan.today, count: Math.round(next.answers) }
    : null;
  return { today: plan.today, ask: plan.ask, next: due };
}
