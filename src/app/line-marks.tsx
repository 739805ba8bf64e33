import { useState } from 'preact/hooks';
import { lineIdOf } from '../cards/index.ts';
import type { Chart, Line } from '../charts/index.ts';
import { type LineMark, NoteForm } from '../quiz/index.ts';
import { FlagMark } from './flag-mark.tsx';
import { type FlagPlayed, flagWords } from './flags.ts';
import { markLine } from './mark-line.ts';
import type { Model } from './model.ts';

/** What the player has said of a chart's line: a flag, a note, that it is set aside. */
export function LineMarks(props: {
  readonly model: Model;
  readonly line: Line;
  /** The flag played on the chart's table; null without a flag, or where it has no place. */
  readonly played: FlagPlayed | null;
}) {
  const { model, line, played } = props;
  const chart: Chart = model.chart.value;
  const log = model.log.value;
  const id = lineIdOf(chart, line);
  const flag = log.flags.get(id);
  const isAside = log.aside.has(id);
  const [said, say] = useState<string | null>(null);
  const mark = (draft: LineMark): Promise<string | null> => markLine(model, draft);
  const setAside = async (): Promise<void> => {
    const done = isAside ? 'It is asked again.' : 'Set aside: it is not asked.';
    say((await mark({ type: 'set aside', line: id, aside: !isAside })) ?? done);
  };
  const takeDown = async (): Promise<void> => {
    if (!flag) return;
    const draft = { type: 'flagged', line: id, speed: flag.speed, number: null } as const;
    say((await mark(draft)) ?? 'The flag is down.');
  };
  return (
    <section class="sheet line-marks" aria-label="Your marks on this line">
      <h2>Your marks</h2>
      {flag && (
        <div class="flag-words">
          <p>
            <FlagMark /> {flagWords(line, flag)}
          </p>
          {played ? (
            <p>
              {played.yours} {played.charts}
            </p>
          ) : (
            <p>There is no such number on the rail it is aimed through.</p>
          )}
          <button type="button" class="key" onClick={() => void takeDown()}>
            Take the flag down
          </button>
        </div>
      )}
      <NoteForm line={id} log={log} mark={mark} />
      <button type="button" class="key" onClick={() => void setAside()}>
        {isAside ? 'Take in again' : 'Set aside'}
      </button>
      {isAside && <p class="soft-words">This line is set aside: it is not asked.</p>}
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}
