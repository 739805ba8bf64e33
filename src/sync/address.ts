/** Checks the address of a folder that a player has typed. */

export type ParsedAddress =
  /** The address ends with a slash, so that file names can be appended. */
  { readonly ok: true; readonly address: string } | { readonly ok: false; readonly say: string };

const LONGEST = 500;
const NO_ADDRESS = 'Type the whole address of the folder, beginning with https://.';
const NOT_ENCRYPTED =
  'The address has to begin with https://, so that user name and password are not sent in the open. Only a server on this device itself may be reached by http://.';
const WITH_USER = 'Type user name and password in their own fields, not in the address.';
const WITH_QUERY = 'The address of a folder has no “?” and no “#” in it.';

export function parseAddress(typed: string): ParsedAddress {
  const text = typed.trim();
  if (text.length > LONGEST || !URL.canParse(text)) return { ok: false, say: NO_ADDRESS };
  const url = new URL(text);
  const plain = url.protocol === 'http:' && isLoopback(url.hostname);
  if (url.protocol !== 'https:' && !plain) return { ok: false, say: NOT_ENCRYPTED };
  if (url.username !== '' || url.password !== '') return { ok: false, say: WITH_USER };
  if (url.search !== '' || url.hash !== '') return { ok: false, say: WITH_QUERY };
  return { ok: true, address: url.href.endsWith('/') ? url.href : `${url.href}/` };
}

/**
 * Returns whether the host is this device itself (Secure Contexts, W3C, §3.1). `URL` has already
 * normalized IPv4 addresses to four decimal parts.
 */
function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '[::1]' || /^127\.\d+\.\d+\.\d+$/.test(host);
}
