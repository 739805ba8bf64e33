/** The parts that all plots of errors share. */

import './plots.css';
import { formatDecimal, toDecimal } from '../../charts/index.ts';
import { type PlotPoint, type PlotScale, placePoint, plotY } from './plot.ts';

/** Draws the tolerance on either side of zero, with its bounds beside it. */
export function Band(props: {
  readonly scale: PlotScale;
  readonly tolerance: number;
  /** The words for errors toward the upper and the lower edge. */
  readonly above: string;
  readonly below: string;
}) {
  const { scale, tolerance } = props;
  const { left, right } = scale;
  const top = plotY(scale, tolerance);
  const bottom = plotY(scale, -tolerance);
  return (
    <>
      <rect class="within" x={left} y={top} width={right - left} height={bottom - top} />
      {[tolerance, 0, -tolerance].map((error) => (
        <g key={error} class={error === 0 ? 'zero' : 'bound'}>
          <path d={`M${left} ${plotY(scale, error)}H${right}`} />
          <text x={left - 8} y={plotY(scale, error)} dy="0.36em" text-anchor="end">
            {formatDecimal(toDecimal(error), error === 0 ? 0 : 1, true)}
          </text>
        </g>
      ))}
      <text x={left - 8} y={scale.top} dy="0.36em" text-anchor="end">
        {props.above}
      </text>
      <text x={left - 8} y={scale.bottom} dy="0.36em" text-anchor="end">
        {props.below}
      </text>
    </>
  );
}

const SHAPES = {
  off: 'M-5 -5L5 5M-5 5L5 -5',
  above: 'M0 9V-6M-5 -1L0 -6L5 -1',
  below: 'M0 -9V6M-5 1L0 6L5 1',
} as const;

/**
 * Draws a dot for a good answer, a cross for one that is off, an arrow for one beyond the scale.
 */
export function Point({ scale, point }: { readonly scale: PlotScale; readonly point: PlotPoint }) {
  const { x, y, mark } = placePoint(scale, point);
  if (mark === 'good') return <circle class="good" cx={x} cy={y} r="4.5" />;
  return <path class="off" transform={`translate(${x} ${y})`} d={SHAPES[mark]} />;
}
