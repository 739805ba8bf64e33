import { useState } from 'preact/hooks';
import { type CsvRow, patternOf } from '../../charts/index.ts';
import { readTable } from '../device/read-shared.ts';
import type { ReadIn } from './new-form.ts';

/** Longer names of files are cut: they stand in the reason of the first revision. */
const LONGEST_NAME = 80;

interface FileProps {
  readonly read: ReadIn | null;
  readonly choose: (read: ReadIn | null) => void;
}

/** The table of numbers that a chart begins with. */
export function TableFile({ read, choose }: FileProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const table = await readTable(file);
    const rows = table.ok ? table.rows : [];
    const say = table.ok ? 'There is no number in it.' : table.say;
    setProblem(rows.length === 0 ? say : null);
    choose(rows.length === 0 ? null : { name: file.name.slice(0, LONGEST_NAME), rows });
  };
  return (
    <div class="table-file">
      <label class="key file">
        Choose a table
        <input
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
          onChange={(event) => {
            const input = event.currentTarget;
            void take(input.files?.[0]).then(() => {
              input.value = '';
            });
          }}
        />
      </label>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <p class="soft-words" role="status">
        {read ? foundWords(read) : 'A CSV file with a row for each line, as Publish writes it.'}
      </p>
    </div>
  );
}

/** "numbers.csv: 12 rows, of Foot rail to side; Cross-side." */
function foundWords({ name, rows }: ReadIn): string {
  const count = rows.length === 1 ? 'one row' : `${rows.length} rows`;
  return `${name}: ${count}, of ${patternsOf(rows).join('; ')}.`;
}

function patternsOf(rows: readonly CsvRow[]): readonly string[] {
  return [...new Set(rows.map(({ pattern }) => patternOf(pattern).name))];
}
