import { useMemo } from 'preact/hooks';
import { type ChartDocument, computeChart, isolated, patternOf } from '../../charts/index.ts';
import { Problem } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';
import { type KeepingModel, ReceivedHead, useKeeping } from './receive-head.tsx';
import { Taken, type TakenModel } from './receive-taken.tsx';

export type NewModel = KeepingModel & TakenModel & Pick<Model, 'settings'>;

/** Shows a received chart that is not on the device yet. */
export function NewChart(props: { readonly model: NewModel; readonly document: ChartDocument }) {
  const { model, document } = props;
  const { naming } = model.settings.value;
  const chart = useMemo(() => computeChart(document, naming), [document, naming]);
  const { done, problem, busy, keep } = useKeeping(model);
  if (done)
    return (
      <Taken model={model} id={document.id}>
        {done}
      </Taken>
    );
  const kept = `“${isolated(document.name)}” is kept.`;
  return (
    <section class="sheet received">
      <p class="soft-words">A chart that you have not got yet:</p>
      <ReceivedHead document={document} chart={chart} />
      <p>{chart.patterns.map((id) => patternOf(id).name).join(', ')}</p>
      <div class="restore-actions">
        <button
          type="button"
          class="key call"
          disabled={busy}
          onClick={() => void keep(() => document, kept, { use: true })}
        >
          Keep it and use it now
        </button>
        <button
          type="button"
          class="key quiet"
          disabled={busy}
          onClick={() => void keep(() => document, kept)}
        >
          Keep it
        </button>
      </div>
      <Problem say={problem} />
    </section>
  );
}
