import './placement.css';
import { useEffect, useLayoutEffect, useMemo } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { Settings } from '../../store/index.ts';
import { QuizBar } from '../daily/screen.tsx';
import { FocusedButton } from '../stage/answer-panel.tsx';
import { PartsFigure } from '../stage/answer-stage.tsx';
import { CardStage } from '../stage/card-stage.tsx';
import { keysFor, listenToKeys } from '../stage/keys.ts';
import { QuestionTitle } from '../stage/question-panel.tsx';
import { feedbackFor } from '../words/feedback.ts';
import type { Placed } from './course.ts';
import type { Answered, Placement } from './session.ts';
import {
  PROVED_WORDS,
  patternTitle,
  patternWords,
  placedWords,
  resultWords,
  stoppedWords,
} from './words.ts';

export interface PlacementRunProps {
  readonly placement: Placement;
  readonly chart: Chart;
  readonly settings: Settings;
  /** Returns to the choice of patterns. */
  readonly again: () => void;
  readonly leave: () => void;
}

/** Shows placement under way: a question, then short feedback, and at the end the proven lines. */
export function PlacementRun(props: PlacementRunProps) {
  const { placement, chart } = props;
  const phase = placement.phase.value;
  useLayoutEffect(
    () => listenToKeys(keysFor(placement, chart, () => pressEnter(placement))),
    [placement, chart],
  );
  // A new question scrolls to the top, and so does the end. A result stays where the answer was.
  const top = phase.at === 'asking' ? phase.card.id : phase.at === 'done' ? phase.at : null;
  useEffect(() => {
    if (top !== null) window.scrollTo(0, 0);
  }, [top]);
  if (phase.at === 'done') return <PlacementDone {...props} stopped={phase.stopped} />;
  return (
    <main class="quiz placement" data-phase={phase.at}>
      <QuizBar
        progress={placement.progress.value}
        label="Asked in placement"
        leave={placement.stop}
        takeBack={null}
      />
      <QuestionTitle shown={phase} />
      {phase.at === 'answered' ? (
        <AnsweredStage {...props} answered={phase} key={phase.card.id} />
      ) : (
        <CardStage
          chart={chart}
          shown={phase}
          asked={{ entry: phase, answering: placement, given: false, painted: placement.painted }}
        />
      )}
    </main>
  );
}

/** Shows only whether the answer was right, and the number, because the next line is waiting. */
function AnsweredStage({
  placement,
  chart,
  settings,
  answered,
}: PlacementRunProps & { readonly answered: Answered }) {
  const { question, mirror, given, right } = answered;
  const { units } = settings;
  const feedback = useMemo(
    () => feedbackFor({ chart, mirror, units }, question, given),
    [chart, mirror, units, question, given],
  );
  return (
    <>
      <div class="stage answered">
        <PartsFigure
          chart={chart}
          pattern={question.pattern}
          mirror={mirror}
          parts={feedback.figure}
          label={feedback.verdict}
        />
      </div>
      <div class="controls">
        <section class="answer-panel" aria-label="Your answer">
          <div role="status">
            <h2 class={right ? 'outcome' : 'outcome off'}>
              {right ? 'Right' : headingFor(answered)}
            </h2>
            <p class="verdict">{feedback.verdict}</p>
            <p class="ball-words">{resultWords(answered)}</p>
          </div>
          {feedback.measured && <p class="soft-words measured-words">{feedback.measured}</p>}
          {answered.problem && <p class="problem">{answered.problem}</p>}
          <div class="answer-actions">
            <FocusedButton
              label={nextLabel(answered, placement.progress.value.left)}
              onPress={() => void placement.next()}
            />
          </div>
        </section>
      </div>
    </>
  );
}

function nextLabel({ last }: Answered, left: number): string {
  if (left === 0) return 'What is proven';
  return last ? 'Next pattern' : 'Next';
}

function headingFor({ given }: Answered): string {
  return given === null ? 'The number' : 'Off';
}

/** Shows the proven lines, pattern by pattern. */
function PlacementDone(props: PlacementRunProps & { readonly stopped: boolean }) {
  const { placement, settings, stopped } = props;
  const placed = placement.placed.value;
  const further = settings.kinds.some((kind) => kind === 'window' || kind === 'trust');
  return (
    <main class="page placement-done">
      <h1>{stopped ? 'Placement stopped' : 'Placement done'}</h1>
      <section class="sheet">
        <p class="placed-total" role="status">
          {placedWords(placed)}
        </p>
        <PlacedList placed={placed} />
        {placed.proven > 0 && <p class="soft-words">{PROVED_WORDS}</p>}
        {placed.proven > 0 && further && (
          <p class="soft-words">
            Only the numbers are proven: windows and trust of these lines come from tomorrow.
          </p>
        )}
        {stopped && <p class="soft-words">{stoppedWords(placed)}</p>}
      </section>
      <div class="placement-actions">
        <button type="button" class="key quiet" onClick={props.again}>
          More patterns
        </button>
        <FocusedButton label="To Today" onPress={props.leave} />
      </div>
    </main>
  );
}

function PlacedList({ placed }: { readonly placed: Placed }) {
  if (placed.patterns.length === 0) return null;
  return (
    <ul class="placed-list">
      {placed.patterns.map((one) => (
        <li key={one.pattern}>
          <strong>{patternTitle(one)}</strong>
          <span>{patternWords(one)}</span>
        </li>
      ))}
    </ul>
  );
}

/** Performs what Enter does while no question is asked. */
function pressEnter(placement: Placement): boolean {
  const answered = placement.phase.value.at === 'answered';
  if (answered) void placement.next();
  return answered;
}
