/** Balls that roll along their ways: the only place that moves anything in the figure. */

import type { RefObject } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import type { FigurePath } from './drawn.ts';
import { type Box, type Frame, pathData, tidy } from './frame.ts';
import { lengthsBehind, pace, timeOf, type WayPoint, wayPoints } from './way-points.ts';

/** Enough that the straight pieces between them are not seen. */
const POINTS = 60;

interface RollingProps {
  readonly frame: Frame;
  readonly box: Box;
  readonly paths: readonly FigurePath[];
  /** A change of it starts the balls again. */
  readonly turn: number;
}

/** Which paths have a ball of their own. */
export function rolls(path: FigurePath): boolean {
  return (path.tone === 'true' || path.tone === 'yours') && path.stretches.length > 0;
}

/**
 * Ways that are drawn as their balls run along them. Without the animation, and after it, the ways
 * are whole and the balls stand at their ends.
 */
export function RollingWays({ frame, box, paths, turn }: RollingProps) {
  const id = useId();
  const group = useRef<SVGGElement>(null);
  const rolling = paths.filter(rolls);
  const ways = rolling.map((path) => wayPoints(frame, path.stretches, POINTS));
  const drawn = rolling.map((path) => pathData(frame, path.stretches)).join();
  useRolling(group, rolling, ways, `${turn} ${drawn}`);
  return (
    <g ref={group} class="rolling">
      {rolling.map((path, n) => (
        <Way key={path.tone} id={`${id}-${n}`} frame={frame} box={box} path={path} />
      ))}
      {rolling.map((path, n) => (
        <EndBall key={path.tone} frame={frame} path={path} end={ways[n]?.at(-1)} />
      ))}
    </g>
  );
}

/** A dashed way cannot be drawn in by its dashes, so a mask of the same shape uncovers it. */
function Way(props: {
  readonly id: string;
  readonly frame: Frame;
  readonly box: Box;
  readonly path: FigurePath;
}) {
  const { id, box, path } = props;
  const d = pathData(props.frame, path.stretches);
  return (
    <>
      <mask id={id} maskUnits="userSpaceOnUse" {...box}>
        <path class="uncovering" data-way={path.tone} d={d} pathLength={1} />
      </mask>
      <path class={`path ${path.tone}`} d={d} mask={`url(#${id})`} />
    </>
  );
}

function EndBall(props: {
  readonly frame: Frame;
  readonly path: FigurePath;
  readonly end: WayPoint | undefined;
}) {
  const { end, path } = props;
  if (!end) return null;
  const r = props.frame.table.ballRadius * 1000;
  return (
    <g class={`ball ${path.tone}`} data-ball={path.tone} style={{ transform: shift(end) }}>
      <circle r={tidy(r)} />
      {path.tone === 'yours' && <circle class="spot" r={tidy(r * 0.4)} />}
    </g>
  );
}

function shift({ x, y }: WayPoint): string {
  return `translate(${tidy(x)}px, ${tidy(y)}px)`;
}

/** Starts the balls before the picture is first shown, so that their ends are not seen first. */
function useRolling(
  group: RefObject<SVGGElement | null>,
  paths: readonly FigurePath[],
  ways: readonly (readonly WayPoint[])[],
  start: string,
): void {
  useLayoutEffect(() => {
    const root = group.current;
    if (!root || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
    const scale = pace(paths.map((path) => path.stretches));
    const running = paths.flatMap((path, n) =>
      roll(root, path, ways[n] ?? [], timeOf(path.stretches) * scale * 1000),
    );
    return () => {
      for (const animation of running) animation.cancel();
    };
    // `start` stands for the ways: the same ways in new arrays do not start again.
  }, [start]);
}

function roll(
  root: SVGGElement,
  { tone }: FigurePath,
  way: readonly WayPoint[],
  duration: number,
): readonly Animation[] {
  if (way.length === 0) return [];
  const behind = lengthsBehind(way);
  const ball = root.querySelector(`[data-ball="${tone}"]`);
  const cover = root.querySelector(`[data-way="${tone}"]`);
  const moves = way.map((point) => ({ offset: point.offset, transform: shift(point) }));
  const draws = way.map(({ offset }, n) => ({ offset, strokeDashoffset: 1 - (behind[n] ?? 1) }));
  return [ball?.animate(moves, { duration }), cover?.animate(draws, { duration })].filter(
    (animation) => animation !== undefined,
  );
}
