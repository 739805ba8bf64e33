/** Asks the browser about its storage, and keeps the mark outside the database. */

import type { DeviceStorage } from '../../device/device-storage.ts';
import type { Model } from '../../state/model.ts';
import { type Mark, markOf, NO_MARK, parseMark, type Room } from './keeping.ts';

const MARK = 'throughline-kept';

/** Reads the mark. It only serves a warning, so a browser that cannot read it does without it. */
export function readMark({ local }: DeviceStorage): Mark {
  try {
    return parseMark(local().getItem(MARK));
  } catch (error) {
    console.error('No mark can be read:', error);
    return NO_MARK;
  }
}

/**
 * Reads, changes and writes the mark in one step, so that no change made in another tab is lost.
 */
export function changeMark(storage: DeviceStorage, change: (mark: Mark) => Mark): void {
  const mark = readMark(storage);
  try {
    storage.local().setItem(MARK, JSON.stringify(change(mark)));
  } catch (error) {
    // The browser also refuses to write when the disk is full.
    console.error('No mark can be kept:', error);
  }
}

/** Returns whether the browser has promised to keep the data; null if it does not say. */
export async function isPersisted({ manager }: DeviceStorage): Promise<boolean | null> {
  if (!manager || !('persisted' in manager)) return null;
  return manager.persisted().catch(() => null);
}

/** Asks the browser to promise to keep the data. Some browsers then ask the player. */
export async function askToPersist({ manager }: DeviceStorage): Promise<boolean> {
  return (await manager?.persist().catch(() => false)) ?? false;
}

/** Returns the room in the browser's storage; null if the browser does not say. */
export async function roomIn({ manager }: DeviceStorage): Promise<Room | null> {
  if (!manager || !('estimate' in manager)) return null;
  const said = await manager.estimate().catch(() => null);
  if (said?.quota === undefined || said.usage === undefined) return null;
  return { used: said.usage, given: said.quota };
}

export const BACKUP_NAME = 'throughline-backup.json';

/**
 * Saves a backup, and records in the mark when that was.
 * @throws (rejects) if the store cannot be read
 */
export async function saveBackup(
  model: Pick<Model, 'log' | 'now' | 'exportBackup'>,
  storage: DeviceStorage,
  save: (name: string, content: Blob) => void,
): Promise<void> {
  const { steps } = model.log.peek();
  save(BACKUP_NAME, await model.exportBackup());
  const backup = { at: model.now(), steps };
  changeMark(storage, (mark) => ({ ...markOf(mark, model.log.peek()), backup }));
}
