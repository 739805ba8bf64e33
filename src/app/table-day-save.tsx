import { useState } from 'preact/hooks';
import type { Chart, ChartDocument, ConditionFit } from '../charts/index.ts';
import { notSaved } from '../quiz/index.ts';
import type { Model } from './model.ts';
import { newTable, revisedTo } from './table-day-chart.ts';
import { counted, reasonWords } from './table-day-words.ts';

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
  const keep = async (document: ChartDocument, say: string): Promise<void> => {
    const kept = await model.keepChart(document);
    if (!kept.ok) {
      setProblem(kept.say);
      return;
    }
    setState({ at: 'idle' });
    saved(say);
  };
  const ask = async (): Promise<void> => {
    const document = revisedTo(chart, fit.condition, signature());
    const effects = await model.effectsIf(document);
    const moves = effects?.moves.length ?? 0;
    const effect =
      moves === 0
        ? 'No card’s memory is touched.'
        : `The memory of ${counted(moves, 'card')} is touched: their numbers move.`;
    setState({ at: 'asking', document, effect });
  };
  const asOwn = async (): Promise<void> => {
    const document = newTable(chart, fit.condition, signature(), model.charts.peek());
    await keep(document, `Kept as “${document.name}”. Choose it under Charts.`);
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
          <button type="button" class="key quiet" onClick={() => trying(asOwn)}>
            Keep as a table of its own
          </button>
          <button type="button" class="key quiet" onClick={() => trying(ask)}>
            Make it a revision of this chart
          </button>
        </div>
      )}
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
