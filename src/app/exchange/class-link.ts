/** Names the chart file beside the app on a web host, and the lasting link to it. */

import { receiveLink } from '../device/published.ts';
import { linkTo } from '../device/share.ts';

/**
 * The folder on the host. Any name would do; a folder of their own keeps charts apart from the app.
 */
const FOLDER = 'charts';

/**
 * Returns a file name without the revision. The next revision replaces the file, so the link stays
 * valid.
 */
export function classFileOf(chart: string): string {
  return `${chart}.json`;
}

export function classPathOf(chart: string): string {
  return `${FOLDER}/${classFileOf(chart)}`;
}

/** Returns the address where a class receives the chart, on the host of this page. */
export function classLink(chart: string): string {
  return linkTo(receiveLink(classPathOf(chart)));
}

/**
 * Returns whether this is a name by which a device reaches only itself (RFC 6761, 6.3, and RFC
 * 1122, 3.2.1.3).
 */
export function isOwnDevice(hostname: string): boolean {
  return /^(?:(?:.+\.)?localhost\.?|127(?:\.\d{1,3}){3}|\[::1\])$/i.test(hostname);
}
