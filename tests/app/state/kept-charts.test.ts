/** Several charts on a device, and the memory of their lines. */

import { noForecaster } from './no-forecaster.ts';
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { createModel, type Model } from '../../../src/app/state/model.ts';
import type { Clock } from '../../../src/app/state/study-day.ts';
import { isLineCard, type LineCard } from '../../../src/cards/index.ts';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  lastRevision,
  type MeasuredLine,
  revise,
  stateOf,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { wishOf } from '../../../src/quiz/index.ts';
import { nextStep } from '../../../src/scheduler/index.ts';
import { createStore, type Store } from '../../../src/store/index.ts';

let now = Date.UTC(2026, 10, 25, 12);
const clock: Clock = { now: () => now, offsetMinutes: () => 0 };
const signed = { date: '2026-11-25', author: 'A player', why: 'It came out long.' };
const demo = computeChart(HARBOUR_LANE);
let count = 0;
let store: Store;
let model: Model;
let other: Model;

/** Two tabs of one browser. */
beforeEach(async () => {
  now = Date.UTC(2026, 10, 25, 12);
  const name = `kept-charts-${++count}`;
  store = createStore({ name, newDeviceId: () => 'a' });
  const second = createStore({ name, newDeviceId: () => 'a' });
  model = createModel({
    forecaster: noForecaster,
    store,
    clock,
    channel: { send: (said) => other.receive(said) },
  });
  other = createModel({
    forecaster: noForecaster,
    store: second,
    clock,
    channel: { send: (said) => model.receive(said) },
  });
  await model.open();
  await other.open();
});

describe('the charts on the device', () => {
  it('are the two demo charts at first, the league table’s in use', () => {
    expect(model.charts.value).toEqual([HARBOUR_LANE, HARBOUR_LANE_BAR]);
    expect(model.chart.value.document).toEqual(HARBOUR_LANE);
  });

  it('are not computed again if they were read before the disk was', async () => {
    const early = createModel({
      forecaster: noForecaster,
      store: createStore({ name: `kept-charts-early-${count}`, newDeviceId: () => 'a' }),
      clock,
      channel: { send: () => undefined },
    });
    const cards = early.cards.peek();
    await early.open();
    expect(early.charts.value.length).toBe(2);
    expect(early.cards.value).toBe(cards);
  });

  it('switch in other tabs, too, and stay switched after a restart', async () => {
    await model.chooseChart(HARBOUR_LANE_BAR.id);
    expect(model.chart.value.document).toEqual(HARBOUR_LANE_BAR);
    await heard();
    expect(other.chart.value.document).toEqual(HARBOUR_LANE_BAR);
    const later = createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: { send: () => undefined },
    });
    await later.open();
    expect(later.chart.value.document).toEqual(HARBOUR_LANE_BAR);
  });

  it('can be removed except the last, and do not come back', async () => {
    expect(await model.removeChart(HARBOUR_LANE.id)).toEqual({ ok: true });
    expect(model.chart.value.document).toEqual(HARBOUR_LANE_BAR);
    expect((await model.removeChart(HARBOUR_LANE_BAR.id)).ok).toBe(false);
    const later = createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: { send: () => undefined },
    });
    await later.open();
    expect(later.charts.value).toEqual([HARBOUR_LANE_BAR]);
  });

  // Bug: two tabs that removed one each left none.
  it('are never all removed, even if two tabs remove one each', async () => {
    const removed = await Promise.all([
      model.removeChart(HARBOUR_LANE.id),
      other.removeChart(HARBOUR_LANE_BAR.id),
    ]);
    expect(removed.filter(({ ok }) => ok)).toHaveLength(1);
    expect((await store.load()).charts).toHaveLength(1);
  });

  it('have drafts that survive a restart', async () => {
    const state = { ...stateOf(lastRevision(HARBOUR_LANE)), measured: [cell(6, 4.6)] };
    const draft = { base: '0123456789abcdef', state };
    await model.saveDraft(HARBOUR_LANE.id, draft);
    expect(await other.loadDraft(HARBOUR_LANE.id)).toEqual(draft);
    expect(await other.loadDraft(HARBOUR_LANE_BAR.id)).toBeNull();
    // Another tab's draft is not this one's to remove.
    await other.dropDraft(HARBOUR_LANE.id, { ...draft, base: 'fedcba9876543210' });
    expect(await model.loadDraft(HARBOUR_LANE.id)).toEqual(draft);
    await other.dropDraft(HARBOUR_LANE.id, draft);
    expect(await model.loadDraft(HARBOUR_LANE.id)).toBeNull();
  });
});

