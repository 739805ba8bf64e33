import { useMemo, useState } from 'preact/hooks';
import {
  type ChartDocument,
  computeChart,
  KEEP_MINE,
  lastRevision,
  type Merge,
  receiptOf,
} from '../../charts/index.ts';
import { ReceivedHead, useKeeping } from './receive-head.tsx';
import type { NewModel } from './receive-new.tsx';
import { Taken } from './receive-taken.tsx';
import { type UpdateModel, UpdateSheets } from './receive-update.tsx';

export type KnownModel = NewModel & UpdateModel;

interface KnownProps {
  readonly model: KnownModel;
  readonly document: ChartDocument;
}

/** Shows a received version of a chart that is already on the device. */
export function KnownChart({ model, document }: KnownProps) {
  const { naming } = model.settings.value;
  const chart = useMemo(() => computeChart(document, naming), [document, naming]);
  const [settling, settle] = useState(KEEP_MINE);
  const keeping = useKeeping(model);
  const charts = model.charts.value;
  const receipt = useMemo(
    () => receiptOf(charts, document, settling),
    [charts, document, settling],
  );
  if (keeping.done)
    return (
      <Taken model={model} id={document.id}>
        {keeping.done}
      </Taken>
    );
  if (receipt.at === 'new') return <p>This chart was removed from the device meanwhile.</p>;
  const { merge, mine } = receipt;
  return (
    <>
      <section class="sheet received">
        <ReceivedHead document={document} chart={chart} />
        <p role="status">{outcomeWords(merge, mine)}</p>
      </section>
      {(merge.outcome === 'continued' || merge.outcome === 'merged') && (
        <UpdateSheets
          model={model}
          mine={mine}
          theirs={chart}
          merge={merge}
          settling={settling}
          settle={settle}
          keeping={keeping}
        />
      )}
    </>
  );
}

function outcomeWords(merge: Merge, mine: ChartDocument): string {
  const { number, date } = lastRevision(mine);
  const yours = `yours is revision ${number} of ${date}`;
  switch (merge.outcome) {
    case 'refused':
      return `${merge.say} It cannot be taken in; nothing was changed.`;
    case 'nothing new':
      return merge.same
        ? 'You have this chart just as it is. There is nothing to do.'
        : `You have all of it already; ${yours}. There is nothing to do.`;
    case 'continued':
      return `It continues the chart you have; ${yours}.`;
    case 'merged':
      return merge.related
        ? `You and its maker have both changed this chart; ${yours}.`
        : `It is called as your chart is, but the two have no revision in common; ${yours}. Every difference is for you to settle.`;
  }
}
