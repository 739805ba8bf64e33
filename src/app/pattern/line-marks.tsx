import { useState } from 'preact/hooks';
import { lineIdOf } from '../../cards/index.ts';
import type { Line } from '../../charts/index.ts';
import { type LineMark, markLine, NoteForm } from '../../quiz/index.ts';
import { FlagMark } from '../parts/flag-mark.tsx';
import { type FlagPlayed, flagWords } from '../parts/flags.ts';
import type { Model } from '../state/model.ts';

/** Shows the player's marks on a line: its flag, its note, and whether the line is set aside. */
export function LineMarks(props: {
  readonly model: Pick<Model, 'log' | 'chart' | 'append' | 'today' | 'now'>;
  readonly line: Line;
  /**
   * What the flagged number does on the chart's table. Null if there is no flag, or if the rail has
   * no place for the flagged number.
   */
  readonly played: FlagPlayed | null;
}) {
  const { model, line } = props;
  const log = model.log.value;
  const id = lineIdOf(model.chart.value, line);
  const [said, say] = useState<string | null>(null);
  const mark = (draft: LineMark): Promise<string | null> => markLine(model, draft);
  const put = (draft: LineMark, done: string): void => {
    void mark(draft).then((problem) => say(problem ?? done));
  };
  const flag = log.flags.get(id);
  return (
    <section class="sheet line-marks" aria-label="Your marks on this line">
      <h2>Your marks</h2>
      {flag && (
        <FlagWords
          words={flagWords(line, flag)}
          played={props.played}
          takeDown={() =>
            put({ type: 'flagged', line: id, speed: flag.speed, number: null }, 'The flag is down.')
          }
        />
      )}
      <NoteForm line={id} log={log} mark={mark} />
      <Aside id={id} isAside={log.aside.has(id)} put={put} />
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}

function FlagWords(props: {
  readonly words: string;
  readonly played: FlagPlayed | null;
  readonly takeDown: () => void;
}) {
  const { words, played } = props;
  return (
    <div class="flag-words">
      <p>
        <FlagMark /> {words}
      </p>
      {played ? (
        <p>
          {played.yours} {played.charts}
        </p>
      ) : (
        <p>There is no such number on the rail it is aimed through.</p>
      )}
      <button type="button" class="key" onClick={props.takeDown}>
        Take the flag down
      </button>
    </div>
  );
}

function Aside(props: {
  readonly id: string;
  readonly isAside: boolean;
  readonly put: (draft: LineMark, done: string) => void;
}) {
  const { id, isAside, put } = props;
  const done = isAside ? 'It is asked again.' : 'Set aside.';
  return (
    <>
      <button
        type="button"
        class="key"
        onClick={() => put({ type: 'set aside', line: id, aside: !isAside }, done)}
      >
        {isAside ? 'Take in again' : 'Set aside'}
      </button>
      {isAside && <p class="soft-words">This line is set aside: it is not asked.</p>}
    </>
  );
}
