import { useState } from 'preact/hooks';
import type { Chart, ChartDocument } from '../../charts/index.ts';
import { isolated } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { ConditionFit } from '../../shots/index.ts';
import { effectWords } from '../parts/changes/effect-words.ts';
import { SignatureFields, useSigning } from '../parts/signature.tsx';
import type { Model } from '../state/model.ts';
import { newTable, revisedTo } from './chart.ts';
import { reasonWords } from './fit-words.ts';

interface SaveTableProps {
  readonly model: Model;
  readonly chart: Chart;
  readonly fit: ConditionFit;
  readonly shots: number;
  /** What was saved, in a sentence; it stays when there is nothing left to save. */
  readonly saved: (say: string) => void;
}

/** What is asked before anything is kept: whose it is and why, and what a revision does to memory. */
type State =
  | { readonly at: 'idle' }
  | { readonly at: 'own' }
  | { readonly at: 'revision'; readonly effect: string };

/** Keeps the fitted condition: as a table of its own, or as this chart's next revision. */
export function SaveTable({ model, chart, fit, shots, saved }: SaveTableProps) {
  const [state, setState] = useState<State>({ at: 'idle' });
  const [problem, setProblem] = useState<string | null>(null);
  const [own, setOwn] = useState<string | null>(null);
  const signing = useSigning(model, reasonWords(fit, shots));
  const { signature, missing } = signing;
  const trying = (job: () => Promise<void>): void => {
    setProblem(null);
    job().catch((error: unknown) => setProblem(notSaved(error)));
  };
  const keep = async (document: ChartDocument): Promise<boolean> => {
    // First the name, so that nothing can go wrong once the chart is written.
    await signing.remember();
    const kept = await model.keepChart(document);
    setProblem(kept.ok ? null : kept.say);
    if (kept.ok) setState({ at: 'idle' });
    return kept.ok;
  };
  const ask = async (): Promise<void> => {
    const effects = await model.effectsIf(revisedTo(chart, fit.condition, signature));
    if (!effects) throw new Error('the chart is no longer on this device');
    setState({ at: 'revision', effect: effectWords(effects) });
  };
  const asRevision = async (): Promise<void> => {
    const done = await keep(revisedTo(chart, fit.condition, signature));
    if (done) saved('Kept as a revision of this chart.');
  };
  const asOwn = async (): Promise<void> => {
    const others = model.charts.peek();
    const document = newTable(chart, fit.condition, signature, model.now(), others);
    if (!(await keep(document))) return;
    // Its like lines are the same number in the head; only those that moved are to be learned.
    const shares = model.use.peek().shares ?? chart.document.id;
    await model.useChart(document.id, { shares, level: model.use.peek().level });
    setOwn(`Kept as “${isolated(document.name)}”. Choose it under Charts.`);
  };
  return (
    <div class="save-table">
      {state.at === 'idle' ? (
        <div class="actions even">
          {own === null && (
            <button type="button" class="key quiet" onClick={() => setState({ at: 'own' })}>
              Keep as a table of its own
            </button>
          )}
          <button type="button" class="key quiet" onClick={() => trying(ask)}>
            Make it a revision of this chart
          </button>
        </div>
      ) : (
        <>
          <p role="status">{state.at === 'own' ? OWN : state.effect}</p>
          <SignatureFields signing={signing} />
          <div class="actions even">
            <button
              type="button"
              class="key call"
              disabled={missing !== null}
              onClick={() => trying(state.at === 'own' ? asOwn : asRevision)}
            >
              {state.at === 'own' ? 'Keep the table' : 'Save the revision'}
            </button>
            <button type="button" class="key quiet" onClick={() => setState({ at: 'idle' })}>
              Do not save
            </button>
          </div>
        </>
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

const OWN =
  'A chart of its own that shares this one’s memory: lines that agree stay known, the others are to be learned for that table.';
