/** Caches the last plan, so that a reloaded page can continue with it. */

import * as v from 'valibot';
import type { PlanReply } from '../scheduler/index.ts';
import { type Database, get, update } from './database.ts';

const PLAN = 'plan';

const day = v.pipe(v.number(), v.integer());
const some = v.pipe(v.number(), v.minValue(0));
const ids = v.array(v.string());

const schema = v.object({
  version: v.literal(1),
  /** What the plan was made for; a different wish needs a new plan. */
  wish: v.string(),
  reply: v.object({
    plan: v.object({ today: day, day, ask: ids }),
    forecast: v.object({ expected: some, low: some, high: some, of: some }),
    curve: v.array(v.object({ day, held: some })),
    load: v.array(v.object({ day, answers: some })),
    enough: v.boolean(),
    answersNeeded: v.nullable(some),
    drop: ids,
  }),
});

export interface KeptPlan {
  readonly version: 1;
  readonly wish: string;
  readonly reply: PlanReply;
}

export interface PlanStore {
  /** Returns the last plan; null if there is none or it cannot be read. */
  readonly loadPlan: () => Promise<KeptPlan | null>;
  readonly savePlan: (plan: KeptPlan) => Promise<void>;
}

export function planStore({ documents }: Database): PlanStore {
  return {
    loadPlan: async () => {
      const result = v.safeParse(schema, await get<unknown>(PLAN, documents));
      return result.success ? result.output : null;
    },
    savePlan: (plan) => update<unknown>(PLAN, () => plan, documents),
  };
}
