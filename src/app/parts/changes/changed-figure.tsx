import { useMemo } from 'preact/hooks';
import {
  type Chart,
  formatDecimal,
  type Line,
  type LineChange,
  patternOf,
  toNumber,
} from '../../../charts/index.ts';
import { TableFigure } from '../../../figure/index.ts';
import { linesFigure, playNumber } from '../../../quiz/index.ts';
import type { Speed } from '../../../table/index.ts';
import { PRINTED } from '../shot.ts';

/**
 * Draws a line with its printed number in each chart. Both are played on the later chart's table.
 */
export function ChangedFigure(props: {
  readonly before: Chart;
  readonly after: Chart;
  readonly names: readonly [before: string, after: string];
  readonly line: LineChange;
  readonly speed: Speed;
}) {
  const { after, line, speed } = props;
  const [before, now] = props.names;
  const { name, start, aim, target } = patternOf(line.pattern);
  const parts = useMemo(() => partsOf(after, line, speed), [after, line, speed]);
  const old = line.from && formatDecimal(line.from.numbers[speed].printed);
  const next = line.to && formatDecimal(line.to.numbers[speed].printed);
  return (
    <div class="pattern-figure">
      <TableFigure
        frame={{ table: after.setting.table, mirror: PRINTED }}
        label={`${name} from ${formatDecimal(line.start)} at ${speed}: ${before} ${old ?? 'has none'}, ${now} ${next ?? 'has none'}`}
        counts={[start, aim]}
        target={target}
        paths={parts.paths}
        aims={parts.aims}
        marks={parts.marks}
      />
      <p class="legend">
        {old !== null && (
          <span class="legend-item">
            <span class="key-line yours" /> {before}: {old}
          </span>
        )}
        {next !== null && (
          <span class="legend-item">
            <span class="key-line true" /> {now}: {next}
          </span>
        )}
      </p>
    </div>
  );
}

function partsOf(chart: Chart, { pattern, start, from, to }: LineChange, speed: Speed) {
  // The ball plays the numbers as printed, not as solved, because the figure compares printed
  // numbers.
  const called = (line: Line | null) => {
    if (!line) return null;
    const { printed } = line.numbers[speed];
    const named = toNumber(printed);
    return { named, label: formatDecimal(printed), ...playNumber(chart, line, named, speed) };
  };
  return linesFigure(chart, { pattern, start }, { yours: called(from), true: called(to) });
}