describe('a revision', () => {
  it('brings moved lines back first, and says so before', async () => {
    const card = numberAt(6);
    await learn(card, numberAt(7));
    const next = moved(HARBOUR_LANE, 6, 0.4);
    expect(await model.effectsIf(next)).toMatchObject({
      moved: 1,
      shifted: 0,
      left: 0,
      untouched: 1,
    });
    expect(await model.keepChart(next)).toEqual({ ok: true });
    expect(model.chart.value.document).toEqual(next);
    expect(back()).toEqual([card.id]);
    const { cards, log, settings } = model;
    const wish = wishOf(settings.value);
    const { step } = nextStep(cards.value, log.value, model.today(), wish);
    expect(step).toMatchObject({ type: 'meet', card: { id: card.id } });
    await heard();
    expect(other.log.value.moved).toEqual(model.log.value.moved);
    expect(other.chart.value.document).toEqual(next);
  });

  it('within the tolerance is shown once and brings nothing back', async () => {
    await learn(numberAt(6));
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.1));
    expect(back()).toEqual([]);
    expect(model.log.value.shifts.size).toBe(1);
    // Another equal shift before the first was shown: together they are beyond the tolerance.
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.2));
    expect(back()).toEqual([numberAt(6).id]);
  });

  // Bug: after two revisions before the first was seen, the first one's number stayed on the screen.
  it('undone before it was seen restores memory', async () => {
    await learn(numberAt(6));
    const before = model.log.value.memories.get(numberAt(6).id);
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.4));
    await model.keepChart(
      revise(model.chart.value.document, stateOf(lastRevision(HARBOUR_LANE)), signed),
    );
    expect(model.log.value.moved.size).toBe(0);
    expect(model.log.value.memories.get(numberAt(6).id)).toEqual(before);
  });

  it('does not count changes made before it', async () => {
    await learn(numberAt(6), numberAt(7));
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.1));
    const now = model.chart.value.document;
    const state = { ...stateOf(lastRevision(now)), remarks: [remark] };
    const effects = await model.effectsIf(revise(now, state, signed));
    expect(effects).toMatchObject({ moves: [], shifted: 0, moved: 0, untouched: 2 });
  });

  // Bug: memory from a backup that arrived after the chart was taken for memory of the new numbers.
  it('affects memory that arrives after it, in a backup', async () => {
    await learn(numberAt(6), numberAt(7));
    const backup = await (await model.exportBackup()).text();
    const name = `kept-charts-late-${count}`;
    const late = createModel({
      forecaster: noForecaster,
      store: createStore({ name, newDeviceId: () => 'b' }),
      clock,
      channel: { send: () => undefined },
    });
    await late.open();
    await late.keepChart(moved(HARBOUR_LANE, 6, 0.4));
    expect(await late.importBackup(backup)).toMatchObject({ ok: true });
    expect([...late.log.value.moved.keys()]).toEqual([numberAt(6).id]);
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.4));
    expect([...model.log.value.moved.keys()]).toEqual([numberAt(6).id]);
    // A second import adds nothing.
    const events = late.log.value.events.length;
    await late.importBackup(backup);
    expect(late.log.value.events).toHaveLength(events);
  });

  it('is refused in a tab that has not seen another tab’s, and nothing is lost', async () => {
    const mine = moved(HARBOUR_LANE, 6, 0.4);
    const behind = createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: { send: () => undefined },
    });
    await behind.open();
    await model.keepChart(mine);
    const kept = await behind.keepChart(moved(HARBOUR_LANE, 7, 0.4));
    expect(kept).toMatchObject({ ok: false, say: expect.stringContaining('another tab') });
    expect((await store.load()).charts[0]).toEqual(mine);
    expect((await store.load()).events.filter(({ type }) => type === 'revised')).toHaveLength(1);
  });

  it('affects the memory of both namings', async () => {
    await learn(numberAt(6));
    await model.changeSettings({ naming: 'opposite' });
    await learn(numberAt(6));
    await model.keepChart(moved(HARBOUR_LANE, 6, 0.8));
    const cards = [...model.log.value.moved.keys()].map((id) => id.includes('/opposite'));
    expect(cards.sort()).toEqual([false, true]);
  });

  it('that cannot be written changes neither chart nor log', async () => {
    await learn(numberAt(6));
    const before = await store.load();
    const put = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    await expect(model.keepChart(moved(HARBOUR_LANE, 6, 0.4))).rejects.toThrow('no room');
    IDBObjectStore.prototype.add = put;
    expect(await store.load()).toEqual(before);
    expect(model.chart.value.document).toEqual(HARBOUR_LANE);
  });
});

