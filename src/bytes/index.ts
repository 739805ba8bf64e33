export { fromBase64Url, toBase64Url } from './base64url.ts';
export { type Bytes, joinBytes, toHex } from './bytes.ts';
export { deflate, inflate } from './deflate.ts';
export { readBounded } from './read-bounded.ts';
