import { useMemo, useState } from 'preact/hooks';
import {
  type Basis,
  type Decimal,
  editorRows,
  type PatternId,
  patternOf,
  rowStarts,
  solvedColumn,
  toNumber,
} from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { TABLES } from '../../table/index.ts';
import type { Editing } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { EditorColumns } from './columns.tsx';
import { EditorLine } from './line.tsx';
import { EditorTable } from './table.tsx';
import type { Named } from './typed-number.ts';

interface PatternEditorProps {
  readonly model: Pick<Model, 'settings' | 'chart'>;
  readonly editing: Editing;
  readonly id: PatternId;
}

/** Edits a pattern: the table of its numbers, and the line of the chosen row. */
export function PatternEditor({ model, editing, id }: PatternEditorProps) {
  const [chosen, choose] = useState<Decimal | null>(null);
  const [asked, setAsked] = useState(0);
  const { rows, column, addStart } = useRows(model, editing, id);
  const row = rows.find(({ start }) => start === chosen) ?? rows[Math.floor(rows.length / 2)];
  const { table, basis } = editing.document.value;
  const pattern = patternOf(id);
  const named: Named = { table: TABLES[table], pattern, naming: model.settings.value.naming };
  return (
    <div class="editor-body">
      <div class="editor-numbers">
        <p class="soft-words">{pattern.path}</p>
        <EditorTable
          editing={editing}
          pattern={id}
          rows={rows}
          named={named}
          chosen={row?.start ?? null}
          choose={choose}
          show={(start) => {
            choose(start);
            setAsked(asked + 1);
          }}
        />
        <p class="soft-words">{keyWords(basis)}</p>
        <EditorColumns
          editing={editing}
          pattern={pattern}
          column={column}
          add={(start) => {
            addStart(start);
            choose(start);
          }}
        />
      </div>
      {row && (
        <EditorLine
          model={model}
          editing={editing}
          pattern={id}
          row={row}
          named={named}
          asked={asked}
        />
      )}
    </div>
  );
}

/**
 * Returns the rows of a pattern's table, their computed numbers, and `addStart`, which adds a row.
 */
function useRows(model: Pick<Model, 'settings'>, editing: Editing, id: PatternId) {
  const document = editing.document.value;
  const { now } = editing.draft.value;
  const [others, setOthers] = useState<readonly Decimal[]>([]);
  // A row stays as long as one of its texts is not a number, so that the player can correct the
  // text.
  const texts = [...editing.typed.value.values()].filter(({ cell }) => cell.pattern === id);
  const starts = rowStarts(document, now, id, [...others, ...texts.map(({ cell }) => cell.start)]);
  const column = useMemo(
    () => solvedColumn(document, now, id, starts),
    [document.table, document.startStep, now.condition, id, starts.join()],
  );
  const tolerance = toNumber(toleranceOf(model.settings.value));
  const rows = editorRows(document, now, id, column, tolerance);
  return { rows, column, addStart: (start: Decimal) => setOthers([...others, start]) };
}

/** Explains the numbers in and below the cells. */
function keyWords(basis: Basis): string {
  const below =
    'Below a cell stands the computed number and, in bold, how far the typed one is off it.';
  const inside =
    '± is what the chart has in an empty cell by the line’s other numbers and the computed window';
  return basis === 'computed'
    ? `${below} ${inside}; a row without a typed number is computed.`
    : `${below} ${inside}, ≈ what lies between the typed ones of the column. Only rows with a typed number are lines of this chart.`;
}
