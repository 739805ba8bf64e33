import './daily.css';
import { useState } from 'preact/hooks';
import type { Card } from '../../cards/index.ts';
import { isLineCard, type LineCard } from '../../cards/index.ts';
import { formatDecimal, parseDecimal, patternOf, toDecimal, toNumber } from '../../charts/index.ts';
import type { LogState } from '../../scheduler/index.ts';
import { divisions } from '../../table/index.ts';
import type { Given } from '../words/given.ts';
import type { LineMark } from './mark-line.ts';

/** The maximum length of a note, in characters. */
const LONGEST_NOTE = 500;

/**
 * Shows what a player can do with a line besides answering it: set it aside, write a note, or flag
 * it.
 */
export function LineActions(props: {
  readonly card: Card;
  readonly log: LogState;
  readonly given: Given | null;
  readonly mark: (mark: LineMark) => Promise<string | null>;
  readonly openLine: (card: LineCard) => void;
}) {
  const { card, log } = props;
  const [status, setStatus] = useState<string | null>(null);
  const [isOpen, setOpen] = useState(false);
  const isAside = log.aside.has(card.lineId);
  const what = isLineCard(card) ? 'line' : 'skill';
  const setAside = async (): Promise<void> => {
    const problem = await props.mark({ type: 'set aside', line: card.lineId, aside: !isAside });
    const done = isAside
      ? `It is asked again.`
      : `Set aside: it is not asked until you take it in again, here or on Charts.`;
    setStatus(problem ?? done);
  };
  const note = log.notes.get(card.lineId);
  return (
    <>
      {note && <p class="soft-words kept-note">Your note: {note}</p>}
      <details class="line-actions" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>This {what}</summary>
        {isOpen && (
          <div class="line-actions-body">
            <button type="button" class="key quiet" onClick={() => void setAside()}>
              {isAside ? 'Take in again' : 'Set aside'}
            </button>
            <NoteForm {...props} line={card.lineId} key={card.lineId} />
            {isLineCard(card) && card.kind !== 'trust' && <FlagForm {...props} card={card} />}
            <p class="soft-words" role="status">
              {status}
            </p>
          </div>
        )}
      </details>
    </>
  );
}

/** Shows the form for the note on a line or on a skill, which is identified by its id. */
export function NoteForm(props: {
  readonly line: string;
  readonly log: LogState;
  readonly mark: (mark: LineMark) => Promise<string | null>;
}) {
  const { line, log, mark } = props;
  const saved = log.notes.get(line) ?? '';
  const [text, setText] = useState(saved);
  const [status, setStatus] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    const problem = await mark({ type: 'noted', line, text: text.trim() });
    setStatus(problem ?? 'Noted.');
  };
  return (
    <form
      class="line-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <label>
        <span class="fact-label">Note</span>
        <textarea
          rows={2}
          maxLength={LONGEST_NOTE}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="key quiet" disabled={text.trim() === saved}>
        Keep the note
      </button>
      <span class="soft-words" role="status">
        {status}
      </span>
    </form>
  );
}

/**
 * Lets the player flag a line with the number they believe is right, and opens the line on its
 * chart.
 */
function FlagForm(props: {
  readonly card: LineCard;
  readonly given: Given | null;
  readonly mark: (mark: LineMark) => Promise<string | null>;
  readonly openLine: (card: LineCard) => void;
}) {
  const { card, given, mark, openLine } = props;
  const called = card.kind === 'number' ? given?.values[0] : undefined;
  const { printed } = card.line.numbers.medium;
  const [text, setText] = useState(formatDecimal(called ?? printed));
  const [problem, setProblem] = useState<string | null>(null);
  const flag = async (): Promise<void> => {
    const parsed = parseDecimal(text);
    const most = divisions(patternOf(card.pattern).aim.rail);
    if (!parsed.ok || parsed.value < 0 || parsed.value > toDecimal(most)) {
      setProblem(`A number from 0 to ${most}, please: what you hold to be right at medium speed.`);
      return;
    }
    const number = toNumber(parsed.value);
    const failed = await mark({ type: 'flagged', line: card.lineId, speed: 'medium', number });
    setProblem(failed);
    if (!failed) openLine(card);
  };
  return (
    <form
      class="line-form"
      onSubmit={(event) => {
        event.preventDefault();
        void flag();
      }}
    >
      <label>
        <span class="fact-label">The chart is wrong: at medium it should be</span>
        <input
          inputMode="decimal"
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="key quiet">
        Flag it, and open the line
      </button>
      <span class="problem" role="alert">
        {problem}
      </span>
    </form>
  );
}
