import { Band, Point } from './parts.tsx';
import { type PlotPoint, type PlotScale, plotX } from './plot.ts';

export interface ShotPlotProps {
  /**
   * Points in the order of the shots: x counts the shots from 1, and errors are in diamonds of aim.
   */
  readonly points: readonly PlotPoint[];
  /** Half the width of the band around zero, in diamonds. */
  readonly tolerance: number;
  /** The facts that screen readers read out instead of the picture. */
  readonly label: string;
}

const WIDTH = 360;
const HEIGHT = 200;
/** The most numbers to write under the scale. */
const TICKS = 8;

/** Plots the residual of each shot: a dot if the shot agrees, a cross if it is doubted. */
export function ShotPlot({ points, tolerance, label }: ShotPlotProps) {
  const count = Math.max(2, points.length);
  const scale: PlotScale = {
    left: 56,
    right: 346,
    top: 16,
    bottom: 150,
    domain: [1, count],
    most: 4 * tolerance,
  };
  const every = Math.ceil(count / TICKS);
  const ticks = Array.from({ length: count }, (_, n) => n + 1).filter((n) => (n - 1) % every === 0);
  return (
    <svg class="error-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      <Band scale={scale} tolerance={tolerance} above="too low" below="too high" />
      <g class="axis">
        {ticks.map((n) => (
          <text key={n} x={plotX(scale, n)} y={scale.bottom + 20} dy="0.36em" text-anchor="middle">
            {n}
          </text>
        ))}
        <text x={(scale.left + scale.right) / 2} y={HEIGHT - 8} dy="0.36em" text-anchor="middle">
          shots, in their order
        </text>
      </g>
      {points.map((point) => (
        <Point key={point.x} scale={scale} point={point} />
      ))}
    </svg>
  );
}
