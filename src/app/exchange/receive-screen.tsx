import '../parts/changes/changes.css';
import { useEffect, useState } from 'preact/hooks';
import type { ChartDocument } from '../../charts/index.ts';
import { fetchChart, type Published, pathIn } from '../device/published.ts';
import { readShared } from '../device/read-shared.ts';
import { ChartSources, useSource } from '../parts/chart-sources.tsx';
import { Page } from '../parts/page.tsx';
import type { Model } from '../state/model.ts';
import { KnownChart } from './receive-known.tsx';
import { NewChart } from './receive-new.tsx';

interface ReceiveProps {
  readonly model: Model;
  /** From the link that led here; null if a file is to be chosen. */
  readonly code: string | null;
}

type State =
  | { readonly at: 'waiting' }
  | { readonly at: 'reading' }
  | { readonly at: 'refused'; readonly say: string; readonly isBackup?: true }
  | {
      readonly at: 'read';
      readonly document: ChartDocument;
      readonly turn: number;
      /** If it is a file beside the app. */
      readonly from?: Published;
    };

/** A chart that someone passed on. Nothing is changed before the player has seen what changes. */
export function ReceiveScreen({ model, code }: ReceiveProps) {
  const [state, setState] = useState<State>({ at: code === null ? 'waiting' : 'reading' });
  const [turn, setTurn] = useState(0);
  const read = (input: File | string): void => {
    setState({ at: 'reading' });
    setTurn(turn + 1);
    const path = typeof input === 'string' ? pathIn(input) : null;
    (path === null ? readShared(input) : fetchChart(path)).then(
      (shared) =>
        setState(
          shared.ok ? { ...shared, at: 'read', turn: turn + 1 } : { ...shared, at: 'refused' },
        ),
      () => setState({ at: 'refused', say: 'The browser refused to read it.' }),
    );
  };
  useEffect(() => {
    if (code !== null) read(code);
  }, [code]);
  return (
    <Page title="Receive a chart">
      <div class="receive">
        <FileChoice state={state} read={read} />
        {code === null && state.at !== 'read' && <ChartSources model={model} />}
        {state.at === 'read' && <Received model={model} {...state} key={state.turn} />}
      </div>
    </Page>
  );
}

function FileChoice({
  state,
  read,
}: {
  readonly state: State;
  readonly read: (input: File | string) => void;
}) {
  return (
    <section class="sheet receive-file" aria-label="Chart file">
      <p class="soft-words">
        Open a link to a chart, or choose a chart file. You see what it changes first; nothing is
        taken in before you say so.
      </p>
      <label class="key quiet file">
        Choose a file
        <input
          type="file"
          accept="application/json,.json"
          onChange={(event) => {
            const input = event.currentTarget;
            const file = input.files?.[0];
            if (file) read(file);
            // So that the same file can be chosen again.
            input.value = '';
          }}
        />
      </label>
      <PastedLink read={read} />
      <p role="status">{state.at === 'reading' && 'Reading it'}</p>
      {state.at === 'refused' && (
        <p class="problem" role="alert">
          {state.say} Nothing was changed.
        </p>
      )}
      {state.at === 'refused' && state.isBackup && (
        <a class="key quiet" href="#/settings">
          Go to Settings
        </a>
      )}
    </section>
  );
}

/** An app on the home screen keeps what it has to itself: a link opens in the browser beside it. */
function PastedLink({ read }: { readonly read: (link: string) => void }) {
  const [link, setLink] = useState('');
  return (
    <form
      class="pasted-link"
      onSubmit={(event) => {
        event.preventDefault();
        if (link.trim() !== '') read(link);
      }}
    >
      <label>
        <span>Or paste the link</span>
        <input
          type="text"
          autoComplete="off"
          value={link}
          onInput={(event) => setLink(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="key quiet" disabled={link.trim() === ''}>
        Read it
      </button>
    </form>
  );
}

function Received({
  model,
  document,
  from,
}: {
  readonly model: Model;
  readonly document: ChartDocument;
  readonly from?: Published;
}) {
  useSource(model, document, from);
  // What it was when it came: once taken in, it is known.
  const [isNew] = useState(() => !model.charts.peek().some(({ id }) => id === document.id));
  return isNew ? (
    <NewChart model={model} document={document} />
  ) : (
    <KnownChart model={model} document={document} />
  );
}
