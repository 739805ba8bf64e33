import { type Chart, formatDecimal, type Line, patternOf } from '../charts/index.ts';
import type { Naming } from '../table/index.ts';
import { FocusedButton, SpeedLegend, SpeedTable } from './answer-panel.tsx';
import { speedNumbers } from './feedback.ts';
import { aimWords } from './words.ts';

const AIMS: Readonly<Record<Naming, string>> = {
  through: 'Aim from sight to sight, through the cushion: the ball turns before it gets there.',
  opposite: 'Aim from the sight at the nose: the ball turns before it gets there.',
};

/** A new line, shown and explained before it is first asked. */
export function MeetPanel(props: {
  readonly chart: Chart;
  readonly line: Line;
  readonly first: boolean;
  readonly problem: string | null;
  readonly onMet: () => void;
}) {
  const { line } = props;
  const start = formatDecimal(line.start);
  const number = formatDecimal(line.numbers.medium.printed);
  return (
    <section class="answer-panel" aria-label="A new line">
      <div role="status">
        <h2 class="outcome shown">New line</h2>
        <p class="verdict">
          From {start} {aimWords(props.chart.naming)} <strong>{number}</strong> at medium speed.
        </p>
        <p class="ball-words">
          {props.first ? AIMS[props.chart.naming] : neighbourWords(props.chart, line)}
        </p>
      </div>
      <SpeedTable speeds={speedNumbers(line)} chosen="medium" />
      <SpeedLegend />
      {props.problem && <p class="problem">{props.problem}</p>}
      <div class="answer-actions">
        <FocusedButton label="Got it" onPress={props.onMet} />
      </div>
    </section>
  );
}

/** Where the line stands between the next starts of its pattern on the chart. */
function neighbourWords(chart: Chart, line: Line): string {
  const pattern = chart.lines.filter((one) => one.pattern === line.pattern);
  const index = pattern.indexOf(line);
  const around = [pattern[index - 1], pattern[index + 1]].filter((one) => one !== undefined);
  const words = around.map(
    (one) => `from ${formatDecimal(one.start)} it is ${formatDecimal(one.numbers.medium.printed)}`,
  );
  if (words.length === 0) return patternOf(line.pattern).path;
  return `Next to it: ${words.join(', ')}.`;
}
