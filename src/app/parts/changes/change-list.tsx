import './changes.css';
import { type Change, changedCell } from '../../../charts/index.ts';
import {
  type ChangeRow,
  changeRow,
  patternsWords,
  type Reading,
  type Sides,
} from './change-words.ts';
import { levelWords } from './level-words.ts';

/** How many changes are listed at once; a tap shows the others. */
const SHOWN = 5;

/**
 * Lists what changes in a chart, cell by cell. Changes of patterns and of levels are summed up in
 * sentences.
 */
export function ChangeList(props: {
  readonly changes: readonly Change[];
  readonly reading: Reading;
  readonly sides?: Sides;
}) {
  const { changes, reading, sides = null } = props;
  const rowsOf = (wanted: (of: ReturnType<typeof changedCell>['of']) => boolean) =>
    changes.filter((one) => wanted(changedCell(one).of)).map((one) => changeRow(one, reading));
  const levels = rowsOf((of) => of === 'level');
  const rows = rowsOf((of) => of !== 'pattern' && of !== 'level' && of !== 'level name');
  const sums = [
    ...patternsWords(changes, sides),
    ...levelWords(changes, reading.levels?.names ?? [], sides),
  ];
  return (
    <div class="change-list">
      {sums.map((say) => (
        <p key={say}>{say}</p>
      ))}
      <Folded title="Level by line" rows={levels} sides={sides} />
      <Rows rows={rows.slice(0, SHOWN)} sides={sides} />
      <Folded title={`And ${rows.length - SHOWN} more`} rows={rows.slice(SHOWN)} sides={sides} />
    </div>
  );
}

interface RowsProps {
  readonly rows: readonly ChangeRow[];
  readonly sides: Sides | null;
}

function Folded({ title, rows, sides }: RowsProps & { readonly title: string }) {
  if (rows.length === 0) return null;
  return (
    <details>
      <summary>{title}</summary>
      <Rows rows={rows} sides={sides} />
    </details>
  );
}

function Rows({ rows, sides }: RowsProps) {
  if (rows.length === 0) return null;
  const [was, is] = sides ?? ['was', 'is'];
  return (
    <ul>
      {rows.map(({ name, from, to }) => (
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
