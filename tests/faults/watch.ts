/** What a page tells the harness: when a write begins, when it is done, and what the quiz shows. */

export type Note = Write | { readonly at: 'phase'; readonly phase: string };

export interface Write {
  readonly at: 'write begun' | 'write done';
  /** The object stores of the transaction. */
  readonly stores: readonly string[];
  readonly durability: string;
}

/** In the page, before its own scripts; it changes nothing of what they do. */
export function watchWrites(): void {
  const { tellHarness } = window as unknown as { tellHarness: (note: unknown) => Promise<void> };
  // The browser may be gone before it hears.
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

/** Is it a write that gives an event its place in the log. */
export function writesLog(note: Note): note is Write {
  return note.at !== 'phase' && note.stores.includes('events');
}

/** Is it a write of sealed answers: a sealing, or a backup that is restored. */
export function writesChunks(note: Note): boolean {
  return note.at !== 'phase' && note.stores.includes('sealed');
}

/** Waits until a page tells of something. */
export function untilNote(
  browser: { readonly listen: (hear: (note: Note) => void) => void },
  wanted: (note: Note) => boolean,
): Promise<void> {
  return new Promise((resolve) => browser.listen((note) => wanted(note) && resolve()));
}

/** Times the next write of a sort. @returns how to ask for it: ms, null if there was none */
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
