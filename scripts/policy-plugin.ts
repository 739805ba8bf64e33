/** The page's Content Security Policy (W3C CSP Level 3), put into the built page. */

import type { Plugin } from 'vite';

/**
 * Nothing from elsewhere, nothing written into the page, and the page itself asks no other origin for
 * anything. frame-ancestors is not heard in a page and belongs into the host's header.
 */
export const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types default',
].join('; ');

/** The sources are served without it: reloading them needs what it forbids. */
export function policy(): Plugin {
  return {
    name: 'throughline-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
        injectTo: 'head-prepend',
      },
    ],
  };
}
