import { LevelLines, TickRow } from './axes.tsx';
import { along, dayTicks, type Span, wholeTicks } from './axis.ts';
import { PlotTable } from './table.tsx';

/** A study day and how many lines the player knows on it. */
export interface CurvePoint {
  readonly day: number;
  readonly held: number;
}

export interface CurvePlotProps {
  /** The forecast day by day, from today. */
  readonly curve: readonly CurvePoint[];
  /** The same forecast if nothing more is answered; drawn dashed beside the curve. */
  readonly decay?: readonly CurvePoint[];
  /** The day that the player studies for, with the 90 % interval of the forecast. */
  readonly mark?: { readonly day: number; readonly low: number; readonly high: number };
  /** How many lines there are in all. */
  readonly of: number;
  readonly dayWords: (day: number) => string;
  readonly label: string;
}

const WIDTH = 320;
const HEIGHT = 210;
/** The width of "25 Nov", in pixels. */
const ROOM = 58;
const CAP = 8;

/** Plots how many lines the player knows, day by day. */
export function CurvePlot(props: CurvePlotProps) {
  const { curve, decay = [], mark, of, dayWords, label } = props;
  const days = [...curve, ...decay].map(({ day }) => day);
  const [from, to] = [Math.min(...days), Math.max(...days)];
  if (days.length === 0) return null;
  const ticks = wholeTicks(of, 5);
  const x: Span = { from, to, start: 38, end: WIDTH - 28 };
  const y: Span = { from: 0, to: ticks.at(-1) ?? 1, start: HEIGHT - 34, end: 14 };
  const wanted = mark ? [mark.day, from] : [from, to];
  return (
    <>
      <svg class="plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
        <LevelLines x={x} y={y} ticks={ticks} words={String} />
        <TickRow x={x} y={y} ticks={dayTicks(x, wanted, ROOM)} words={dayWords} />
        {mark && <path class="day-mark" d={`M${along(x, mark.day)} ${y.start}V${y.end}`} />}
        <path class="curve decay" d={pathThrough(decay, x, y)} />
        <path class="curve" d={pathThrough(curve, x, y)} />
        {mark && <Band mark={mark} curve={curve} x={x} y={y} />}
      </svg>
      <CurveTable {...props} />
    </>
  );
}

/** Draws the number of lines expected on the marked day, with its 90 % interval. */
function Band(props: {
  readonly mark: NonNullable<CurvePlotProps['mark']>;
  readonly curve: readonly CurvePoint[];
  readonly x: Span;
  readonly y: Span;
}) {
  const { mark, curve, x, y } = props;
  const at = along(x, mark.day);
  const [low, high] = [along(y, mark.low), along(y, mark.high)];
  const held = curve.find(({ day }) => day === mark.day)?.held;
  return (
    <g class="bin">
      <path
        d={`M${at} ${low}V${high}M${at - CAP} ${low}h${2 * CAP}M${at - CAP} ${high}h${2 * CAP}`}
      />
      {held !== undefined && <circle cx={at} cy={along(y, held)} r="4" />}
    </g>
  );
}

function pathThrough(points: readonly CurvePoint[], x: Span, y: Span): string {
  return points
    .map(
      ({ day, held }, n) => `${n === 0 ? 'M' : 'L'}${tidy(along(x, day))} ${tidy(along(y, held))}`,
    )
    .join('');
}

/** Rounds to a tenth of a pixel, which is finer than any screen shows. */
function tidy(value: number): number {
  return Math.round(value * 10) / 10;
}

/** The most rows of the table, without the row of the marked day. */
const ROWS = 12;

/** Lists the curve in rows a whole number of weeks apart, and on the marked day. */
function CurveTable({ curve, decay = [], mark, dayWords }: CurvePlotProps) {
  const all = [...curve, ...decay].map(({ day }) => day);
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const step = 7 * Math.max(1, Math.ceil((last - first) / 7 / ROWS));
  const weeks: number[] = [];
  for (let day = first; day <= last; day += step) weeks.push(day);
  const days = [...new Set(mark ? [...weeks, mark.day] : weeks)].sort((a, b) => a - b);
  const both = curve.length > 0 && decay.length > 0;
  const lists = both ? [curve, decay] : [[...curve, ...decay]];
  return (
    <PlotTable
      summary="This forecast in numbers"
      heads={both ? ['Day', 'Lines known', 'If nothing more is answered'] : ['Day', 'Lines known']}
      rows={days.map((day) => [dayWords(day), ...lists.map((points) => heldAt(points, day))])}
    />
  );
}

/**
 * Returns the number of whole lines on a day. Between two points it is interpolated as drawn;
 * beyond the curve it is a dash.
 */
function heldAt(points: readonly CurvePoint[], day: number): number | string {
  const after = points.findIndex((point) => point.day >= day);
  const [a, b] = [points[after - 1], points[after]];
  if (!b || (!a && b.day !== day)) return '–';
  const part = a ? (day - a.day) / (b.day - a.day) : 1;
  return Math.round((a?.held ?? b.held) * (1 - part) + b.held * part);
}
