import { LevelLines, TickRow } from './axes.tsx';
import { along, type Span, tenths } from './axis.ts';
import { PlotTable } from './table.tsx';

/** Answers with about the same forecast. All values except the count are fractions from 0 to 1. */
export interface CalibrationBin {
  /** The average forecast. */
  readonly predicted: number;
  /** The fraction that was right. */
  readonly right: number;
  /** The 90 % interval for the fraction that is right in the long run. */
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

export interface CalibrationPlotProps {
  readonly bins: readonly CalibrationBin[];
  /** The facts that screen readers read out instead of the picture. */
  readonly label: string;
}

const WIDTH = 320;
const HEIGHT = 280;
/** Radii of the smallest and the largest dot, in pixels. */
const DOT = { least: 3.5, most: 9 } as const;
/** How far the caps of an interval reach beyond its dot, in pixels. */
const BEYOND = 2.5;

/**
 * Plots forecasts against the fraction that was right. On the diagonal, forecasts come true as
 * often as they say.
 */
export function CalibrationPlot({ bins, label }: CalibrationPlotProps) {
  const shown = bins.filter(({ count }) => count > 0);
  const ticks = tenths(Math.min(1, ...shown.flatMap(({ predicted, low }) => [predicted, low])));
  const from = ticks[0] ?? 0;
  const x: Span = { from, to: 1, start: 54, end: WIDTH - 24 };
  const y: Span = { from, to: 1, start: HEIGHT - 54, end: 36 };
  const most = Math.max(1, ...shown.map(({ count }) => count));
  return (
    <>
      <svg
        class="plot calibration"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={label}
      >
        <LevelLines x={x} y={y} ticks={ticks} words={percent} />
        <TickRow x={x} y={y} ticks={ticks.filter((_, n) => n % 2 === 0)} words={percent} />
        <text x={x.start - 8} y="12" dy="0.36em" text-anchor="end">
          right
        </text>
        <text x={x.end} y={HEIGHT - 10} dy="0.36em" text-anchor="end">
          forecast
        </text>
        <path class="ideal" d={`M${x.start} ${y.start}L${x.end} ${y.end}`} />
        {shown.map((bin) => (
          <Dot key={bin.predicted} bin={bin} x={x} y={y} most={most} />
        ))}
      </svg>
      <PlotTable
        summary="These forecasts in numbers"
        heads={['Forecast', 'Right', '90 % interval', 'Answers']}
        rows={shown.map(({ predicted, right, low, high, count }) => [
          percent(predicted),
          percent(right),
          `${percent(low)}–${percent(high)}`,
          count,
        ])}
      />
    </>
  );
}

function Dot(props: {
  readonly bin: CalibrationBin;
  readonly x: Span;
  readonly y: Span;
  readonly most: number;
}) {
  const { bin, x, y, most } = props;
  const at = along(x, bin.predicted);
  const [low, high] = [along(y, bin.low), along(y, bin.high)];
  // A dot's area is proportional to its number of answers.
  const r = DOT.least + (DOT.most - DOT.least) * Math.sqrt(bin.count / most);
  const cap = r + BEYOND;
  return (
    <g class="bin">
      <path
        d={`M${at} ${low}V${high}M${at - cap} ${low}h${2 * cap}M${at - cap} ${high}h${2 * cap}`}
      />
      <circle cx={at} cy={along(y, bin.right)} r={r} />
    </g>
  );
}

function percent(part: number): string {
  return `${Math.round(100 * part)} %`;
}
