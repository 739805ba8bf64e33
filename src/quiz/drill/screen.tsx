import { useEffect, useLayoutEffect } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { Settings } from '../../store/index.ts';
import { CardStage } from '../stage/card-stage.tsx';
import { keysFor, listenToKeys } from '../stage/keys.ts';
import { QuestionTitle } from '../stage/question-panel.tsx';
import type { DrillCount } from './code.ts';
import type { DrillSession } from './session.ts';

export interface DrillScreenProps {
  readonly session: DrillSession;
  readonly chart: Chart;
  readonly settings: Settings;
  readonly count: DrillCount;
  /** Whether the screen shows the known numbers. The drill decides this, not the settings. */
  readonly given: boolean;
  /** Stops the drill and shows the result so far. */
  readonly stop: () => void;
}

/** Shows a drill under way: a question, or its answer. */
export function DrillScreen(props: DrillScreenProps) {
  const { session, chart, settings, stop } = props;
  const phase = session.phase.value;
  useLayoutEffect(
    () => listenToKeys(keysFor(session, chart, () => pressEnter(session))),
    [session, chart],
  );
  const over = phase.at === 'over';
  useEffect(() => {
    if (over) stop();
  }, [over, stop]);
  return (
    <main class="quiz drill" data-phase={phase.at}>
      <DrillBar answered={session.answered.value} count={props.count} stop={stop} />
      {phase.at !== 'over' && (
        <>
          <QuestionTitle shown={phase} />
          <CardStage
            chart={chart}
            shown={phase}
            {...(phase.at === 'asking'
              ? {
                  asked: {
                    entry: phase,
                    answering: session,
                    given: props.given,
                    painted: session.painted,
                  },
                }
              : {
                  revealed: {
                    given: phase.given,
                    settings,
                    problem: null,
                    onNext: session.next,
                    onTakeBack: null,
                  },
                })}
          />
        </>
      )}
    </main>
  );
}

function DrillBar(props: {
  readonly answered: number;
  readonly count: DrillCount;
  readonly stop: () => void;
}) {
  const { answered, count, stop } = props;
  return (
    <div class="quiz-bar">
      <button type="button" class="plain" onClick={stop}>
        {count === null && answered > 0 ? 'Result' : 'Stop'}
      </button>
      {count !== null && <progress aria-label="Drilled" max={count} value={answered} />}
      <span class="left">
        {count === null ? `${answered} answered` : `${answered} of ${count}`}
      </span>
    </div>
  );
}

/** Performs what Enter does while no question is asked. */
function pressEnter(session: DrillSession): boolean {
  if (session.phase.value.at !== 'answered') return false;
  session.next();
  return true;
}
