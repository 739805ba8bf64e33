import { useEffect, useState } from 'preact/hooks';
import type { Syncing } from '../state/syncing.ts';
import { Connect } from './sync-connect.tsx';
import { Connected } from './sync-connected.tsx';

/**
 * Connects this device to the player's other devices, and shows how syncing goes.
 * @param load loads the code that syncs, once this sheet is shown
 */
export function SyncSheet({ load }: { readonly load: () => Promise<Syncing> }) {
  const [syncing, set] = useState<Syncing | null>(null);
  const [failed, fail] = useState(false);
  useEffect(() => {
    load().then(
      (loaded) => {
        set(loaded);
        void loaded.look();
      },
      () => fail(true),
    );
  }, []);
  const status = syncing?.status.value;
  return (
    <section class="sheet sync" aria-labelledby="sync-title">
      <h2 id="sync-title">Several devices</h2>
      {failed && <p class="problem">This part could not be fetched: the device is not online.</p>}
      {!failed && status === undefined && <p class="soft-words">Looking</p>}
      {syncing && status === null && <Connect syncing={syncing} />}
      {syncing && status && <Connected syncing={syncing} status={status} />}
    </section>
  );
}
