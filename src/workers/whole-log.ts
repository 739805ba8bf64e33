import type { LogEvent } from '../scheduler/index.ts';
import { createStore } from '../store/index.ts';

/**
 * Returns every event on this device.
 * @param name the name of the store
 */
export async function wholeLog(name: string): Promise<readonly LogEvent[]> {
  const newDeviceId = (): never => {
    throw new Error('a worker that reads the log must not write');
  };
  const store = createStore({ name, newDeviceId });
  try {
    return await store.loadAll();
  } finally {
    await store.close();
  }
}
