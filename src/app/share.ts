/** Handing a link on: an adapter around what the browser can do. */

/**
 * `shared`: the device's own way of sharing took it. `copied`: it is on the clipboard. `left`: the
 * player thought better of it. `by hand`: neither is to be had, and the link has to be shown.
 */
export type Shared = 'shared' | 'copied' | 'left' | 'by hand';

export async function shareLink(title: string, url: string): Promise<Shared> {
  // Not in every browser, nor on every address, whatever the types say.
  const { share, clipboard } = navigator as Partial<Navigator>;
  if (share) {
    try {
      await share.call(navigator, { title, url });
      return 'shared';
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return 'left';
    }
  }
  try {
    if (!clipboard) return 'by hand';
    await clipboard.writeText(url);
    return 'copied';
  } catch {
    return 'by hand';
  }
}

/** The address of a screen of this app, wherever it is served. */
export function linkTo(fragment: string): string {
  return `${location.origin}${location.pathname}${fragment}`;
}
