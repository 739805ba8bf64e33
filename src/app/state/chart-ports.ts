/** The charts as this tab knows them, and what keeping them takes. */

import type { ReadonlySignal } from '@preact/signals';
import type { Card, Effects } from '../../cards/index.ts';
import type { Chart, ChartDocument, ChartDraft, Solved } from '../../charts/index.ts';
import type { ChartUse, LogEvent, LogState } from '../../scheduler/index.ts';
import type { Settings, SettingsChange, Store } from '../../store/index.ts';

export type Kept = { readonly ok: true } | { readonly ok: false; readonly say: string };

export interface KeptCharts {
  /** All charts on the device. */
  readonly charts: ReadonlySignal<readonly ChartDocument[]>;
  /** The one in use. */
  readonly chart: ReadonlySignal<Chart>;
  /** Its cards; of a level, if the player keeps to one. */
  readonly cards: ReadonlySignal<readonly Card[]>;
  /** How the chart in use is used. */
  readonly use: ReadonlySignal<ChartUse>;
  readonly chooseChart: (id: string) => Promise<void>;
  /** The numbers of a kept chart, in use or not; those of the one in use if it is not kept. */
  readonly chartOf: (id: string | undefined) => Chart;
  /**
   * What taking a kept chart on to this document's last revision would do to memory; null for a chart
   * that is not kept. It solves a chart or two: some hundredths of a second.
   */
  readonly effectsIf: (document: ChartDocument) => Promise<Effects | null>;
  /** Keeps a new chart, or takes a kept one on; writes what that does to memory with it. */
  readonly keepChart: (document: ChartDocument) => Promise<Kept>;
  /** Its memory stays in the log. The last chart cannot be removed. */
  readonly removeChart: (id: string) => Promise<Kept>;
  readonly useChart: (id: string, use: ChartUse) => Promise<void>;
  readonly loadDraft: (id: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (id: string, draft: ChartDraft) => Promise<void>;
  /** Not if another tab has written a draft of its own in its place. */
  readonly dropDraft: (id: string, mine: ChartDraft) => Promise<void>;
}

export interface ChartPorts {
  readonly store: Store;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  /** Study-day and time, for an event that is written now. */
  readonly when: () => { readonly day: number; readonly at: number };
  /** Takes written events into this tab's log, and tells the other tabs of them. */
  readonly shareEvents: (events: readonly LogEvent[]) => void;
  /** Tells the other tabs to read again. */
  readonly tellReload: () => void;
  /** Numbers that need not be solved again. */
  readonly solved: Solved | null;
}

export interface ReadableCharts extends KeptCharts {
  /**
   * Writes what the charts' numbers do to memory that came from elsewhere: whether chart or memory was
   * here first makes no difference.
   */
  readonly catchUp: () => Promise<void>;
  /** Takes in what was read from the disk. */
  readonly readCharts: (charts: readonly ChartDocument[]) => void;
}
