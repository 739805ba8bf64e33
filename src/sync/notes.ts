/** The sentences that the player reads after a successful sync. */

import type { ChartDocument } from '../charts/index.ts';

/** @param lost the number of events that disappeared from the folder */
export function lostWords(lost: number): string {
  const what = lost === 1 ? 'one entry' : `${lost} entries`;
  return `Files that were in the folder are gone, and with them ${what} of the log: the folder was set back or cleared. What is on this device was sent again; nothing was removed here.`;
}

/** Returns the note that another device has a different chart under the same id. */
export function otherChartWords(name: string): string {
  return `“${name}” on another device is another chart under the same name. Each device keeps its own; make a copy under another name to have both everywhere.`;
}

export function changedWords({ name, revisions }: ChartDocument): string {
  const { why, number } = revisions[revisions.length - 1] ?? revisions[0];
  return `“${name}” came from another device: revision ${number}, “${why}”.`;
}