describe('memory that two charts share', () => {
  const copy: ChartDocument = { ...moved(HARBOUR_LANE, 6, 0.4), id: 'copy', name: 'A copy' };

  beforeEach(async () => {
    await learn(numberAt(6), numberAt(7));
    await model.keepChart(copy);
    await model.chooseChart('copy');
  });

  it('does not exist at first: each chart has its own', () => {
    expect(back()).toEqual([]);
    expect(model.cards.value.some(({ id }) => model.log.value.memories.has(id))).toBe(false);
  });

  it('holds for equal lines; lines with another number come back', async () => {
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    expect(model.log.value.memories.has(numberAt(7).id)).toBe(true);
    expect(back()).toEqual([numberAt(6).id]);
    expect(numberAt(6).id.startsWith('copy/')).toBe(true);
    expect(model.log.value.moved.get(numberAt(6).id)?.from).toEqual([printedAt(6)]);
    // Nothing changed on the first chart.
    await model.chooseChart(HARBOUR_LANE.id);
    expect(back()).toEqual([]);
    expect(model.log.value.memories.has(numberAt(6).id)).toBe(true);
  });

  it('continues in each chart once it is no longer shared', async () => {
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    await model.useChart('copy', { shares: null, level: null });
    expect(numberAt(7).id.startsWith('copy/')).toBe(true);
    expect(model.log.value.memories.has(numberAt(7).id)).toBe(true);
  });

  it('continues with marks on lines and with skills', async () => {
    const first = numberAt(8);
    const skill = model.cards.value.find(({ kind }) => kind === 'in between');
    if (!skill) throw new Error('no skill');
    const when = { day: model.today(), at: clock.now() };
    await model.append({ type: 'set aside', line: first.lineId, aside: true, ...when });
    await model.append({
      type: 'answered',
      card: skill.id,
      kind: 'in between',
      answer: [1],
      errors: [0],
      outcome: 'pocketed',
      ms: 5000,
      ...when,
    });
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    expect(numberAt(8).lineId).not.toBe(first.lineId);
    expect(model.log.value.aside.has(numberAt(8).lineId)).toBe(true);
    const same = model.cards.value.find(
      ({ kind, pattern, zone }) =>
        kind === 'in between' && pattern === skill.pattern && zone === skill.zone,
    );
    expect(same && model.log.value.memories.has(same.id)).toBe(true);
  });

  it('stays each chart’s own if two share each other’s', async () => {
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    await model.useChart(HARBOUR_LANE.id, { shares: 'copy', level: null });
    expect(model.chart.value.shared).toBeNull();
  });

  it('continues when the other chart is removed', async () => {
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    await model.removeChart(HARBOUR_LANE.id);
    expect(numberAt(7).id.startsWith('copy/')).toBe(true);
    expect(model.log.value.memories.has(numberAt(7).id)).toBe(true);
  });

  it('moves with a line that its chart can no longer share', async () => {
    await model.useChart('copy', { shares: HARBOUR_LANE.id, level: null });
    await model.keepChart(moved(HARBOUR_LANE, 7, 0.4));
    expect(numberAt(7).id.startsWith('copy/')).toBe(true);
    expect(model.log.value.memories.has(numberAt(7).id)).toBe(true);
    await model.chooseChart(HARBOUR_LANE.id);
    expect(back()).toEqual([numberAt(7).id]);
  });
});

