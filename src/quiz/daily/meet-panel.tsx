import type { ComponentChildren } from 'preact';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  patternOf,
  remarkOn,
} from '../../charts/index.ts';
import type { Naming } from '../../table/index.ts';
import {
  ChartRemark,
  CueBox,
  FocusedButton,
  SpeedLegend,
  SpeedTable,
} from '../stage/answer-panel.tsx';
import { anchorWords, cueOf } from '../words/cue.ts';
import { speedNumbers } from '../words/feedback.ts';
import { aimWords } from '../words/names.ts';

const AIMS: Readonly<Record<Naming, string>> = {
  through: 'Aim at the diamond itself. The ball rebounds before it gets there.',
  opposite: 'Aim from the sight at the nose: the ball turns before it gets there.',
};

/** Shows and explains a new line before its first question. */
export function MeetPanel(props: {
  readonly chart: Chart;
  readonly line: Line;
  readonly tolerance: Decimal;
  readonly first: boolean;
  /** Says how a revision changed the line's number; null for a new line. */
  readonly changed: string | null;
  readonly problem: string | null;
  readonly onMet: () => void;
  readonly children?: ComponentChildren;
}) {
  const { line } = props;
  const start = formatDecimal(line.start);
  const number = formatDecimal(line.numbers.medium.printed);
  const place = anchorWords(props.chart, line, props.tolerance);
  const cue = cueOf(props.chart, line, props.tolerance);
  return (
    <section class="answer-panel" aria-label={props.changed ? 'A line that moved' : 'A new line'}>
      <div role="status">
        <h2 class="outcome shown">{props.changed ? 'This line moved' : 'New line'}</h2>
        {props.changed && <p class="changed-number">{props.changed}</p>}
        <p class="verdict">
          From {start} {aimWords(props.chart.naming)} <strong>{number}</strong> at medium speed.
        </p>
        <p class="ball-words">
          {props.first ? AIMS[props.chart.naming] : patternOf(line.pattern).path}
        </p>
      </div>
      <SpeedTable speeds={speedNumbers(line)} chosen="medium" />
      <SpeedLegend />
      {place && <p class="soft-words">{place}</p>}
      <ChartRemark remark={remarkOn(props.chart.state, line)} />
      {cue && <CueBox cue={cue} />}
      {props.children}
      {props.problem && (
        <p class="problem" role="alert">
          {props.problem}
        </p>
      )}
      <div class="answer-actions">
        <FocusedButton label="Got it" onPress={props.onMet} />
      </div>
    </section>
  );
}
