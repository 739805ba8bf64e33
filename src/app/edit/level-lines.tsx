import {
  type Chart,
  type Decimal,
  formatDecimal,
  isolated,
  type Level,
  type Line,
  levelOf,
  type PatternId,
  patternOf,
  setLevel,
} from '../../charts/index.ts';
import type { Editing } from '../state/editing/editing.ts';

export const LEVELS: readonly Level[] = [0, 1, 2];

interface LevelLinesProps {
  readonly chart: Chart;
  readonly id: PatternId;
  readonly names: readonly string[];
  readonly editing: Editing;
}

/**
 * Lists the lines of a pattern. A tap moves a line to the next level, and from the last level out
 * of all levels.
 */
export function LevelLines({ chart, id, names, editing }: LevelLinesProps) {
  const { now } = editing.draft.value;
  const lines = chart.lines.filter(({ pattern }) => pattern === id);
  const { name } = patternOf(id);
  if (lines.length === 0) return null;
  const put = (some: readonly Line[], level: Level | null): void =>
    editing.edit((state) => setLevel(state, some, level));
  return (
    <section class="sheet pattern-levels" aria-label={name}>
      <h2>{name}</h2>
      <ul class="level-grid">
        {lines.map((line) => {
          const level = levelOf(now, line);
          return (
            <li key={line.start}>
              <LineLevel
                start={line.start}
                level={level}
                names={names}
                next={() => put([line], levelAfter(level))}
              />
            </li>
          );
        })}
      </ul>
      <div class="actions">
        {LEVELS.map((level) => (
          <button
            key={level}
            type="button"
            class="plain"
            aria-label={`All into ${level + 1}: ${name}`}
            onClick={() => put(lines, level)}
          >
            All into {level + 1}
          </button>
        ))}
        <button
          type="button"
          class="plain"
          aria-label={`None: ${name}`}
          onClick={() => put(lines, null)}
        >
          None
        </button>
      </div>
    </section>
  );
}

function levelAfter(level: Level | null): Level | null {
  if (level === null) return 0;
  return level === 2 ? null : ((level + 1) as Level);
}

function LineLevel(props: {
  readonly start: Decimal;
  readonly level: Level | null;
  readonly names: readonly string[];
  readonly next: () => void;
}) {
  const { start, level, names, next } = props;
  return (
    <button type="button" class="line-level" data-level={level ?? 'none'} onClick={next}>
      <span>
        <span class="visually-hidden">From </span>
        {formatDecimal(start)}
        <span class="visually-hidden">: {level === null ? 'in no level' : 'level '}</span>
      </span>
      {level === null ? (
        <strong aria-hidden="true">–</strong>
      ) : (
        <strong>
          {level + 1}
          <span class="visually-hidden">, {isolated(names[level] ?? '')}</span>
        </strong>
      )}
    </button>
  );
}
