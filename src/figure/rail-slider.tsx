import { formatDecimal, toDecimal } from '../charts/index.ts';
import { type Count, diamondLength, divisions, isLongRail, pointAt } from '../table/index.ts';
import { type Box, behindNose, diamondAt, type Frame, railBand, spot, tidy } from './frame.ts';
import type { Range, Reach, Side } from './pointing.ts';
import { Readout } from './readout.tsx';
import { useSlider } from './slider.ts';

/** Pointing at a rail: a number of its count, in diamonds. */
export interface Pointing {
  readonly count: Count;
  /** null until a number is pointed at. */
  readonly value: number | null;
  /** Numbers are whole multiples of it, diamonds. */
  readonly step: number;
  /** What the number is, for screen readers. */
  readonly label: string;
  /** The value said by screen readers. */
  readonly words: (value: number | null) => string;
  readonly onPoint: (diamond: number) => void;
  /** Enter. */
  readonly onDone?: () => void;
}

export interface RailSliderProps extends Pointing {
  readonly frame: Frame;
  /** The picture's own box. */
  readonly box: Box;
  /** A finger that pointed is lifted. */
  readonly onRelease?: (diamond: number) => void;
  readonly onCancel?: () => void;
}

export function railRange(count: Count, step: number): Range {
  return { least: 0, most: divisions(count.rail), step };
}

/** A number as a rail with this step writes it: "3.5", and "3.50" where a step is finer than 0.1. */
export function formatStep(value: number, step: number, signed = false): string {
  return formatDecimal(toDecimal(value), step < 0.1 ? 2 : 1, signed);
}

/** The number a spot is level with; its distance from the line of the rail's sights, diamonds. */
export function reachOf(frame: Frame, count: Count, at: { x: number; y: number }): Reach {
  const { table } = frame;
  const across = behindNose(frame, count.rail, at) / 1000 - table.sightSetback;
  return {
    along: diamondAt(frame, count, at),
    away: Math.abs(across) / diamondLength(table, count.rail),
  };
}

/** Beside a thumb on a long rail, over one on a short rail; the other way round if there is no room. */
function sidesOf(count: Count): readonly Side[] {
  return isLongRail(count.rail)
    ? ['right', 'left', 'above', 'below']
    : ['above', 'right', 'left', 'below'];
}

/** A slider over a drawn rail. */
export function RailSlider(props: RailSliderProps) {
  const { frame, count, value, step } = props;
  const range = railRange(count, step);
  const slider = useSlider({ ...props, range, reach: (at) => reachOf(frame, count, at) });
  const band = railBand(frame, count.rail);
  const vertical = isLongRail(count.rail);
  return (
    <>
      <g
        class="pointing"
        role="slider"
        tabindex={0}
        aria-label={props.label}
        aria-orientation={vertical ? 'vertical' : 'horizontal'}
        aria-valuemin={range.least}
        aria-valuemax={range.most}
        // ARIA wants a number even where there is none yet; the words say so.
        aria-valuenow={value ?? range.most / 2}
        aria-valuetext={props.words(value)}
        onKeyDown={slider.onKeyDown}
      >
        <FocusRing band={band} />
        <rect class="band" {...band} {...slider.pointers} />
      </g>
      {slider.finger && value !== null && (
        <Readout
          finger={slider.finger}
          box={props.box}
          value={value}
          text={formatStep(value, step)}
          range={range}
          sides={sidesOf(count)}
          stretch={{ vertical, rising: risesInPicture(frame, count) }}
        />
      )}
    </>
  );
}

/** Whether a rail's numbers rise to the right or downward in the picture. */
function risesInPicture(frame: Frame, count: Count): boolean {
  const a = spot(frame, pointAt(frame.table, count, 0));
  const b = spot(frame, pointAt(frame.table, count, 1));
  return b.x + b.y > a.x + a.y;
}

/** A dark and a light line, so that the ring shows on the paper, the rail and the cloth. */
export function FocusRing({ band }: { readonly band: Box }) {
  const inside = {
    x: tidy(band.x + 12),
    y: tidy(band.y + 12),
    width: tidy(band.width - 24),
    height: tidy(band.height - 24),
    rx: 40,
  };
  return (
    <g class="focus-ring">
      <rect class="edge" {...inside} />
      <rect {...inside} />
    </g>
  );
}
