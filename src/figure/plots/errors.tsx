import { Band, Point } from './parts.tsx';
import { type PlotPoint, type PlotScale, plotX, wholeDiamonds } from './plot.ts';

export interface ErrorPlotProps {
  readonly points: readonly PlotPoint[];
  /**
   * The tolerance in the unit of the errors: 1 if the errors are given in tolerances, else in
   * diamonds.
   */
  readonly tolerance: number;
  /** The diamonds at the left and the right end of the plot. */
  readonly domain: readonly [number, number];
  /** The error at the upper edge of the plot; by default three tolerances. */
  readonly most?: number;
  /** The facts that screen readers read out instead of the picture. */
  readonly label: string;
  /** The caption under the diamonds. */
  readonly xWords: string;
}

const WIDTH = 360;
const HEIGHT = 210;

/**
 * Plots errors along a rail: a dot for a good answer, a cross for one that is off, an arrow for one
 * beyond the scale.
 */
export function ErrorPlot(props: ErrorPlotProps) {
  const { tolerance, domain } = props;
  const most = props.most ?? 3 * tolerance;
  const scale: PlotScale = { left: 52, right: 346, top: 16, bottom: 158, domain, most };
  return (
    <svg class="error-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={props.label}>
      <Band scale={scale} tolerance={tolerance} above="high" below="low" />
      <Axis scale={scale} words={props.xWords} />
      {props.points.map((point, n) => (
        // The key is the index, because two answers may be equal in everything but their order.
        <Point key={n} scale={scale} point={point} />
      ))}
    </svg>
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
