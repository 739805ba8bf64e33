import './stage.css';
import type { VNode } from 'preact';
import { useMemo, useRef, useState } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { feedbackFor, headlineFor } from '../words/feedback.ts';
import { AnswerPanel } from './answer-panel.tsx';
import {
  answerFigure,
  type Revealed,
  RevealedDetails,
  type RevealedProps,
} from './answer-stage.tsx';
import { useDrawn } from './painted.ts';
import type { Shown } from './phase.ts';
import { QuestionFacts } from './question-panel.tsx';
import { type Asked, QuestionControls, questionFigure } from './question-stage.tsx';

export type AskedOrRevealed =
  | { readonly asked: Asked; readonly revealed?: never }
  | { readonly revealed: Revealed; readonly asked?: never };

type CardStageProps = AskedOrRevealed & { readonly chart: Chart; readonly shown: Shown };

/** The rendered parts of the question on the screen. */
interface Parts {
  readonly picture: VNode;
  readonly facts: VNode;
  readonly controls: VNode;
}

/**
 * Shows a question and then its answer, in the same way for every kind of session. The table stands
 * next to facts, controls or feedback. When the player answers, the outcome first replaces the
 * question's controls, and nothing else is redrawn. Once the outcome is on the screen, the table
 * with the balls and the rest of the words follow.
 */
export function CardStage(props: CardStageProps) {
  const { chart, shown, asked, revealed } = props;
  // Preact does not redraw a part if it gets the same object as before.
  const parts = useRef<Parts | null>(null);
  if (asked) parts.current = partsOf(chart, shown, asked);
  // If no question was shown before, the answer is complete at once.
  const answered = revealed ? shown.question : null;
  const isComplete = useDrawn(answered, answered) && revealed;
  const question = isComplete ? null : parts.current;
  const kind = question ? (revealed ? ' revealing' : '') : ' answered';
  const [turn, setTurn] = useState(0);
  const answer = useAnswer(chart, shown, question ? undefined : revealed);
  return (
    <>
      <div class={`stage${kind}`}>
        {question
          ? question.picture
          : answer && <TableFigure {...answerFigure({ ...answer, turn })} />}
        {question?.facts}
      </div>
      <div class="controls">
        {question?.controls}
        {revealed && (
          <AnswerPanel
            headline={answer?.feedback ?? headlineFor(revealed, shown.question, revealed.given)}
            more={
              answer && <RevealedDetails {...answer} turn={turn} onRoll={() => setTurn(turn + 1)} />
            }
            problem={revealed.problem}
            onNext={revealed.onNext}
            onTakeBack={revealed.onTakeBack}
          />
        )}
      </div>
    </>
  );
}

function partsOf(chart: Chart, shown: Shown, asked: Asked): Parts {
  return {
    picture: <TableFigure {...questionFigure({ chart, shown, asked })} />,
    facts: <QuestionFacts {...asked} shown={shown} naming={chart.naming} />,
    controls: <QuestionControls chart={chart} shown={shown} asked={asked} />,
  };
}

/** Returns an answer with its feedback; null until the feedback may be computed. */
function useAnswer(
  chart: Chart,
  shown: Shown,
  revealed: Revealed | undefined,
): Omit<RevealedProps, 'turn'> | null {
  const { question, mirror } = shown;
  const { given, ranOut = false, settings } = revealed ?? {};
  const units = settings?.units;
  const feedback = useMemo(
    () =>
      given === undefined || units === undefined
        ? null
        : feedbackFor({ chart, mirror, units, ranOut }, question, given),
    [chart, mirror, units, ranOut, question, given],
  );
  return revealed && feedback ? { chart, shown, revealed, feedback } : null;
}
