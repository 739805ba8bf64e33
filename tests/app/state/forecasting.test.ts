import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { keepPlanning } from '../../../src/app/state/planning.ts';
import { cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { foldLog, type PlanRequest, planFor } from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, type KeptPlan, type Settings } from '../../../src/store/index.ts';
import type { Planner } from '../../../src/workers/index.ts';
import { answer } from '../../scheduler/making.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const OCCASION = { name: 'Harbour Lane Open', day: 124, minutes: 10 };

describe('planning', () => {
  it('asks for no plan if no match day is set or it is over', () => {
    const idle = start({ occasion: null });
    idle.planning.replan();
    expect(idle.planning.outlook.value).toEqual({ at: 'none' });
    const over = start({ occasion: { ...OCCASION, day: 100 } });
    expect(over.planning.outlook.value).toEqual({ at: 'none' });
    expect(over.planning.plan.value).toBeNull();
  });

  it('asks the worker, stores the plan, and says what is next', async () => {
    const { planning, asked, kept } = start({});
    expect(planning.outlook.value).toEqual({ at: 'wanted' });
    planning.replan();
    await asked.first;
    expect(planning.outlook.value.at).toBe('made');
    expect(planning.plan.value?.today).toBe(100);
    expect(planning.plan.value?.ask.length).toBeGreaterThan(0);
    expect(planning.plan.value?.next).toMatchObject({ inDays: 1 });
    expect(kept).toHaveLength(1);
  });

  it('plans again after an answer, another wish or another day, and not otherwise', async () => {
    const { planning, asked, log, settings, day } = start({});
    planning.replan();
    await asked.first;
    planning.replan();
    await settled();
    expect(asked.requests).toHaveLength(1);
    log.value = foldLog([answer(0, cards[0]?.id ?? '', 100)]);
    // The old plan stays until then, so that a session is not disturbed.
    expect(planning.outlook.value.at).toBe('made');
    planning.replan();
    await settled();
    expect(asked.requests).toHaveLength(2);
    settings.value = { ...settings.value, occasion: { ...OCCASION, minutes: 30 } };
    expect(planning.outlook.value).toEqual({ at: 'wanted' });
    day.value = 101;
    planning.replan();
    await settled();
    expect(asked.requests[2]).toMatchObject({ today: 101, day: 124 });
    expect(asked.requests[2]?.answersADay).toBeGreaterThan(asked.requests[0]?.answersADay ?? 0);
  });

  it('continues with the stored plan, but not with one of another wish', async () => {
    const first = start({});
    first.planning.replan();
    await first.asked.first;
    const again = start({});
    again.planning.readPlan(first.kept[0] ?? null);
    expect(again.planning.plan.value).toEqual(first.planning.plan.value);
    const other = start({ newLinesPerDay: 2 });
    other.planning.readPlan(first.kept[0] ?? null);
    expect(other.planning.outlook.value).toEqual({ at: 'wanted' });
  });

  it('leaves what is due to be asked if no plan can be made, and says why', async () => {
    const { planning, asked } = start({}, 'no room');
    planning.replan();
    await asked.first;
    expect(planning.outlook.value).toEqual({ at: 'failed', say: 'no room' });
    expect(planning.plan.value).toBeNull();
  });
});

function start(part: Partial<Settings>, failed: string | null = null) {
  const requests: PlanRequest[] = [];
  const kept: KeptPlan[] = [];
  let came: () => void = () => undefined;
  const first = new Promise<void>((resolve) => {
    came = resolve;
  });
  const planner: Planner = {
    ask: (request, done) => {
      requests.push(request);
      if (failed === null) done({ ok: true, answer: planFor(request) });
      else done({ ok: false, say: failed });
      came();
    },
  };
  const log = signal(foldLog([]));
  const settings = signal<Settings>({ ...DEFAULT_SETTINGS, occasion: OCCASION, ...part });
  const day = signal(100);
  const planning = keepPlanning({
    store: { savePlan: async (plan) => void kept.push(plan) },
    planner,
    log,
    settings,
    chart: signal(chart),
    cards: signal(cards),
    day,
  });
  return { planning, asked: { requests, first }, kept, log, settings, day };
}

/** A part of the code is loaded before the planner is asked. */
async function settled(): Promise<void> {
  await import('../../../src/app/state/plan-wish.ts');
  await new Promise((resolve) => setTimeout(resolve, 5));
}
