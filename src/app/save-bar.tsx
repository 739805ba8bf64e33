import { useEffect, useState } from 'preact/hooks';
import type { Editing } from './editing.ts';
import type { Model } from './model.ts';
import { SavePanel } from './save-panel.tsx';

interface BarProps {
  readonly model: Model;
  readonly editing: Editing;
}

/** Back, forth and save, within reach wherever the page stands. */
export function SaveBar({ model, editing }: BarProps) {
  const [open, setOpen] = useState(false);
  const [said, say] = useState<string | null>(null);
  const { past, future } = editing.draft.value;
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
        <button type="button" class="key" disabled={past.length === 0} onClick={editing.undo}>
          Undo
        </button>
        <button type="button" class="key" disabled={future.length === 0} onClick={editing.redo}>
          Redo
        </button>
        <button
          type="button"
          class="key call"
          disabled={!changed || editing.goneOn.value !== null || open}
          onClick={() => setOpen(true)}
        >
          {changed ? 'Save' : 'Nothing to save'}
        </button>
      </div>
    </>
  );
}

/** Ctrl or ⌘ with Z, and with Shift the other way; in a field too, for the draft knows its texts. */
function useUndoKeys(editing: Editing): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      const isZ = event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey);
      if (!isZ || event.altKey || isProse(event.target)) return;
      event.preventDefault();
      if (event.shiftKey) editing.redo();
      else editing.undo();
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, [editing]);
}

/** A name or a reason that is written is no part of the draft: there the browser undoes. */
function isProse(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.save-panel') !== null;
}
