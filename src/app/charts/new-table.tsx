import { type CsvRow, patternOf } from '../../charts/index.ts';
import type { ReadTable } from '../device/read-shared.ts';
import { TableInput } from '../parts/table-input.tsx';
import type { TableFile } from './new-form.ts';

/**
 * Longer file names are cut, because the file's name goes into the reason of the first revision.
 */
const LONGEST_NAME = 80;

interface FirstTableProps {
  readonly table: TableFile | null;
  readonly choose: (table: TableFile | null) => void;
}

/** Reads the table of numbers that a new chart starts from. */
export function FirstTable({ table: chosen, choose }: FirstTableProps) {
  const use = (table: ReadTable, file: File): string | null => {
    const rows = table.ok ? table.rows : [];
    choose(rows.length === 0 ? null : { name: file.name.slice(0, LONGEST_NAME), rows });
    if (!table.ok) return table.say;
    return rows.length === 0 ? 'There is no number in it.' : null;
  };
  const said = chosen
    ? foundWords(chosen)
    : 'A CSV file with a row for each line, as Publish writes it.';
  return (
    <div class="table-file">
      <TableInput said={said} use={use} />
    </div>
  );
}

/** Returns a sentence such as "numbers.csv: 12 rows, of Foot rail to side; Cross-side." */
function foundWords({ name, rows }: TableFile): string {
  const count = rows.length === 1 ? 'one row' : `${rows.length} rows`;
  return `${name}: ${count}, of ${patternsOf(rows).join('; ')}.`;
}

function patternsOf(rows: readonly CsvRow[]): readonly string[] {
  return [...new Set(rows.map(({ pattern }) => patternOf(pattern).name))];
}
