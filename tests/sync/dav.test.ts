/** Syncing through a real WebDAV server, and through servers that are no such server, or hostile. */

import 'fake-indexeddb/auto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { foldLog, type LogEvent } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, openSyncStore } from '../../src/store/index.ts';
import { connect, openRemote, type Ports, statusOf, sync } from '../../src/sync/index.ts';
import { plain } from '../scheduler/plain.ts';
import { type Dav, startDav } from './dav.ts';

let dav: Dav | null = null;
afterEach(async () => {
  await dav?.close();
  dav = null;
});

let count = 0;
function device(): Ports {
  return {
    store: openSyncStore(`dav-${++count}`),
    remote: (folder) => openRemote(folder, fetch),
    now: () => Date.UTC(2026, 10, 30),
  };
}

const wishFor = ({ address, user, password }: Dav) => ({
  ...{ address, user, password },
  passphrase: 'four words of chalk',
  create: true,
});

async function answer({ store }: Ports, who: string, from: number, many: number): Promise<void> {
  const events = Array.from({ length: many }, (_, n) => ({
    ...{ type: 'answered', card: 'p/a', kind: 'number', answer: [1.4], errors: [0.01] },
    ...{ outcome: 'pocketed', ms: 900, version: 1, device: who, seq: from + n },
    ...{ id: `${who}:${from + n}`, day: 20_000, at: 20_000 * 86_400_000 + n },
  })) as LogEvent[];
  const backup = { events, charts: [HARBOUR_LANE], settings: DEFAULT_SETTINGS, unread: [] };
  expect((await store.merge(backup, new Set())).ok).toBe(true);
}

async function codeOf(outcome: Promise<unknown>): Promise<string | undefined> {
  return outcome.then(
    () => undefined,
    (error: { code?: string; message?: string }) => {
      expect(error.message).toMatch(/[.)]$/);
      return error.code;
    },
  );
}

describe('a real WebDAV server', () => {
  it('makes the folder, keeps two devices equal, and loses nothing', async () => {
    dav = await startDav();
    const [one, two] = [device(), device()];
    expect(await connect(one, { ...wishFor(dav), create: false })).toBe('empty');
    expect(await connect(one, wishFor(dav))).toBe('joined');
    expect(dav.asked).toContain('MKCOL /throughline/');
    expect(await connect(two, { ...wishFor(dav), create: false })).toBe('joined');
    for (let round = 0; round < 20; round++) {
      await answer(one, 'a', 3 * round, 3);
      if (round % 3 === 0) await answer(two, 'b', 2 * round, 2);
      await sync(one);
      if (round % 3 === 0) await sync(two);
    }
    for (const each of [two, one]) await sync(each);
    const [here, there] = await Promise.all([one, two].map(({ store }) => store.contents()));
    expect(plain(foldLog(here?.events ?? []))).toEqual(plain(foldLog(there?.events ?? [])));
    expect(here?.events).toHaveLength(60 + 14);
    expect(dav.asked.some((asked) => asked.startsWith('DELETE'))).toBe(true);
    expect((await statusOf(one.store))?.failed).toBeNull();
  });

  it('refuses a wrong user or password', async () => {
    dav = await startDav();
    const one = device();
    expect(await codeOf(connect(one, { ...wishFor(dav), password: 'other' }))).toBe('not let in');
    expect(await codeOf(connect(one, { ...wishFor(dav), user: '', password: '' }))).toBe(
      'not let in',
    );
    expect(await statusOf(one.store)).toBeNull();
  });

  it('refuses a wrong passphrase', async () => {
    dav = await startDav();
    await connect(device(), wishFor(dav));
    const two = device();
    const wrong = { ...wishFor(dav), passphrase: 'four words of cheese' };
    expect(await codeOf(connect(two, wrong))).toBe('passphrase');
    expect(await statusOf(two.store)).toBeNull();
  });

  it('never overwrites a file', async () => {
    dav = await startDav();
    const remote = openRemote(dav, fetch);
    await remote.makeFolder();
    const name = 'abcdefghij-00000001.tls';
    expect(await remote.write(name, new Uint8Array([1]))).toBe(true);
    expect(await remote.write(name, new Uint8Array([2]))).toBe(false);
    expect(await remote.read(name, 10)).toEqual(new Uint8Array([1]));
    expect(await remote.list()).toEqual([name]);
    await remote.remove(name);
    expect(await remote.read(name, 10)).toBeNull();
    expect(await remote.list()).toEqual([]);
  });

  it('leaves unsent events on the device if it has no room or reports an error', async () => {
    dav = await startDav();
    const one = device();
    await connect(one, wishFor(dav));
    await answer(one, 'a', 0, 3);
    for (const [status, code] of [
      [507, 'full'],
      [413, 'full'],
      [500, 'server'],
      [503, 'server'],
    ] as const) {
      dav.meddle = ({ method }, response) => {
        if (method !== 'PUT') return false;
        response.writeHead(status).end();
        return true;
      };
      expect(await codeOf(sync(one))).toBe(code);
      expect((await statusOf(one.store))?.waiting).toBe(3);
    }
    dav.meddle = null;
    await sync(one);
    expect((await statusOf(one.store))?.waiting).toBe(0);
  });
});

