import { useState } from 'preact/hooks';
import { type ReadTable, readTable } from '../device/read-shared.ts';
import { FileKey } from './file-key.tsx';
import { Problem } from './saving.tsx';

interface TableInputProps {
  /** A sentence that says what the table changed, or what a table is; null shows none. */
  readonly said: string | null;
  /**
   * Uses the table that was read. Returns a sentence that says why it could not; null if it could.
   */
  readonly use: (table: ReadTable, file: File) => string | null;
}

/** Reads a table of lines from a file, which a spreadsheet or the Publish screen has written. */
export function TableInput({ said, use }: TableInputProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const read = async (file: File): Promise<void> => setProblem(use(await readTable(file), file));
  return (
    <>
      <FileKey label="Choose a table" kind="table" onFile={(file) => void read(file)} />
      <Problem say={problem} />
      <p class="soft-words" role="status">
        {said}
      </p>
    </>
  );
}
