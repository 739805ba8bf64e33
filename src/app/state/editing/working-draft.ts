/** Keeps the draft of a chart, the revision that it is based on, and the texts typed into its cells. */

import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import {
  beginDraft,
  type ChartDocument,
  type ChartDraft,
  type ChartState,
  type Draft,
  digestOf,
  edit,
  isSameState,
  lastRevision,
  type Revision,
  stateOf,
} from '../../../charts/index.ts';
import type { TypedTexts } from './typed-texts.ts';

export interface WorkingDraft {
  readonly document: ReadonlySignal<ChartDocument>;
  readonly base: ReadonlySignal<Revision>;
  readonly draft: Signal<Draft>;
  readonly typed: Signal<TypedTexts>;
  readonly changed: ReadonlySignal<boolean>;
  /** Starts over from a revision. If `state` differs from it, that is one step, which can be undone. */
  readonly begin: (revision: Revision, state?: ChartState) => void;
  /** Shows the next draft and stores it. */
  readonly apply: (next: Draft) => void;
  /** Stores the draft, or removes the stored one if nothing is changed. */
  readonly store: () => void;
}

export function createWorkingDraft(
  document: ReadonlySignal<ChartDocument>,
  storeDraft: (draft: ChartDraft | null) => void,
): WorkingDraft {
  const base = signal<Revision>(lastRevision(document.peek()));
  const draft = signal(beginDraft(stateOf(base.peek())));
  const typed = signal<TypedTexts>(new Map());
  const changed = computed(() => !isSameState(draft.value.now, stateOf(base.value)));
  const store = (): void =>
    storeDraft(changed.peek() ? { base: digestOf(base.peek()), state: draft.peek().now } : null);
  return {
    document,
    base,
    draft,
    typed,
    changed,
    begin: (revision, state = stateOf(revision)) => {
      base.value = revision;
      draft.value = edit(beginDraft(stateOf(revision)), () => state);
      typed.value = new Map();
    },
    apply: (next) => {
      if (next === draft.peek()) return;
      draft.value = next;
      store();
    },
    store,
  };
}

/** Returns the chart's last revision if the draft is based on a different one; otherwise null. */
export function newerRevision({ document, base }: WorkingDraft): Revision | null {
  const last = lastRevision(document.value);
  return digestOf(last) === digestOf(base.value) ? null : last;
}

/** Moves a draft without changes on to each new revision of its chart. */
export function followChart(working: WorkingDraft): void {
  effect(() => {
    const last = lastRevision(working.document.value);
    if (digestOf(last) === digestOf(working.base.peek())) return;
    const isUnchanged =
      !working.changed.peek() || isSameState(working.draft.peek().now, stateOf(last));
    if (isUnchanged) working.begin(last);
    // The tab that saved the revision may have replaced this tab's stored draft with its own.
    else working.store();
  });
}
