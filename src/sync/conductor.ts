/**
 * One sync: what the folder has and this device has not comes in, then what it lacks is sent. Files
 * are written once and never changed, and a device removes only files of its own, after what was in
 * them has been written anew; so it can be cut off anywhere, and goes on with the next one.
 */

import type { ChartDocument } from '../charts/index.ts';
import type { Backup, SyncStore } from '../store/index.ts';
import { parseAddress } from './address.ts';
import { formatHeader, type Header, LARGEST_HEADER, parseHeader } from './header.ts';
import { has } from './held.ts';
import { HEADER_NAME, newWriter, segmentName } from './names.ts';
import { pack, unpack } from './packing.ts';
import { compare, lacking, lostWith, replaces, toCompact } from './plan.ts';
import { Refused } from './refused.ts';
import type { Folder, Remote } from './remote.ts';
import {
  type DigestedChart,
  digested,
  FULL,
  formatSegment,
  inSegment,
  parseSegment,
  type Segment,
  segmentsOf,
  together,
} from './segments.ts';
import { type InFile, parseState, type SyncState } from './state.ts';
import { damagedWords, keyFor, newVault, openFile, sealFile } from './vault.ts';

/** Bytes of a file as it lies in the folder. */
const LARGEST_FILE = 16_000_000;
/** Characters that are taken in at once: of a very long log, several pieces, each of them whole. */
const BATCH = 48_000_000;

export interface Ports {
  readonly store: SyncStore;
  readonly remote: (folder: Folder) => Remote;
  /** Milliseconds since 1970-01-01 UTC. */
  readonly now: () => number;
}

export interface Done {
  /** Events that came in. */
  readonly taken: number;
  /** Names of charts that came in or changed. */
  readonly charts: readonly string[];
  readonly sent: number;
}

export interface Wish extends Folder {
  readonly passphrase: string;
  /** Begin anew if the folder has nothing in it yet. */
  readonly create: boolean;
}

export type Joining = 'joined' | 'empty';

/**
 * Connects this device with a folder. 'empty', with nothing changed, if nothing is there yet and it
 * was not asked for to begin. @throws Refused
 */
export async function connect(ports: Ports, wish: Wish): Promise<Joining> {
  const { passphrase, create, user, password } = wish;
  const parsed = parseAddress(wish.address);
  if (!parsed.ok) throw new Refused('address', parsed.say);
  const folder: Folder = { address: parsed.address, user, password };
  const remote = ports.remote(folder);
  const listed = await remote.list();
  const found = listed?.includes(HEADER_NAME) ? await headerIn(remote) : null;
  if (!found && listed?.some((name) => name !== HEADER_NAME))
    throw new Refused('header', NO_HEADER);
  if (!found && !create) return 'empty';
  if (!listed) await remote.makeFolder();
  const { header, key } = found
    ? { header: found, key: await keyFor(found, passphrase) }
    : await begun(remote, passphrase);
  const state: SyncState = {
    ...{ version: 1, ...folder, key, header, writer: newWriter(), next: 1 },
    ...{ files: {}, known: [], removed: [], worked: null, failed: null, notes: [] },
  };
  await ports.store.saveState(state);
  return 'joined';
}

const NO_HEADER =
  'The folder has files of Throughline but no header (throughline-sync.json). Sync a device that is connected with it already: it writes the header again.';
const OTHER =
  'The folder’s header is another one than when this device was connected. Nothing was read or sent. If you began anew there, disconnect this device and connect it again.';
const RACED = 'Another device began in this folder at the same time. Connect again.';

async function begun(
  remote: Remote,
  passphrase: string,
): Promise<{ readonly header: Header; readonly key: CryptoKey }> {
  const vault = await newVault(passphrase);
  const text = formatHeader(vault.header);
  await remote.write(HEADER_NAME, new TextEncoder().encode(text));
  const there = await headerIn(remote);
  if (!there || formatHeader(there) !== text) throw new Refused('other header', RACED);
  return vault;
}

async function headerIn(remote: Remote): Promise<Header | null> {
  const bytes = await remote.read(HEADER_NAME, LARGEST_HEADER);
  return bytes && parseHeader(new TextDecoder().decode(bytes));
}

