/** Draws the axes of plots. The axes show days, or fractions from 0 to 1. */

import './plots.css';
import { along, type Span } from './axis.ts';

interface AxisProps {
  readonly x: Span;
  readonly y: Span;
  readonly ticks: readonly number[];
  readonly words: (tick: number) => string;
}

/** Draws horizontal lines across the plot, each with its number at the left. */
export function LevelLines({ x, y, ticks, words }: AxisProps) {
  return (
    <g class="levels">
      {ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${x.start} ${along(y, tick)}H${x.end}`} />
          <text x={x.start - 8} y={along(y, tick)} dy="0.36em" text-anchor="end">
            {words(tick)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Draws a row of ticks below the plot, each with its words. */
export function TickRow({ x, y, ticks, words }: AxisProps) {
  return (
    <g class="ticks">
      {ticks.map((tick) => {
        const at = along(x, tick);
        return (
          <g key={tick}>
            <path d={`M${at} ${y.start}v5`} />
            <text x={at} y={y.start + 18} dy="0.36em" text-anchor="middle">
              {words(tick)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
