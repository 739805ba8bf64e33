/** Edits a draft, with undo and redo. */

import { computed, type ReadonlySignal } from '@preact/signals';
import { type ChartState, edit, endRun, redo, undo } from '../../../charts/index.ts';
import { faultyTexts, textToUndo, typedKey, withoutText } from './typed-texts.ts';
import type { WorkingDraft } from './working-draft.ts';

export interface History {
  /** @param run names the thing being edited; consecutive edits with the same name undo as one step */
  readonly edit: (change: (state: ChartState) => ChartState, run?: string) => void;
  /** Makes the next edit a separate step. */
  readonly endRun: () => void;
  readonly canUndo: ReadonlySignal<boolean>;
  /**
   * Undoes the last edit. If a text that is not a number was typed after it, removes that text
   * instead.
   */
  readonly undo: () => void;
  readonly redo: () => void;
}

export function createHistory({ draft, typed, apply }: WorkingDraft): History {
  /** Makes the cells show the draft's numbers again. Texts that are not numbers stay. */
  const forgetNumbers = (): void => {
    typed.value = new Map([...typed.peek()].filter(([, { isNumber }]) => !isNumber));
  };
  return {
    edit: (change, run) => apply(edit(draft.peek(), change, run)),
    endRun: () => {
      draft.value = endRun(draft.peek());
    },
    canUndo: computed(() => draft.value.past.length > 0 || faultyTexts(typed.value).length > 0),
    undo: () => {
      forgetNumbers();
      const { now, past } = draft.peek();
      const text = textToUndo(typed.peek(), now, past.length > 0);
      if (text) typed.value = withoutText(typed.peek(), typedKey(text.cell));
      else apply(undo(draft.peek()));
    },
    redo: () => {
      forgetNumbers();
      apply(redo(draft.peek()));
    },
  };
}
