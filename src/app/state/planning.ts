/** The plan for the day that counts: made beside the page, kept, and made anew when it no longer fits. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { Due, LogState, PlanReply, TodaysPlan } from '../../scheduler/index.ts';
import type { KeptPlan, Occasion, Settings, Store } from '../../store/index.ts';
import type { Planner } from '../../workers/index.ts';

export type Outlook =
  /** No day is set, or it is over. */
  | { readonly at: 'none' }
  | { readonly at: 'wanted' }
  | { readonly at: 'made'; readonly reply: PlanReply }
  /** What is due is asked meanwhile. */
  | { readonly at: 'failed'; readonly say: string };

export interface Planning {
  /** What the plan says, of today and of the day that counts. */
  readonly outlook: ReadonlySignal<Outlook>;
  /** What to ask today; null if nothing is planned for, or not yet. */
  readonly plan: ReadonlySignal<TodaysPlan | null>;
  /** Makes a plan of how things stand now, if one is wanted and the last is of something else. */
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
  /** Of which state it was made; null for one from an earlier page. */
  readonly of: LogState | null;
}

export function keepPlanning(ports: PlanningPorts): Planning & {
  readonly readPlan: (kept: KeptPlan | null) => void;
} {
  const { log, cards, settings, day } = ports;
  const made = signal<Made | null>(null);
  const problem = signal<string | null>(null);
  const wish = computed(() => wishOf(ports));

  const outlook = computed<Outlook>(() => {
    if (wish.value === null) return { at: 'none' };
    if (made.value?.wish === wish.value) return { at: 'made', reply: made.value.reply };
    return problem.value === null ? { at: 'wanted' } : { at: 'failed', say: problem.value };
  });

  const make = async (wanted: string, occasion: Occasion, of: LogState): Promise<void> => {
    const { requestFor } = await import('./plan-wish.ts');
    const request = requestFor(occasion, cards.peek(), of, day.peek(), settings.peek());
    ports.planner.ask(request, (answered) => {
      problem.value = answered.ok ? null : answered.say;
      if (!answered.ok) return;
      const kept: KeptPlan = { version: 1, wish: wanted, reply: answered.answer };
      made.value = { ...kept, of };
      // Made again if it is not there after a reload.
      ports.store.savePlan(kept).catch((error: unknown) => console.error('Not kept:', error));
    });
  };

  const replan = (): void => {
    const wanted = wish.peek();
    const { occasion } = settings.peek();
    const state = log.peek();
    if (wanted === null || !occasion) return;
    if (made.peek()?.wish === wanted && made.peek()?.of === state) return;
    make(wanted, occasion, state).catch(() => {
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

/** All that a plan hangs on but the answers; null if no day lies ahead. */
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

/** Fewer answers than this on a day are none. */
const SOME = 0.5;

function todaysPlan({ plan, load }: PlanReply): TodaysPlan {
  const next = load.find((one) => one.day > plan.today && one.answers >= SOME);
  const due: Due | null = next
    ? { inDays: next.day - plan.today, count: Math.round(next.answers) }
    : null;
  return { today: plan.today, ask: plan.ask, next: due };
}
