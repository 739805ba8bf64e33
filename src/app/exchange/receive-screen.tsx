import './receive.css';
import { useEffect, useState } from 'preact/hooks';
import type { ChartDocument } from '../../charts/index.ts';
import { fetchChart, type Published, pathIn } from '../device/published.ts';
import { type ReadChart, readShared } from '../device/read-shared.ts';
import { ChartSources, type SourcesModel, useSource } from '../parts/chart-sources.tsx';
import { FileKey } from '../parts/file-key.tsx';
import { Page } from '../parts/page.tsx';
import { KnownChart, type KnownModel } from './receive-known.tsx';
import { NewChart } from './receive-new.tsx';

type ReceivingModel = KnownModel & SourcesModel;

interface ReceiveProps {
  readonly model: ReceivingModel;
  /** The code in the link that led here; null to let the player choose a file. */
  readonly code: string | null;
}

type Reading =
  | { readonly at: 'waiting' }
  | { readonly at: 'reading' }
  | { readonly at: 'refused'; readonly say: string; readonly isBackup?: true }
  | {
      readonly at: 'read';
      readonly document: ChartDocument;
      readonly turn: number;
      /** The file beside the app that the chart was read from; left out if there is none. */
      readonly from?: Published;
    };

/**
 * Receives a chart from someone else. Before anything changes, the player sees what would change.
 */
export function ReceiveScreen({ model, code }: ReceiveProps) {
  const { reading, read } = useReading(code);
  return (
    <Page title="Receive a chart">
      <div class="receive">
        <FileChoice reading={reading} read={read} />
        {code === null && reading.at !== 'read' && <ChartSources model={model} />}
        {reading.at === 'read' && <Received model={model} {...reading} key={reading.turn} />}
      </div>
    </Page>
  );
}

/** Reads the link's code at once, and later any file or link that the player gives. */
function useReading(code: string | null) {
  const [reading, set] = useState<Reading>({ at: code === null ? 'waiting' : 'reading' });
  const [turn, setTurn] = useState(0);
  const read = (input: File | string): void => {
    set({ at: 'reading' });
    setTurn(turn + 1);
    readOrFetch(input).then(
      (chart) =>
        set(chart.ok ? { ...chart, at: 'read', turn: turn + 1 } : { ...chart, at: 'refused' }),
      () => set({ at: 'refused', say: 'The browser refused to read it.' }),
    );
  };
  useEffect(() => {
    if (code !== null) read(code);
  }, [code]);
  return { reading, read };
}

function readOrFetch(input: File | string): Promise<ReadChart & { readonly from?: Published }> {
  const path = typeof input === 'string' ? pathIn(input) : null;
  return path === null ? readShared(input) : fetchChart(path);
}

interface ChoiceProps {
  readonly reading: Reading;
  readonly read: (input: File | string) => void;
}

function FileChoice({ reading, read }: ChoiceProps) {
  return (
    <section class="sheet receive-file" aria-label="Chart file">
      <p class="soft-words">
        Open a link to a chart, or choose a chart file. You see what it changes first; nothing is
        taken in before you say so.
      </p>
      <FileKey label="Choose a file" kind="json" quiet onFile={read} />
      <PastedLink read={read} />
      <p role="status">{reading.at === 'reading' && 'Reading it'}</p>
      {reading.at === 'refused' && (
        <p class="problem" role="alert">
          {reading.say} Nothing was changed.
        </p>
      )}
      {reading.at === 'refused' && reading.isBackup && (
        <a class="key quiet" href="#/settings">
          Go to Settings
        </a>
      )}
    </section>
  );
}

/**
 * Takes a pasted link. An app on the home screen needs it: links open in the browser, which does
 * not share the app's data.
 */
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

function Received(props: {
  readonly model: ReceivingModel;
  readonly document: ChartDocument;
  readonly from?: Published;
}) {
  const { model, document, from } = props;
  useSource(model, document, from);
  // Stays as it was when the chart arrived, so that saving the chart does not change the sheet.
  const [isNew] = useState(() => !model.charts.peek().some(({ id }) => id === document.id));
  return isNew ? (
    <NewChart model={model} document={document} />
  ) : (
    <KnownChart model={model} document={document} />
  );
}
