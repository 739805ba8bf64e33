/**
 * Stores the whole app on the device, so that it needs no network after the first load. It serves the
 * files of one build and nothing else. A newer build waits until the player switches to it.
 */

import { clientsClaim } from 'workbox-core';
import { cleanupOutdatedCaches, type PrecacheEntry, precacheAndRoute } from 'workbox-precaching';

/** With this message, workbox-window asks a waiting worker to take over. */
const TAKE_OVER = 'SKIP_WAITING';

declare const self: ServiceWorkerGlobalScope;
/** The build's files; scripts/offline-plugin.ts inserts them. */
declare const BUILD_FILES: PrecacheEntry[];

precacheAndRoute(BUILD_FILES, { ignoreURLParametersMatching: [/.*/], cleanURLs: false });
cleanupOutdatedCaches();
// Serves the page even on the very first visit.
clientsClaim();

self.addEventListener('message', ({ data }: ExtendableMessageEvent) => {
  if ((data as { type?: unknown } | null)?.type === TAKE_OVER) void self.skipWaiting();
});
