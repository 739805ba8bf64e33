import { useEffect, useMemo } from 'preact/hooks';
import type { Chart } from '../charts/index.ts';
import { patternOf } from '../charts/index.ts';
import { TableFigure } from '../figure/index.ts';
import { type Settings, toleranceOf } from '../store/index.ts';
import type { Mirror } from '../table/index.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { cueOf } from './cue.ts';
import { DonePanel } from './done-panel.tsx';
import { feedbackFor, lineAtSpeeds, startMark } from './feedback.ts';
import { listenToKeys } from './keys.ts';
import { MeetPanel } from './meet-panel.tsx';
import { keepFocus, NumberPad } from './number-pad.tsx';
import type { Asking, Phase, Progress, Shown } from './phase.ts';
import { QuestionFacts, QuestionTitle } from './question-panel.tsx';
import type { Session } from './session.ts';
import { questionWords } from './words.ts';

export interface QuizScreenProps {
  readonly session: Session;
  readonly chart: Chart;
  readonly settings: Settings;
  readonly leave: () => void;
}

export function QuizScreen(props: QuizScreenProps) {
  const { session, chart, leave } = props;
  const phase = session.phase.value;
  useEffect(() => listenToKeys(session), [session]);
  return (
    <main class="quiz" data-phase={phase.at}>
      <QuizBar
        progress={session.progress.value}
        canTakeBack={(phase.at === 'asking' || phase.at === 'done') && session.canTakeBack.value}
        takeBack={session.takeBack}
        leave={leave}
      />
      {phase.at === 'done' ? (
        <DonePanel summary={session.summary.value} leave={leave} />
      ) : (
        <>
          <QuestionTitle asking={phase} />
          <PhaseBody phase={phase} session={session} chart={chart} settings={props.settings} />
        </>
      )}
    </main>
  );
}

function QuizBar(props: {
  readonly progress: Progress;
  readonly canTakeBack: boolean;
  readonly takeBack: () => void;
  readonly leave: () => void;
}) {
  const { answered, left } = props.progress;
  return (
    <div class="quiz-bar">
      <button type="button" class="plain" onClick={props.leave}>
        Stop
      </button>
      <progress aria-label="Asked today" max={answered + left || 1} value={answered} />
      <span class="left">{left} to go</span>
      {props.canTakeBack && (
        <button type="button" class="plain" onMouseDown={keepFocus} onClick={props.takeBack}>
          Take back
        </button>
      )}
    </div>
  );
}

type ActivePhase = Exclude<Phase, { at: 'done' }>;

function PhaseBody(props: {
  readonly phase: ActivePhase;
  readonly session: Session;
  readonly chart: Chart;
  readonly settings: Settings;
}) {
  const { phase, session, chart, settings } = props;
  switch (phase.at) {
    case 'meeting':
      return <Meeting phase={phase} chart={chart} onMet={session.metIt} />;
    case 'asking':
      return <Question asking={phase} session={session} chart={chart} />;
    case 'saving':
      return (
        <Question
          asking={{ ...phase, at: 'asking', problem: null, turn: 0 }}
          session={session}
          chart={chart}
        />
      );
    case 'answered':
      return <Answered phase={phase} session={session} chart={chart} settings={settings} />;
  }
}

function Question(props: {
  readonly asking: Asking;
  readonly session: Session;
  readonly chart: Chart;
}) {
  const { asking, session, chart } = props;
  const { card } = asking;
  useEffect(() => onPainted(session.painted), [card, session]);
  const fields = asking.texts.length;
  const more = asking.field < fields - 1 && asking.texts[asking.field + 1] === '';
  return (
    <>
      <div class="stage">
        <EmptyTable shown={asking} chart={chart} />
        <QuestionFacts asking={asking} session={session} />
      </div>
      <div class="controls">
        <p class="problem" role="alert">
          {asking.problem}
        </p>
        <NumberPad
          signed={card.kind === 'window'}
          submitLabel={more ? 'Then firm' : 'Call it'}
          onType={session.type}
          onErase={session.erase}
          onFlipSign={session.flipSign}
          onSubmit={session.submit}
          onShowMe={session.showMe}
        />
      </div>
    </>
  );
}

/** The question's picture: where it starts and where it should end, and nothing of the answer. */
function EmptyTable({ shown, chart }: { readonly shown: Shown; readonly chart: Chart }) {
  const { card, mirror } = shown;
  const pattern = patternOf(card.pattern);
  const { table } = chart.setting;
  return (
    <TableFigure
      frame={{ table, mirror }}
      label={questionWords(card, mirror, chart.naming)}
      counts={[pattern.start, pattern.aim]}
      target={pattern.target}
      marks={[startMark(card.line)]}
    />
  );
}

function Answered(props: {
  readonly phase: Extract<Phase, { at: 'answered' }>;
  readonly session: Session;
  readonly chart: Chart;
  readonly settings: Settings;
}) {
  const { phase, session, chart, settings } = props;
  const { card, mirror, given } = phase;
  const feedback = useMemo(
    () => feedbackFor(chart, card, mirror, given, settings.units),
    [chart, card, mirror, given, settings.units],
  );
  const cue = useMemo(
    () => (card.kind === 'number' ? cueOf(chart, card.line, toleranceOf(settings)) : null),
    [chart, card, settings.tolerance],
  );
  return (
    <>
      <div class="stage answered">
        <LineFigure shown={phase} chart={chart} parts={feedback.figure} label={feedback.verdict} />
      </div>
      <div class="controls">
        <AnswerPanel
          feedback={feedback}
          cue={cue}
          problem={phase.problem}
          onNext={session.next}
          onTakeBack={session.takeBack}
        />
      </div>
    </>
  );
}

function Meeting(props: {
  readonly phase: Extract<Phase, { at: 'meeting' }>;
  readonly chart: Chart;
  readonly onMet: () => void;
}) {
  const { phase, chart } = props;
  const { line } = phase.card;
  const parts = useMemo(() => lineAtSpeeds(chart, line), [chart, line]);
  return (
    <>
      <div class="stage answered">
        <LineFigure
          shown={phase}
          chart={chart}
          parts={parts}
          label="The line at soft, medium and firm speed"
        />
      </div>
      <div class="controls">
        <MeetPanel
          chart={chart}
          line={line}
          first={phase.first}
          problem={phase.problem}
          onMet={props.onMet}
        />
      </div>
    </>
  );
}

export function LineFigure(props: {
  readonly shown: {
    readonly card: { readonly pattern: Shown['card']['pattern'] };
    readonly mirror: Mirror;
  };
  readonly chart: Chart;
  readonly parts: ReturnType<typeof lineAtSpeeds>;
  readonly label: string;
}) {
  const { shown, chart, parts } = props;
  const pattern = patternOf(shown.card.pattern);
  return (
    <TableFigure
      frame={{ table: chart.setting.table, mirror: shown.mirror }}
      label={props.label}
      counts={[pattern.start, pattern.aim]}
      target={pattern.target}
      ball={parts.ball}
      paths={parts.paths}
      aims={parts.aims}
      marks={parts.marks}
    />
  );
}

/** Runs after the browser has painted: two frames on, the first has been on the screen. */
function onPainted(run: () => void): () => void {
  let second = 0;
  const first = requestAnimationFrame(() => {
    second = requestAnimationFrame(run);
  });
  return () => {
    cancelAnimationFrame(first);
    cancelAnimationFrame(second);
  };
}
