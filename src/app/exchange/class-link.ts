/** The chart file as it lies beside the app on a web host, and the link to it that stays. */

import { receiveLink } from '../device/published.ts';
import { linkTo } from '../device/share.ts';

/** The folder on the host; any would do, and this one keeps charts and app apart. */
const FOLDER = 'charts';

/** Without the revision: the next one takes the file's place, and the link goes on. */
export function classFileOf(chart: string): string {
  return `${chart}.json`;
}

export function classPathOf(chart: string): string {
  return `${FOLDER}/${classFileOf(chart)}`;
}

/** The address at which a class receives the chart, on the host that this page is from. */
export function classLink(chart: string): string {
  return linkTo(receiveLink(classPathOf(chart)));
}

/** Names of a device for itself (RFC 6761, 6.3, and RFC 1122, 3.2.1.3): no other gets there. */
export function isOwnDevice(hostname: string): boolean {
  return /^(?:(?:.+\.)?localhost\.?|127(?:\.\d{1,3}){3}|\[::1\])$/i.test(hostname);
}
