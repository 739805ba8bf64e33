import { formatDecimal, toDecimal } from '../charts/index.ts';
import { type Box, tidy } from './frame.ts';
import type { Range, Reach } from './pointing.ts';
import { formatStep } from './rail-slider.tsx';
import { Readout } from './readout.tsx';
import { Silent } from './silent.tsx';
import { pressOnSlider, type Scale, usePointers } from './slider.ts';

export interface RulerProps {
  /** The signed distance from medium, in diamonds; null until the player points at a number. */
  readonly value: number | null;
  readonly step: number;
  /** How far the ruler reaches on each side, in diamonds. */
  readonly most: number;
  /** The number's name, for screen readers. */
  readonly label: string;
  /** Returns the value as screen readers say it. */
  readonly words: (value: number | null) => string;
  readonly onPoint: (value: number) => void;
  /** Called when the player presses Enter. */
  readonly onDone?: () => void;
}

const BOX: Box = { x: 0, y: 0, width: 360, height: 72 };
/** The x of the scale's two ends, and the y of its base line. */
const LEFT = 18;
const RIGHT = BOX.width - LEFT;
const FOOT = 44;

/** Draws a scale of distances from medium, with zero in its middle. */
export function Ruler(props: RulerProps) {
  const { value, step, most } = props;
  const range: Range = { least: -most, most, step };
  const scale: Scale = { range, reach: (at) => reachOn(most, at.x) };
  const { finger, pointers } = usePointers({ ...props, scaleAt: () => scale });
  return (
    <svg class="ruler" viewBox={`0 0 ${BOX.width} ${BOX.height}`} role="presentation">
      <Silent>
        <Ticks range={range} />
        {value !== null && <Here range={range} value={value} step={step} />}
      </Silent>
      <g {...pointers}>
        <RulerKeys {...props} range={range} />
      </g>
      {finger && value !== null && (
        <Readout
          finger={finger}
          box={BOX}
          value={value}
          text={formatStep(value, step, true)}
          range={range}
          sides={['above', 'right', 'left']}
        />
      )}
    </svg>
  );
}

/** Draws the part of the ruler that takes the focus and the keys. */
function RulerKeys(props: RulerProps & { readonly range: Range }) {
  const { value, range } = props;
  return (
    <g
      class="pointing"
      role="slider"
      tabindex={0}
      aria-label={props.label}
      aria-orientation="horizontal"
      aria-valuemin={range.least}
      aria-valuemax={range.most}
      // ARIA requires a number even before the player has chosen one. The text then says that there
      // is none.
      aria-valuenow={value ?? 0}
      aria-valuetext={props.words(value)}
      onKeyDown={(event) => pressOnSlider(props, event)}
    >
      <rect class="ring" x="2" y="2" width={BOX.width - 4} height={BOX.height - 4} rx="10" />
      <rect class="band" {...BOX} />
    </g>
  );
}

/** Returns where a number is on a ruler that reaches `most` to each side. */
export function rulerX(most: number, value: number): number {
  return LEFT + ((value + most) / (2 * most)) * (RIGHT - LEFT);
}

/**
 * Returns the number at a finger. A ruler is wide enough for tenths, so it needs no finer movement.
 */
export function reachOn(most: number, x: number): Reach {
  return { along: ((x - LEFT) / (RIGHT - LEFT)) * 2 * most - most, away: 0 };
}

/** Returns every tenth between the ends. */
export function rulerTicks(most: number): readonly number[] {
  const tenths = Math.floor(most * 10 + 1e-9);
  return Array.from({ length: 2 * tenths + 1 }, (_, n) => (n - tenths) / 10);
}

function Ticks({ range }: { readonly range: Range }) {
  const ticks = rulerTicks(range.most);
  return (
    <>
      <path class="base" d={`M${LEFT} ${FOOT}H${RIGHT}`} />
      {ticks.map((tick) => {
        const whole = Number.isInteger(tick);
        const half = Number.isInteger(tick * 2);
        const x = tidy(rulerX(range.most, tick));
        return (
          <g key={tick}>
            <path
              class={whole ? 'whole' : 'tenth'}
              d={`M${x} ${FOOT}v${whole ? -18 : half ? -13 : -9}`}
            />
            {whole && (
              <text x={x} y={FOOT + 15} dy="0.36em" text-anchor="middle">
                {tick === 0 ? 'medium' : formatDecimal(toDecimal(tick), 0, true)}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

/** Draws the chosen number: an arrowhead on the scale, with the number above it. */
function Here(props: { readonly range: Range; readonly value: number; readonly step: number }) {
  const { range, value, step } = props;
  const x = rulerX(range.most, Math.min(range.most, Math.max(range.least, value)));
  const room = 28;
  const text = Math.min(BOX.width - room, Math.max(room, x));
  return (
    <g class="here">
      <path d={`M${tidy(x)} ${FOOT}l-8 -11v-11h16v11z`} />
      <text x={tidy(text)} y="12" dy="0.36em" text-anchor="middle">
        {formatStep(value, step, true)}
      </text>
    </g>
  );
}
