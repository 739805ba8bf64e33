import { useState } from 'preact/hooks';
import { type Chart, type ChartDocument, isolated } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { ConditionFit } from '../../shots/index.ts';
import { effectWords } from '../parts/changes/effect-words.ts';
import { Problem } from '../parts/saving.tsx';
import { SignatureFields, type SigningModel, useSigning } from '../parts/signature.tsx';
import type { Model } from '../state/model.ts';
import { newTable, revisedTo } from './chart.ts';
import { reasonWords } from './fit-words.ts';

type SavingModel = SigningModel &
  Pick<Model, 'charts' | 'use' | 'effectsIf' | 'keepChart' | 'useChart' | 'now'>;

interface SaveTableProps {
  readonly model: SavingModel;
  readonly chart: Chart;
  readonly fit: ConditionFit;
  readonly shots: number;
  /**
   * Called with a sentence that says what was saved. The sentence stays on the screen when this
   * part is gone.
   */
  readonly saved: (say: string) => void;
}

/** What is about to be saved, if anything. `effect` says what a revision would do to memory. */
type State =
  | { readonly at: 'idle' }
  | { readonly at: 'own' }
  | { readonly at: 'revision'; readonly effect: string };

/** Saves the fitted condition as a table of its own, or as this chart's next revision. */
export function SaveTable(props: SaveTableProps) {
  const saving = useSaving(props);
  const { state, setState, own, signing } = saving;
  return (
    <div class="save-table">
      {state.at === 'idle' ? (
        <div class="actions even">
          {own === null && (
            <button type="button" class="key quiet" onClick={() => setState({ at: 'own' })}>
              Keep as a table of its own
            </button>
          )}
          <button type="button" class="key quiet" onClick={saving.askRevision}>
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
              disabled={signing.missing !== null}
              onClick={state.at === 'own' ? saving.saveOwn : saving.saveRevision}
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
      <Problem say={saving.problem} />
    </div>
  );
}

/** Runs the steps of saving. Returns whether they are under way, and what went wrong. */
function useSaving({ model, chart, fit, shots, saved }: SaveTableProps) {
  const [state, setState] = useState<State>({ at: 'idle' });
  const [problem, setProblem] = useState<string | null>(null);
  const [own, setOwn] = useState<string | null>(null);
  const signing = useSigning(model, reasonWords(fit, shots));
  const { signature } = signing;
  const trying = (job: () => Promise<void>) => (): void => {
    setProblem(null);
    job().catch((error: unknown) => setProblem(notSaved(error)));
  };
  const keep = async (document: ChartDocument): Promise<boolean> => {
    // Store the name first, so that nothing can fail once the chart is stored.
    await signing.remember();
    const kept = await model.keepChart(document);
    setProblem(kept.ok ? null : kept.say);
    if (kept.ok) setState({ at: 'idle' });
    return kept.ok;
  };
  const askRevision = trying(async () => {
    const effects = await model.effectsIf(revisedTo(chart, fit.condition, signature));
    if (!effects) throw new Error('the chart is no longer on this device');
    setState({ at: 'revision', effect: effectWords(effects) });
  });
  const saveRevision = trying(async () => {
    const done = await keep(revisedTo(chart, fit.condition, signature));
    if (done) saved('Kept as a revision of this chart.');
  });
  const saveOwn = trying(async () => {
    const others = model.charts.peek();
    const document = newTable(chart, fit.condition, signature, model.now(), others);
    if (!(await keep(document))) return;
    // Lines with the same number share this chart's memory, so only those that moved are to be
    // learned.
    const shares = model.use.peek().shares ?? chart.document.id;
    await model.useChart(document.id, { shares, level: model.use.peek().level });
    setOwn(`Kept as “${isolated(document.name)}”. Choose it under Charts.`);
  });
  return { state, setState, own, problem, signing, askRevision, saveRevision, saveOwn };
}

const OWN =
  'A chart of its own that shares this one’s memory: lines that agree stay known, the others are to be learned for that table.';
