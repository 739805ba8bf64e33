import { type Change, changedCell } from '../charts/index.ts';
import { type ChangeRow, changeRow, patternsWords, type Reading } from './change-words.ts';

/** So many are read at once; the others are a tap away. */
const SHOWN = 8;

/** What changes in a chart, cell by cell, in words. */
export function ChangeList(props: {
  readonly changes: readonly Change[];
  readonly reading: Reading;
  /** What the two values are, where it is not what was and what is. */
  readonly sides?: readonly [from: string, to: string];
}) {
  const cells = props.changes.filter((change) => changedCell(change).of !== 'pattern');
  const rows = cells.map((change) => changeRow(change, props.reading));
  const more = rows.slice(SHOWN);
  return (
    <div class="change-list">
      {patternsWords(props.changes).map((say) => (
        <p key={say}>{say}</p>
      ))}
      <Rows rows={rows.slice(0, SHOWN)} sides={props.sides} />
      {more.length > 0 && (
        <details>
          <summary>And {more.length} more</summary>
          <Rows rows={more} sides={props.sides} />
        </details>
      )}
    </div>
  );
}

function Rows(props: {
  readonly rows: readonly ChangeRow[];
  readonly sides: readonly [string, string] | undefined;
}) {
  const [was, is] = props.sides ?? ['was', 'is'];
  return (
    <ul>
      {props.rows.map(({ name, from, to }) => (
        <li key={name}>
          <strong>{name}</strong>{' '}
          <span>
            {was} {from}, {is} {to}
          </span>
        </li>
      ))}
    </ul>
  );
}