const multistatus = (names: readonly string[]) =>
  `<d:multistatus xmlns:d="DAV:"><d:response><d:href>/dav/</d:href><d:propstat><d:prop><d:resourcetype><d:collection/></d:resourcetype></d:prop></d:propstat></d:response>${names
    .map((name) => `<d:response><d:href>/dav/${name}</d:href></d:response>`)
    .join('')}</d:multistatus>`;
const numbered = (n: number) => `abcdefghij-${String(n).padStart(8, '0')}.tls`;

describe('a server that cannot be trusted', () => {
  it.each([
    ['has a page instead', 200, '<!doctype html><p>It works!', 'not WebDAV'],
    ['knows no such method', 405, '', 'not WebDAV'],
    ['does not implement it', 501, '', 'not WebDAV'],
    ['lets nobody in', 403, '', 'not let in'],
    [
      'lists a file instead of a folder',
      207,
      multistatus(['a']).replace('<d:collection/>', ''),
      'not WebDAV',
    ],
    ['lists entities', 207, `<!DOCTYPE a [<!ENTITY b "c">]>${multistatus(['&b;'])}`, 'listing'],
    ['lists no XML', 207, 'hello', 'listing'],
    ['lists nothing', 207, '<d:multistatus xmlns:d="DAV:"/>', 'not WebDAV'],
    ['lists a million bytes of nonsense', 207, ' '.repeat(5_000_000), 'listing'],
    [
      'lists too many files',
      207,
      multistatus(Array.from({ length: 4001 }, (_, n) => numbered(n))),
      'listing',
    ],
    ['reports an error', 500, '', 'server'],
  ])('%s', async (_, status, body, code) => {
    const server = await serving((__, response) => response.writeHead(status).end(body));
    expect(await codeOf(openRemote(server.folder, fetch).list())).toBe(code);
    await server.close();
  });

  it('cannot redirect the app to another address', async () => {
    const told: (string | undefined)[] = [];
    const other = await serving((request, response) => {
      told.push(request.headers.authorization);
      response.writeHead(207).end(multistatus([]));
    });
    const server = await serving((_, response) =>
      response.writeHead(307, { Location: other.folder.address }).end(),
    );
    expect(await codeOf(openRemote(server.folder, fetch).list())).toBe('unreachable');
    expect(told).toEqual([]);
    await Promise.all([other.close(), server.close()]);
  });

  it('cannot send an endless file', async () => {
    let isOver = false;
    const server = await serving((_, response) => {
      response.on('close', () => {
        isOver = true;
      });
      const more = (): void => {
        if (!isOver) response.write(Buffer.alloc(100_000), () => setImmediate(more));
      };
      more();
    });
    expect(await codeOf(openRemote(server.folder, fetch).read(numbered(1), 1_000_000))).toBe(
      'too large',
    );
    await server.close();
  });

  it('cannot name a file outside the folder', async () => {
    const names = ['../evil.tls', '%2e%2e%2fevil.tls', 'https://evil.example/x', numbered(1)];
    const server = await serving((_, response) => response.writeHead(207).end(multistatus(names)));
    expect(await openRemote(server.folder, fetch).list()).toEqual([numbered(1)]);
    await server.close();
  });

  it('is reported if it is not there', async () => {
    const server = await serving(() => undefined);
    await server.close();
    expect(await codeOf(openRemote(server.folder, fetch).list())).toBe('unreachable');
  });
});

async function serving(answer: Parameters<typeof createServer>[1] & object) {
  const server = createServer(answer);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    folder: { address: `http://127.0.0.1:${port}/dav/`, user: 'me', password: 'secret' },
    close: async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
