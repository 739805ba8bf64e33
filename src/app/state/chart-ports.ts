/** The charts on the device as this tab knows them, and what they need of the model. */

import type { ReadonlySignal } from '@preact/signals';
import type { Card, Effects } from '../../cards/index.ts';
import type { Chart, ChartDocument, ChartDraft, Solved } from '../../charts/index.ts';
import type { ChartUse, LogEvent, LogState } from '../../scheduler/index.ts';
import type { Settings, SettingsChange, Store } from '../../store/index.ts';
import type { StudyDays } from './study-day.ts';
import type { TabMessage } from './tabs.ts';

/** `say`: why nothing was saved, a sentence. */
export type Saved = { readonly ok: true } | { readonly ok: false; readonly say: string };

export interface DeviceCharts {
  /** All charts on the device. */
  readonly charts: ReadonlySignal<readonly ChartDocument[]>;
  /** The one in use. */
  readonly chart: ReadonlySignal<Chart>;
  /** The cards of the chart in use; those of a level, if the player chose one. */
  readonly cards: ReadonlySignal<readonly Card[]>;
  /** The level and the shared memory of the chart in use. */
  readonly use: ReadonlySignal<ChartUse>;
  readonly chooseChart: (id: string) => Promise<void>;
  /** The numbers of any chart on the device; of the one in use if there is no such chart. */
  readonly chartOf: (id: string | undefined) => Chart;
  /**
   * The effects on memory if a chart's last revision became this document's; null for a chart that is
   * not on the device. Solves one or two charts: some hundredths of a second.
   */
  readonly effectsIf: (document: ChartDocument) => Promise<Effects | null>;
  /** Saves a new chart, or new revisions of one, together with the effects on memory. */
  readonly keepChart: (document: ChartDocument) => Promise<Saved>;
  /** Memory of its lines stays in the log. The last chart cannot be removed. */
  readonly removeChart: (id: string) => Promise<Saved>;
  readonly useChart: (id: string, use: ChartUse) => Promise<void>;
  readonly loadDraft: (id: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (id: string, draft: ChartDraft) => Promise<void>;
  /** Removes the draft unless another tab has replaced it. */
  readonly dropDraft: (id: string, mine: ChartDraft) => Promise<void>;
}

export interface ChartPorts extends Pick<StudyDays, 'today' | 'now'> {
  readonly store: Store;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  /** Adds a stored event to the log in memory, here and in other tabs. */
  readonly shareEvent: (event: LogEvent) => void;
  readonly tell: (message: TabMessage) => void;
  /** Numbers that need not be solved again. */
  readonly solved?: Solved;
}

export interface ReadableCharts extends DeviceCharts {
  /**
   * Appends the effects of the charts' revisions on memory that arrived after them, as from a backup:
   * the result does not depend on which came first.
   */
  readonly catchUp: () => Promise<void>;
  /** Replaces the charts by those read from the disk. */
  readonly readCharts: (charts: readonly ChartDocument[]) => void;
}
