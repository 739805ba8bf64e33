/** What tonight's shots at the real table say of a chart's numbers: from the log and the chart alone. */

import { type Chart, isPatternId, type PatternId } from '../../charts/index.ts';
import type { LogState, TableShot as ShotEvent } from '../../scheduler/index.ts';
import { correctionOf, type TableShot, type Tonight } from '../../shots/index.ts';

/** A shot as it was logged; its id is what is taken back. */
export interface LoggedShot extends ShotEvent {
  readonly pattern: PatternId;
}

/** The shots of a study-day at the table of a chart, oldest first; not those that were taken back. */
export function shotsOn(log: LogState, chart: string, day: number): readonly LoggedShot[] {
  return log.shots.flatMap((shot) =>
    shot.chart === chart && shot.day === day && isPatternId(shot.pattern)
      ? [{ ...shot, pattern: shot.pattern }]
      : [],
  );
}

/** What the model needs of a shot. */
export function asTableShot({ pattern, start, speed, aim, miss }: LoggedShot): TableShot {
  return { pattern, start, speed, aim, miss };
}

export function tonightOf(log: LogState, chart: Chart, day: number): Tonight {
  return correctionOf(chart, shotsOn(log, chart.document.id, day).map(asTableShot));
}
