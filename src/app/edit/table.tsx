import {
  type Decimal,
  type EditorRow,
  formatDecimal,
  type LinePlace,
  type PatternId,
  priorityOf,
  remarkOn,
} from '../../charts/index.ts';
import { SPEEDS } from '../../table/index.ts';
import { SpeedHeads } from '../parts/speed-heads.tsx';
import type { Editing } from '../state/editing/editing.ts';
import { NumberCell } from './cell.tsx';
import type { Named } from './typed-number.ts';

interface TableProps {
  readonly editing: Editing;
  readonly pattern: PatternId;
  readonly rows: readonly EditorRow[];
  readonly named: Named;
  readonly chosen: Decimal | null;
  readonly choose: (start: Decimal) => void;
  /** Chooses the line with this start and brings its panel into view. */
  readonly show: (start: Decimal) => void;
}

/**
 * Shows the numbers in cells, with a row for each start. Arrow keys and Enter move between cells.
 */
export function EditorTable(props: TableProps) {
  const { rows, chosen } = props;
  return (
    <table class="editor-table">
      <caption class="visually-hidden">
        Numbers by start and speed. Enter and the arrow keys go from cell to cell.
      </caption>
      <thead>
        <tr>
          <th scope="col">From</th>
          <SpeedHeads />
        </tr>
      </thead>
      <tbody>
        {rows.map((row, n) => (
          <tr key={row.start} class={row.start === chosen ? 'chosen' : ''}>
            <RowHead {...props} row={row} />
            {SPEEDS.map((speed, column) => (
              <td key={speed}>
                <NumberCell {...props} row={row} speed={speed} at={[n, column]} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function RowHead({ editing, pattern, row, chosen, show }: TableProps & { row: EditorRow }) {
  const { now } = editing.draft.value;
  const place: LinePlace = { pattern, start: row.start };
  const priority = priorityOf(now, place);
  const start = formatDecimal(row.start);
  return (
    <th scope="row">
      <button
        type="button"
        class="row-start"
        aria-pressed={row.start === chosen}
        aria-label={`Show the line from ${start}`}
        onClick={() => show(row.start)}
      >
        {start}
      </button>
      {priority !== 'in turn' && <span class="row-note">{priority}</span>}
      {remarkOn(now, place) !== null && <span class="row-note">remark</span>}
      {row.missing && <span class="row-note lacking">no line yet</span>}
    </th>
  );
}
