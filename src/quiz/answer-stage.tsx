import type { ComponentChildren } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { type Chart, patternOf, remarkOn } from '../charts/index.ts';
import { TableFigure } from '../figure/index.ts';
import { type Settings, toleranceOf } from '../store/index.ts';
import type { Count, Mirror } from '../table/index.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { anchorWords, cueOf } from './cue.ts';
import { feedbackFor } from './feedback.ts';
import { eachRailOnce, type FigureParts, objectOf, targetOf } from './feedback-figure.ts';
import type { Given, Shown } from './phase.ts';

/** An answer as every kind of session shows it: both ways on the table, and the words. */
export function AnswerStage(props: {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly given: Given | null;
  readonly settings: Settings;
  /** The clock ran out before an answer: then it was off, not shown at the player's wish. */
  readonly ranOut?: boolean;
  readonly problem: string | null;
  readonly onNext: () => void;
  readonly onTakeBack: (() => void) | null;
  readonly children?: ComponentChildren;
}) {
  const { chart, shown, given, settings } = props;
  const { question, mirror } = shown;
  const { units } = settings;
  const [turn, setTurn] = useState(0);
  const { ranOut = false } = props;
  const feedback = useMemo(
    () => feedbackFor({ chart, mirror, units, ranOut }, question, given),
    [chart, mirror, units, ranOut, question, given],
  );
  const tolerance = toleranceOf(settings);
  const line = 'line' in question ? question.line : null;
  const cue = line && question.kind === 'number' ? cueOf(chart, line, tolerance) : null;
  return (
    <>
      <div class="stage answered">
        <ShownFigure
          chart={chart}
          shown={shown}
          parts={feedback.figure}
          label={feedback.verdict}
          turn={turn}
        />
      </div>
      <div class="controls">
        <AnswerPanel
          feedback={feedback}
          cue={cue}
          beside={line && anchorWords(chart, line, tolerance)}
          remark={line && remarkOn(chart.state, line)}
          problem={props.problem}
          onNext={props.onNext}
          onTakeBack={props.onTakeBack}
          onRoll={() => setTurn(turn + 1)}
        >
          {props.children}
        </AnswerPanel>
      </div>
    </>
  );
}

function ShownFigure(props: {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly parts: FigureParts;
  readonly label: string;
  readonly turn: number;
}) {
  const { chart, shown, parts } = props;
  const { question } = shown;
  const object = objectOf(chart, question);
  const extra: readonly Count[] = 'count' in question ? [question.count] : [];
  return (
    <PartsFigure
      chart={chart}
      pattern={question.pattern}
      mirror={shown.mirror}
      parts={parts}
      label={props.label}
      counts={extra}
      target={targetOf(chart, question)}
      turn={props.turn}
      {...(object ? { objects: [{ at: object }] } : {})}
    />
  );
}

/** The ways of a line on the table, rolling if it is said which turn it is. */
export function PartsFigure(props: {
  readonly chart: Chart;
  readonly pattern: Shown['question']['pattern'];
  readonly mirror: Mirror;
  readonly parts: FigureParts;
  readonly label: string;
  readonly counts?: readonly Count[];
  readonly target?: ReturnType<typeof targetOf>;
  readonly objects?: readonly { readonly at: { readonly x: number; readonly y: number } }[];
  readonly turn?: number;
}) {
  const { chart, parts, counts = [], turn } = props;
  const pattern = patternOf(props.pattern);
  const labelled = [pattern.start, pattern.aim, ...counts];
  return (
    <TableFigure
      frame={{ table: chart.setting.table, mirror: props.mirror }}
      label={props.label}
      counts={eachRailOnce(labelled)}
      target={props.target === undefined ? pattern.target : props.target}
      ball={turn === undefined ? parts.ball : null}
      paths={parts.paths}
      aims={parts.aims}
      marks={parts.marks}
      {...(props.objects ? { objects: props.objects } : {})}
      {...(turn === undefined ? {} : { rolling: { turn } })}
    />
  );
}
