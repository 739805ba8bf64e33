/** Runs in the page: writes a made-up log with the store's own code and times whole reads of it. */

import { cardsOf, OUTCOMES } from '../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../src/charts/index.ts';
import { type Answered, foldLog, sealable, studyDay } from '../src/scheduler/index.ts';
import { createStore, DEFAULT_SETTINGS, formatBackup } from '../src/store/index.ts';

/** Answers not yet sealed, as between two sealings. */
const RECENT = 1000;
const RECENT_A_DAY = 100;
const A_DAY = 270;

const store = createStore({ name: 'throughline', newDeviceId: () => 'seeded' });
const ids = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1)).map(({ id, kind }) => ({
  id,
  kind,
}));
const now = Date.now();
const offset = -new Date(now).getTimezoneOffset();
const today = studyDay(now, offset, DEFAULT_SETTINGS.dayBoundaryHour);

/** Writes old answers, seals them, then writes the recent ones. */
async function seed(answers: number): Promise<void> {
  const old = answers - RECENT;
  if (old > 0) {
    await put(0, old, answers);
    // Two days after the last old answer.
    await seal(answerAt(old - 1, answers).day + 2);
  }
  await put(Math.max(0, old), answers, answers);
  const { events } = await store.load();
  if (events.length !== RECENT) throw new Error(`${events.length} are not sealed`);
}

async function put(from: number, to: number, answers: number): Promise<void> {
  const events = Array.from({ length: to - from }, (_, n) => answerAt(from + n, answers));
  const backup = { events, charts: [], settings: DEFAULT_SETTINGS, unread: [] };
  const result = await store.importBackup(formatBackup(backup, ''));
  if (!result.ok || result.added !== to - from) throw new Error(`not seeded from ${from}`);
}

async function seal(day: number): Promise<void> {
  const { events, snapshot } = await store.load();
  const cut = sealable(foldLog(events, snapshot), day);
  if (!cut) return;
  const sealed = await store.seal(cut.snapshot, cut.sealed, snapshot?.events ?? 0);
  if (!sealed) throw new Error('not sealed');
}

/** Cards in random order, always the same; the last answers are from yesterday. */
function answerAt(seq: number, answers: number): Answered {
  const dice = Math.imul(seq + 1, 2_654_435_761) >>> 0;
  const fromEnd = answers - 1 - seq;
  const daysAgo =
    fromEnd < RECENT
      ? 1 + Math.floor(fromEnd / RECENT_A_DAY)
      : 3 + RECENT / RECENT_A_DAY + Math.floor((fromEnd - RECENT) / A_DAY);
  const { id: card, kind } = ids[dice % ids.length] as (typeof ids)[number];
  const day = today - daysAgo;
  return {
    version: 1,
    type: 'answered',
    id: `bench:${seq}`,
    device: 'bench',
    seq,
    day,
    at: day * 86_400_000 + 43_200_000 + seq,
    card,
    kind,
    answer: [2.3],
    errors: [0.1],
    outcome: OUTCOMES[1 + ((dice >>> 8) % 3)] ?? 'pocketed',
    ms: 3000,
  };
}

interface Timed {
  readonly ms: number;
  /** Bytes or events. */
  readonly size: number;
}

async function timed(run: () => Promise<number>): Promise<Timed> {
  const start = performance.now();
  const size = await run();
  return { ms: performance.now() - start, size };
}

export type Seeding = typeof seeding;
const seeding = {
  seed,
  backUp: () => timed(async () => (await store.exportBackup('')).size),
  loadAll: () => timed(async () => (await store.loadAll()).length),
  /** Reads and folds the whole log, as when the snapshot is lost. */
  foldAll: () => timed(async () => foldLog(await store.loadAll()).events.length),
  recent: () => timed(async () => (await store.load()).events.length),
};
Object.assign(globalThis, { seeding });
