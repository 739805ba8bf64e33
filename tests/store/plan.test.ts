import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { createStore, type KeptPlan, type Store } from '../../src/store/index.ts';

const PLAN: KeptPlan = {
  version: 1,
  wish: 'a wish',
  reply: {
    plan: { today: 100, day: 124, ask: ['a', 'b'] },
    forecast: { expected: 12.5, low: 10, high: 15, of: 20 },
    curve: [{ day: 100, held: 3 }],
    load: [{ day: 100, answers: 20 }],
    enough: false,
    answersNeeded: null,
    drop: ['c'],
  },
};

let store: Store;
beforeEach(() => {
  const name = `plan-${Math.random()}`;
  store = createStore({ name, newDeviceId: () => 'a' });
});

describe('the last plan', () => {
  it('is missing at first, and is read back as it was saved', async () => {
    expect(await store.loadPlan()).toBeNull();
    await store.savePlan(PLAN);
    expect(await store.loadPlan()).toEqual(PLAN);
  });

  it.each([
    ['of another version', { ...PLAN, version: 2 }],
    ['with no numbers', { ...PLAN, reply: { ...PLAN.reply, forecast: {} } }],
    ['with a part missing', { ...PLAN, reply: { plan: PLAN.reply.plan } }],
    ['that is a text', 'nonsense'],
  ])('%s counts as missing', async (_name, stored) => {
    await store.savePlan(stored as KeptPlan);
    expect(await store.loadPlan()).toBeNull();
  });
});
