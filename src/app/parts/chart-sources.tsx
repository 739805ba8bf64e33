import { useEffect, useState } from 'preact/hooks';
import { type ChartDocument, digestsOf, isolated } from '../../charts/index.ts';
import type { ChartSource } from '../../store/index.ts';
import { fetchIfChanged, type Published, receiveLink, sourceOf } from '../device/published.ts';
import type { Model } from '../state/model.ts';

export type SourcesModel = Pick<Model, 'charts' | 'sources'>;

/** Stores where a chart comes from, as soon as the chart itself is stored. */
export function useSource(
  model: SourcesModel,
  document: ChartDocument,
  from: Published | undefined,
): void {
  const isKept = model.charts.value.some(({ id }) => id === document.id);
  useEffect(() => {
    if (!from || !isKept) return;
    const save = async (): Promise<void> =>
      (await model.sources()).save(document.id, sourceOf(from, document));
    save().catch((error: unknown) => console.error('Not kept where it comes from:', error));
  }, [from, isKept]);
}

interface Known {
  readonly chart: string;
  readonly source: ChartSource;
  /** A sentence that says why it is unknown whether the source changed; null if it is known. */
  readonly say: string | null;
}

/**
 * Lists the charts that came from files on the app's host, and checks each file for changes. Shows
 * nothing if there are no such charts.
 */
export function ChartSources({ model }: { readonly model: SourcesModel }) {
  const lines = useLines(model);
  if (lines.length === 0) return null;
  return (
    <section class="sheet chart-sources" aria-labelledby="sources-title">
      <h2 id="sources-title">From this app’s host</h2>
      <ul class="rows">
        {lines.map(({ mine, source, say, isNew }) => (
          <li key={mine.id}>
            <span>
              <strong>{isolated(mine.name)}</strong> <span class="soft-words">{source.path}</span>
            </span>
            {isNew ? (
              <a class="key" href={receiveLink(source.path)}>
                See what changed
              </a>
            ) : (
              <span class="soft-words">{say ?? 'up to date'}</span>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/**
 * Returns the charts on the device that have a source, and whether each source has something new.
 */
function useLines(model: SourcesModel) {
  const charts = model.charts.value;
  const [known, setKnown] = useState<readonly Known[]>([]);
  useEffect(() => {
    let isGone = false;
    lookedUp(model).then(
      (found) => isGone || setKnown(found),
      (error: unknown) => console.error('Not looked up:', error),
    );
    return () => {
      isGone = true;
    };
  }, [charts]);
  return known.flatMap(({ chart, source, say }) => {
    const mine = charts.find(({ id }) => id === chart);
    return mine ? [{ mine, source, say, isNew: !digestsOf(mine).includes(source.tip) }] : [];
  });
}

async function lookedUp(model: SourcesModel): Promise<readonly Known[]> {
  const sources = await model.sources();
  const kept = new Set(model.charts.peek().map(({ id }) => id));
  const entries = Object.entries(await sources.load()).filter(([chart]) => kept.has(chart));
  return Promise.all(
    entries.map(async ([chart, source]): Promise<Known> => {
      const fetched = await fetchIfChanged(source);
      if (fetched === 'same') return { chart, source, say: null };
      if (!fetched.ok) return { chart, source, say: fetched.say };
      // The file at this address may now contain a different chart.
      if (fetched.document.id !== chart) return { chart, source, say: OTHER };
      const now = sourceOf(fetched.from, fetched.document);
      await sources.save(chart, now);
      return { chart, source: now, say: null };
    }),
  );
}

const OTHER = 'Another chart is under that address now.';
