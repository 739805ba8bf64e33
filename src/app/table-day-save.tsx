import { useState } from 'preact/hooks';
import type { Chart, ChartDocument, ConditionFit } from '../charts/index.ts';
import { notSaved } from '../quiz/index.ts';
import { effectWords } from './effect-words.ts';
import type { Model } from './model.ts';
import { newTable, revisedTo } from './table-day-chart.ts';
import { reasonWords } from './table-fit-words.ts';

interface SaveTableProps {
  readonly model: Model;
  readonly chart: Chart;
  readonly fit: ConditionFit;
  readonly shots: number;
  /** What was saved, in a sentence; it stays when there is nothing left to save. */
  readonly saved: (say: string) => void;
}

type State =
  | { readonly at: 'idle' }
  /** What a revision would do to memory is shown before it is saved. */
  | { readonly at: 'asking'; readonly document: ChartDocument; readonly effect: string };

/** Keeps the fitted condition: as a table of its own, or as this chart's next revision. */
export function SaveTable({ model, chart, fit, shots, saved }: SaveTableProps) {
  const [state, setState] = useState<State>({ at: 'idle' });
  const [problem, setProblem] = useState<string | null>(null);
  const signature = () => ({
    date: model.date(),
    author: model.settings.peek().author || 'Table day',
    why: reasonWords(fit, shots),
  });
  const trying = (job: () => Promise<void>): void => {
    setProblem(null);
    job().catch((error: unknown) => setProblem(notSaved(error)));
  };
  const keep = async (
    document: ChartDocument,
    say: string,
    then: () => Promise<void> = async () => undefined,
  ): Promise<void> => {
    const kept = await model.keepChart(document);
    if (!kept.ok) {
      setProblem(kept.say);
      return;
    }
    await then();
    setState({ at: 'idle' });
    saved(say);
  };
  const ask = async (): Promise<void> => {
    const document = revisedTo(chart, fit.condition, signature());
    const effects = await model.effectsIf(document);
    if (!effects) throw new Error('the chart is no longer on this device');
    setState({ at: 'asking', document, effect: effectWords(effects) });
  };
  const [own, setOwn] = useState<string | null>(null);
  const asOwn = async (): Promise<void> => {
    const document = newTable(chart, fit.condition, signature(), model.charts.peek());
    const say = `Kept as “${document.name}”. Choose it under Charts.`;
    await keep(document, '', async () => {
      // Its like lines are the same number in the head; only those that moved are to be learned.
      const shares = model.use.peek().shares ?? chart.document.id;
      await model.useChart(document.id, { shares, level: model.use.peek().level });
      setOwn(say);
    });
  };
  return (
    <div class="save-table">
      {state.at === 'asking' ? (
        <>
          <p role="status">{state.effect}</p>
          <div class="save-keys">
            <button
              type="button"
              class="key call"
              onClick={() =>
                trying(() => keep(state.document, 'Kept as a revision of this chart.'))
              }
            >
              Save the revision
            </button>
            <button type="button" class="key quiet" onClick={() => setState({ at: 'idle' })}>
              Do not save
            </button>
          </div>
        </>
      ) : (
        <div class="save-keys">
          {own === null && (
            <button type="button" class="key quiet" onClick={() => trying(asOwn)}>
              Keep as a table of its own
            </button>
          )}
          <button type="button" class="key quiet" onClick={() => trying(ask)}>
            Make it a revision of this chart
          </button>
        </div>
      )}
      <p role="status">{own}</p>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
