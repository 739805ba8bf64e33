/** The chart file beside the app on a web host, and the lasting link to it. */

import { receiveLink } from '../device/published.ts';
import { linkTo } from '../device/share.ts';

/** The folder on the host. Any would do; this one keeps charts and app apart. */
const FOLDER = 'charts';

/** Without the revision: the next one replaces the file, and the link stays valid. */
export function classFileOf(chart: string): string {
  return `${chart}.json`;
}

export function classPathOf(chart: string): string {
  return `${FOLDER}/${classFileOf(chart)}`;
}

/** The address at which a class receives the chart, on this page's host. */
export function classLink(chart: string): string {
  return linkTo(receiveLink(classPathOf(chart)));
}

/** Whether a device names itself so (RFC 6761, 6.3, and RFC 1122, 3.2.1.3): no other device gets there. */
export function isOwnDevice(hostname: string): boolean {
  return /^(?:(?:.+\.)?localhost\.?|127(?:\.\d{1,3}){3}|\[::1\])$/i.test(hostname);
}
