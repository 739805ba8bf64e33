import { useState } from 'preact/hooks';
import { withCsv } from '../../charts/index.ts';
import type { ReadTable } from '../device/read-shared.ts';
import { TableInput } from '../parts/table-input.tsx';
import type { Editing } from '../state/editing/editing.ts';
import { importWords } from './import-words.ts';

/** Reads a table of lines into the chart, as a single step that one undo takes back. */
export function EditorImport({ editing }: { readonly editing: Editing }) {
  const [said, say] = useState<string | null>(null);
  const use = (table: ReadTable): string | null => {
    const imported = importTable(editing, table);
    say(imported.ok ? imported.say : null);
    return imported.ok ? null : `Nothing was changed. ${imported.say}`;
  };
  return (
    <details class="uses sheet">
      <summary>Read a table in</summary>
      <p class="soft-words">
        A CSV file with a row for each line, as Publish writes it. Its filled cells take the place
        of the chart’s, empty ones leave it. Numbers are through the sight.
      </p>
      <TableInput said={said} use={use} />
    </details>
  );
}

/**
 * Imports a table.
 * @returns what the table changed, or why it changed nothing
 */
function importTable(
  editing: Editing,
  table: ReadTable,
): { readonly ok: boolean; readonly say: string } {
  if (!table.ok) return table;
  const { now } = editing.draft.peek();
  const after = withCsv(now, table.rows);
  if (!after)
    return { ok: false, say: 'With this table it would have more lines than a chart can.' };
  editing.edit(() => after);
  return { ok: true, say: importWords(now, after, table.encoding) };
}
