import { useState } from 'preact/hooks';
import {
  type Column,
  clearColumn,
  computedLines,
  type Decimal,
  type MeasuredLine,
  type Pattern,
  type PatternId,
  setLines,
} from '../../charts/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';
import { Problem } from '../parts/saving.tsx';
import type { Editing } from '../state/editing/editing.ts';
import { readStart } from './typed-number.ts';

interface ColumnsProps {
  readonly editing: Editing;
  readonly pattern: Pattern;
  readonly column: Column;
  readonly add: (start: Decimal) => void;
}

/** Fills and clears columns, and adds starts that the chart's step leaves out. */
export function EditorColumns({ editing, pattern, column, add }: ColumnsProps) {
  const id = pattern.id as PatternId;
  const { measured } = editing.draft.value.now;
  const own = measured.filter((line) => line.pattern === id);
  return (
    <>
      <details class="uses">
        <summary>Fill or clear a column</summary>
        <p class="soft-words">
          Filling puts the computed numbers into the empty cells; typed ones stay.
        </p>
        {SPEEDS.map((speed) => (
          <div key={speed} class="column-actions">
            <span>{speed}</span>
            <button
              type="button"
              class="key"
              aria-label={`Fill ${speed} with computed numbers`}
              onClick={() =>
                editing.edit((state) => setLines(state, computedForEmpty(id, column, own, speed)))
              }
            >
              Fill
            </button>
            <button
              type="button"
              class="key"
              aria-label={`Clear ${speed}`}
              disabled={own.every((line) => line[speed] === undefined)}
              onClick={() => editing.edit((state) => clearColumn(state, id, speed))}
            >
              Clear
            </button>
          </div>
        ))}
      </details>
      <AnotherStart pattern={pattern} add={add} />
    </>
  );
}

/** Returns computed numbers for the empty cells of a column. */
function computedForEmpty(
  id: PatternId,
  column: Column,
  own: readonly MeasuredLine[],
  speed: Speed,
): readonly MeasuredLine[] {
  return computedLines(id, column).flatMap(({ pattern, start, [speed]: number }) => {
    const typed = own.find((line) => line.start === start)?.[speed];
    return number === undefined || typed !== undefined ? [] : [{ pattern, start, [speed]: number }];
  });
}

function AnotherStart({ pattern, add }: Pick<ColumnsProps, 'pattern' | 'add'>) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const submit = (event: Event): void => {
    event.preventDefault();
    const read = readStart(text, pattern);
    if (!read.ok || read.number === null) {
      setProblem(read.ok ? null : read.say);
      return;
    }
    add(read.number);
    setText('');
    setProblem(null);
  };
  return (
    <form class="another-start" onSubmit={submit}>
      <label>
        <span>Another start</span>
        <input
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={text}
          aria-invalid={problem !== null}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="key">
        Add a row
      </button>
      <Problem say={problem} />
    </form>
  );
}
