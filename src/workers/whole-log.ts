import type { LogEvent } from '../scheduler/index.ts';
import { createStore } from '../store/index.ts';

/** Every event that is kept on this device. Nothing is written here, so no name is given to it. */
export async function wholeLog(name: string): Promise<readonly LogEvent[]> {
  const newDeviceId = (): never => {
    throw new Error('a worker writes nothing');
  };
  const store = createStore({ name, newDeviceId });
  try {
    return await store.loadAll();
  } finally {
    await store.close();
  }
}
