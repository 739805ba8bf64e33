import './charts.css';
import { useMemo, useState } from 'preact/hooks';
import {
  type Chart,
  type ChartDocument,
  computeChart,
  diffStates,
  isolated,
  lastRevision,
  type Revision,
} from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { ChangeList } from '../parts/changes/change-list.tsx';
import { ChangedLines } from '../parts/changes/changed-lines.tsx';
import { Choice } from '../parts/controls.tsx';
import type { Model } from '../state/model.ts';
import { RestoreSheet, type RestoringModel } from './restore-sheet.tsx';

interface RevisionsProps {
  readonly model: RestoringModel & Pick<Model, 'chart'>;
  /** The two revisions to compare first; null for the last two. */
  readonly pair: readonly [from: number, to: number] | null;
}

/** Shows the history of the chart in use, revision by revision. */
export function RevisionsScreen({ model, pair }: RevisionsProps) {
  const { document } = model.chart.value;
  return (
    <main class="page revisions-page">
      <a class="back" href="#/charts">
        Charts
      </a>
      <h1>Revisions</h1>
      <p class="lead">{document.name}</p>
      <div class="revisions-body">
        <Comparison model={model} document={document} pair={pair} key={document.id} />
        <RevisionList model={model} document={document} key={`list ${document.id}`} />
      </div>
    </main>
  );
}

interface ComparisonProps extends Pick<RevisionsProps, 'pair'> {
  readonly model: Pick<Model, 'settings' | 'chart'>;
  readonly document: ChartDocument;
}

function Comparison(props: ComparisonProps) {
  const { model, document, pair } = props;
  const { revisions } = document;
  const [chosen, choose] = useState(() => (pair && pairIn(revisions, pair)) ?? null);
  const [from, to] = (chosen && pairIn(revisions, chosen)) ?? lastTwo(revisions);
  if (from === to)
    return (
      <section class="sheet" aria-label="Compare">
        <p>This chart has one revision so far: there is nothing to compare.</p>
      </section>
    );
  const options = revisions.map((one) => [one.number, shortName(one)] as const).reverse();
  return (
    <section class="sheet compare-revisions" aria-labelledby="compare-title">
      <h2 id="compare-title">What changed</h2>
      <div class="compare-choice">
        <Choice
          label="From"
          value={from}
          options={options}
          onChoose={(number) => choose([number, to])}
        />
        <Choice
          label="To"
          value={to}
          options={options}
          onChoose={(number) => choose([from, number])}
        />
      </div>
      <Changes model={model} document={document} from={from} to={to} key={`${from} ${to}`} />
    </section>
  );
}

type Pair = readonly [from: number, to: number];

/** Returns the pair if the chart has both revisions, otherwise null. */
function pairIn(revisions: readonly Revision[], [from, to]: Pair): Pair | null {
  const has = (wanted: number) => revisions.some(({ number }) => number === wanted);
  return has(from) && has(to) ? [from, to] : null;
}

function lastTwo(revisions: ChartDocument['revisions']): Pair {
  const [first] = revisions;
  const to = revisions.at(-1) ?? first;
  const from = revisions.at(-2) ?? first;
  return [from.number, to.number];
}

function shortName({ number, date }: Revision): string {
  return `revision ${number}, ${date}`;
}

function Changes(props: {
  readonly model: Pick<Model, 'settings' | 'chart'>;
  readonly document: ChartDocument;
  readonly from: number;
  readonly to: number;
}) {
  const { model, document, from, to } = props;
  const settings = model.settings.value;
  const { naming } = model.chart.value;
  const before = useMemo(() => chartAt(document, from, naming), [document, from, naming]);
  const after = useMemo(() => chartAt(document, to, naming), [document, to, naming]);
  if (from === to) return <p>That is the same revision twice.</p>;
  const changes = diffStates(before.state, after.state);
  // Changed numbers are left out, because the printed numbers above show them.
  const others = changes.filter((change) => (change.to ?? change.from).of !== 'number');
  const levels = after.state.levels ?? before.state.levels;
  const { table } = after.setting;
  return (
    <>
      <ChangedLines
        before={before}
        after={after}
        names={[`revision ${from}`, `revision ${to}`]}
        tolerance={toleranceOf(settings)}
      />
      {others.length > 0 && (
        <ChangeList changes={others} reading={{ table, naming, units: settings.units, levels }} />
      )}
    </>
  );
}

/** Computes the chart as it was at one of its revisions. */
function chartAt(document: ChartDocument, number: number, naming: Chart['naming']): Chart {
  const revision = document.revisions.find((one) => one.number === number);
  if (!revision) throw new Error(`no revision ${number}`);
  return computeChart({ ...document, revisions: [revision] }, naming);
}

function RevisionList(props: { readonly model: RestoringModel; readonly document: ChartDocument }) {
  const { model, document } = props;
  const [restoring, restore] = useState<number | null>(null);
  const [said, say] = useState('');
  const last = lastRevision(document);
  return (
    <section class="sheet revision-list" aria-labelledby="all-title">
      <h2 id="all-title">All revisions</h2>
      <p class="soft-words" role="status">
        {said}
      </p>
      <ol class="revisions">
        {[...document.revisions].reverse().map((revision) => (
          <li key={revision.number}>
            <span class="number">Revision {revision.number}</span>
            <time dateTime={revision.date}>{revision.date}</time>
            <span>
              {isolated(revision.why)} <span class="soft-words">{isolated(revision.author)}</span>
            </span>
            {revision !== last && restoring !== revision.number && (
              <button
                type="button"
                class="plain"
                aria-label={`Restore revision ${revision.number}`}
                onClick={() => restore(revision.number)}
              >
                Restore
              </button>
            )}
            {restoring === revision.number && (
              <RestoreSheet
                model={model}
                document={document}
                revision={revision}
                onDone={(words) => {
                  restore(null);
                  say(words);
                }}
              />
            )}
          </li>
        ))}
      </ol>
      {document.earlier.length > 0 && (
        <p class="soft-words">
          {document.earlier.length === 1
            ? 'One earlier revision is'
            : `${document.earlier.length} earlier revisions are`}{' '}
          not on this device.
        </p>
      )}
    </section>
  );
}
