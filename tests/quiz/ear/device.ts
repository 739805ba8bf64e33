/** A device for practice by ear whose voice, keys, clock and screen a test controls. */

import { type Signal, signal } from '@preact/signals';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import { type Chart, computeChart, HARBOUR_LANE } from '../../../src/charts/index.ts';
import type { EarPorts } from '../../../src/quiz/ear/ports.ts';
import type { MediaHandlers, Said } from '../../../src/quiz/index.ts';
import {
  type EventDraft,
  foldLog,
  type LogEvent,
  type LogState,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../../src/store/index.ts';

export const chart: Chart = computeChart(HARBOUR_LANE);
export const cards: readonly Card[] = cardsOf(chart, DEFAULT_SETTINGS.tolerance as never);
export const TODAY = 100;

export interface TestDevice {
  readonly ports: EarPorts;
  readonly log: Signal<LogState>;
  readonly disk: LogEvent[];
  readonly said: string[];
  readonly rates: number[];
  /** What the session has taken and not released. */
  readonly held: { keys: MediaHandlers | null; locks: number };
  /** The error of the next writes; null if they succeed. */
  refuse: Error | null;
  /** Ends what is being spoken. */
  readonly endSpeech: (how: Said) => Promise<void>;
  readonly isSpeaking: () => boolean;
  readonly pass: (ms: number) => Promise<void>;
  readonly setHidden: (hidden: boolean) => Promise<void>;
}

/** Lets all pending promises resolve. */
export async function settle(): Promise<void> {
  for (let n = 0; n < 10; n++) await Promise.resolve();
}

export function createDevice(
  events: readonly LogEvent[],
  options: { readonly voices?: number; readonly settings?: Partial<Settings> } = {},
): TestDevice {
  const disk = [...events];
  const log = signal(foldLog(disk));
  const said: string[] = [];
  const rates: number[] = [];
  const held: TestDevice['held'] = { keys: null, locks: 0 };
  let clock = 8_640_000_000;
  let timers: { readonly at: number; readonly then: () => void }[] = [];
  let speaking: ((how: Said) => void) | null = null;
  let hidden = false;
  const watchers = new Set<(hidden: boolean) => void>();
  const finish = (how: Said): void => {
    const end = speaking;
    speaking = null;
    end?.(how);
  };
  const device: TestDevice = {
    log,
    disk,
    said,
    rates,
    held,
    refuse: null,
    isSpeaking: () => speaking !== null,
    endSpeech: async (how) => {
      finish(how);
      await settle();
    },
    pass: async (ms) => {
      clock += ms;
      const ripe = timers.filter((timer) => timer.at <= clock);
      timers = timers.filter((timer) => timer.at > clock);
      for (const timer of ripe) timer.then();
      await settle();
    },
    setHidden: async (now) => {
      hidden = now;
      for (const tell of watchers) tell(now);
      await settle();
    },
    ports: {
      chart,
      cards,
      log,
      settings: signal({ ...DEFAULT_SETTINGS, ...options.settings }),
      now: () => clock,
      today: () => TODAY,
      append: async (draft: EventDraft) => {
        await Promise.resolve();
        if (device.refuse) throw device.refuse;
        const seq = disk.length;
        const event = { ...draft, version: 1, id: `e:${seq}`, device: 'e', seq } as LogEvent;
        disk.push(event);
        log.value = foldLog(disk);
        return event;
      },
      voice: {
        available: async () =>
          Array.from({ length: options.voices ?? 1 }, () => ({ name: 'Test', lang: 'en-GB' })),
        speak: (text, rate) => {
          said.push(text);
          rates.push(rate);
          return new Promise((resolve) => {
            speaking = resolve;
          });
        },
        hush: () => finish('cut off'),
      },
      mediaKeys: {
        listen: (handlers) => {
          held.keys = handlers;
          return () => {
            held.keys = null;
          };
        },
      },
      wakeLock: {
        hold: async () => {
          held.locks += 1;
          return () => {
            held.locks -= 1;
          };
        },
      },
      visibility: {
        hidden: () => hidden,
        watch: (changed) => {
          watchers.add(changed);
          return () => watchers.delete(changed);
        },
      },
      after: (ms, then) => {
        const timer = { at: clock + ms, then };
        timers.push(timer);
        return () => {
          timers = timers.filter((one) => one !== timer);
        };
      },
    },
  };
  return device;
}
