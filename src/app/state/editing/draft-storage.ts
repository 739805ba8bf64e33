/** The editor's draft on the device: written at every change, and found when the chart is next edited. */

import { type ReadonlySignal, signal } from '@preact/signals';
import type { ChartDraft } from '../../../charts/index.ts';
import { notSaved } from '../../../quiz/index.ts';
import type { Model } from '../model.ts';

export interface DraftStorage {
  /** Why the draft could not be read or written, a sentence; null if it was. */
  readonly problem: ReadonlySignal<string | null>;
  /** Null if there is none or it cannot be read. */
  readonly load: () => Promise<ChartDraft | null>;
  /** Writes the draft; null removes it. Of drafts that wait, only the newest is written. */
  readonly store: (draft: ChartDraft | null) => void;
  /** Counts a loaded draft as this tab's own, so that `store(null)` removes it. */
  readonly adopt: (draft: ChartDraft) => void;
}

export type DraftPorts = Pick<Model, 'loadDraft' | 'saveDraft' | 'dropDraft'>;

export function createDraftStorage(ports: DraftPorts, id: string): DraftStorage {
  const problem = signal<string | null>(null);
  /** This tab's draft on the disk: another tab's draft is not this one's to remove. */
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

/** Writes one value after the other; of those that wait, only the newest. */
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
