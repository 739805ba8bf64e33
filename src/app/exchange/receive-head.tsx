import { useState } from 'preact/hooks';
import {
  type Chart,
  type ChartDocument,
  formatDecimal,
  isolated,
  lastRevision,
} from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { TABLE_NAMES } from '../parts/table-names.ts';
import type { Saved } from '../state/chart-ports.ts';
import type { Model } from '../state/model.ts';

/**
 * Says who made the received chart, when and why, and what it contains. Names and reasons are shown
 * as plain text.
 */
export function ReceivedHead(props: { readonly document: ChartDocument; readonly chart: Chart }) {
  const { document, chart } = props;
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

export type KeepingModel = Pick<Model, 'keepChart' | 'chooseChart'>;

interface KeepOptions {
  readonly before?: () => Promise<void>;
  /** Whether to make the received chart the one in use. */
  readonly use?: boolean;
}

/**
 * Saves a received chart. Then `done` is what the player reads, or `problem` says why saving
 * failed.
 */
export function useKeeping(model: KeepingModel) {
  const [done, setDone] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  /**
   * Saves the chart.
   * @param make called last; returns null if the document no longer fits the chart on the device
   */
  const keep = async (
    make: () => ChartDocument | null,
    words: string,
    { before, use = false }: KeepOptions = {},
  ): Promise<void> => {
    setBusy(true);
    setProblem(null);
    try {
      await before?.();
      const document = make();
      const saved = document ? await model.keepChart(document) : CHANGED;
      if (document && saved.ok && use) await model.chooseChart(document.id);
      if (saved.ok) setDone(words);
      else setProblem(saved.say);
    } catch (error) {
      setProblem(notSaved(error));
    } finally {
      setBusy(false);
    }
  };
  return { done, problem, busy, keep };
}
