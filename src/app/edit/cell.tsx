import { useEffect, useRef } from 'preact/hooks';
import {
  type Decimal,
  type EditorCell,
  type EditorRow,
  formatDecimal,
  type PatternId,
} from '../../charts/index.ts';
import type { Speed } from '../../table/index.ts';
import { missingWords } from '../parts/missing.ts';
import type { Editing } from '../state/editing/editing.ts';
import { typedKey } from '../state/editing/typed-texts.ts';
import { type Named, readTyped, showAim, showOff, showTyped } from './typed-number.ts';

interface CellProps {
  readonly editing: Editing;
  readonly pattern: PatternId;
  readonly row: EditorRow;
  readonly speed: Speed;
  readonly named: Named;
  /** The row and the column of the cell. */
  readonly at: readonly [number, number];
  readonly choose: (start: Decimal) => void;
}

/** A field for a number, with notes on the number below it. */
export function NumberCell(props: CellProps) {
  const { editing, pattern, row, speed, named, at, choose } = props;
  const { start } = row;
  const cell = row.cells[speed];
  const place = { pattern, start, speed };
  const key = typedKey(place);
  const text = editing.typed.value.get(key)?.text;
  const shown = text ?? (cell.own === null ? '' : showTyped(cell.own, start, named));
  const typed = readTyped(shown, start, named);
  const noteId = `cell-${at.join('-')}`;
  const field = useWanted(editing, key);
  return (
    <>
      <input
        ref={field}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        enterkeyhint="next"
        class={cell.expected === null ? '' : 'unlike'}
        value={shown}
        placeholder={placeholderOf(cell, start, named)}
        aria-label={`From ${formatDecimal(start)}, ${speed}`}
        aria-invalid={!typed.ok}
        aria-describedby={noteId}
        data-cell={at.join(':')}
        onFocus={() => choose(start)}
        onInput={(event) => {
          const { value } = event.currentTarget;
          editing.typeInto(place, value, readTyped(value, start, named));
        }}
        onBlur={() => editing.leave(place)}
        onKeyDown={(event) => move(event, at)}
      />
      <span id={noteId} class="cell-note">
        {typed.ok ? (
          <CellNote cell={cell} start={start} named={named} />
        ) : (
          <Fault say={typed.say} />
        )}
      </span>
    </>
  );
}

/**
 * Returns a ref for the cell's field. When the cell is wanted, its field takes the focus and
 * scrolls into view.
 */
function useWanted(editing: Editing, key: string) {
  const field = useRef<HTMLInputElement>(null);
  const isWanted = editing.wanted.value === key;
  useEffect(() => {
    if (!isWanted) return;
    editing.want(null);
    field.current?.focus({ preventScroll: true });
    field.current?.scrollIntoView({ block: 'center' });
  }, [isWanted, editing]);
  return field;
}

/**
 * Returns the chart's number for an empty cell. A computed number is left out, because it is shown
 * below the cell.
 */
function placeholderOf({ filled }: EditorCell, start: Decimal, named: Named): string {
  if (!filled || filled.source === 'computed') return '';
  return `${filled.source === 'interpolated' ? '≈' : '±'}${showAim(filled.aim, start, named)}`;
}

function Fault({ say }: { readonly say: string }) {
  return <span class="fault">{say}</span>;
}

/**
 * Shows the computed number. Beside a typed number it also says how far the two differ, and which
 * number the other lines make likely.
 */
function CellNote(props: {
  readonly cell: EditorCell;
  readonly start: Decimal;
  readonly named: Named;
}) {
  const { cell, start, named } = props;
  const { own, computed, why, expected, filled } = cell;
  return (
    <>
      {computed === null ? (
        <span title={why ? missingWords(why) : ''}>
          –<span class="visually-hidden"> nothing computed: {why && missingWords(why)}</span>
        </span>
      ) : (
        <span>
          <span class="visually-hidden">computed </span>
          {showAim(computed, start, named)}
          {own !== null && (
            <>
              <span class="visually-hidden">, typed is off it by</span>{' '}
              <strong>{showOff(own, computed, start, named)}</strong>
            </>
          )}
        </span>
      )}
      {filled && filled.source !== 'computed' && (
        <span class="visually-hidden">
          {' '}
          empty: {filled.source} {showAim(filled.aim, start, named)}
        </span>
      )}
      {expected !== null && (
        <span class="unlike-words">
          unlike the others: about {showAim(expected, start, named)}?
        </span>
      )}
    </>
  );
}

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  Enter: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/**
 * Moves to the neighboring cell. The left and right keys do so only from that end of the text,
 * because they also move within it.
 */
function move(event: KeyboardEvent, [row, column]: readonly [number, number]): void {
  const step = STEPS[event.key];
  const input = event.currentTarget as HTMLInputElement;
  if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
  const end = event.key === 'ArrowLeft' ? 0 : input.value.length;
  const atEnd = input.selectionStart === end && input.selectionEnd === end;
  const all = input.selectionEnd === input.value.length && input.selectionStart === 0;
  if (step[1] !== 0 && !atEnd && !all) return;
  const [down, right] = event.shiftKey && event.key === 'Enter' ? [-1, 0] : step;
  const cell = `${row + down}:${column + right}`;
  const next = input.closest('table')?.querySelector<HTMLInputElement>(`[data-cell="${cell}"]`);
  event.preventDefault();
  next?.focus();
  next?.select();
}
