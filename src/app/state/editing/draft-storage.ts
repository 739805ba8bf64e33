/**
 * Stores the editor's draft on the device at every change, and finds it when the chart is edited
 * again.
 */

import { type ReadonlySignal, signal } from '@preact/signals';
import type { ChartDraft } from '../../../charts/index.ts';
import { notSaved } from '../../../quiz/index.ts';
import type { Model } from '../model.ts';

export interface DraftStorage {
  /** A sentence that tells why the draft could not be read or written; null if there is no problem. */
  readonly problem: ReadonlySignal<string | null>;
  /** Returns the stored draft; null if there is none or it cannot be read. */
  readonly load: () => Promise<ChartDraft | null>;
  /** Writes the draft; null removes it. Of the drafts that wait, only the newest is written. */
  readonly store: (draft: ChartDraft | null) => void;
  /** Takes a loaded draft as this tab's own, so that `store(null)` removes it. */
  readonly adopt: (draft: ChartDraft) => void;
}

export type DraftPorts = Pick<Model, 'loadDraft' | 'saveDraft' | 'dropDraft'>;

export function createDraftStorage(ports: DraftPorts, id: string): DraftStorage {
  const problem = signal<string | null>(null);
  /** This tab's draft on the disk. A tab must not remove the draft of another tab. */
  let own: ChartDraft | null = null;
  const write = async (draft: ChartDraft | null): Promise<void> => {
    const before = own;
    own = draft;
    if (draft) await ports.saveDraft(id, draft);
    else if (before) await ports.dropDraft(id, before);
  };
  return {
    problem,
    load: async () => {
      try {
        return await ports.loadDraft(id);
      } catch (error) {
        problem.value = notSaved(error);
        return null;
      }
    },
    store: latestOnly(async (draft) => {
      try {
        await write(draft);
        problem.value = null;
      } catch (error) {
        problem.value = `Your changes are not kept over a reload. ${notSaved(error)}`;
      }
    }),
    adopt: (draft) => {
      own = draft;
    },
  };
}

/**
 * Returns a function that writes one value at a time. Of the values that wait, only the newest is
 * written.
 */
function latestOnly<T>(write: (value: T) => Promise<void>): (value: T) => void {
  let waiting: { readonly value: T } | null = null;
  let busy = false;
  const writeAll = async (): Promise<void> => {
    busy = true;
    while (waiting) {
      const { value } = waiting;
      waiting = null;
      await write(value);
    }
    busy = false;
  };
  return (value) => {
    waiting = { value };
    if (!busy) void writeAll();
  };
}
