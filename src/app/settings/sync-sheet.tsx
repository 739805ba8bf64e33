import { useEffect, useId, useState } from 'preact/hooks';
import { dateWords } from '../parts/date-words.ts';
import type { Syncing, SyncStatus } from '../state/syncing.ts';

/** @param load fetches what syncs: it is no part of the first load */
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

/** So short a passphrase is soon guessed by whoever has the files. */
const SHORTEST = 12;

function Connect({ syncing }: { readonly syncing: Syncing }) {
  const [address, setAddress] = useState('');
  const [user, setUser] = useState('');
  const [password, setPassword] = useState('');
  const [passphrase, setPassphrase] = useState('');
  /** Null until the folder was found empty. */
  const [again, setAgain] = useState<string | null>(null);
  const [problem, say] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const connect = async (): Promise<void> => {
    const create = again !== null;
    const wrong = passphraseWrong(passphrase, again);
    say(wrong);
    if (wrong) return;
    setBusy(true);
    const outcome = await syncing.connect({ address, user, password, passphrase, create });
    setBusy(false);
    if (outcome === 'empty') setAgain('');
    else if (outcome) say(outcome.say);
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void connect();
      }}
    >
      <p class="soft-words">
        Keep your devices together through a folder of your own: any WebDAV storage that lets web
        pages in. Everything is encrypted on this device before it is sent; the storage sees how
        many files there are, how large, and when.
      </p>
      <Field label="Address of the folder" type="url" value={address} onType={setAddress} />
      <Field label="User name" type="text" value={user} onType={setUser} optional />
      <Field label="Password" type="password" value={password} onType={setPassword} optional />
      <Field label="Passphrase" type="password" value={passphrase} onType={setPassphrase} />
      <p class="soft-words">
        The passphrase encrypts; take four or five words that nobody would guess, the same on every
        device. It is kept nowhere: if you forget it, nobody can read the folder again. What is on
        your devices stays.
      </p>
      {again !== null && (
        <>
          <p role="status">
            Nothing of Throughline is in this folder yet. Type the passphrase once more to begin.
          </p>
          <Field label="Passphrase once more" type="password" value={again} onType={setAgain} />
        </>
      )}
      <div class="backup-actions">
        <button type="submit" class="key call" disabled={busy}>
          {again === null ? 'Connect' : 'Begin here'}
        </button>
      </div>
      <p class="problem" role="alert" hidden={!problem}>
        {problem}
      </p>
      {busy && (
        <p class="soft-words" role="status">
          Making the key; it takes a moment.
        </p>
      )}
    </form>
  );
}

function passphraseWrong(passphrase: string, again: string | null): string | null {
  if (again === null) return passphrase === '' ? 'Type the passphrase.' : null;
  if (passphrase !== again) return 'The two passphrases are not the same.';
  return passphrase.length < SHORTEST
    ? `A passphrase of fewer than ${SHORTEST} characters is soon guessed. Take a longer one.`
    : null;
}

function Field(props: {
  readonly label: string;
  readonly type: 'url' | 'text' | 'password';
  readonly value: string;
  readonly onType: (value: string) => void;
  readonly optional?: boolean;
}) {
  const { label, type, value, onType, optional = false } = props;
  const id = useId();
  const own = {
    id,
    value,
    autocomplete: 'off',
    autocapitalize: 'off',
    spellcheck: false,
    maxLength: 500,
    required: !optional,
    onInput: (event: { readonly currentTarget: HTMLInputElement }) =>
      onType(event.currentTarget.value),
  } as const;
  return (
    <div class="field">
      <label class="choice-label" for={id}>
        {label} {optional && <span class="soft-words">if it asks for one</span>}
      </label>
      {type === 'password' ? (
        <input type="password" {...own} />
      ) : (
        <input type="text" inputMode={type} {...own} />
      )}
    </div>
  );
}

function Connected(props: { readonly syncing: Syncing; readonly status: NonNullable<SyncStatus> }) {
  const { syncing, status } = props;
  const busy = syncing.busy.value;
  const [leaving, leave] = useState(false);
  return (
    <>
      <p>
        <strong>{status.address}</strong>
      </p>
      <div role="status">
        <dl class="pairs sync-facts">
          <dt>Last worked</dt>
          <dd>{status.worked === null ? 'not yet' : dateWords(status.worked)}</dd>
          <dt>Waiting to be sent</dt>
          <dd>{waitingWords(status.waiting)}</dd>
        </dl>
        {status.failed && <p class="problem">{status.failed}</p>}
      </div>
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
      {leaving && (
        <>
          <p>
            This device forgets the folder, its password and its key. What is in the folder stays
            there, and what is on this device stays here.
          </p>
          <div class="backup-actions">
            <button type="button" class="key call" onClick={() => void syncing.disconnect()}>
              Disconnect this device
            </button>
          </div>
        </>
      )}
      <p class="soft-words">
        Synced when the app is opened, after a session, and when the device comes online. The
        address and its password are kept on this device; of the passphrase only a key that cannot
        be read out. A backup is still worth having.
      </p>
    </>
  );
}

function waitingWords(count: number): string {
  if (count === 0) return 'nothing';
  return count === 1 ? 'one entry of the log' : `${count} entries of the log`;
}
