import './rehearsal.css';
import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { RehearsalDraft } from '../../scheduler/index.ts';
import { FocusedButton } from '../stage/answer-panel.tsx';
import { CardStage } from '../stage/card-stage.tsx';
import { keysFor, listenToKeys } from '../stage/keys.ts';
import { QuestionTitle } from '../stage/question-panel.tsx';
import type { RehearsalPhase } from './phase.ts';
import type { Rehearsal } from './session.ts';
import { ShotClock } from './shot-clock.tsx';

/**
 * Milliseconds between two readings of the clock. The bar moves by at most one hundredth each time.
 */
const LOOKS = 200;

export interface RehearsalRunProps {
  readonly session: Rehearsal;
  readonly chart: Chart;
  /** Whether another tab finished the rehearsal, rather than dropped it. */
  readonly finished: boolean;
  readonly leave: () => void;
  /** The control that drops the rehearsal after asking the player. */
  readonly drop: ComponentChildren;
  /** Continues in this tab after another tab has given answers. */
  readonly goOnHere: () => void;
  /** Shows the score sheet of a rehearsal that another tab has finished. */
  readonly openSheet: () => void;
}

/** Shows a rehearsal from its first question to its last, without feedback on answers. */
export function RehearsalRun(props: RehearsalRunProps) {
  const { session, chart } = props;
  const phase = session.phase.value;
  useLayoutEffect(() => listenToKeys(keysFor(session, chart, () => false)), [session, chart]);
  useEffect(() => {
    // If every question was answered before an interruption, only the end remains to be written.
    void session.end();
    const ticking = setInterval(session.tick, LOOKS);
    return () => {
      clearInterval(ticking);
      session.leave();
    };
  }, [session]);
  // The page may still be scrolled down from before the rehearsal began.
  useEffect(() => window.scrollTo(0, 0), [session]);
  return (
    <main class="quiz rehearsal-run" data-phase={phase.at}>
      <div class="quiz-bar">
        <button type="button" class="plain" onClick={props.leave}>
          Stop
        </button>
        {/* If the rehearsal continues in another tab, this tab's time and progress are stale. */}
        {phase.at !== 'elsewhere' && <Progress session={session} draft={phase.draft} />}
      </div>
      <RunPhase {...props} phase={phase} />
    </main>
  );
}

/**
 * Shows the number of the question and the time left. Without a clock, it shows a bar of the
 * answers instead of the time.
 */
function Progress(props: { readonly session: Rehearsal; readonly draft: RehearsalDraft }) {
  const { spec, cards, answers } = props.draft;
  return (
    <>
      {spec.clock === null ? (
        <progress aria-label="Answered" max={cards.length} value={answers.length} />
      ) : (
        <ShotClock left={props.session.left} whole={spec.clock} />
      )}
      <span class="left">
        {Math.min(answers.length + 1, cards.length)} of {cards.length}
      </span>
    </>
  );
}

function RunPhase(props: RehearsalRunProps & { readonly phase: RehearsalPhase }) {
  const { phase, session, chart } = props;
  if (phase.at === 'elsewhere') return <Elsewhere {...props} why={phase.why} />;
  if (phase.at === 'short') return <Short {...props} {...phase} />;
  if (phase.at === 'ending') {
    return (
      <section class="done">
        <h1>That was the last one</h1>
        {phase.problem && (
          <>
            <p class="problem" role="alert">
              {phase.problem}
            </p>
            <FocusedButton label="Write it again" onPress={() => void session.end()} />
          </>
        )}
      </section>
    );
  }
  return (
    <>
      <QuestionTitle shown={phase} />
      <CardStage
        chart={chart}
        shown={phase}
        asked={{ entry: phase, answering: session, given: false, painted: session.painted }}
      />
    </>
  );
}

/** Shown when some questions could not be asked. The player decides before anything is written. */
function Short(
  props: RehearsalRunProps & { readonly draft: RehearsalDraft; readonly leftOut: number },
) {
  const { session, draft, leftOut } = props;
  const answered = draft.answers.length;
  return (
    <section class="done">
      <h1>{leftOut === 1 ? '1 question is' : `${leftOut} questions are`} no longer on the chart</h1>
      <p>
        {answered > 0
          ? `The other ${answered} ${answered === 1 ? 'is' : 'are'} answered: finish with ${answered}, or drop the rehearsal.`
          : 'None of this rehearsal is left to ask. It can only be dropped.'}
      </p>
      {answered > 0 && (
        <FocusedButton label={`Finish with ${answered}`} onPress={() => void session.endShort()} />
      )}
      {props.drop}
    </section>
  );
}

function Elsewhere(props: RehearsalRunProps & { readonly why: 'further on' | 'gone' }) {
  const { why, finished } = props;
  if (why === 'further on') {
    return (
      <section class="done">
        <h1>It goes on in another tab</h1>
        <p>More of this rehearsal has been answered there. Nothing of it is lost.</p>
        <FocusedButton label="Continue here" onPress={props.goOnHere} />
      </section>
    );
  }
  return (
    <section class="done">
      <h1>This rehearsal is over</h1>
      <p>It was {finished ? 'finished' : 'dropped'} in another tab.</p>
      {finished ? (
        <FocusedButton label="Score sheet" onPress={props.openSheet} />
      ) : (
        <FocusedButton label="To Rehearsal" onPress={props.leave} />
      )}
    </section>
  );
}
