/**
 * A chart being edited. It has a draft with undo and redo. The draft is stored on the device at every
 * change, so that nothing is lost, and saved as a revision when the player says so.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import {
  type ChartDocument,
  type ChartDraft,
  carriedOver,
  type Draft,
  digestOf,
  isSameState,
  lastRevision,
  type Revision,
  revise,
  type Signature,
  stateOf,
} from '../../../charts/index.ts';
import type { Saved } from '../chart-ports.ts';
import type { Model } from '../model.ts';
import { createDraftStorage, type DraftPorts, type DraftStorage } from './draft-storage.ts';
import { createHistory, type History } from './history.ts';
import { createTyping, type Typing } from './typing.ts';
import {
  createWorkingDraft,
  followChart,
  newerRevision,
  type WorkingDraft,
} from './working-draft.ts';

export interface Editing extends Typing, History, FoundActions, RevisionActions {
  /** The chart as it is saved. */
  readonly document: ReadonlySignal<ChartDocument>;
  readonly draft: ReadonlySignal<Draft>;
  /** Whether there is anything to save. */
  readonly changed: ReadonlySignal<boolean>;
  /** The chart's last revision if it was made after this draft was begun; otherwise null. */
  readonly newer: ReadonlySignal<Revision | null>;
  /** A sentence that tells why the draft could not be stored; null if there is no problem. */
  readonly problem: ReadonlySignal<string | null>;
}

interface FoundActions {
  /** Unsaved changes from an earlier page. The player resumes or discards them before editing. */
  readonly found: ReadonlySignal<FoundDraft | 'loading' | null>;
  readonly resume: () => void;
  /** Discards the found draft, or all changes. */
  readonly discard: () => void;
}

interface RevisionActions {
  /** Applies the changes to the chart's last revision. */
  readonly rebase: () => void;
  /** Returns the document with the draft as its last revision. */
  readonly revised: (signature: Signature) => ChartDocument;
  readonly save: (signature: Signature) => Promise<Saved>;
}

/** A stored draft, and the revision that it is based on; null if the chart no longer has it. */
export interface FoundDraft {
  readonly draft: ChartDraft;
  readonly from: Revision | null;
}

export type EditedModel = DraftPorts & Pick<Model, 'charts' | 'keepChart'>;

/**
 * Returns the editing of a chart. There is one for each chart while the page is open, so that no step
 * is lost when the player leaves the screen.
 */
export function editingIn(
  { editings }: { readonly editings: Map<string, Editing> },
  model: EditedModel,
  id: string,
): Editing {
  const editing = editings.get(id) ?? createEditing(model, id);
  editings.set(id, editing);
  return editing;
}

export function createEditing(model: EditedModel, id: string): Editing {
  const document = documentOf(model, id);
  const storage = createDraftStorage(model, id);
  const working = createWorkingDraft(document, storage.store);
  const { draft, changed } = working;
  followChart(working);
  return {
    document,
    draft,
    changed,
    newer: computed(() => (changed.value ? newerRevision(working) : null)),
    problem: storage.problem,
    ...createTyping(working),
    ...createHistory(working),
    ...foundActions(working, storage),
    ...revisionActions(working, model),
  };
}

/**
 * Follows a chart. If it is removed from the device, its last version stays, and saving restores it.
 */
function documentOf({ charts }: EditedModel, id: string): ReadonlySignal<ChartDocument> {
  const first = charts.peek().find((chart) => chart.id === id);
  if (!first) throw new Error(`no chart ${id}`);
  let known = first;
  return computed(() => {
    known = charts.value.find((chart) => chart.id === id) ?? known;
    return known;
  });
}

function foundActions(working: WorkingDraft, storage: DraftStorage): FoundActions {
  const found = signal<FoundDraft | 'loading' | null>('loading');
  void storage.load().then((draft) => {
    found.value = draft && foundDraft(working.document.peek(), draft);
  });
  const take = (): FoundDraft | null => {
    const one = found.peek();
    found.value = null;
    return one === 'loading' ? null : one;
  };
  const last = () => lastRevision(working.document.peek());
  return {
    found,
    resume: () => {
      if (found.peek() === 'loading') return;
      const one = take();
      if (!one) return;
      // If its base is gone, every difference from the chart counts as a change.
      working.begin(one.from ?? last(), one.draft.state);
      working.store();
    },
    discard: () => {
      const one = take();
      if (one) storage.adopt(one.draft);
      working.begin(last());
      storage.store(null);
    },
  };
}

/** Returns the found draft and its base; null if the draft changes nothing. */
function foundDraft(document: ChartDocument, draft: ChartDraft): FoundDraft | null {
  const from = document.revisions.findLast((one) => digestOf(one) === draft.base) ?? null;
  const base = stateOf(from ?? lastRevision(document));
  return isSameState(draft.state, base) ? null : { draft, from };
}

function revisionActions(working: WorkingDraft, model: EditedModel): RevisionActions {
  const { document, base, draft, begin, store } = working;
  const last = () => lastRevision(document.peek());
  const revised = (signature: Signature): ChartDocument =>
    revise(document.peek(), draft.peek().now, signature);
  return {
    rebase: () => {
      begin(last(), carriedOver(stateOf(base.peek()), draft.peek().now, stateOf(last())));
      store();
    },
    revised,
    save: async (signature) => {
      const saved = await model.keepChart(revised(signature));
      if (!saved.ok) return saved;
      // Changes made while it was being saved are not saved yet.
      begin(last(), draft.peek().now);
      store();
      return saved;
    },
  };
}
