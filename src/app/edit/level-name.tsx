import { useState } from 'preact/hooks';
import { type Level, renameLevel } from '../../charts/index.ts';
import type { Editing } from '../state/editing/editing.ts';

/** A field for the name of a level. */
export function LevelName(props: {
  readonly level: Level;
  readonly name: string;
  readonly others: readonly string[];
  readonly counts: string;
  readonly editing: Editing;
}) {
  const { level, name, others, counts, editing } = props;
  const [text, setText] = useState<string | null>(null);
  // Show the typed text while it is the level's name or cannot be a name. Otherwise undo has
  // changed the level's name, so show that name.
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
