/** Any web host: serves the built app and what is put beside it, with ETags, gzip and 304. */

import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { gzipSync } from 'node:zlib';

export interface Host {
  readonly url: string;
  /** Beside the app, by their paths. */
  readonly files: Map<string, string>;
  /** What was asked of those, and the bytes on the wire: request and answer, heads and all. */
  readonly served: { readonly path: string; readonly status: number; readonly bytes: number }[];
  readonly close: () => Promise<void>;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
};

export async function startHost(): Promise<Host> {
  const files = new Map<string, string>();
  const served: Host['served'] = [];
  const server = createServer((request, response) => {
    const path = decodeURI((request.url ?? '/').replace(/[?#].*/, '')).slice(1) || 'index.html';
    const own = files.get(path);
    const inDist = join('dist', normalize(path));
    const body = own ?? (existsSync(inDist) ? readFileSync(inDist) : null);
    const { socket } = request;
    const before = socket.bytesRead + socket.bytesWritten;
    response.on('finish', () => {
      if (own === undefined) return;
      // The head of the request was read before this was called; its size is added.
      const head = request.rawHeaders.reduce((sum, text) => sum + text.length + 2, 0);
      const line = `${request.method} ${request.url} HTTP/1.1\r\n\r\n`.length;
      const bytes = socket.bytesRead + socket.bytesWritten - before + head + line;
      served.push({ path, status: response.statusCode, bytes });
    });
    if (body === null) {
      response.writeHead(404).end();
      return;
    }
    const etag = `"${createHash('sha256').update(body).digest('hex').slice(0, 16)}"`;
    const head = { ETag: etag, 'Cache-Control': 'no-cache' };
    if (request.headers['if-none-match'] === etag) {
      response.writeHead(304, head).end();
      return;
    }
    const packed = gzipSync(body);
    const type = TYPES[extname(path)] ?? 'application/octet-stream';
    response
      .writeHead(200, { ...head, 'Content-Type': type, 'Content-Encoding': 'gzip' })
      .end(packed);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}/`,
    files,
    served,
    close: async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
