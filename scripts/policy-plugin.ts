/** Puts the Content Security Policy (W3C CSP Level 3) into the built page. */

import type { Plugin } from 'vite';

/**
 * Nothing from other origins, no inline code or styles, and no requests to other origins. Browsers
 * ignore frame-ancestors in a page; it belongs in the host's header.
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

/** Only for builds: hot reloading needs what the policy forbids. */
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
