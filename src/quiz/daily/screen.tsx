import './daily.css';
import { useLayoutEffect, useMemo } from 'preact/hooks';
import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { type Chart, patternOf } from '../../charts/index.ts';
import type { LogState } from '../../scheduler/index.ts';
import { type Settings, toleranceOf } from '../../store/index.ts';
import { PartsFigure, type Revealed } from '../stage/answer-stage.tsx';
import { type AskedOrRevealed, CardStage } from '../stage/card-stage.tsx';
import { keysFor, listenToKeys } from '../stage/keys.ts';
import { keepFocus } from '../stage/number-pad.tsx';
import { useDrawn } from '../stage/painted.ts';
import type { Phase, Progress, Result } from '../stage/phase.ts';
import { QuestionTitle } from '../stage/question-panel.tsx';
import { changedWords } from '../words/changed.ts';
import { lineAtSpeeds, onlyStart } from '../words/feedback-figure.ts';
import { patternName, routeWords } from '../words/names.ts';
import { BiasNote } from './bias-note.tsx';
import { DonePanel } from './done-panel.tsx';
import { LineActions } from './line-actions.tsx';
import { MeetPanel } from './meet-panel.tsx';
import type { Session } from './session.ts';
import { holdsLonger } from './summary.ts';

export interface QuizScreenProps {
  readonly session: Session;
  readonly chart: Chart;
  readonly cards: readonly Card[];
  readonly log: LogState;
  readonly today: number;
  readonly settings: Settings;
  readonly leave: () => void;
  /** Continues past the chosen minutes until the player stops. */
  readonly goOn: () => void;
  /** Opens a line on its chart. */
  readonly openLine: (card: LineCard) => void;
}

export function QuizScreen(props: QuizScreenProps) {
  const { session, chart, leave } = props;
  const phase = session.phase.value;
  useLayoutEffect(
    () => listenToKeys(keysFor(session, chart, () => pressEnter(session))),
    [session, chart],
  );
  return (
    <main class="quiz" data-phase={phase.at}>
      <QuizBar
        progress={session.progress.value}
        label="Asked today"
        leave={leave}
        takeBack={
          (phase.at === 'asking' || phase.at === 'done') && session.canTakeBack.value
            ? session.takeBack
            : null
        }
      />
      {phase.at === 'done' ? (
        <Done {...props} phase={phase} />
      ) : (
        <ActivePhase {...props} phase={phase} />
      )}
    </main>
  );
}

/** Shows the stop button, the progress, and the button that takes an answer back. */
export function QuizBar(props: {
  readonly progress: Progress;
  readonly label: string;
  readonly leave: () => void;
  readonly takeBack: (() => void) | null;
}) {
  const { answered, left } = props.progress;
  return (
    <div class="quiz-bar">
      <button type="button" class="plain" onClick={props.leave}>
        Stop
      </button>
      <progress aria-label={props.label} max={answered + left || 1} value={answered} />
      <span class="left">{left} to go</span>
      {props.takeBack && (
        <button type="button" class="plain" onMouseDown={keepFocus} onClick={props.takeBack}>
          Take back
        </button>
      )}
    </div>
  );
}

function Done(
  props: QuizScreenProps & { readonly phase: Extract<Phase, { readonly at: 'done' }> },
) {
  const { session, cards, log, today, settings } = props;
  const longer = useMemo(
    () => holdsLonger(cards, log, today, settings),
    [cards, log, today, settings],
  );
  return (
    <DonePanel
      why={props.phase.why}
      problem={props.phase.problem}
      summary={session.summary.value}
      longer={longer}
      goOn={props.goOn}
      waiting={session.progress.value.waiting ?? 0}
      leave={props.leave}
    />
  );
}

function ActivePhase(
  props: QuizScreenProps & { readonly phase: Exclude<Phase, { readonly at: 'done' }> },
) {
  const { phase, chart } = props;
  if (phase.at === 'meeting') return <Meeting {...props} phase={phase} />;
  return (
    <>
      <QuestionTitle shown={phase} />
      <CardStage chart={chart} shown={phase} {...askedOrRevealed(props, phase)} />
    </>
  );
}

function askedOrRevealed(
  props: QuizScreenProps,
  phase: Extract<Phase, { readonly at: 'asking' | 'saving' | 'answered' }>,
): AskedOrRevealed {
  const { session, settings } = props;
  if (phase.at === 'answered') return { revealed: revealedAnswer(props, phase, phase) };
  if (phase.at === 'saving' && phase.result)
    return { revealed: revealedAnswer(props, phase, phase.result) };
  const { painted } = session;
  return { asked: { entry: phase, answering: session, given: settings.given, painted } };
}

/**
 * Returns the same content before and after the answer is on the disk, so that nothing is redrawn.
 */
function revealedAnswer(
  props: QuizScreenProps,
  phase: Extract<Phase, { readonly at: 'saving' | 'answered' }>,
  { given, changed }: Result,
): Revealed {
  const { session } = props;
  const { card } = phase;
  return {
    given,
    settings: props.settings,
    problem: phase.problem,
    onNext: session.next,
    onTakeBack: session.takeBack,
    children: (
      <>
        {changed && isLineCard(card) && (
          <p class="changed-number">{changedWords(card.kind, changed)}</p>
        )}
        {phase.at === 'answered' && <BiasNote {...props} card={card} />}
        <LineActions
          card={card}
          log={props.log}
          given={given}
          mark={session.mark}
          openLine={props.openLine}
        />
      </>
    ),
  };
}

function Meeting(
  props: QuizScreenProps & { readonly phase: Extract<Phase, { readonly at: 'meeting' }> },
) {
  const { phase, chart, session, settings } = props;
  const { line } = phase.card;
  const pattern = patternOf(line.pattern);
  // The number shows first, because playing the line at three speeds takes longer than everything
  // else.
  const isDrawn = useDrawn(phase.card);
  const parts = useMemo(
    () => (isDrawn ? lineAtSpeeds(chart, line) : onlyStart(line)),
    [chart, line, isDrawn],
  );
  return (
    <>
      <header class="question-title">
        <h1>{patternName(pattern, phase.mirror)}</h1>
        <p>{routeWords(pattern, phase.mirror)}</p>
      </header>
      <div class="stage answered">
        <PartsFigure
          chart={chart}
          pattern={line.pattern}
          mirror={phase.mirror}
          parts={parts}
          label="The line at soft, medium and firm speed"
        />
      </div>
      <div class="controls">
        <MeetPanel
          chart={chart}
          line={line}
          tolerance={toleranceOf(settings)}
          first={phase.first}
          changed={phase.changed && changedWords(phase.card.kind, phase.changed)}
          problem={phase.problem}
          onMet={session.metIt}
        >
          <BiasNote {...props} card={phase.card} />
        </MeetPanel>
      </div>
    </>
  );
}

/** Performs what Enter does while no question is asked. */
function pressEnter(session: Session): boolean {
  const { at } = session.phase.value;
  if (at === 'answered') session.next();
  else if (at === 'meeting') void session.metIt();
  return at !== 'done';
}
