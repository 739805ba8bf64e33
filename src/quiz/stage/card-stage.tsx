import type { VNode } from 'preact';
import { useMemo, useRef, useState } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { feedbackFor, saidOf } from '../words/feedback.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { answerFigure, type StageTold, ToldDetails, type ToldProps } from './answer-stage.tsx';
import { useDrawn } from './painted.ts';
import type { Shown } from './phase.ts';
import { QuestionFacts } from './question-panel.tsx';
import { type Asked, QuestionControls, questionFigure } from './question-stage.tsx';

export type AskedOrTold =
  | { readonly asked: Asked; readonly told?: never }
  | { readonly told: StageTold; readonly asked?: never };

type CardStageProps = AskedOrTold & { readonly chart: Chart; readonly shown: Shown };

/** What a question is made of on the screen. */
interface Parts {
  readonly picture: VNode;
  readonly facts: VNode;
  readonly controls: VNode;
}

/**
 * A question and then its answer, as every kind of session shows them: the table, and what is to be
 * known, done or read. An answer's outcome is told first, where the question's controls were and with
 * nothing else drawn anew; the table with the balls on it, and the rest of the words, follow when it
 * is on the screen. The table's picture stays throughout.
 */
export function CardStage(props: CardStageProps) {
  const { chart, shown, asked, told } = props;
  // The very same parts as before are not drawn again.
  const parts = useRef<Parts | null>(null);
  if (asked) parts.current = partsOf(chart, shown, asked);
  // At once where nothing was asked before.
  const toTell = told ? shown.question : null;
  const isTold = useDrawn(toTell, toTell) && told;
  const question = isTold ? null : parts.current;
  const kind = question ? (told ? ' telling' : '') : ' answered';
  const [turn, setTurn] = useState(0);
  const answer = useAnswer(chart, shown, question ? undefined : told);
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
        {told && (
          <AnswerPanel
            said={answer?.feedback ?? saidOf(told, shown.question, told.given)}
            more={
              answer && <ToldDetails {...answer} turn={turn} onRoll={() => setTurn(turn + 1)} />
            }
            problem={told.problem}
            onNext={told.onNext}
            onTakeBack={told.onTakeBack}
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

/** An answer with all that is to be shown of it; null until it is told. */
function useAnswer(
  chart: Chart,
  shown: Shown,
  told: StageTold | undefined,
): Omit<ToldProps, 'turn'> | null {
  const { question, mirror } = shown;
  const { given, ranOut = false, settings } = told ?? {};
  const units = settings?.units;
  const feedback = useMemo(
    () =>
      given === undefined || units === undefined
        ? null
        : feedbackFor({ chart, mirror, units, ranOut }, question, given),
    [chart, mirror, units, ranOut, question, given],
  );
  return told && feedback ? { chart, shown, told, feedback } : null;
}
