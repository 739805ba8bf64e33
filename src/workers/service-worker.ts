/**
 * Keeps the whole app on the device, so that after the first load it needs no network. It answers for
 * the files of one build and for nothing else; a newer build waits until the player takes it.
 */

import { clientsClaim } from 'workbox-core';
import { cleanupOutdatedCaches, type PrecacheEntry, precacheAndRoute } from 'workbox-precaching';

/** The word by which workbox-window asks a worker that waits to take over. */
const TAKE_OVER = 'SKIP_WAITING';

declare const self: ServiceWorkerGlobalScope;
/** The build's files, put in by scripts/offline-plugin.ts. */
declare const BUILD_FILES: PrecacheEntry[];

precacheAndRoute(BUILD_FILES, { ignoreURLParametersMatching: [/.*/], cleanURLs: false });
cleanupOutdatedCaches();
// So that the page of the very first visit is answered from here, too.
clientsClaim();

self.addEventListener('message', ({ data }: ExtendableMessageEvent) => {
  if ((data as { type?: unknown } | null)?.type === TAKE_OVER) void self.skipWaiting();
});
