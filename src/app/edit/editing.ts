/**
 * A chart being edited: a draft with its way back, kept on the device at every change so that nothing
 * is lost, and saved as a revision when the player says so.
 */

import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import {
  beginDraft,
  type ChartDocument,
  type ChartDraft,
  type ChartState,
  carriedOver,
  type Draft,
  digestOf,
  edit,
  endRun,
  isSameState,
  lastRevision,
  type Revision,
  redo,
  revise,
  type Signature,
  setNumber,
  stateOf,
  undo,
} from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { Kept } from '../state/chart-ports.ts';
import type { Model } from '../state/model.ts';
import type { Typed } from './typed-number.ts';
import {
  faultyCells,
  numberIn,
  type TypedCell,
  type TypedTexts,
  textToUndo,
  typedKey,
  withoutText,
  withText,
} from './typed-texts.ts';

/** Changes that were found on the device, and the revision they began from if it is still known. */
export interface FoundDraft {
  readonly draft: ChartDraft;
  readonly from: Revision | null;
}

export interface Editing {
  /** The chart as it is kept. */
  readonly document: ReadonlySignal<ChartDocument>;
  readonly draft: ReadonlySignal<Draft>;
  /** Is there anything to save. */
  readonly changed: ReadonlySignal<boolean>;
  /** Unsaved changes of another time, to go on with or to throw away; nothing is edited meanwhile. */
  readonly found: ReadonlySignal<FoundDraft | 'looking' | null>;
  /** The chart has gone on since this draft was begun: the revision that it went on to. */
  readonly goneOn: ReadonlySignal<Revision | null>;
  /** Why the draft could not be kept on the device. */
  readonly problem: ReadonlySignal<string | null>;
  /** Texts that are being typed, or that are no number; by cell. */
  readonly typed: ReadonlySignal<TypedTexts>;
  /** Cells whose text is no number, the first of the first pattern first. */
  readonly faulty: ReadonlySignal<readonly TypedCell[]>;
  /** The cell is set to what was read; by a text that is no number, to what it was before. */
  readonly type: (cell: TypedCell, text: string, read: Typed) => void;
  /** A text that is no number stays. */
  readonly leave: (cell: TypedCell) => void;
  /** Key of the cell that is to be shown next, until it is. */
  readonly wanted: ReadonlySignal<string | null>;
  readonly want: (cell: TypedCell | null) => void;
  readonly canUndo: ReadonlySignal<boolean>;
  readonly edit: (change: (state: ChartState) => ChartState, run?: string) => void;
  readonly endRun: () => void;
  /** Takes back the last change, or a text that is no number if that was typed later. */
  readonly undo: () => void;
  readonly redo: () => void;
  readonly goOn: () => void;
  /** Throws the found draft away, or all that was changed. */
  readonly throwAway: () => void;
  /** Builds the changes on the revision that the chart went on to. */
  readonly carryOver: () => void;
  /** The document with the draft as a revision. */
  readonly revised: (signature: Signature) => ChartDocument;
  readonly save: (signature: Signature) => Promise<Kept>;
}

export type EditedModel = Pick<
  Model,
  'charts' | 'loadDraft' | 'saveDraft' | 'dropDraft' | 'keepChart'
>;

const kept = new WeakMap<Model, Map<string, Editing>>();

/** One for each chart while the page is open, so that going to another screen forgets no step. */
export function editingOf(model: Model, id: string): Editing {
  const all = kept.get(model) ?? new Map<string, Editing>();
  kept.set(model, all);
  const editing = all.get(id) ?? createEditing(model, id);
  all.set(id, editing);
  return editing;
}

