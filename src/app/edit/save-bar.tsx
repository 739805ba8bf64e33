import { useEffect, useState } from 'preact/hooks';
import type { AppPorts } from '../ports.ts';
import type { Editing } from '../state/editing/editing.ts';
import { SavePanel, type SavingModel } from './save-panel.tsx';

interface BarProps extends Pick<AppPorts, 'go'> {
  readonly model: SavingModel;
  readonly editing: Editing;
}

/** Buttons to undo, redo and save, which stay in reach wherever the page is scrolled to. */
export function SaveBar({ model, editing, go }: BarProps) {
  const [open, setOpen] = useState(false);
  const [said, say] = useState<string | null>(null);
  const { future } = editing.draft.value;
  const changed = editing.changed.value;
  useUndoKeys(editing);
  useEffect(() => {
    if (changed) say(null);
    else setOpen(false);
  }, [changed]);
  return (
    <>
      {open && (
        <SavePanel
          model={model}
          editing={editing}
          close={(done) => {
            setOpen(false);
            say(done);
          }}
        />
      )}
      <p class="soft-words" role="status">
        {said}
      </p>
      <div class={open ? 'save-bar still' : 'save-bar'}>
        <Unreadable editing={editing} go={go} />
        <button type="button" class="key" disabled={!editing.canUndo.value} onClick={editing.undo}>
          Undo
        </button>
        <button type="button" class="key" disabled={future.length === 0} onClick={editing.redo}>
          Redo
        </button>
        <button
          type="button"
          class="key call"
          disabled={!changed || editing.newer.value !== null || open}
          onClick={() => setOpen(true)}
        >
          {changed ? 'Save' : 'Nothing to save'}
        </button>
      </div>
    </>
  );
}

/**
 * Says how many cells prevent saving because their text is not a number. A key goes to the first of
 * them.
 */
function Unreadable({ editing, go }: Pick<BarProps, 'editing' | 'go'>) {
  const { length } = editing.faulty.value;
  const [first] = editing.faulty.value;
  return (
    <div role="status" class={first ? 'unreadable' : ''}>
      {first && (
        <>
          <span class="problem">
            {length === 1
              ? 'One cell is not a number. It keeps its old value.'
              : `${length} cells are not numbers. They keep their old values.`}
          </span>
          <button
            type="button"
            class="key"
            onClick={() => {
              editing.want(first);
              go({ name: 'edit', pattern: first.pattern });
            }}
          >
            {length === 1 ? 'Go to it' : 'Go to the first'}
          </button>
        </>
      )}
    </div>
  );
}

/**
 * Ctrl+Z or ⌘Z undoes. With Shift it redoes, as does Ctrl+Y. This works in cells too, because the
 * draft contains their texts.
 */
function useUndoKeys(editing: Editing): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      const key = event.key.toLowerCase();
      const isZ = key === 'z' && (event.ctrlKey || event.metaKey);
      const isY = key === 'y' && event.ctrlKey;
      if (!(isZ || isY) || event.altKey || isProse(event.target)) return;
      event.preventDefault();
      if (isY || event.shiftKey) editing.redo();
      else editing.undo();
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, [editing]);
}

/**
 * Returns whether the target is in the panel with the name and the reason. These are not part of
 * the draft, so the browser's own undo works there.
 */
function isProse(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.save-panel') !== null;
}
