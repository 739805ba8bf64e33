/** A player as records, to begin a page with: what clicking together or restoring would have made. */

import 'fake-indexeddb/auto';
import { createModel, type Model } from '../../src/app/state/model.ts';
import { isLineCard, type LineCard, questionOf } from '../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../src/charts/index.ts';
import { studyDay } from '../../src/scheduler/index.ts';
import { createStore, DEFAULT_SETTINGS, type SettingsChange } from '../../src/store/index.ts';
import { noForecaster } from '../app/state/no-forecaster.ts';
import { type Records, readHere } from './database.ts';

/** What a player's database holds. */
export type Player = Records;

const demo = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);

/** The app's study day now: the day before until the morning. */
export function studyDayNow(): number {
  const now = Date.now();
  const offset = -new Date(now).getTimezoneOffset();
  return studyDay(now, offset, DEFAULT_SETTINGS.dayBoundaryHour);
}

/** The app's state without a page, and what it leaves on the disk. */
export async function playerWho(does: (model: Model) => Promise<unknown>): Promise<Player> {
  // This file is read again for each file of tests, which share one IndexedDB: no counting here.
  const name = crypto.randomUUID().replaceAll('-', '');
  const store = createStore({ name, newDeviceId: () => name });
  const model = createModel({
    store,
    clock: { now: () => Date.now(), offsetMinutes: (at) => -new Date(at).getTimezoneOffset() },
    channel: { send: () => undefined },
    forecaster: noForecaster,
  });
  await model.open();
  await does(model);
  await store.close();
  return readHere(name);
}

/** One who has restored a backup. @throws with the reason where it is refused */
export function playerOf(backup: string): Promise<Player> {
  return playerWho(async (model) => {
    const restored = await model.importBackup(backup);
    if (!restored.ok) throw new Error(restored.say);
  });
}

/** A new one who has chosen some settings. */
export function playerWith(settings: SettingsChange): Promise<Player> {
  return playerWho((model) => model.changeSettings(settings));
}

/** The first numbers of the chart in use, each of another line, in the order of its lines. */
export function firstNumbers(model: Model, count: number): readonly LineCard[] {
  return model.cards.value
    .filter(isLineCard)
    .filter(({ kind }) => kind === 'number')
    .slice(0, count);
}

/** Looks at a card's line. */
export async function meet(model: Model, { lineId }: LineCard, daysAgo = 0): Promise<void> {
  await model.append({ type: 'met', line: lineId, ...whenOf(model, daysAgo) });
}

/** Looks at the cards' lines, and calls them right on days ever farther apart, the last yesterday. */
export async function learnWell(model: Model, cards: readonly LineCard[]): Promise<void> {
  for (const card of cards) await meet(model, card, 60);
  // In the order of the days, or the clock would be taken to have been wrong.
  for (const daysAgo of [60, 57, 50, 32, 1]) {
    for (const card of cards) await callRight(model, card, daysAgo);
  }
}

/** Calls what the demo's chart prints. */
export async function callRight(model: Model, card: LineCard, daysAgo = 0): Promise<void> {
  const truth = questionOf({ chart: demo, tolerance, speeds: ['medium'] }, card, 0)?.truth ?? [];
  await model.append({
    type: 'answered',
    card: card.id,
    kind: card.kind,
    answer: truth.map(toNumber),
    errors: truth.map(() => 0),
    outcome: 'dead center',
    ms: 3000,
    ...whenOf(model, daysAgo),
  });
}

function whenOf(model: Model, daysAgo: number) {
  return { day: model.today() - daysAgo, at: model.now() - daysAgo * 86_400_000 };
}
