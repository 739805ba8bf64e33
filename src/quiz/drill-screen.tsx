import { useEffect } from 'preact/hooks';
import type { Chart } from '../charts/index.ts';
import type { Settings } from '../store/index.ts';
import { AnswerStage } from './answer-stage.tsx';
import type { DrillCount } from './drill-code.ts';
import type { DrillSession } from './drill-session.ts';
import { keyedTo, listenToKeys } from './keys.ts';
import { QuestionTitle } from './question-panel.tsx';
import { QuestionStage } from './question-stage.tsx';

export interface DrillScreenProps {
  readonly session: DrillSession;
  readonly chart: Chart;
  readonly settings: Settings;
  readonly count: DrillCount;
  /** Are the known numbers shown: the drill says so, not the settings. */
  readonly given: boolean;
  /** Leaves for the result so far. */
  readonly stop: () => void;
}

/** A drill under way: a question, or what came of it. */
export function DrillScreen(props: DrillScreenProps) {
  const { session, chart, settings, stop } = props;
  const phase = session.phase.value;
  useEffect(() => listenToKeys(keyedTo(session, chart, () => goesOn(session))), [session, chart]);
  const over = phase.at === 'over';
  useEffect(() => {
    if (over) stop();
  }, [over, stop]);
  return (
    <main class="quiz drill" data-phase={phase.at}>
      <DrillBar answered={session.answered.value} count={props.count} stop={stop} />
      {(phase.at === 'saving' || phase.at === 'answered') && (
        <>
          <QuestionTitle shown={phase} />
          <AnswerStage
            chart={chart}
            shown={phase}
            given={phase.given}
            settings={settings}
            problem={null}
            onNext={session.next}
            onTakeBack={null}
          />
        </>
      )}
      {phase.at === 'asking' && (
        <>
          <QuestionTitle shown={phase} />
          <QuestionStage
            chart={chart}
            shown={phase}
            entry={phase}
            answering={session}
            given={props.given}
            painted={session.painted}
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

/** Enter, while nothing is asked. */
function goesOn(session: DrillSession): boolean {
  if (session.phase.value.at !== 'answered') return false;
  session.next();
  return true;
}
