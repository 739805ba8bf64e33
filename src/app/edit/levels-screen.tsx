import '../style/editor.css';
import './levels.css';
import { useMemo, useState } from 'preact/hooks';
import {
  type Chart,
  chartWith,
  isolated,
  LEVEL_NAMES,
  type Level,
  levelOf,
  type Ordered,
  PRIORITIES,
  setLevel,
} from '../../charts/index.ts';
import type { Solver } from '../../workers/index.ts';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import { type EditedModel, type Editing, editingIn } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { LEVELS, LevelLines } from './level-lines.tsx';
import { LevelName } from './level-name.tsx';
import { EditingNotes, Unsaved } from './notes.tsx';
import { SaveBar } from './save-bar.tsx';
import type { SavingModel } from './save-panel.tsx';
import { askOrder } from './suggested-order.ts';

interface LevelsScreenProps extends Pick<AppPorts, 'workspace' | 'solver' | 'go'> {
  readonly model: EditedModel & SavingModel & Pick<Model, 'chart'>;
}

/**
 * The instructor's screen with the three levels of the chart in use. Each level includes the lines
 * of the levels before it.
 */
export function LevelsScreen({ model, workspace, solver, go }: LevelsScreenProps) {
  const { id, name } = model.chart.value.document;
  const editing = editingIn(workspace, model, id);
  if (editing.found.value !== null) return <Unsaved editing={editing} title="Instructor’s view" />;
  return (
    <main class="page editor-page" key={id}>
      <a class="back" href={formatScreen({ name: 'charts' })}>
        Charts
      </a>
      <h1>Instructor’s view</h1>
      <p class="soft-words">
        Who should hold which lines of {isolated(name)}. Three levels, each with the lines of those
        before it: one chart carries them all, and every player chooses the level to be asked.
        Publish the chart, and <a href="#/publish">one file carries all three</a>.
      </p>
      <EditingNotes editing={editing} />
      <Levels model={model} editing={editing} solver={solver} />
      <SaveBar model={model} editing={editing} go={go} />
    </main>
  );
}

interface LevelsProps {
  readonly model: Pick<Model, 'settings'>;
  readonly editing: Editing;
  readonly solver: Solver;
}

function Levels({ model, editing, solver }: LevelsProps) {
  const document = editing.document.value;
  const { now } = editing.draft.value;
  // Computed without the levels, because they do not change the lines.
  const chart = useMemo(
    () => chartWith(document, now),
    [document, now.condition, now.patterns, now.measured],
  );
  const names = now.levels?.names ?? LEVEL_NAMES;
  return (
    <>
      <div class="level-names">
        {LEVELS.map((level) => (
          <LevelName
            key={level}
            level={level}
            name={names[level]}
            others={names.filter((_, n) => n !== level)}
            counts={countWords(chart, editing, level)}
            editing={editing}
          />
        ))}
      </div>
      <SuggestedLevels model={model} editing={editing} solver={solver} />
      {chart.patterns.map((id) => (
        <LevelLines key={id} chart={chart} id={id} names={names} editing={editing} />
      ))}
    </>
  );
}

/** Counts the lines of a level, for example "12 more, 30 in all". */
function countWords({ lines }: Chart, editing: Editing, level: Level): string {
  const { now } = editing.draft.value;
  const levels = lines.map((line) => levelOf(now, line));
  const own = levels.filter((one) => one === level).length;
  const all = levels.filter((one) => one !== null && one <= level).length;
  return level === 0 ? `${own} of ${lines.length} lines` : `${own} more, ${all} in all`;
}

/** Fills each level with a third of the lines, in the suggested order. */
function SuggestedLevels({ model, editing, solver }: LevelsProps) {
  const [said, say] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const fill = (): void => {
    setBusy(true);
    askOrder(model, editing, solver, (order) => {
      setBusy(false);
      if (typeof order === 'string') {
        say(order);
        return;
      }
      editing.edit((state) =>
        LEVELS.reduce((one, level) => setLevel(one, thirdOf(order, level), level), state),
      );
      say('Filled by the suggested order. Undo takes it back.');
    });
  };
  return (
    <div class="suggested-levels">
      <button type="button" class="key" disabled={busy} onClick={fill}>
        {busy ? 'Working it out' : 'Fill by the suggested order'}
      </button>
      <p class="soft-words" role="status">
        {said ??
          'A third of the lines each: those that drop most easily, where they come up most, first.'}
      </p>
    </div>
  );
}

function thirdOf(order: readonly Ordered[], level: Level): readonly Ordered[] {
  return order.filter(({ priority }) => priority === PRIORITIES[level]);
}
