/** Animates balls that roll along their paths. Nothing else in the figure moves. */

import type { RefObject } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import type { FigurePath } from './drawn.ts';
import { type Box, type Frame, pathData, tidy } from './frame.ts';
import { lengthsBehind, type PathPoint, pace, pathPoints, timeOf } from './path-points.ts';

/** Points per path: enough that nobody sees the straight pieces between them. */
const POINTS = 60;

interface RollingProps {
  readonly frame: Frame;
  readonly box: Box;
  readonly paths: readonly FigurePath[];
  /** A different number here starts the balls again. */
  readonly turn: number;
}

/** Returns whether a path has its own ball. */
export function rolls(path: FigurePath): boolean {
  return (path.tone === 'true' || path.tone === 'yours') && path.stretches.length > 0;
}

/**
 * Draws paths while their balls run along them. Without the animation, and after it, the paths are
 * complete and the balls are at their ends.
 */
export function RollingPaths({ frame, box, paths, turn }: RollingProps) {
  const id = useId();
  const group = useRef<SVGGElement>(null);
  const rolling = paths.filter(rolls);
  const points = rolling.map((path) => pathPoints(frame, path.stretches, POINTS));
  const drawn = rolling.map((path) => pathData(frame, path.stretches)).join();
  useRolling(group, rolling, points, `${turn} ${drawn}`);
  return (
    <g ref={group} class="rolling">
      {rolling.map((path, n) => (
        <RollingPath key={path.tone} id={`${id}-${n}`} frame={frame} box={box} path={path} />
      ))}
      {rolling.map((path, n) => (
        <EndBall key={path.tone} frame={frame} path={path} end={points[n]?.at(-1)} />
      ))}
    </g>
  );
}

/**
 * Draws a path under a mask of the same shape that uncovers it. Its own dashes cannot reveal it,
 * because the path may already be dashed.
 */
function RollingPath(props: {
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
        <path class="uncovering" data-path={path.tone} d={d} pathLength={1} />
      </mask>
      <path class={`path ${path.tone}`} d={d} mask={`url(#${id})`} />
    </>
  );
}

function EndBall(props: {
  readonly frame: Frame;
  readonly path: FigurePath;
  readonly end: PathPoint | undefined;
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

function shift({ x, y }: PathPoint): string {
  return `translate(${tidy(x)}px, ${tidy(y)}px)`;
}

/**
 * Starts the balls before the picture is first shown, so that nobody sees them at their ends first.
 */
function useRolling(
  group: RefObject<SVGGElement | null>,
  paths: readonly FigurePath[],
  points: readonly (readonly PathPoint[])[],
  start: string,
): void {
  useLayoutEffect(() => {
    const root = group.current;
    if (!root || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
    const scale = pace(paths.map((path) => path.stretches));
    const running = paths.flatMap((path, n) =>
      roll(root, path, points[n] ?? [], timeOf(path.stretches) * scale * 1000),
    );
    return () => {
      for (const animation of running) animation.cancel();
    };
    // `start` stands for the paths: new arrays with the same paths do not start the balls again.
  }, [start]);
}

function roll(
  root: SVGGElement,
  { tone }: FigurePath,
  points: readonly PathPoint[],
  duration: number,
): readonly Animation[] {
  if (points.length === 0) return [];
  const behind = lengthsBehind(points);
  const ball = root.querySelector(`[data-ball="${tone}"]`);
  const cover = root.querySelector(`[data-path="${tone}"]`);
  const moves = points.map((point) => ({ offset: point.offset, transform: shift(point) }));
  const draws = points.map(({ offset }, n) => ({ offset, strokeDashoffset: 1 - (behind[n] ?? 1) }));
  return [ball?.animate(moves, { duration }), cover?.animate(draws, { duration })].filter(
    (animation) => animation !== undefined,
  );
}
