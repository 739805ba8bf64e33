/** What a page reports to the harness: when a write begins and ends, and the phase of the quiz. */

export type Note = Write | { readonly at: 'phase'; readonly phase: string };

export interface Write {
  readonly at: 'write begun' | 'write done';
  /** The object stores of the transaction. */
  readonly stores: readonly string[];
  readonly durability: string;
}

/** Runs in the page before its own scripts, without changing what they do. */
export function watchWrites(): void {
  const { tellHarness } = window as unknown as { tellHarness: (note: unknown) => Promise<void> };
  // The browser may be dead before it hears.
  const tell = (note: unknown): void => void tellHarness(note).catch(() => undefined);
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (...given) {
    const one = transaction.apply(this, given);
    if (one.mode === 'readwrite') {
      const what = { stores: [...one.objectStoreNames], durability: one.durability };
      tell({ at: 'write begun', ...what });
      one.addEventListener('complete', () => tell({ at: 'write done', ...what }));
    }
    return one;
  };
  let shown = '';
  const look = (): void => {
    const phase = document.querySelector('main.quiz')?.getAttribute('data-phase') ?? '';
    if (phase === shown) return;
    shown = phase;
    tell({ at: 'phase', phase });
  };
  new MutationObserver(look).observe(document, {
    subtree: true,
    childList: true,
    attributes: true,
    attributeFilter: ['data-phase'],
  });
}

/** Whether it is a write that appends to the log. */
export function writesLog(note: Note): note is Write {
  return note.at !== 'phase' && note.stores.includes('events');
}

/** Whether it writes sealed answers: sealing, or restoring a backup. */
export function writesChunks(note: Note): boolean {
  return note.at !== 'phase' && note.stores.includes('sealed');
}

/** Waits for a note. */
export function untilNote(
  browser: { readonly listen: (hear: (note: Note) => void) => void },
  wanted: (note: Note) => boolean,
): Promise<void> {
  return new Promise((resolve) => browser.listen((note) => wanted(note) && resolve()));
}

/**
 * Times the next write of a kind.
 * @returns a function that returns ms, or null if there was no such write
 */
export function timeOfWrite(
  browser: { readonly listen: (hear: (note: Note) => void) => void },
  wanted: (note: Note) => boolean,
): () => number | null {
  const times: number[] = [];
  browser.listen((note) => {
    if (wanted(note) && times.length < 2) times.push(performance.now());
  });
  return () => {
    const [begun, done] = times;
    return begun === undefined || done === undefined ? null : done - begun;
  };
}