/**
 * Syncs once; null if no folder is connected. What fails is kept for the player to see.
 * @throws Refused
 */
export async function sync(ports: Ports): Promise<Done | null> {
  const { store, now } = ports;
  const state = parseState(await store.loadState());
  if (!state) return null;
  const course = new Course(ports, state);
  try {
    const done = await course.run();
    await course.keep({ worked: now(), failed: null });
    return done;
  } catch (error) {
    const failed = error instanceof Error ? error.message : String(error);
    await course.keep({ failed });
    throw error;
  }
}

class Course {
  readonly #store: SyncStore;
  readonly #remote: Remote;
  readonly #now: () => number;
  #state: SyncState;

  constructor({ store, remote, now }: Ports, state: SyncState) {
    this.#store = store;
    this.#state = state;
    this.#remote = remote(state);
    this.#now = now;
  }

  /** Kept at once: what comes after may be cut off. */
  async keep(change: Partial<SyncState>): Promise<void> {
    this.#state = { ...this.#state, ...change };
    await this.#store.saveState(this.#state);
  }

  async run(): Promise<Done> {
    const notes: string[] = [];
    const listed = await this.#listed();
    const { fresh, still, gone } = compare(listed, this.#state.files);
    const left = await this.#leftOut();
    const taken = await this.#takeIn(fresh, still, left, notes);
    const lost = lostWith(gone, this.#state.files);
    if (lost > 0) notes.push(backWords(lost));
    const { charts, events, settings } = await this.#store.contents();
    const own = await Promise.all(charts.map(digested));
    const missing = lacking(this.#state.files, events, own);
    const segments = segmentsOf(missing.events, missing.charts);
    for (const segment of segments) await this.#send(segment, settings);
    await this.#compact({ events, own, settings });
    await this.keep({ notes, known: charts.map(({ id }) => id) });
    return { ...taken, sent: missing.events.length };
  }

  /** What is in the folder, with its header as this device knows it. */
  async #listed(): Promise<readonly string[]> {
    const { header } = this.#state;
    let listed = await this.#remote.list();
    if (!listed) await this.#remote.makeFolder();
    listed ??= [];
    const found = listed.includes(HEADER_NAME) ? await headerIn(this.#remote) : null;
    const text = formatHeader(header);
    if (!found) await this.#remote.write(HEADER_NAME, new TextEncoder().encode(text));
    else if (formatHeader(found) !== text) throw new Refused('other header', OTHER);
    return listed;
  }

  /** Charts that the player removed from this device: they stay on the others. */
  async #leftOut(): Promise<ReadonlySet<string>> {
    const here = new Set((await this.#store.contents()).charts.map(({ id }) => id));
    const { known, removed } = this.#state;
    const out = [...new Set([...removed, ...known])].filter((id) => !here.has(id));
    await this.keep({ removed: out });
    return new Set(out);
  }

  async #takeIn(
    fresh: readonly string[],
    still: SyncState['files'],
    left: ReadonlySet<string>,
    notes: string[],
  ): Promise<Pick<Done, 'taken' | 'charts'>> {
    let files = still;
    let taken = 0;
    const charts = new Map<string, ChartDocument>();
    const take = async (pieces: readonly Backup[], read: SyncState['files']): Promise<void> => {
      if (pieces.length > 0) {
        const { settings } = await this.#store.contents();
        const result = await this.#store.takeIn(together(pieces, settings), left);
        if (!result.ok) throw new Refused('contradicts', result.say);
        taken += result.added;
        for (const chart of result.charts) charts.set(chart.id, chart);
        for (const name of result.apart) notes.push(apartWords(name));
      }
      files = { ...files, ...read };
    };
    let pieces: Backup[] = [];
    let read: Record<string, InFile> = {};
    let length = 0;
    for (const name of fresh) {
      const text = await this.#textOf(name);
      if (text === null) continue;
      if (length > 0 && length + text.length > BATCH) {
        await take(pieces, read);
        [pieces, read, length] = [[], {}, 0];
      }
      const piece = parseSegment(name, text);
      pieces.push(piece);
      length += text.length;
      read[name] = inSegment({
        events: piece.events,
        charts: await Promise.all(piece.charts.map(digested)),
      });
    }
    await take(pieces, read);
    await this.keep({ files });
    for (const chart of charts.values()) notes.push(changedWords(chart));
    return { taken, charts: [...charts.values()].map(({ name }) => name) };
  }

  /** Null if it has gone meanwhile: its owner has made one file of several. */
  async #textOf(name: string): Promise<string | null> {
    const { key, header } = this.#state;
    const file = await this.#remote.read(name, LARGEST_FILE);
    if (!file) return null;
    const plain = await openFile(key, header.vault, name, file);
    const text = await unpack(plain);
    if (text === null) throw new Refused('damaged', damagedWords(name));
    if (text === 'too large')
      throw new Refused(
        'too large',
        `The file ${name} in the folder unfolds to more than any that Throughline writes. It was not read.`,
      );
    return text;
  }

  async #send(segment: Segment, settings: Backup['settings']): Promise<void> {
    const { key, header, writer, next } = this.#state;
    const name = segmentName(writer, next);
    // Before it is written: should the answer be lost, no other file gets this name.
    await this.keep({ next: next + 1 });
    const made = new Date(this.#now()).toISOString();
    const plain = await pack(formatSegment(segment, settings, made));
    const file = await sealFile(key, header.vault, name, plain);
    if (!(await this.#remote.write(name, file))) throw new Refused('server', THERE_ALREADY);
    await this.keep({ files: { ...this.#state.files, [name]: inSegment(segment) } });
  }

  /** Many small files of this device become one, so that the folder stays short for years. */
  async #compact(here: {
    readonly events: Backup['events'];
    readonly own: readonly DigestedChart[];
    readonly settings: Backup['settings'];
  }): Promise<void> {
    const { writer, files } = this.#state;
    const old = toCompact(files, writer, here.own, FULL);
    if (!old) return;
    const ids = new Set(old.names.flatMap((name) => files[name]?.charts.map(([id]) => id) ?? []));
    const segments = segmentsOf(
      here.events.filter((event) => has(old.holds, event)),
      here.own.filter(({ document }) => ids.has(document.id)),
    );
    if (!replaces(segments.map(inSegment), old.holds)) return;
    for (const segment of segments) await this.#send(segment, here.settings);
    for (const name of old.names) {
      await this.#remote.remove(name);
      const { [name]: _, ...others } = this.#state.files;
      await this.keep({ files: others });
    }
  }
}

const THERE_ALREADY =
  'A file of this device’s next name is there already. It is tried again later.';

function backWords(lost: number): string {
  const what = lost === 1 ? 'one entry' : `${lost} entries`;
  return `Files that were in the folder are gone, and with them ${what} of the log: the folder was set back or cleared. What is on this device was sent again; nothing was removed here.`;
}

function apartWords(name: string): string {
  return `“${name}” on another device is another chart under the same name. Each device keeps its own; make a copy under another name to have both everywhere.`;
}

function changedWords({ name, revisions }: ChartDocument): string {
  const { why, number } = revisions[revisions.length - 1] ?? revisions[0];
  return `“${name}” came from another device: revision ${number}, “${why}”.`;
}

export interface Status {
  readonly address: string;
  readonly user: string;
  readonly worked: number | null;
  readonly failed: string | null;
  readonly notes: readonly string[];
  /** Entries of the log that the folder has not got. */
  readonly waiting: number;
}

/** How it stands, by what is known on this device; null if no folder is connected. */
export async function statusOf(store: SyncStore): Promise<Status | null> {
  const state = parseState(await store.loadState());
  if (!state) return null;
  const { address, user, worked, failed, notes, files } = state;
  const { events } = await store.contents();
  const waiting = lacking(files, events, []).events.length;
  return { address, user, worked, failed, notes, waiting };
}

/** Forgets folder, password and key. What is in the folder stays, and so does what is here. */
export function disconnect(store: SyncStore): Promise<void> {
  return store.saveState(undefined);
}
