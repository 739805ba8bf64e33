/** A real WebDAV server on this machine (webdav-server), with the CORS headers that browsers need. */

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { v2 as webdav } from 'webdav-server';

export interface Dav {
  /** The folder's address. */
  readonly address: string;
  readonly user: string;
  readonly password: string;
  /** Method and path of all requests, in order. */
  readonly asked: string[];
  /** May answer in the server's place; true if it did. */
  meddle: ((request: IncomingMessage, response: ServerResponse) => boolean) | null;
  readonly bytes: { in: number; out: number };
  readonly close: () => Promise<void>;
}

export const USER = 'player';
export const PASSWORD = 'pass wörd';

const CORS = {
  'Access-Control-Allow-Origin': '*',
  'Access-Control-Allow-Headers': 'Authorization, Content-Type, Depth, If-None-Match',
  'Access-Control-Allow-Methods': 'GET, PUT, DELETE, PROPFIND, MKCOL',
};

export async function startDav(allow = true): Promise<Dav> {
  const users = new webdav.SimpleUserManager();
  const player = users.addUser(USER, PASSWORD, false);
  const rights = new webdav.SimplePathPrivilegeManager();
  rights.setRights(player, '/', ['all']);
  const engine = new webdav.WebDAVServer({
    httpAuthentication: new webdav.HTTPBasicAuthentication(users, 'throughline'),
    privilegeManager: rights,
    requireAuthentification: true,
  });
  const files = new Set<string>();
  const dav: Dav = {
    address: '',
    user: USER,
    password: PASSWORD,
    asked: [],
    meddle: null,
    bytes: { in: 0, out: 0 },
    close: async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
  const server = createServer((request, response) => {
    const { method = '', url = '' } = request;
    if (allow) for (const [name, value] of Object.entries(CORS)) response.setHeader(name, value);
    if (method === 'OPTIONS') {
      response.writeHead(204).end();
      return;
    }
    dav.asked.push(`${method} ${url}`);
    if (dav.meddle?.(request, response)) return;
    // RFC 9110 §13.1.2, which the engine lacks. Any other request is the engine's.
    if (method === 'PUT' && request.headers['if-none-match'] === '*' && files.has(url)) {
      request.resume();
      response.writeHead(412).end();
      return;
    }
    if (method === 'PUT') files.add(url);
    if (method === 'DELETE') files.delete(url);
    engine.executeRequest(request, response);
  });
  server.on('connection', (socket) =>
    socket.on('close', () => {
      dav.bytes.in += socket.bytesRead;
      dav.bytes.out += socket.bytesWritten;
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return Object.assign(dav, { address: `http://127.0.0.1:${port}/throughline/` });
}