export function createEditing(model: EditedModel, id: string): Editing {
  const first = model.charts.peek().find((chart) => chart.id === id);
  if (!first) throw new Error(`no chart ${id}`);
  // One that was removed from the device meanwhile is edited as it was last, and kept anew if saved.
  let known = first;
  const document = computed(() => {
    known = model.charts.value.find((chart) => chart.id === id) ?? known;
    return known;
  });
  const last = () => lastRevision(document.peek());
  /** The revision that the draft began from. */
  const base = signal<Revision>(last());
  const draft = signal(beginDraft(stateOf(last())));
  const found = signal<FoundDraft | 'looking' | null>('looking');
  const typed = signal<TypedTexts>(new Map());
  const faulty = computed(() => faultyCells(typed.value));
  const wanted = signal<string | null>(null);
  const changed = computed(() => !isSameState(draft.value.now, stateOf(base.value)));
  /** What is on the disk as far as this tab knows: another tab's draft is not this one's to drop. */
  let written: ChartDraft | null = null;
  const saving = keepLatest(async (now: ChartDraft | null) => {
    const before = written;
    written = now;
    if (now) await model.saveDraft(id, now);
    else if (before) await model.dropDraft(id, before);
  });

  const begin = (revision: Revision, state: ChartState = stateOf(revision)): void => {
    base.value = revision;
    const fresh = beginDraft(stateOf(revision));
    // What was carried over is a step: it can be taken back.
    draft.value = edit(fresh, () => state);
    typed.value = new Map();
  };
  const keep = (): void =>
    saving.keep(changed.peek() ? { base: digestOf(base.peek()), state: draft.peek().now } : null);
  const put = (next: Draft): void => {
    if (next === draft.peek()) return;
    draft.value = next;
    keep();
  };

  /** A cell shows what the draft has again; a text that is no number is kept. */
  const forgetNumbers = (): void => {
    typed.value = new Map([...typed.peek()].filter(([, { isNumber }]) => !isNumber));
  };

  // A draft of nothing follows the chart; one of changes says that the chart went on.
  effect(() => {
    const now = lastRevision(document.value);
    if (digestOf(now) === digestOf(base.peek())) return;
    if (!changed.peek() || isSameState(draft.peek().now, stateOf(now))) begin(now);
    // The tab that went on with it may have had its own draft in the place of this one's.
    else keep();
  });
  lookFor(model, id, document).then(
    (one) => {
      found.value = one;
    },
    (error: unknown) => {
      saving.problem.value = notSaved(error);
      found.value = null;
    },
  );

  const throwAway = (): void => {
    const one = found.peek();
    if (one !== null && one !== 'looking') written = one.draft;
    found.value = null;
    begin(last());
    saving.keep(null);
  };
  const revised: Editing['revised'] = (signature) =>
    revise(document.peek(), draft.peek().now, signature);
  return {
    document,
    draft,
    changed,
    found,
    goneOn: computed(() => {
      const now = lastRevision(document.value);
      return changed.value && digestOf(now) !== digestOf(base.value) ? now : null;
    }),
    problem: saving.problem,
    typed,
    faulty,
    type: (cell, text, read) => {
      const key = typedKey(cell);
      const last = typed.peek().get(key);
      const before = last?.isNumber ? last.before : numberIn(draft.peek().now, cell);
      const number = read.ok ? read.number : before;
      put(edit(draft.peek(), (state) => setNumber(state, cell, cell.speed, number), key));
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
    canUndo: computed(() => draft.value.past.length > 0 || faulty.value.length > 0),
    edit: (change, run) => put(edit(draft.peek(), change, run)),
    endRun: () => {
      draft.value = endRun(draft.peek());
    },
    undo: () => {
      forgetNumbers();
      const { now, past } = draft.peek();
      const text = textToUndo(typed.peek(), now, past.length > 0);
      if (text) typed.value = withoutText(typed.peek(), typedKey(text.cell));
      else put(undo(draft.peek()));
    },
    redo: () => {
      forgetNumbers();
      put(redo(draft.peek()));
    },
    goOn: () => {
      const one = found.peek();
      if (one === null || one === 'looking') return;
      found.value = null;
      // Of a revision that is not known any more, all that differs from the chart is a change.
      begin(one.from ?? last(), one.draft.state);
      keep();
    },
    throwAway,
    carryOver: () => {
      begin(last(), carriedOver(stateOf(base.peek()), draft.peek().now, stateOf(last())));
      keep();
    },
    revised,
    save: async (signature) => {
      const done = await model.keepChart(revised(signature));
      if (!done.ok) return done;
      // What was changed while it was written is not saved yet.
      begin(last(), draft.peek().now);
      keep();
      return done;
    },
  };
}

async function lookFor(
  model: EditedModel,
  id: string,
  document: ReadonlySignal<ChartDocument>,
): Promise<FoundDraft | null> {
  const draft = await model.loadDraft(id);
  if (!draft) return null;
  const chart = document.peek();
  const from = chart.revisions.findLast((one) => digestOf(one) === draft.base) ?? null;
  return isSameState(draft.state, stateOf(from ?? lastRevision(chart))) ? null : { draft, from };
}

/** Writes one after the other, and of those that wait only the newest. */
function keepLatest<T>(write: (value: T) => Promise<void>) {
  const problem = signal<string | null>(null);
  let waiting: { readonly value: T } | null = null;
  let busy = false;
  const next = async (): Promise<void> => {
    busy = true;
    while (waiting) {
      const { value } = waiting;
      waiting = null;
      try {
        await write(value);
        problem.value = null;
      } catch (error) {
        problem.value = `Your changes are not kept over a reload. ${notSaved(error)}`;
      }
    }
    busy = false;
  };
  return {
    problem,
    keep: (value: T): void => {
      waiting = { value };
      if (!busy) void next();
    },
  };
}
