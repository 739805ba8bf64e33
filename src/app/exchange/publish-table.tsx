import { useState } from 'preact/hooks';
import {
  type Chart,
  CSV_DIALECTS,
  type CsvDialect,
  type CsvRow,
  computeChart,
  formatCsv,
  lastRevision,
  measuredRows,
  printedRows,
} from '../../charts/index.ts';
import type { Files } from '../device/files.ts';
import { Choice, OneOf } from '../parts/controls.tsx';

const DIALECT_WORDS: Readonly<Record<CsvDialect, string>> = {
  comma: 'commas, 2.5',
  semicolon: 'semicolons, 2.5',
  'semicolon, decimal comma': 'semicolons, 2,5',
};

type What = 'printed' | 'measured';

/** Saves the chart's lines as a table for a spreadsheet. */
export function TableSheet(props: { readonly chart: Chart; readonly files: Pick<Files, 'save'> }) {
  const { chart, files } = props;
  const measured = measuredRows(chart.state);
  const [what, setWhat] = useState<What>('printed');
  const [dialect, setDialect] = useState<CsvDialect>('comma');
  const [said, say] = useState('');
  const save = (): void => {
    const { document } = chart;
    const name = `${document.id}-revision-${lastRevision(document).number}.csv`;
    const rows = what === 'measured' ? measured : allPrinted(chart);
    files.save(name, new Blob([formatCsv(rows, dialect)], { type: 'text/csv' }));
    say(`Saved as ${name}: ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}.`);
  };
  return (
    <section class="sheet" aria-labelledby="table-title">
      <h2 id="table-title">Table for a spreadsheet</h2>
      {measured.length > 0 && (
        <OneOf
          legend="Which numbers"
          name="table-what"
          options={[
            ['printed', 'All, as printed'],
            ['measured', 'Measured only'],
          ]}
          chosen={what}
          onChoose={setWhat}
        />
      )}
      <Choice
        label="Cells divided by"
        value={dialect}
        options={CSV_DIALECTS.map((one) => [one, DIALECT_WORDS[one]])}
        onChoose={setDialect}
      />
      <p class="soft-words">
        One row a line: its numbers through the sight, priority and remark. A number read back from
        a table counts as measured.
      </p>
      <div class="publish-actions">
        <button type="button" class="key" onClick={save}>
          Save as CSV
        </button>
      </div>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}

/**
 * Returns all lines with numbers through the sight, as every table has them, whatever the player's
 * naming.
 */
function allPrinted(chart: Chart): readonly CsvRow[] {
  return printedRows(chart.naming === 'through' ? chart : computeChart(chart.document));
}
