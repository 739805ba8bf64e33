import { useEffect, useRef, useState } from 'preact/hooks';
import { CalibrationPlot } from '../../figure/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { type Calibration, DEFAULT_WEIGHTS, type PersonalWeights } from '../../scheduler/index.ts';
import { type Fitting, fitWeights, type WeightsWorker } from '../../workers/index.ts';
import { Problem } from '../parts/saving.tsx';
import { calibrationWords, fitWords, LOSS_MEANS } from './weights-words.ts';

interface WeightsSheetProps {
  /** The weights now in use. */
  readonly weights: readonly number[];
  readonly weightsWorker: WeightsWorker;
  /** Uses the given weights for the whole log from now on; null means the published weights. */
  readonly apply: (weights: readonly number[] | null) => Promise<void>;
}

type State =
  | { readonly at: 'idle'; readonly say: string | null }
  | { readonly at: 'fitting'; readonly done: number }
  | { readonly at: 'fitted'; readonly result: PersonalWeights };

/**
 * Shows which weights forecast memory: the published ones, or weights fitted to the player's
 * answers.
 */
export function WeightsSheet(props: WeightsSheetProps) {
  const { state, problem, beginFit, cancel, use } = useFitting(props);
  return (
    <section class="sheet weights-sheet" aria-labelledby="weights-title">
      <h2 id="weights-title">Your own forgetting</h2>
      <p>
        Forecasts use published weights, the average of many learners; fitted to your own answers
        they can tell better when you forget.
      </p>
      <InUse
        weights={props.weights}
        back={() => use(null, 'You use the published weights again.')}
      />
      {state.at === 'fitting' ? (
        <UnderWay done={state.done} cancel={cancel} />
      ) : (
        <button type="button" class="key quiet" onClick={() => void beginFit()}>
          Fit to my answers
        </button>
      )}
      <div role="status">
        {state.at === 'idle' && state.say && <p>{state.say}</p>}
        {state.at === 'fitted' && <p>{fitWords(state.result)}</p>}
      </div>
      {state.at === 'fitted' && (
        <Result
          result={state.result}
          use={(fitted) => use(fitted, 'You use these weights from now on.')}
        />
      )}
      <Problem say={problem} />
    </section>
  );
}

/** Fits weights in a worker, and applies the weights that the player chooses. */
function useFitting({ weights, weightsWorker, apply }: WeightsSheetProps) {
  const [state, setState] = useState<State>({ at: 'idle', say: null });
  const [problem, setProblem] = useState<string | null>(null);
  const fitting = useRef<Fitting | null>(null);
  const cancel = (): void => fitting.current?.cancel();
  useEffect(() => cancel, []);
  const beginFit = async (): Promise<void> => {
    setProblem(null);
    setState({ at: 'fitting', done: 0 });
    fitting.current = fitWeights(weightsWorker, weights, (done) =>
      setState({ at: 'fitting', done }),
    );
    const end = await fitting.current.done;
    fitting.current = null;
    if (end.at === 'done') setState({ at: 'fitted', result: end.result });
    else setState({ at: 'idle', say: end.at === 'cancelled' ? 'Stopped: nothing changed.' : null });
    if (end.at === 'failed') setProblem(end.say);
  };
  const use = (chosen: readonly number[] | null, say: string): void => {
    setProblem(null);
    apply(chosen).then(
      () => setState({ at: 'idle', say }),
      (error: unknown) => setProblem(notSaved(error)),
    );
  };
  return { state, problem, beginFit, cancel, use };
}

function InUse(props: { readonly weights: readonly number[]; readonly back: () => void }) {
  const isPublished = props.weights.every((weight, n) => weight === DEFAULT_WEIGHTS[n]);
  if (isPublished) return <p class="soft-words">In use: the published weights.</p>;
  return (
    <>
      <p class="soft-words">In use: weights fitted to your own answers.</p>
      <button type="button" class="key quiet" onClick={props.back}>
        Back to the published weights
      </button>
    </>
  );
}

function UnderWay({ done, cancel }: { readonly done: number; readonly cancel: () => void }) {
  return (
    <div class="weights-under-way">
      <progress aria-label="Fitting to your answers" max={1} value={done} />
      <button type="button" class="key quiet" onClick={cancel}>
        Stop
      </button>
    </div>
  );
}

/**
 * Shows the calibration of both sets of weights, so that the player sees them before changing
 * anything.
 */
function Result(props: {
  readonly result: PersonalWeights;
  readonly use: (weights: readonly number[]) => void;
}) {
  const { result, use } = props;
  if (result.verdict === 'too little') return null;
  return (
    <>
      <p class="soft-words">{LOSS_MEANS}</p>
      <div class="weights-plots">
        <Plot title="In use now" of={result.before} />
        <Plot title="Fitted" of={result.after} />
      </div>
      {result.verdict === 'better' && (
        <button type="button" class="key call" onClick={() => use(result.weights)}>
          Use these
        </button>
      )}
    </>
  );
}

function Plot({ title, of }: { readonly title: string; readonly of: Calibration }) {
  const words = calibrationWords(of);
  return (
    <figure>
      <figcaption>
        {title}: {words}
      </figcaption>
      <CalibrationPlot bins={of.bins} label={`Recall, ${title.toLowerCase()}: ${words}`} />
    </figure>
  );
}
