import type { ComponentChildren } from 'preact';
import { type Chart, patternOf, remarkOn } from '../../charts/index.ts';
import { TableFigure, type TableFigureProps } from '../../figure/index.ts';
import { type Settings, toleranceOf } from '../../store/index.ts';
import type { Count, Mirror } from '../../table/index.ts';
import { anchorWords, cueOf } from '../words/cue.ts';
import type { Feedback } from '../words/feedback.ts';
import { eachRailOnce, type FigureParts, objectOf, targetOf } from '../words/feedback-figure.ts';
import type { Given } from '../words/given.ts';
import { AnswerDetails } from './answer-panel.tsx';
import type { Shown } from './phase.ts';

/** What a session must provide to show an answer. */
export interface Revealed {
  readonly given: Given | null;
  readonly settings: Settings;
  /** Whether the clock ran out. The outcome is then "off", not "shown". */
  readonly ranOut?: boolean;
  readonly problem: string | null;
  readonly onNext: () => void;
  readonly onTakeBack: (() => void) | null;
  readonly children?: ComponentChildren;
}

export interface RevealedProps {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly revealed: Revealed;
  readonly feedback: Feedback;
  /** How many times the player has rolled the balls again. */
  readonly turn: number;
}

/** Shows everything about an answer except its outcome. */
export function RevealedDetails(props: RevealedProps & { readonly onRoll: () => void }) {
  const { chart, revealed, feedback } = props;
  const { question } = props.shown;
  const tolerance = toleranceOf(revealed.settings);
  const line = 'line' in question ? question.line : null;
  return (
    <AnswerDetails
      feedback={feedback}
      cue={line && question.kind === 'number' ? cueOf(chart, line, tolerance) : null}
      beside={line && anchorWords(chart, line, tolerance)}
      remark={line && remarkOn(chart.state, line)}
      onRoll={props.onRoll}
    >
      {revealed.children}
    </AnswerDetails>
  );
}

/** Returns the picture of the table with the true path and the player's path. */
export function answerFigure({ chart, shown, feedback, turn }: RevealedProps): TableFigureProps {
  const { question, mirror } = shown;
  const object = objectOf(chart, question);
  return {
    ...partsFigure({
      chart,
      pattern: question.pattern,
      mirror,
      parts: feedback.figure,
      label: feedback.verdict,
      counts: 'count' in question ? [question.count] : [],
      target: targetOf(chart, question),
    }),
    ball: null,
    rolling: { turn },
    ...(object ? { objects: [{ at: object }] } : {}),
  };
}

interface PartsFigureProps {
  readonly chart: Chart;
  readonly pattern: Shown['question']['pattern'];
  readonly mirror: Mirror;
  readonly parts: FigureParts;
  readonly label: string;
  readonly counts?: readonly Count[];
  readonly target?: ReturnType<typeof targetOf>;
}

/** Shows the table with the paths of a line. */
export function PartsFigure(props: PartsFigureProps) {
  return <TableFigure {...partsFigure(props)} />;
}

function partsFigure(props: PartsFigureProps): TableFigureProps {
  const { chart, parts, counts = [] } = props;
  const pattern = patternOf(props.pattern);
  return {
    frame: { table: chart.setting.table, mirror: props.mirror },
    label: props.label,
    counts: eachRailOnce([pattern.start, pattern.aim, ...counts]),
    target: props.target === undefined ? pattern.target : props.target,
    ball: parts.ball,
    paths: parts.paths,
    aims: parts.aims,
    marks: parts.marks,
  };
}
