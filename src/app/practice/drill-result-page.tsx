import { useMemo } from 'preact/hooks';
import {
  DrillResult,
  type DrillSpec,
  fitted,
  isOver,
  isUnfinished,
  pastOf,
  type Run,
  specOf,
} from '../../quiz/index.ts';
import { fileNameOf } from '../device/file-name.ts';
import { dayWords } from '../parts/day-words.ts';
import { freshCode, weakDrills } from '../parts/drill-plan.ts';
import { Page } from '../parts/page.tsx';
import { SaveFigure } from '../parts/save-figure.tsx';
import type { AppPorts } from '../ports.ts';
import { runAddress, runWords, WeakDrills } from './drill-history.tsx';
import { ShareDrill } from './drill-share.tsx';

export type DrillPorts = Pick<AppPorts, 'model' | 'files' | 'go' | 'stopwatch'>;

/** The props that all drill screens share. */
export interface WithRuns extends DrillPorts {
  /** All runs of drills in the log, oldest first. */
  readonly runs: readonly Run[];
  /** Begins a drill, even one that was finished today. */
  readonly start: (code: string) => void;
}

/** Shows the result of a run, and what to do next. */
export function ResultPage(props: WithRuns & { readonly run: Run }) {
  const { model, files, runs, run, start } = props;
  const spec = specOf(run);
  const past = useMemo(() => pastOf(run, runs), [run, runs]);
  const parts = [dayWords(run.day), ...runWords(run), isUnfinished(run) ? 'not finished' : ''];
  return (
    <Page title="Drill">
      <p class="lead">{parts.filter(Boolean).join(' · ')}</p>
      <div class="drills">
        <DrillResult key={runAddress(run)} run={run} past={past}>
          <SaveFigure files={files} name={fileNameOf('drill', dayWords(run.day))} />
        </DrillResult>
        <Next {...props} spec={spec} />
        {spec && <ShareDrill code={run.code} />}
        <WeakDrills model={model} weak={weakDrills(model, runs)} start={start} />
      </div>
    </Page>
  );
}

/**
 * Continues an unfinished run of today, or plays the drill again with the same questions or with
 * new ones.
 */
function Next(props: WithRuns & { readonly run: Run; readonly spec: DrillSpec | null }) {
  const { model, run, spec, start, go } = props;
  const open = !isOver(run) && run.day === model.day.value;
  const fresh = (of: DrillSpec) => freshCode(model, fitted(of, model.chart.value));
  return (
    <div class="actions">
      {open && (
        <button
          type="button"
          class="key call"
          onClick={() => go({ name: 'drill', code: run.code })}
        >
          Continue
        </button>
      )}
      {spec && (
        <button
          type="button"
          class={open ? 'key quiet' : 'key call'}
          onClick={() => start(fresh(spec))}
        >
          Fresh questions
        </button>
      )}
      {spec && !open && (
        <button type="button" class="key quiet" onClick={() => start(run.code)}>
          Same questions
        </button>
      )}
      <ToDrills />
    </div>
  );
}

export function ToDrills() {
  return (
    <a class="key quiet" href="#/drills">
      To the drills
    </a>
  );
}
