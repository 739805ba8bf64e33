import '../style/editor.css';
import './levels.css';
import { useMemo, useState } from 'preact/hooks';
import {
  type Chart,
  chartWith,
  type Decimal,
  formatDecimal,
  isolated,
  LEVEL_NAMES,
  type Level,
  type Line,
  levelOf,
  type Ordered,
  type PatternId,
  PRIORITIES,
  patternOf,
  renameLevel,
  setLevel,
} from '../../charts/index.ts';
import type { Solver } from '../../workers/index.ts';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import { type Editing, editingIn } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { EditingNotes, Unsaved } from './notes.tsx';
import { SaveBar } from './save-bar.tsx';
import { askOrder } from './suggested-order.ts';

const LEVELS: readonly Level[] = [0, 1, 2];

/** The instructor's view: three levels of the chart in use, each including those before it. */
export function LevelsScreen({
  model,
  workspace,
  solver,
  go,
}: Pick<AppPorts, 'model' | 'workspace' | 'solver' | 'go'>) {
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
  // Without the levels, which do not change the lines.
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
        <PatternLevels key={id} chart={chart} id={id} names={names} editing={editing} />
      ))}
    </>
  );
}

/** "12 lines, 30 with those before". */
function countWords({ lines }: Chart, editing: Editing, level: Level): string {
  const { now } = editing.draft.value;
  const levels = lines.map((line) => levelOf(now, line));
  const own = levels.filter((one) => one === level).length;
  const all = levels.filter((one) => one !== null && one <= level).length;
  return level === 0 ? `${own} of ${lines.length} lines` : `${own} more, ${all} in all`;
}

function LevelName(props: {
  readonly level: Level;
  readonly name: string;
  readonly others: readonly string[];
  readonly counts: string;
  readonly editing: Editing;
}) {
  const { level, name, others, counts, editing } = props;
  const [text, setText] = useState<string | null>(null);
  // The typed text, while it is the level's name or cannot be one; else the name, which undo changed.
  const isOwn = text !== null && (text.trim() === name || faultOf(text, others) !== null);
  const shown = isOwn ? text : name;
  const fault = faultOf(shown, others);
  const type = (typed: string): void => {
    setText(typed);
    if (faultOf(typed, others) === null)
      editing.edit((state) => renameLevel(state, level, typed.trim()), `level name ${level}`);
  };
  return (
    <label class="field level-name">
      <span>Level {level + 1}</span>
      <input
        type="text"
        maxLength={40}
        value={shown}
        aria-invalid={fault !== null}
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={() => {
          setText(fault === null ? null : shown);
          editing.endRun();
        }}
      />
      <span class={fault === null ? 'soft-words' : 'problem'}>{fault ?? counts}</span>
    </label>
  );
}

function faultOf(name: string, others: readonly string[]): string | null {
  if (name.trim() === '') return 'A level needs a name.';
  return others.includes(name.trim()) ? 'Another level is called that.' : null;
}

interface PatternProps {
  readonly chart: Chart;
  readonly id: PatternId;
  readonly names: readonly string[];
  readonly editing: Editing;
}

/** The lines of a pattern. A tap moves a line to the next level, from the last one to none. */
function PatternLevels({ chart, id, names, editing }: PatternProps) {
  const { now } = editing.draft.value;
  const lines = chart.lines.filter(({ pattern }) => pattern === id);
  const { name } = patternOf(id);
  if (lines.length === 0) return null;
  const put = (some: readonly Line[], level: Level | null): void =>
    editing.edit((state) => setLevel(state, some, level));
  return (
    <section class="sheet pattern-levels" aria-label={name}>
      <h2>{name}</h2>
      <ul class="level-grid">
        {lines.map((line) => {
          const level = levelOf(now, line);
          return (
            <li key={line.start}>
              <LineLevel
                start={line.start}
                level={level}
                names={names}
                next={() => put([line], levelAfter(level))}
              />
            </li>
          );
        })}
      </ul>
      <div class="actions">
        {LEVELS.map((level) => (
          <button
            key={level}
            type="button"
            class="plain"
            aria-label={`All into ${level + 1}: ${name}`}
            onClick={() => put(lines, level)}
          >
            All into {level + 1}
          </button>
        ))}
        <button
          type="button"
          class="plain"
          aria-label={`None: ${name}`}
          onClick={() => put(lines, null)}
        >
          None
        </button>
      </div>
    </section>
  );
}

function levelAfter(level: Level | null): Level | null {
  if (level === null) return 0;
  return level === 2 ? null : ((level + 1) as Level);
}

function LineLevel(props: {
  readonly start: Decimal;
  readonly level: Level | null;
  readonly names: readonly string[];
  readonly next: () => void;
}) {
  const { start, level, names, next } = props;
  return (
    <button type="button" class="line-level" data-level={level ?? 'none'} onClick={next}>
      <span>
        <span class="visually-hidden">From </span>
        {formatDecimal(start)}
        <span class="visually-hidden">: {level === null ? 'in no level' : 'level '}</span>
      </span>
      {level === null ? (
        <strong aria-hidden="true">–</strong>
      ) : (
        <strong>
          {level + 1}
          <span class="visually-hidden">, {isolated(names[level] ?? '')}</span>
        </strong>
      )}
    </button>
  );
}

/** Fills the levels by the suggested order, a third of the lines each. */
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
