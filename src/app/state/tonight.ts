/** Tonight's shots at the real table and the correction they make, from the log and the chart alone. */

import { type Chart, isPatternId, type PatternId } from '../../charts/index.ts';
import type { LogState, TableShot as ShotEvent } from '../../scheduler/index.ts';
import { correctionOf, type TableShot, type Tonight } from '../../shots/index.ts';

/** A logged shot. Undoing one names its id. */
export interface LoggedShot extends ShotEvent {
  readonly pattern: PatternId;
}

/** The shots of a study-day at a chart's table, oldest first, without undone ones. */
export function shotsOn(log: LogState, chart: string, day: number): readonly LoggedShot[] {
  return log.shots.flatMap((shot) =>
    shot.chart === chart && shot.day === day && isPatternId(shot.pattern)
      ? [{ ...shot, pattern: shot.pattern }]
      : [],
  );
}

/** A shot as the shots room takes it. */
export function asTableShot({ pattern, start, speed, aim, miss }: LoggedShot): TableShot {
  return { pattern, start, speed, aim, miss };
}

export function tonightOf(log: LogState, chart: Chart, day: number): Tonight {
  return correctionOf(chart, shotsOn(log, chart.document.id, day).map(asTableShot));
}
