import { formatDecimal, toDecimal } from '../charts/index.ts';
import { type PlotPoint, type PlotScale, placePoint, plotX, plotY, wholeDiamonds } from './plot.ts';

export interface ErrorPlotProps {
  readonly points: readonly PlotPoint[];
  /** In the unit of the errors: 1 if errors are given in tolerances, else diamonds. */
  readonly tolerance: number;
  /** The diamonds at the left and the right end. */
  readonly domain: readonly [number, number];
  /** The error at the upper edge; three tolerances if it is not given. */
  readonly most?: number;
  /** The facts, said by screen readers in place of the picture. */
  readonly label: string;
  /** What the diamonds are, under the scale. */
  readonly xWords: string;
}

const WIDTH = 360;
const HEIGHT = 210;

/** Errors over a rail: a dot within what was asked for, a cross outside, an arrow beyond the scale. */
export function ErrorPlot(props: ErrorPlotProps) {
  const { tolerance, domain } = props;
  const most = props.most ?? 3 * tolerance;
  const scale: PlotScale = { left: 52, right: 346, top: 16, bottom: 158, domain, most };
  return (
    <svg class="error-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={props.label}>
      <Band scale={scale} tolerance={tolerance} />
      <Axis scale={scale} words={props.xWords} />
      {props.points.map((point, n) => (
        // Two answers may be equal in everything; their order is what tells them apart.
        <Point key={n} scale={scale} point={point} />
      ))}
    </svg>
  );
}

/** The tolerance on either side of zero, with its bounds written beside it. */
function Band({ scale, tolerance }: { readonly scale: PlotScale; readonly tolerance: number }) {
  const { left, right } = scale;
  const above = plotY(scale, tolerance);
  const below = plotY(scale, -tolerance);
  return (
    <>
      <rect class="within" x={left} y={above} width={right - left} height={below - above} />
      {[tolerance, 0, -tolerance].map((error) => (
        <g key={error} class={error === 0 ? 'zero' : 'bound'}>
          <path d={`M${left} ${plotY(scale, error)}H${right}`} />
          <text x={left - 8} y={plotY(scale, error)} dy="0.36em" text-anchor="end">
            {formatDecimal(toDecimal(error), error === 0 ? 0 : 1, true)}
          </text>
        </g>
      ))}
      <text x={left - 8} y={scale.top} dy="0.36em" text-anchor="end">
        high
      </text>
      <text x={left - 8} y={scale.bottom} dy="0.36em" text-anchor="end">
        low
      </text>
    </>
  );
}

function Axis({ scale, words }: { readonly scale: PlotScale; readonly words: string }) {
  return (
    <g class="axis">
      {wholeDiamonds(scale.domain).map((diamond) => (
        <g key={diamond}>
          <path d={`M${plotX(scale, diamond)} ${scale.bottom + 8}v6`} />
          <text x={plotX(scale, diamond)} y={scale.bottom + 24} dy="0.36em" text-anchor="middle">
            {diamond}
          </text>
        </g>
      ))}
      <text x={(scale.left + scale.right) / 2} y={HEIGHT - 10} dy="0.36em" text-anchor="middle">
        {words}
      </text>
    </g>
  );
}

const SHAPES = {
  off: 'M-5 -5L5 5M-5 5L5 -5',
  above: 'M0 9V-6M-5 -1L0 -6L5 -1',
  below: 'M0 -9V6M-5 1L0 6L5 1',
} as const;

function Point({ scale, point }: { readonly scale: PlotScale; readonly point: PlotPoint }) {
  const { x, y, mark } = placePoint(scale, point);
  if (mark === 'good') return <circle class="good" cx={x} cy={y} r="4.5" />;
  return <path class="off" transform={`translate(${x} ${y})`} d={SHAPES[mark]} />;
}
