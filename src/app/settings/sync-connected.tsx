import { useState } from 'preact/hooks';
import { dateWords } from '../parts/date-words.ts';
import type { Syncing, SyncStatus } from '../state/syncing.ts';

type Status = NonNullable<SyncStatus>;

/** Says how syncing goes, with keys to sync now and to disconnect. */
export function Connected(props: { readonly syncing: Syncing; readonly status: Status }) {
  const { syncing, status } = props;
  const busy = syncing.busy.value;
  const [leaving, leave] = useState(false);
  return (
    <>
      <p>
        <strong>{status.address}</strong>
      </p>
      <Facts status={status} />
      {status.notes.length > 0 && (
        <ul class="bulleted">
          {status.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <div class="backup-actions">
        <button type="button" class="key quiet" disabled={busy} onClick={() => void syncing.sync()}>
          {busy ? 'Syncing' : 'Sync now'}
        </button>
        <button type="button" class="key quiet" disabled={busy} onClick={() => leave(!leaving)}>
          Disconnect
        </button>
      </div>
      {leaving && <Disconnect syncing={syncing} />}
      <p class="soft-words">
        Synced when the app is opened, after a session, and when the device comes online. The
        address and its password are kept on this device; of the passphrase only a key that cannot
        be read out. A backup is still worth having.
      </p>
    </>
  );
}

function Facts({ status }: { readonly status: Status }) {
  return (
    <div role="status">
      <dl class="pairs sync-facts">
        <dt>Last worked</dt>
        <dd>{status.worked === null ? 'not yet' : dateWords(status.worked)}</dd>
        <dt>Waiting to be sent</dt>
        <dd>{waitingWords(status.waiting)}</dd>
      </dl>
      {status.failed && <p class="problem">{status.failed}</p>}
    </div>
  );
}

/** Asks a second time before this device is disconnected. */
function Disconnect({ syncing }: { readonly syncing: Syncing }) {
  return (
    <>
      <p>
        This device forgets the folder, its password and its key. What is in the folder stays there,
        and what is on this device stays here.
      </p>
      <div class="backup-actions">
        <button type="button" class="key call" onClick={() => void syncing.disconnect()}>
          Disconnect this device
        </button>
      </div>
    </>
  );
}

function waitingWords(count: number): string {
  if (count === 0) return 'nothing';
  return count === 1 ? 'one entry of the log' : `${count} entries of the log`;
}
