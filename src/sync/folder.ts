/** Reads and writes the folder's files: the header, and the segments, encrypted with the key. */

import type { Backup } from '../store/index.ts';
import { formatHeader, type Header, LARGEST_HEADER, parseHeader } from './header.ts';
import { HEADER_NAME, segmentName } from './names.ts';
import { pack, unpack } from './packing.ts';
import { Refused } from './refused.ts';
import type { Remote } from './remote.ts';
import { contentsOf, formatSegment, type Segment } from './segments.ts';
import type { Session } from './session.ts';
import { damagedWords, openFile, sealFile } from './vault.ts';

/** The largest file that is read from the folder, in bytes. */
const LARGEST_FILE = 16_000_000;

const OTHER =
  'The folder’s header is another one than when this device was connected. Nothing was read or sent. If you began anew there, disconnect this device and connect it again.';
const THERE_ALREADY =
  'A file of this device’s next name is there already. It is tried again later.';

/**
 * Returns the folder's header; null if there is none.
 * @throws Refused if the header cannot be used
 */
export async function readHeader(remote: Remote): Promise<Header | null> {
  const bytes = await remote.read(HEADER_NAME, LARGEST_HEADER);
  return bytes && parseHeader(new TextDecoder().decode(bytes));
}

export async function writeHeader(remote: Remote, header: Header): Promise<void> {
  await remote.write(HEADER_NAME, new TextEncoder().encode(formatHeader(header)));
}

export function isSameHeader(one: Header, other: Header): boolean {
  return formatHeader(one) === formatHeader(other);
}

/**
 * Returns the names of the folder's files. Creates the folder or its header again if it is gone; the
 * new header is the one that this device has stored.
 * @throws Refused if the folder has a different header
 */
export async function listFolder({
  remote,
  state: { header },
}: Session): Promise<readonly string[]> {
  const listed = await remote.list();
  if (!listed) await remote.makeFolder();
  const found = listed?.includes(HEADER_NAME) ? await readHeader(remote) : null;
  if (!found) await writeHeader(remote, header);
  else if (!isSameHeader(found, header)) throw new Refused('other header', OTHER);
  return listed ?? [];
}

/**
 * Returns the text of a segment file. Null if the file is gone, because the device that wrote it has
 * compacted it since the listing.
 */
export async function readFile({ remote, state }: Session, name: string): Promise<string | null> {
  const { key, header } = state;
  const file = await remote.read(name, LARGEST_FILE);
  if (!file) return null;
  const text = await unpack(await openFile(key, header.vault, name, file));
  if (text === null) throw new Refused('damaged', damagedWords(name));
  if (text === 'too large') throw new Refused('too large', unfoldsTooFarWords(name));
  return text;
}

function unfoldsTooFarWords(name: string): string {
  return `The file ${name} in the folder unfolds to more than any that Throughline writes. It was not read.`;
}

/** Writes a segment to a file with this device's next number. */
export async function writeFile(
  session: Session,
  segment: Segment,
  settings: Backup['settings'],
): Promise<void> {
  const { key, header, writer, next } = session.state;
  const name = segmentName(writer, next);
  // Saved before the write, so that no other file gets this name if the server's reply is lost.
  await session.save({ next: next + 1 });
  const made = new Date(session.now()).toISOString();
  const plain = await pack(formatSegment(segment, settings, made));
  const file = await sealFile(key, header.vault, name, plain);
  if (!(await session.remote.write(name, file))) throw new Refused('server', THERE_ALREADY);
  await session.save({ files: { ...session.state.files, [name]: contentsOf(segment) } });
}

export async function removeFile(session: Session, name: string): Promise<void> {
  await session.remote.remove(name);
  const { [name]: _, ...others } = session.state.files;
  await session.save({ files: others });
}
