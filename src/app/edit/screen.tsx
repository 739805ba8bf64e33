import { useMemo, useState } from 'preact/hooks';
import {
  type Basis,
  type Decimal,
  editorRows,
  isolated,
  type PatternId,
  patternOf,
  rowStarts,
  solvedColumn,
  toNumber,
} from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { TABLES } from '../../table/index.ts';
import { Choice } from '../parts/controls.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import { type Editing, editingIn } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { EditorColumns } from './columns.tsx';
import { EditorImport } from './import.tsx';
import { EditorLine } from './line.tsx';
import { EditingNotes, Unsaved } from './notes.tsx';
import { EditorOrder } from './order.tsx';
import { EditorPatterns } from './patterns.tsx';
import { SaveBar } from './save-bar.tsx';
import { EditorTable } from './table.tsx';
import type { Named } from './typed-number.ts';
import '../style/editor.css';

interface EditorProps extends Pick<AppPorts, 'model' | 'workspace' | 'go' | 'solver'> {
  readonly pattern: PatternId | null;
}

/** Edits the chart in use: its numbers, priorities, remarks, patterns and condition. */
export function EditorScreen(props: EditorProps) {
  const { model, workspace } = props;
  const { id } = model.chart.value.document;
  return <Editor {...props} editing={editingIn(workspace, model, id)} key={id} />;
}

function Editor(props: EditorProps & { readonly editing: Editing }) {
  const { model, editing, solver, go } = props;
  const name = isolated(editing.document.value.name);
  const { patterns } = editing.draft.value.now;
  const pattern = props.pattern ?? patterns[0] ?? null;
  if (editing.found.value !== null) return <Unsaved editing={editing} title={`Edit ${name}`} />;
  return (
    <main class="page editor-page">
      <a class="back" href={formatScreen({ name: 'charts' })}>
        Charts
      </a>
      <h1>Edit {name}</h1>
      <EditingNotes editing={editing} />
      {pattern === null ? (
        <p>This chart has no pattern yet: choose some under “Patterns and table”.</p>
      ) : (
        <>
          <Choice
            label="Pattern"
            value={pattern}
            options={choices(patterns, pattern)}
            onChoose={(id) => go({ name: 'edit', pattern: id })}
          />
          <PatternEditor model={model} editing={editing} id={pattern} key={pattern} />
        </>
      )}
      <EditorOrder model={model} editing={editing} solver={solver} />
      <EditorImport editing={editing} />
      <EditorPatterns model={model} editing={editing} />
      <SaveBar model={model} editing={editing} go={go} />
    </main>
  );
}

/** The chart's patterns, and the one of the address even if the chart no longer has it. */
function choices(patterns: readonly PatternId[], shown: PatternId) {
  const all = patterns.includes(shown) ? patterns : [...patterns, shown];
  return all.map((id) => [id, patternOf(id).name] as const);
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

function PatternEditor(props: {
  readonly model: Pick<Model, 'settings' | 'chart'>;
  readonly editing: Editing;
  readonly id: PatternId;
}) {
  const { model, editing, id } = props;
  const settings = model.settings.value;
  const document = editing.document.value;
  const { now } = editing.draft.value;
  const [others, setOthers] = useState<readonly Decimal[]>([]);
  const [chosen, choose] = useState<Decimal | null>(null);
  const [asked, setAsked] = useState(0);
  // A row stays while it has a text that is not a number, so that the player can correct it.
  const texts = [...editing.typed.value.values()].filter(({ cell }) => cell.pattern === id);
  const starts = rowStarts(document, now, id, [...others, ...texts.map(({ cell }) => cell.start)]);
  const column = useMemo(
    () => solvedColumn(document, now, id, starts),
    [document.table, document.startStep, now.condition, id, starts.join()],
  );
  const rows = editorRows(document, now, id, column, toNumber(toleranceOf(settings)));
  const row = rows.find(({ start }) => start === chosen) ?? rows[Math.floor(rows.length / 2)];
  const pattern = patternOf(id);
  const named: Named = { table: TABLES[document.table], pattern, naming: settings.naming };
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
        <p class="soft-words">{keyWords(document.basis)}</p>
        <EditorColumns
          editing={editing}
          pattern={pattern}
          column={column}
          add={(start) => {
            setOthers([...others, start]);
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
