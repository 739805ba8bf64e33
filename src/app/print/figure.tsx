import './figure.css';
import {
  type Chart,
  formatDecimal,
  type Line,
  type PatternId,
  patternOf,
  toNumber,
} from '../../charts/index.ts';
import { hatching, TableFigure, viewBox } from '../../figure/index.ts';
import { followsAim, playNumber } from '../../quiz/index.ts';
import { aimNamed, type Speed } from '../../table/index.ts';
import { PRINTED } from '../parts/shot.ts';
import type { Scale, Size } from './layout.ts';

/** The distance between two lines of the hatching, in millimeters of paper. */
const HATCHING = 1.1;
/** The height of letters on the screen, in millimeters of the table (src/figure/figure.css). */
const SCREEN_LETTERS = 76;
/**
 * How far the label of a mark may stick out of the margin that has the counts, in letter heights.
 */
const BEYOND = 0.7;

/** How a figure is drawn on paper. */
export interface Drawn {
  readonly scale: Scale;
  /** The height of the figure's letters, in millimeters of paper. */
  readonly letters: number;
}

function frameOf({ setting }: Chart, { scale, letters }: Drawn) {
  const lettering = (letters * scale) / SCREEN_LETTERS;
  return { table: setting.table, mirror: PRINTED, lettering };
}

function boxOf(chart: Chart, id: PatternId, drawn: Drawn) {
  const { start, aim } = patternOf(id);
  return viewBox(frameOf(chart, drawn), [start, aim]);
}

/** Returns how much paper the largest figure of the given patterns needs. */
export function figureSize(chart: Chart, ids: readonly PatternId[], drawn: Drawn): Size {
  const boxes = ids.map((id) => boxOf(chart, id, drawn));
  const most = (sizes: readonly number[]) => Math.max(0, ...sizes) / drawn.scale;
  return {
    width: most(boxes.map((box) => box.width)) + 2 * BEYOND * drawn.letters,
    height: most(boxes.map((box) => box.height)),
  };
}

/** Draws a pattern on its table, true to scale, with one of its lines if it has any. */
export function PrintFigure(props: {
  readonly chart: Chart;
  readonly pattern: PatternId;
  readonly line: Line | null;
  readonly speeds: readonly Speed[];
  readonly drawn: Drawn;
}) {
  const { chart, pattern: id, line, speeds, drawn } = props;
  const { name, start, aim, target } = patternOf(id);
  const { scale } = drawn;
  const { width, height } = boxOf(chart, id, drawn);
  const from = line ? `, the line from ${formatDecimal(line.start)} at ${speeds.join(', ')}` : '';
  return (
    <div
      class="print-figure"
      data-scale={scale}
      style={{
        width: `${width / scale}mm`,
        height: `${height / scale}mm`,
        marginInline: `${BEYOND * drawn.letters}mm`,
        '--scale': scale,
      }}
    >
      <TableFigure
        frame={frameOf(chart, drawn)}
        label={`${name}${from}`}
        counts={[start, aim]}
        target={target}
        hatching={hatching(chart.setting.table, HATCHING * scale)}
        {...(line ? partsOf(chart, line, speeds) : {})}
      />
    </div>
  );
}

/** Returns the paths at the chosen speeds, and the number at the rail for one of them. */
function partsOf(chart: Chart, line: Line, speeds: readonly Speed[]) {
  const pattern = patternOf(line.pattern);
  const paths = speeds.map((tone) => ({
    tone,
    ...playNumber(chart, line, line.numbers[tone].exact, tone),
  }));
  const start = toNumber(line.start);
  const from = { count: pattern.start, diamond: start };
  const tone = mainSpeed(speeds);
  const first = { tone: 'start' as const, ...from, label: formatDecimal(line.start) };
  const { exact, printed } = line.numbers[tone];
  const follows = paths.every((path) => path.tone !== tone || followsAim(path.shift));
  const aim = aimNamed(chart.setting.table, pattern, start, exact, chart.naming);
  return {
    paths,
    aims: follows ? [{ tone, from, through: { count: pattern.aim, diamond: aim } }] : [],
    marks: [first, { tone, count: pattern.aim, diamond: exact, label: formatDecimal(printed) }],
  };
}

/**
 * Returns the speed for which a number is printed at the rail: medium, or the first chosen speed.
 */
export function mainSpeed(speeds: readonly Speed[]): Speed {
  return speeds.includes('medium') ? 'medium' : (speeds[0] ?? 'medium');
}

/** Shows how each speed is drawn: with dashes, because paper has no colors. */
export function SpeedKey({ speeds }: { readonly speeds: readonly Speed[] }) {
  return (
    <ul class="speed-key">
      {speeds.map((speed) => (
        <li key={speed}>
          <svg class="table-figure" viewBox="0 0 9 2" aria-hidden="true">
            <path class={`path ${speed}`} d="M0.6 1H8.4" />
          </svg>
          {speed}
        </li>
      ))}
    </ul>
  );
}

/** Draws the scale bar. @param length in millimeters of paper */
export function ScaleBar({ length }: { readonly length: number }) {
  return (
    <svg
      class="scale-bar"
      viewBox={`-0.5 0 ${length + 1} 3`}
      style={{ width: `${length + 1}mm`, height: '3mm' }}
      aria-hidden="true"
    >
      <path d={`M0 0.5V2.5M${length} 0.5V2.5M0 1.5H${length}M${length / 2} 1V2`} />
    </svg>
  );
}
