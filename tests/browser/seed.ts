/** A player as records, to begin a page with: what clicking together or restoring would have made. */

import 'fake-indexeddb/auto';
import { createModel, type Model } from '../../src/app/model.ts';
import { createStore, type SettingsChange } from '../../src/store/index.ts';
import { noPlanner } from '../app/no-planner.ts';
import { type Records, readHere } from './database.ts';

/** What a player's database holds. */
export type Player = Records;

let count = 0;

/** The app's state without a page, and what it leaves on the disk. */
export async function playerWho(does: (model: Model) => Promise<unknown>): Promise<Player> {
  const name = `player-${++count}`;
  const store = createStore({ name, newDeviceId: () => name.replace('-', '') });
  const model = createModel({
    store,
    clock: { now: () => Date.now(), offsetMinutes: (at) => -new Date(at).getTimezoneOffset() },
    channel: { send: () => undefined },
    planner: noPlanner,
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
