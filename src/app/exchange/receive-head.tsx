import { useState } from 'preact/hooks';
import {
  type Chart,
  type ChartDocument,
  formatDecimal,
  isolated,
  lastRevision,
} from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { TABLE_NAMES } from '../parts/table-panel.tsx';
import type { Saved } from '../state/chart-ports.ts';
import type { Model } from '../state/model.ts';

/** Who made the chart that came, when and why, and what it is. Its words are text, whatever they are. */
export function ReceivedHead({
  document,
  chart,
}: {
  readonly document: ChartDocument;
  readonly chart: Chart;
}) {
  const { number, date, author, why, levels } = lastRevision(document);
  const measured = chart.lines.filter(({ source }) => source === 'measured').length;
  return (
    <>
      <h2>{document.name}</h2>
      <dl class="receive-facts">
        <dt>Table</dt>
        <dd>{TABLE_NAMES[document.table]}</dd>
        <dt>Revision</dt>
        <dd>
          {number}, <time dateTime={date}>{date}</time>
        </dd>
        <dt>By</dt>
        <dd>{author}</dd>
        <dt>Why</dt>
        <dd>{why}</dd>
        <dt>Lines</dt>
        <dd>
          {chart.lines.length} in {chart.patterns.length}{' '}
          {chart.patterns.length === 1 ? 'pattern' : 'patterns'}
          {measured > 0 && `, ${measured} measured`}; printed to {formatDecimal(document.printStep)}
        </dd>
        {levels && (
          <>
            <dt>Levels</dt>
            <dd>{levels.names.map(isolated).join('; ')}</dd>
          </>
        )}
      </dl>
    </>
  );
}

const CHANGED: Saved = {
  ok: false,
  say: 'The chart was changed in another tab or window meanwhile. Nothing was taken in; look at it again.',
};

/**
 * Keeping a chart, once: what became of it, and what could not be.
 * `made`: asked when all else is done; null if it no longer fits the chart on the device.
 */
export function useKeeping(model: Model) {
  const [done, setDone] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const keep = async (
    made: () => ChartDocument | null,
    words: string,
    also: { readonly before?: () => Promise<void>; readonly use?: boolean } = {},
  ): Promise<void> => {
    setBusy(true);
    setProblem(null);
    try {
      await also.before?.();
      const document = made();
      const kept = document ? await model.keepChart(document) : CHANGED;
      if (!kept.ok) {
        setProblem(kept.say);
        return;
      }
      if (document && also.use) await model.chooseChart(document.id);
      setDone(words);
    } catch (error) {
      setProblem(notSaved(error));
    } finally {
      setBusy(false);
    }
  };
  return { done, problem, busy, keep };
}
