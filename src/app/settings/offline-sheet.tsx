import type { ReadonlySignal } from '@preact/signals';
import { useState } from 'preact/hooks';
import type { Kept, Offline } from '../device/offline.ts';

interface Props {
  readonly offline: ReadonlySignal<Offline | null>;
}

/** Says whether the app works without a network, and offers to look for a newer version. */
export function OfflineSheet({ offline }: Props) {
  const now = offline.value;
  const kept = now?.kept.value ?? 'refused';
  const install = now?.install.value ?? null;
  return (
    <section class="sheet">
      <h2>Without a network</h2>
      <p>{KEPT[kept]}</p>
      {kept !== 'refused' && (
        <p class="soft-words">
          {install
            ? 'It can stand among the apps of this device, with a window of its own.'
            : 'To have it among the apps of this device, choose “Install” or “Add to home screen” in the browser’s menu.'}
        </p>
      )}
      <div class="backup-actions">
        {install && (
          <button type="button" class="key quiet" onClick={() => void install()}>
            Install
          </button>
        )}
        {now && kept !== 'refused' && <Look offline={now} />}
      </div>
      {now && <now.Offer offline={now} />}
    </section>
  );
}

const KEPT: Readonly<Record<Kept, string>> = {
  'not yet': 'All of Throughline is being fetched onto this device.',
  yes: 'All of Throughline is on this device: it works without a network.',
  refused:
    'This browser does not keep the app: it needs the network at every start. A private window, or an address without https, is the usual reason. Your answers are kept all the same.',
};

function Look({ offline }: { readonly offline: Offline }) {
  const [said, setSaid] = useState('');
  const look = async (): Promise<void> => {
    setSaid('Looking …');
    try {
      await offline.checkForNewer();
      setSaid('Asked. If there is a newer version, it is offered here and on Today.');
    } catch {
      setSaid('There is no answer: the device is not online.');
    }
  };
  return (
    <>
      <button type="button" class="key quiet" onClick={() => void look()}>
        Look for a newer version
      </button>
      <span class="soft-words" role="status">
        {said}
      </span>
    </>
  );
}
