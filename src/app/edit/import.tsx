import { useState } from 'preact/hooks';
import { withCsv } from '../../charts/index.ts';
import { readTable } from '../device/read-shared.ts';
import type { Editing } from '../state/editing/editing.ts';
import { importWords } from './import-words.ts';

/** A table of lines, as a spreadsheet or Publish writes it, read into the chart as one step. */
export function EditorImport({ editing }: { readonly editing: Editing }) {
  const [said, say] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const taken = await takeIn(editing, file);
    setProblem(taken.ok ? null : taken.say);
    say(taken.ok ? taken.say : null);
  };
  return (
    <details class="uses sheet">
      <summary>Read a table in</summary>
      <p class="soft-words">
        A CSV file with a row for each line, as Publish writes it. Its filled cells take the place
        of the chart’s, empty ones leave it. Numbers are through the sight.
      </p>
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
        {said}
      </p>
    </details>
  );
}

/** What the table did to the chart, or why it was not taken in. */
async function takeIn(
  editing: Editing,
  file: File,
): Promise<{ readonly ok: boolean; readonly say: string }> {
  const table = await readTable(file);
  if (!table.ok) return { ok: false, say: `Nothing was changed. ${table.say}` };
  const { now } = editing.draft.peek();
  const after = withCsv(now, table.rows);
  if (!after)
    return {
      ok: false,
      say: 'Nothing was changed. With this table it would have more lines than a chart can.',
    };
  editing.edit(() => after);
  return { ok: true, say: importWords(now, after, table.encoding) };
}
