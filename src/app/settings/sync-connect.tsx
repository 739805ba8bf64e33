import { useId, useState } from 'preact/hooks';
import type { Syncing } from '../state/syncing.ts';

/** Asks for the folder through which devices sync, and connects this device to it. */
export function Connect({ syncing }: { readonly syncing: Syncing }) {
  const form = useConnecting(syncing);
  const { again, problem, busy } = form;
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void form.connect();
      }}
    >
      <p class="soft-words">
        Keep your devices together through a folder of your own: any WebDAV storage that lets web
        pages in. Everything is encrypted on this device before it is sent; the storage sees how
        many files there are, how large, and when.
      </p>
      <Field label="Address of the folder" type="url" {...form.address} />
      <Field label="User name" type="text" {...form.user} optional />
      <Field label="Password" type="password" {...form.password} optional />
      <Field label="Passphrase" type="password" {...form.passphrase} />
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
          <Field
            label="Passphrase once more"
            type="password"
            value={again}
            onType={form.setAgain}
          />
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

/** Keeps what is typed into the form, and connects. `problem` says why connecting failed. */
function useConnecting(syncing: Syncing) {
  const address = useTyped();
  const user = useTyped();
  const password = useTyped();
  const passphrase = useTyped();
  /** The passphrase typed a second time; null until the folder turns out to be empty. */
  const [again, setAgain] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const connect = async (): Promise<void> => {
    const fault = passphraseFault(passphrase.value, again);
    setProblem(fault);
    if (fault) return;
    setBusy(true);
    const outcome = await syncing.connect({
      address: address.value,
      user: user.value,
      password: password.value,
      passphrase: passphrase.value,
      create: again !== null,
    });
    setBusy(false);
    if (outcome === 'empty') setAgain('');
    else if (outcome) setProblem(outcome.say);
  };
  return { address, user, password, passphrase, again, setAgain, problem, busy, connect };
}

/** Keeps the text of a field. */
function useTyped() {
  const [value, onType] = useState('');
  return { value, onType };
}

/**
 * The minimum length of a passphrase, in characters. A shorter one is soon guessed by anyone who
 * has the files.
 */
const SHORTEST = 12;

function passphraseFault(passphrase: string, again: string | null): string | null {
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
