import { LevelLines, TickRow } from './axes.tsx';
import { along, dayTicks, type Span, wholeTicks } from './axis.ts';
import { PlotTable } from './table.tsx';

export interface LoadPlotProps {
  /** Evenly spaced bars. `day` is a study day, or the first day of a week. */
  readonly bars: readonly { readonly day: number; readonly answers: number }[];
  /** The day of the bar that stands out: today, or the first day of this week. */
  readonly now: number;
  readonly dayWords: (day: number) => string;
  readonly label: string;
  /** The label that opens the table, and the heading of the table's first column. */
  readonly summary: string;
  readonly head: string;
}

const WIDTH = 320;
const HEIGHT = 160;
const ROOM = 58;
/** The greatest width of a bar, in pixels. */
const WIDEST = 24;

/** Plots the answers per day or week as bars. */
export function LoadPlot({ bars, now, dayWords, label, summary, head }: LoadPlotProps) {
  const [first] = bars;
  const last = bars.at(-1);
  if (!first || !last) return null;
  const ticks = wholeTicks(Math.max(...bars.map(({ answers }) => answers)), 4);
  const x: Span = { from: 0, to: 1, start: 34, end: WIDTH - 22 };
  const slot = (x.end - x.start) / bars.length;
  const days: Span = {
    from: first.day,
    to: last.day,
    start: x.start + slot / 2,
    end: x.end - slot / 2,
  };
  const y: Span = { from: 0, to: ticks.at(-1) ?? 1, start: HEIGHT - 34, end: 14 };
  const width = Math.min(WIDEST, slot * 0.78);
  return (
    <>
      <svg class="plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
        <LevelLines x={x} y={y} ticks={ticks} words={String} />
        <TickRow
          x={days}
          y={y}
          ticks={dayTicks(days, [now, first.day, last.day], ROOM)}
          words={dayWords}
        />
        {bars.map(({ day, answers }) => (
          <rect
            key={day}
            class={day === now ? 'amount now' : 'amount'}
            x={along(days, day) - width / 2}
            y={along(y, answers)}
            width={width}
            height={y.start - along(y, answers)}
          />
        ))}
      </svg>
      <PlotTable
        summary={summary}
        heads={[head, 'Answers']}
        rows={bars.map(({ day, answers }) => [dayWords(day), Math.round(answers)])}
      />
    </>
  );
}
