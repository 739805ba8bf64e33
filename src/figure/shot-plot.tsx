import { formatDecimal, toDecimal } from '../charts/index.ts';
import { type PlotPoint, type PlotScale, placePoint, plotX, plotY } from './plot.ts';

export interface ShotPlotProps {
  /** In the order of the shots; x counts them from 1, an error is in diamonds of aim. */
  readonly points: readonly PlotPoint[];
  /** Diamonds: the band on either side of zero. */
  readonly tolerance: number;
  /** The facts, said by screen readers in place of the picture. */
  readonly label: string;
}

const WIDTH = 360;
const HEIGHT = 200;
/** Numbers under the scale, at most. */
const TICKS = 8;

/** What each shot leaves over: a dot where it agrees, a cross where it is doubted. */
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
      <Band scale={scale} tolerance={tolerance} />
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
        <Shot key={point.x} scale={scale} point={point} />
      ))}
    </svg>
  );
}

function Band({ scale, tolerance }: { readonly scale: PlotScale; readonly tolerance: number }) {
  const { left, right } = scale;
  const above = plotY(scale, tolerance);
  return (
    <>
      <rect
        class="within"
        x={left}
        y={above}
        width={right - left}
        height={plotY(scale, -tolerance) - above}
      />
      {[tolerance, 0, -tolerance].map((error) => (
        <g key={error} class={error === 0 ? 'zero' : 'bound'}>
          <path d={`M${left} ${plotY(scale, error)}H${right}`} />
          <text x={left - 8} y={plotY(scale, error)} dy="0.36em" text-anchor="end">
            {formatDecimal(toDecimal(error), error === 0 ? 0 : 1, true)}
          </text>
        </g>
      ))}
      <text x={left - 8} y={scale.top} dy="0.36em" text-anchor="end">
        too low
      </text>
      <text x={left - 8} y={scale.bottom} dy="0.36em" text-anchor="end">
        too high
      </text>
    </>
  );
}

function Shot({ scale, point }: { readonly scale: PlotScale; readonly point: PlotPoint }) {
  const { x, y, mark } = placePoint(scale, point);
  if (mark === 'good') return <circle class="good" cx={x} cy={y} r="4.5" />;
  const shapes = {
    off: 'M-5 -5L5 5M-5 5L5 -5',
    above: 'M0 9V-6M-5 -1L0 -6L5 -1',
    below: 'M0 -9V6M-5 1L0 6L5 1',
  };
  return <path class="off" transform={`translate(${x} ${y})`} d={shapes[mark]} />;
}
