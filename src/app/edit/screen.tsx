import '../style/editor.css';
import { isolated, type PatternId, patternOf } from '../../charts/index.ts';
import { Choice } from '../parts/controls.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import { type EditedModel, type Editing, editingIn } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { EditorImport } from './import.tsx';
import { EditingNotes, Unsaved } from './notes.tsx';
import { EditorOrder } from './order.tsx';
import { PatternEditor } from './pattern-editor.tsx';
import { EditorPatterns } from './patterns.tsx';
import { SaveBar } from './save-bar.tsx';
import type { SavingModel } from './save-panel.tsx';

interface EditorProps extends Pick<AppPorts, 'workspace' | 'go' | 'solver'> {
  readonly model: EditedModel & SavingModel & Pick<Model, 'chart'>;
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

/**
 * Returns the chart's patterns, and the pattern of the address even if the chart no longer has it.
 */
function choices(patterns: readonly PatternId[], shown: PatternId) {
  const all = patterns.includes(shown) ? patterns : [...patterns, shown];
  return all.map((id) => [id, patternOf(id).name] as const);
}
