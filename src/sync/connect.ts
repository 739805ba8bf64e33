/** Connects this device to a folder, and disconnects it. */

import type { SyncStore } from '../store/index.ts';
import { parseAddress } from './address.ts';
import { isSameHeader, readHeader, writeHeader } from './folder.ts';
import type { Header } from './header.ts';
import { HEADER_NAME, newWriter } from './names.ts';
import { Refused } from './refused.ts';
import type { Remote } from './remote.ts';
import type { Folder } from './requests.ts';
import type { Ports } from './session.ts';
import type { SyncState } from './state.ts';
import { keyFor, newVault } from './vault.ts';

export interface Wish extends Folder {
  readonly passphrase: string;
  /** Whether to set up the folder if there is nothing in it yet. */
  readonly create: boolean;
}

export type Joining = 'joined' | 'empty';

interface Vault {
  readonly header: Header;
  readonly key: CryptoKey;
}

const NO_HEADER =
  'The folder has files of Throughline but no header (throughline-sync.json). Sync a device that is connected with it already: it writes the header again.';
const RACED = 'Another device began in this folder at the same time. Connect again.';

/**
 * Connects this device to a folder. Returns 'empty' and changes nothing if the folder is not set up and
 * `create` is false.
 * @throws Refused if the device cannot connect
 */
export async function connect(ports: Ports, wish: Wish): Promise<Joining> {
  const folder = folderOf(wish);
  const remote = ports.remote(folder);
  const listed = await remote.list();
  const found = listed?.includes(HEADER_NAME) ? await readHeader(remote) : null;
  if (!found && listed?.some((name) => name !== HEADER_NAME))
    throw new Refused('header', NO_HEADER);
  if (!found && !wish.create) return 'empty';
  if (!listed) await remote.makeFolder();
  const vault = found
    ? { header: found, key: await keyFor(found, wish.passphrase) }
    : await createVault(remote, wish.passphrase);
  await ports.store.saveState(firstState(folder, vault));
  return 'joined';
}

function folderOf({ address, user, password }: Wish): Folder {
  const parsed = parseAddress(address);
  if (!parsed.ok) throw new Refused('address', parsed.say);
  return { address: parsed.address, user, password };
}

async function createVault(remote: Remote, passphrase: string): Promise<Vault> {
  const vault = await newVault(passphrase);
  await writeHeader(remote, vault.header);
  // Two devices may write at the same time. The header that is there now is the one that counts.
  const there = await readHeader(remote);
  if (!there || !isSameHeader(there, vault.header)) throw new Refused('other header', RACED);
  return vault;
}

function firstState(folder: Folder, { header, key }: Vault): SyncState {
  return {
    ...{ version: 1, ...folder, key, header, writer: newWriter(), next: 1 },
    ...{ files: {}, known: [], removed: [], worked: null, failed: null, notes: [] },
  };
}

/** Forgets the folder, the password, and the key. Removes no data from the folder or this device. */
export function disconnect(store: SyncStore): Promise<void> {
  return store.saveState(undefined);
}