describe('a level', () => {
  it('asks its lines and those of the levels before it', async () => {
    const state = stateOf(lastRevision(HARBOUR_LANE));
    const place = (start: number) => ({ pattern: 'cross-side', start: toDecimal(start) }) as const;
    const lines = [
      { ...place(5), level: 0 as const },
      { ...place(6), level: 1 as const },
      { ...place(7), level: 2 as const },
    ];
    const levels = { names: ['one', 'two', 'three'], lines } as const;
    await model.keepChart(revise(HARBOUR_LANE, { ...state, levels }, signed));
    await model.useChart(HARBOUR_LANE.id, { shares: null, level: 1 });
    const asked = new Set(model.cards.value.filter(isLineCard).map(({ start }) => toNumber(start)));
    expect([...asked].sort()).toEqual([5, 6]);
    // The level stays chosen even if the chart no longer has levels.
    await model.keepChart(revise(model.chart.value.document, state, signed));
    expect(model.cards.value.filter(isLineCard).length).toBeGreaterThan(100);
  });
});

/** Waits until the other tab has handled a message and read the disk. */
async function heard(): Promise<void> {
  for (let n = 0; n < 20; n++) await new Promise((done) => setTimeout(done, 1));
}

function numberAt(start: number): LineCard {
  const card = model.cards.value
    .filter(isLineCard)
    .find(
      (one) =>
        one.kind === 'number' && one.pattern === 'cross-side' && one.start === toDecimal(start),
    );
  if (!card) throw new Error(`no card at ${start}`);
  return card;
}

/** Meets a line and answers it well. */
async function learn(...cards: readonly LineCard[]): Promise<void> {
  for (const card of cards) {
    const when = { day: model.today() - 2, at: clock.now() };
    await model.append({ type: 'met', line: card.lineId, ...when });
    await model.append({
      type: 'answered',
      card: card.id,
      kind: card.kind,
      answer: [toNumber(card.line.numbers.medium.printed)],
      errors: [0],
      outcome: 'dead center',
      ms: 5000,
      ...when,
    });
  }
}

/** The number cards of the chart in use that are asked before all others, because they moved. */
function back(): readonly string[] {
  const { moved } = model.log.value;
  const ids = model.cards.value.flatMap(({ id, kind }) => (kind === 'number' ? [id] : []));
  return ids.filter((id) => moved.has(id));
}

/** The medium number of cross-side on the demo chart. */
function printedAt(start: number): number {
  const line = demo.lines.find(
    (one) => one.pattern === 'cross-side' && one.start === toDecimal(start),
  );
  return toNumber(line?.numbers.medium.printed ?? toDecimal(Number.NaN));
}

const remark = { pattern: 'cross-side', start: toDecimal(6), text: 'Mind the side.' } as const;

function cell(start: number, number: number): MeasuredLine {
  return { pattern: 'cross-side', start: toDecimal(start), medium: toDecimal(number) };
}

/** The chart with one number moved; its window stays the computed one. */
function moved(document: ChartDocument, start: number, by: number): ChartDocument {
  const state = stateOf(lastRevision(document));
  const number = printedAt(start) + by;
  return revise(document, { ...state, measured: [cell(start, number)] }, signed);
}
