/**
 * Tonight's shots at the real table and the correction from them, computed from the log and the
 * chart.
 */

import { type Chart, isPatternId, type PatternId } from '../../charts/index.ts';
import type { LogState, TableShot as ShotEvent } from '../../scheduler/index.ts';
import { correctionOf, type TableShot, type Tonight } from '../../shots/index.ts';

/** A shot from the log. Its id is needed to undo it. */
export interface LoggedShot extends ShotEvent {
  readonly pattern: PatternId;
}

/** Returns the shots on a study day at a chart's table, oldest first, without undone shots. */
export function shotsOn(log: LogState, chart: string, day: number): readonly LoggedShot[] {
  return log.shots.flatMap((shot) =>
    shot.chart === chart && shot.day === day && isPatternId(shot.pattern)
      ? [{ ...shot, pattern: shot.pattern }]
      : [],
  );
}

/** Returns a shot in the form that `correctionOf` takes. */
export function asTableShot({ pattern, start, speed, aim, miss }: LoggedShot): TableShot {
  return { pattern, start, speed, aim, miss };
}

export function tonightOf(log: LogState, chart: Chart, day: number): Tonight {
  return correctionOf(chart, shotsOn(log, chart.document.id, day).map(asTableShot));
}
