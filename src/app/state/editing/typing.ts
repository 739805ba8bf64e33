/** Handles typing into the editor's cells. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { edit, endRun, setNumber } from '../../../charts/index.ts';
import {
  faultyCells,
  numberIn,
  type TypedCell,
  type TypedNumber,
  type TypedTexts,
  typedKey,
  withoutText,
  withText,
} from './typed-texts.ts';
import type { WorkingDraft } from './working-draft.ts';

export interface Typing {
  /** The texts that are being typed or that are not numbers, by cell. */
  readonly typed: ReadonlySignal<TypedTexts>;
  /** The cells with a text that is not a number, in the editor's order. */
  readonly faulty: ReadonlySignal<readonly TypedCell[]>;
  /** Sets the cell to the typed number. A text that is not a number restores the number before it. */
  readonly typeInto: (cell: TypedCell, text: string, number: TypedNumber) => void;
  /** Ends the typing in a cell. A text that is not a number stays. */
  readonly leave: (cell: TypedCell) => void;
  /** The key of the cell that the screen has to focus next; null when that is done. */
  readonly wanted: ReadonlySignal<string | null>;
  readonly want: (cell: TypedCell | null) => void;
}

export function createTyping({ draft, typed, apply }: WorkingDraft): Typing {
  const wanted = signal<string | null>(null);
  return {
    typed,
    faulty: computed(() => faultyCells(typed.value)),
    typeInto: (cell, text, read) => {
      const key = typedKey(cell);
      const last = typed.peek().get(key);
      const before = last?.isNumber ? last.before : numberIn(draft.peek().now, cell);
      const number = read.ok ? read.number : before;
      apply(edit(draft.peek(), (state) => setNumber(state, cell, cell.speed, number), key));
      const at = draft.peek().now;
      typed.value = withText(typed.peek(), { cell, text, isNumber: read.ok, before, at });
    },
    leave: (cell) => {
      const key = typedKey(cell);
      if (typed.peek().get(key)?.isNumber) typed.value = withoutText(typed.peek(), key);
      draft.value = endRun(draft.peek());
    },
    wanted,
    want: (cell) => {
      wanted.value = cell && typedKey(cell);
    },
  };
}
